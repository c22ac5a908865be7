#!/usr/bin/env python3
"""Runs the examples of the library and compares what they print with NAME.expected beside their source, to the byte.

usage: run.py SAMPLE_FLEET PROGRAM...      (REFRESH=1 writes what was printed as the new expectation; read every difference)
"""
import os
import pathlib
import subprocess
import sys

here = pathlib.Path(__file__).resolve().parent
sample, programs = sys.argv[1], sys.argv[2:]
failed = 0
for program in map(pathlib.Path, programs):
    needs_sample = "FLEET_FOLDER" in (here / f"{program.name}.cpp").read_text()
    done = subprocess.run([program] + [sample] * needs_sample, text=True, capture_output=True, timeout=120)
    got = done.stdout + done.stderr + (f"status {done.returncode}\n" if done.returncode else "")
    expected = here / f"{program.name}.expected"
    if os.environ.get("REFRESH") == "1":
        expected.write_text(got)
    stands = expected.read_text() if expected.exists() else ""
    if not got or got != stands:
        failed += 1
        print(f"FAILED {program.name}\n--- expected\n{stands}--- printed\n{got}---")
sources = {source.stem for source in here.glob("*.cpp")}
if missing := sources - {pathlib.Path(program).name for program in programs}:
    failed += len(missing)
    print(f"FAILED: not run: {', '.join(sorted(missing))}")
print(f"cases: {len(programs) - failed} passed, {failed} failed")
sys.exit(1 if failed else 0)
