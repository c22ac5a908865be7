"""A disk that is full: a small one in memory on which only so many pages are left.

Runs inside a mount namespace of its own (`unshare -rm`), and gives back what it counted as one line of JSON.
"""
import json
import pathlib
import subprocess
import sys

from bench import Bench

PAGE = 4096
SIZE = 2 << 20
MOST = 200  # pages; a command of the list that needs more room is a mistake here


class Counter:
    def __init__(self):
        self.checks = 0
        self.failures = []

    def check(self, holds, what):
        self.checks += 1
        if not holds:
            self.failures.append(what)
        return holds


def fill(disk, pages):
    """Leaves so many pages."""
    with open(disk / "filler", "wb", buffering=0) as file:
        try:
            while file.write(bytes(PAGE)) == PAGE:
                pass
        except OSError:
            pass
        file.truncate(max(0, file.tell() // PAGE - pages) * PAGE)


def main():
    binary, top = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    counter = Counter()
    bench = Bench(binary, top, counter)
    disk = top / "disk"
    runs = 0
    for writing in bench.writings:
        for pages in range(MOST):
            subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={SIZE}", "none", disk], check=True)
            folder = bench.stage.set(writing, disk / "work")
            fill(disk, pages)
            done = bench.run(writing, folder)
            runs += 1
            (disk / "filler").unlink()
            bench.look(writing, folder, done, f"{pages} pages left", may_leave=set())
            subprocess.run(["umount", disk], check=True)
            if done.returncode == 0:
                break
        counter.check(done.returncode == 0 and pages > 0, f"{writing.title}: {pages} pages, exit {done.returncode}")
    print(json.dumps({"runs": runs, "checks": counter.checks, "failures": counter.failures}))


main()
