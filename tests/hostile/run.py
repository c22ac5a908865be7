#!/usr/bin/python3
"""Forty hostile names through every command that asks and every format, read back by parsers of another make.

usage: run.py WHICHEVER_BINARY
"""
import sys

sys.dont_write_bytecode = True

import json
import pathlib
import shutil
import subprocess
import tempfile

import fleet
from names import NAMES, shown
from readers import READERS

# The commands that ask, with their words: a new command that is in neither of the two is complained of.
ASKS = {"due": [["--all", "--within", "12m"], ["--overdue"]], "why": [["m24", "task-34"]], "find-out": [[]], "history": [["m24"], ["m3"]],
        "forecast": [[], ["--replay"]], "season": [["harvest"]], "workload": [[]], "parts": [[], ["--before", "harvest"]],
        "check": [[]], "export": [[]], "sheet": [[], ["--readings"]], "report": [[]], "mail": [[]], "visits": [[], ["m24", "--first", "2"]],
        "rounds": [["--from", "2026-06-15"]], "review": [[]]}
NOT_ABOUT_THE_FLEET = {"help", "completion", "new", "backup", "merge", "import"}
WRITES = {"reading": ["m24", "999"], "done": ["m24", "task-34"], "saw": ["m24", "<b>", "noise", "--note", NAMES[15]], "looked": ["m24", "odd 24", "--note", NAMES[14]],
          "put-off": ["m24", "task-34", "--until", "2026-09-01", "--note", NAMES[16]], "lay-up": ["m25", "--note", NAMES[35]],
          "out-of-use": ["m25", "--note", NAMES[9]], "back": ["m24", "--note", NAMES[0]], "count": ["part-3", "2"], "undo": None,
          "meter-change": ["m24", "--last", "372", "--first", "0"], "strike": None}
LINES = {("export", "json"): "jsonl"}  # a fact a line
# Which formats show every machine's name; the others show some of the names, and break at none.
SHOWS_ALL = {("sheet", "html"), ("report", "html")}


class Tried:
    def __init__(self, binary, folder):
        self.binary, self.folder, self.failures, self.outputs, self.held = binary, folder, [], 0, 0

    def run(self, *words):
        return subprocess.run([self.binary, *words], cwd=self.folder, capture_output=True, timeout=300, stdin=subprocess.DEVNULL,
                              env={"PATH": "/usr/bin:/bin", "HOME": str(self.folder), "WHICHEVER_USER": NAMES[24].split("\r")[0]})

    def insist(self, *words):
        done = self.run(*words)
        if done.returncode != 0:
            sys.exit(f"{' '.join(words)}: {done.returncode} {done.stderr.decode()}")
        return done.stdout

    def commands(self):
        return {each["command"]: each["formats"] for each in json.loads(self.insist("help", "--format", "json"))["commands"]}

    def look_at(self, command, words, form):
        """One answer in one format, as its reader takes it."""
        asked = [command, *words, "--as-of", fleet.DAY, *(["--format", form] if form != "mail" else [])]
        done = self.run(*asked)
        what = f"{' '.join(asked)}"
        self.outputs += 1
        if done.returncode not in (0, 1) and not (command == "check" and done.returncode == 65):
            self.failures.append(f"{what}: status {done.returncode}: {done.stderr.decode()[:300]}")
            return
        try:
            wrong, texts = READERS[LINES.get((command, form), form)](done.stdout, self.folder)
        except Exception as error:  # whatever a parser throws is what it has against the output
            self.failures.append(f"{what}: cannot be read: {type(error).__name__} {error}")
            return
        self.failures += [f"{what}: {each}" for each in dict.fromkeys(wrong)]
        if not texts and command != "check":
            self.failures.append(f"{what}: holds nothing")
        all_of_it = " ".join(" ".join(shown(text) for text in texts).split())
        found = [name for name in NAMES if " ".join(shown(name).split()) in all_of_it]
        self.held += len(found)
        if (command, form) in SHOWS_ALL and len(found) < len(NAMES):
            self.failures.append(f"{what}: without {[name for name in NAMES if name not in found]}")


def answers_are_harmless(tried):
    for command, formats in tried.commands().items():
        if command in NOT_ABOUT_THE_FLEET:
            continue
        if command not in ASKS and command not in WRITES:
            tried.failures.append(f"`{command}` is neither in ASKS nor in WRITES, so it is not tried")
        elif command in ASKS:
            for words in ASKS[command]:
                for form in formats or ["mail"]:
                    tried.look_at(command, words, form)
        elif WRITES[command] is not None:
            for form in formats:
                tried.look_at(command, [*WRITES[command], "--dry-run"], form)


def the_book_comes_back(tried):
    book = tried.insist("export", "--format", "csv")
    (tried.folder / "book.csv").write_bytes(book)
    (tried.folder / "record.db").unlink()
    tried.insist("new", ".")
    tried.insist("import", "book.csv", "--as-of", fleet.DAY)
    if tried.insist("export", "--format", "csv") != book:
        tried.failures.append("what was exported and imported is another book")


def main():
    top = pathlib.Path(tempfile.mkdtemp(prefix="hostile-"))
    try:
        folder = top / "fleet"
        fleet.write(folder)
        tried = Tried(str(pathlib.Path(sys.argv[1]).resolve()), folder)
        tried.insist("new", ".")
        tried.insist("import", "facts.jsonl", "--as-of", fleet.DAY)
        answers_are_harmless(tried)
        the_book_comes_back(tried)
    finally:
        shutil.rmtree(top)
    for failure in tried.failures:
        print(f"hostile: FAILED: {failure}")
    print(f"hostile: {tried.outputs} outputs read back, {tried.held} names found in them" if not tried.failures
          else f"hostile: {len(tried.failures)} failures")
    sys.exit(1 if tried.failures else 0)


main()
