"""What the fault tests share: running the command, a place to work in, reading a book without it, and the summary."""
import atexit
import os
import pathlib
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import time

DAY = "2026-06-15"  # every question is asked as of this day, so that no test depends on the clock
ENVIRONMENT = {"PATH": "/usr/bin:/bin", "WHICHEVER_USER": "tester", "HOME": "/", "LC_ALL": "C"}


def scratch(name, on_disk=False):
    """A folder that goes when the test ends. In memory where there is such a place: thousands of states are written."""
    memory = pathlib.Path("/dev/shm")
    usable = not on_disk and memory.is_dir() and os.access(memory, os.W_OK)
    roomy = usable and shutil.disk_usage(memory).free > 256 << 20
    folder = pathlib.Path(tempfile.mkdtemp(prefix=f"faults-{name}-", dir=memory if roomy else None))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


def words(command, rest=""):
    """The arguments of a command as of our day; `new` and `help` are about no day."""
    dated = [] if command in ("new", "help") else ["--as-of", DAY]
    return [command, *(rest.split() if isinstance(rest, str) else rest), *dated]


def run(binary, arguments, folder, fleet="fleet", before=(), **more):
    """Runs the command in `folder`; `before` is put before it, as strace is."""
    environment = {**ENVIRONMENT, "WHICHEVER_FLEET": fleet} if fleet else ENVIRONMENT
    more = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "timeout": 120, **more}
    return subprocess.run([*before, str(binary), *arguments], cwd=folder, env=environment, **more)


def need_strace():
    """Where processes may not be traced these tests cannot be run; ctest then calls them skipped, not passed."""
    tried = subprocess.run(["strace", "-o", "/dev/null", "true"], capture_output=True, text=True)
    if tried.returncode != 0:
        print(f"skipped: strace does not work here: {tried.stderr.strip()}")
        sys.exit(77)


def insist(done, what):
    """For what a test stands on: where it fails, nothing was tested."""
    if done.returncode != 0:
        sys.exit(f"{what} failed with {done.returncode}: {(done.stderr or b'').decode(errors='replace')}")
    return done


def listed_commands(binary):
    """The commands that this binary has, from its own help."""
    told = insist(run(binary, ["help"], "/", fleet=None), "whichever help").stdout.decode().split("\n")
    start = told.index("COMMANDS") + 1
    return [line.split()[0] for line in told[start:told.index("", start)]]


def exported(binary, folder, fleet="fleet"):
    return run(binary, words("export", "--format jsonl"), folder, fleet)


class Damaged(Exception):
    pass


# What differs between two runs of a command. The command's own `export` looks at the checksums, its `check` at the states.
DRAWN = {"id", "entered", "checksum", "checksums", "seal", "state"}


def rows_of(record, without=()):
    """All rows of all tables, read by the database engine alone. It rolls a cut-off write back, as it should.
    Columns `without` are left out: two runs of a command draw different ids."""
    try:
        database = sqlite3.connect(f"file:{record}?mode=rw", uri=True, isolation_level=None)
        try:
            def ask(question):
                return database.execute(question).fetchall()

            told, broken = ask("PRAGMA integrity_check"), ask("PRAGMA foreign_key_check")
            if told != [("ok",)] or broken:
                raise Damaged(f"{told[:3]} {broken[:3]}")
            found = [ask("PRAGMA application_id"), ask("PRAGMA user_version")]
            for name, kind, sql in ask("SELECT name, type, sql FROM sqlite_schema ORDER BY name"):
                found.append((name, sql))
                if kind == "table":
                    columns = [f'"{row[1]}"' for row in ask(f'PRAGMA table_info("{name}")') if row[1] not in without]
                    found.append(ask(f"SELECT {', '.join(columns)} FROM \"{name}\""))  # in the order of its key
            return found
        finally:
            database.close()
    except (sqlite3.Error, UnicodeDecodeError) as error:  # of a torn schema the engine quotes bytes that are no text
        raise Damaged(str(error)) from error


def tree_of(folder):
    """What lies in a folder: its files with their bytes, and its folders."""
    files, folders = {}, {""}
    for path in pathlib.Path(folder).rglob("*"):
        name = str(path.relative_to(folder))
        if path.is_dir():
            folders.add(name)
        else:
            files[name] = path.read_bytes()
    return files, folders


class Summary:
    """Counts what was looked at, tells what failed, and ends with one line."""

    def __init__(self, file):
        self.name = pathlib.Path(file).name
        self.begun = time.monotonic()
        self.checks = 0
        self.failures = []

    def check(self, holds, what):
        self.checks += 1
        if not holds:
            self.failures.append(what)
            if len(self.failures) <= 30:
                print(f"FAILED {' | '.join(str(what).split(chr(10)))}", flush=True)
        return holds

    def end(self):
        seconds = time.monotonic() - self.begun
        if len(self.failures) > 30:
            print(f"... and {len(self.failures) - 30} more failures")
        print(f"{self.name}: {self.checks} checks, {len(self.failures)} failed, {seconds:.0f} s")
        sys.exit(1 if self.failures or not self.checks else 0)
