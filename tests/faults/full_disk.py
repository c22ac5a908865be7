#!/usr/bin/env python3
"""Lets every command fail in every way that a disk can fail in, and looks at the book and at what was said of it.

usage: full_disk.py COMMAND [--every N]     of the writes of pages, only every Nth fails

- a small disk on which only so many pages are left (small_disk.py), and a limit on the size of files (limits.py);
- an answer that cannot be given (outputs.py);
- each system call failing, and the command killed at each (calls.py);
- who may read the files (modes.py).

Exit status 0 means that it is stored. Any other means that the book is the old one, or the new one where the command
says so. It is never in between, and the next command just works.
"""
import argparse
import json
import pathlib
import subprocess
import sys
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "helpers"))
import calls
import limits
import modes
import outputs
from bench import Bench
from support import need_strace, scratch, Summary

here = pathlib.Path(__file__).resolve().parent


def small_disk(bench, top):
    """In a mount namespace of its own, where that is permitted."""
    (top / "disk").mkdir()
    mount = ["unshare", "-rm", "mount", "-t", "tmpfs", "none", top / "disk"]
    may = subprocess.run(mount, capture_output=True, text=True)
    if may.returncode != 0:
        print(f"skipped: the small disk, for it may not be mounted here: {may.stderr.strip()}")
        return 0
    done = subprocess.run(["unshare", "-rm", sys.executable, here / "helpers" / "small_disk.py", bench.binary, top],
                          capture_output=True, text=True)
    if not bench.summary.check(done.returncode == 0, f"the small disk: {done.stdout[-500:]}{done.stderr[-2000:]}"):
        return 0
    told = json.loads(done.stdout.splitlines()[-1])
    bench.summary.checks += told["checks"] - len(told["failures"])
    for failure in told["failures"]:
        bench.summary.check(False, failure)
    return told["runs"]


def main():
    parser = argparse.ArgumentParser(description="lets every command fail in every way that a disk can fail in")
    parser.add_argument("command", type=lambda path: pathlib.Path(path).resolve())
    parser.add_argument("--every", type=int, default=1, help="of the writes of pages, only every Nth fails")
    options = parser.parse_args()
    need_strace()
    binary = options.command
    top = scratch("disk")
    summary = Summary(__file__)
    bench = Bench(binary, top, summary)
    for command in bench.stage.skipped():
        print(f"skipped: this binary has no command `{command}`")
    (top / "small").mkdir()
    parts = {
        "small disk": lambda: small_disk(bench, top / "small"),
        "size of files": lambda: limits.sweep(bench),
        "answers not given": lambda: outputs.all_of_it(bench),
        "calls that fail": lambda: calls.sweep(bench, options.every),
        "who may read": lambda: modes.sweep(bench),
    }
    for name, part in parts.items():
        begun, checks, failed = time.monotonic(), summary.checks, len(summary.failures)
        runs = part()
        seconds = time.monotonic() - begun
        checks, failed = summary.checks - checks, len(summary.failures) - failed
        print(f"{name:<18} {runs:>5} runs {checks:>6} checks {failed:>4} failed {seconds:>4.0f} s", flush=True)
    summary.check(bench.journals > 0, "no journal was ever seen, so nothing is known of who may read it")
    summary.end()


main()
