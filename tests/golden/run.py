#!/usr/bin/env python3
"""Runs the command as a person would and compares what it prints, to the byte.

usage: run.py COMMAND [NAME...]      (REFRESH=1 writes what was printed as the new expectation; read every difference)

A case is cases/AREA/NAME.sh with NAME.stdout, NAME.stderr and NAME.exit beside it. A missing file means: nothing is
printed, exit status 0. Each case runs in a folder of its own that holds `fleet`, a copy of the sample fleet with its
record, in a bare environment with a fixed user. Ids are drawn at random, so they are shown as ......-N.

The README's tour is one more case: each line that begins with `$ ` in a block marked `console` is run, and what
stands below it must be what it prints.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

here = pathlib.Path(__file__).resolve().parent
root = here.parent.parent
refresh = os.environ.get("REFRESH") == "1"
# Base 32 without i, l, o and u, so no name in the sample looks like one.
SHORT_ID = re.compile(r"\b[0-9a-hjkmnp-tv-z]{6}-(\d+)\b(?=[\]\s:;,.)]|$)", re.M)
LONG_ID = re.compile(r"\b[0-9a-hjkmnp-tv-z]{26}\b")


def masked(text, folder):
    text = text.replace(str(folder), "FOLDER")
    text = LONG_ID.sub("." * 26, text)
    return SHORT_ID.sub(r"......-\1", text)


class Bench:
    def __init__(self, command):
        self.command = pathlib.Path(command).resolve()
        self.top = pathlib.Path(tempfile.mkdtemp(prefix="golden-"))
        self.bin = self.top / "bin"
        self.bin.mkdir()
        (self.bin / "whichever").symlink_to(self.command)
        self.sample = self.top / "sample"
        shutil.copytree(root / "sample-fleet", self.sample, ignore=shutil.ignore_patterns("record.db*", "try"))
        for line in (f"whichever new {self.sample}",
                     f"whichever --fleet {self.sample} import {self.sample}/facts.csv --as-of 2026-06-15"):
            done = self.run(line, self.top)
            if done.returncode != 0:
                sys.exit(f"the sample's record could not be made: {line}\n{done.stderr.decode()}")

    def folder(self, name):
        folder = self.top / "work" / name
        folder.mkdir(parents=True)
        shutil.copytree(self.sample, folder / "fleet")
        return folder

    def run(self, script, folder, extra=None):
        environment = {"PATH": f"{self.bin}:/usr/bin:/bin", "WHICHEVER_USER": "tester", "HOME": str(folder),
                       "WHICHEVER_FLEET": str(folder / "fleet"), **(extra or {})}
        if not extra and not (folder / "fleet").exists():
            del environment["WHICHEVER_FLEET"]
        return subprocess.run(["bash", "-euc", script], cwd=folder, env=environment, capture_output=True, timeout=120)


def expected(path):
    return path.read_bytes().decode() if path.exists() else ""  # as bytes: CSV ends its lines with CR LF


def case(bench, script):
    name = f"{script.parent.name}/{script.stem}"
    folder = bench.folder(name)
    done = bench.run(script.read_text(), folder)
    got = {".stdout": masked(done.stdout.decode(), folder), ".stderr": masked(done.stderr.decode(), folder),
           ".exit": f"{done.returncode}\n" if done.returncode else ""}
    ok = True
    for suffix, text in got.items():
        path = script.with_suffix(suffix)
        if text == expected(path):
            continue
        if refresh:
            path.write_bytes(text.encode()) if text else path.unlink(missing_ok=True)
            continue
        ok = False
        print(f"FAILED {name}{suffix}\n--- expected\n{expected(path)}--- printed\n{text}---")
    return ok


def readme(bench):
    """The tour of the README, in one folder, command after command."""
    folder = bench.folder("readme")
    shutil.rmtree(folder / "fleet")
    shutil.copytree(bench.sample, folder / "sample-fleet")
    text = (root / "README.md").read_text()
    ok, steps, out, inside, position = True, 0, [], False, 0
    lines = text.split("\n")
    while position < len(lines):
        line = lines[position]
        out.append(line)
        position += 1
        if line.startswith("```"):
            inside = line == "```console" and not inside
            continue
        if not inside or not line.startswith("$ "):
            continue
        stands = []
        while not lines[position].startswith(("$ ", "```")):
            stands.append(lines[position])
            position += 1
        done = bench.run(line[2:], folder, {"WHICHEVER_FLEET": "sample-fleet"})
        printed = masked((done.stdout + done.stderr).decode(), folder).rstrip("\n").split("\n")
        printed = [] if printed == [""] else [line.rstrip() for line in printed]
        steps += 1
        if printed != [line for line in stands] and not refresh:
            ok = False
            print(f"FAILED README: {line}\n--- stands there\n" + "\n".join(stands) + "\n--- printed\n" + "\n".join(printed))
        out.extend(printed if refresh else stands)
    if refresh:
        (root / "README.md").write_text("\n".join(out))
    if steps == 0:
        print("FAILED README: it has no tour")
        return False
    return ok


def main():
    bench = Bench(sys.argv[1])
    wanted = sys.argv[2:]
    scripts = sorted(here.glob("cases/*/*.sh"))
    results = [case(bench, s) for s in scripts if not wanted or f"{s.parent.name}/{s.stem}" in wanted]
    if not wanted or "readme" in wanted:
        results.append(readme(bench))
    shutil.rmtree(bench.top)
    print(f"cases: {sum(results)} passed, {len(results) - sum(results)} failed")
    sys.exit(0 if results and all(results) else 1)


main()
