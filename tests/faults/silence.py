#!/usr/bin/env python3
"""Silence of the overdue list means that all is well and all is known. Everything else must say so.

usage: silence.py COMMAND        Makes a fleet that is well, checks that it is silent, then spoils it in one way at a
time: each must print a reason, and none may exit 0 in silence.
"""
import datetime
import os
import pathlib
import shutil
import sqlite3
import subprocess
import sys
import tempfile

command = str(pathlib.Path(sys.argv[1]).resolve())
top = pathlib.Path(tempfile.mkdtemp(prefix="silence-"))
today = datetime.datetime.now(datetime.timezone.utc).date()

FLEET = """fleet: Little farm
machines:
  pump: {schedule: pump, in-service: {on: START, at: 0}}
  mill: {schedule: pump, in-service: {on: START, at: 0}}
mail: {to: [office@farm.example]}
"""
SCHEDULE = """schedule: pump
meters: {engine: {unit: h}}
tasks:
  gland: {do: Repack the gland, every: {hours: 500, months: 60}}
  guard: {do: Look at the guard, every: {months: 60, measured: {gap: {above: 6, unit: mm}}, signs: [loose]}, safety: true}
"""


def run(folder, *arguments, **options):
    return subprocess.run([command, "--fleet", str(folder), *arguments], capture_output=True,
                          env={"PATH": "/usr/bin:/bin", "WHICHEVER_USER": "tester"}, timeout=120, **options)


def must(folder, *arguments):
    done = run(folder, *arguments)
    if done.returncode != 0:
        sys.exit(f"could not prepare: {arguments}\n{done.stderr.decode()}")


def make():
    folder = top / "well"
    (folder / "schedules").mkdir(parents=True)
    (folder / "fleet.yaml").write_text(FLEET.replace("START", str(today - datetime.timedelta(days=30))))
    (folder / "schedules" / "pump.yaml").write_text(SCHEDULE)
    must(folder, "new", str(folder))
    for machine in ("pump", "mill"):
        must(folder, "reading", machine, "20")
    return folder


def change(folder, old, new):
    text = (folder / "fleet.yaml").read_text()
    assert old in text
    (folder / "fleet.yaml").write_text(text.replace(old, new))


def read_all_facts(folder):
    """Takes away what is kept of machines, by which a list need not read their facts."""
    with sqlite3.connect(folder / "record.db") as database:
        database.execute("DELETE FROM derived")


def bend(folder):
    read_all_facts(folder)
    bend_row(folder)


def bend_row(folder):
    with sqlite3.connect(folder / "record.db") as database:
        database.execute("UPDATE command SET entered_by = 'uester' WHERE key = (SELECT max(key) FROM command)")


def foreign(folder):
    (folder / "record.db").unlink()
    with sqlite3.connect(folder / "record.db") as database:
        database.execute("CREATE TABLE customers (name TEXT)")


def lose_a_fact(folder):
    read_all_facts(folder)
    lose_row(folder)


def lose_row(folder):
    with sqlite3.connect(folder / "record.db") as database:
        database.execute("DELETE FROM fact WHERE command = (SELECT max(command) FROM fact)")


def stale(folder):
    long_ago = today - datetime.timedelta(days=100)
    change(folder, str(today - datetime.timedelta(days=30)), str(today - datetime.timedelta(days=200)))
    must(folder, "undo")
    must(folder, "undo")
    for machine in ("pump", "mill"):
        must(folder, "reading", machine, "20", "--on", str(long_ago))


def doubt(folder):
    copy = folder / "copy.db"
    must(folder, "undo")
    shutil.copy(folder / "record.db", copy)
    must(folder, "reading", "mill", "90", "--on", str(today - datetime.timedelta(days=9)))
    van = folder / "van.db"
    shutil.copy(folder / "record.db", van)
    shutil.copy(copy, folder / "record.db")
    must(folder, "reading", "mill", "30")
    must(folder, "merge", str(van))


def later(folder):
    must(folder, "reading", "mill", "25", "--on", "2090-01-01", "--as-of", "2090-01-01")


CASES = {
    "no such folder": lambda f: shutil.rmtree(f),
    "no fleet.yaml": lambda f: (f / "fleet.yaml").unlink(),
    "an empty fleet.yaml": lambda f: (f / "fleet.yaml").write_text(""),
    "fleet.yaml cut off": lambda f: (f / "fleet.yaml").write_text((f / "fleet.yaml").read_text()[:60]),
    "a fleet without machines": lambda f: (f / "fleet.yaml").write_text("fleet: Little farm\n"),
    "a schedule missing": lambda f: (f / "schedules" / "pump.yaml").unlink(),
    "no record": lambda f: (f / "record.db").unlink(),
    "an empty record file": lambda f: (f / "record.db").write_bytes(b""),
    "a text in place of the record": lambda f: (f / "record.db").write_text("hours\n"),
    "another program's database": foreign,
    "a record cut off": lambda f: (f / "record.db").write_bytes((f / "record.db").read_bytes()[:9000]),
    "a bent row": bend,
    "a fact deleted by another tool": lose_a_fact,
    "a machine that is not known": None,
    "no reading ever": lambda f: [must(f, "undo"), must(f, "undo"),
                                  change(f, str(today - datetime.timedelta(days=30)),
                                         str(today - datetime.timedelta(days=90)))],
    "stale readings": stale,
    "nothing recorded of a machine": lambda f: change(f, "machines:\n", "machines:\n  old: {schedule: pump}\n"),
    "a machine that runs while it is laid up": lambda f: [
        must(f, "undo"), must(f, "lay-up", "mill", "--on", str(today - datetime.timedelta(days=5))),
        must(f, "reading", "mill", "20")],
    "facts about a machine no longer listed": lambda f: change(f, "  mill:", "  mull:"),
    "a clock before the newest fact": later,
    "readings that contradict each other": doubt,
    "a machine that left before its facts": lambda f: change(
        f, "mill: {schedule: pump, in-service: {on: " + str(today - datetime.timedelta(days=30)) + ", at: 0}}",
        "mill: {schedule: pump, in-service: {on: " + str(today - datetime.timedelta(days=30)) + ", at: 0}, left: "
        + str(today - datetime.timedelta(days=9)) + "}"),
    "a machine put in service after its facts": lambda f: change(
        f, "mill: {schedule: pump, in-service: {on: " + str(today - datetime.timedelta(days=30)),
        "mill: {schedule: pump, in-service: {on: " + str(today + datetime.timedelta(days=9))),
    "out of use, back and out of use on one day": lambda f: [must(f, *typed, "pump")
                                                             for typed in (("out-of-use",), ("back",), ("out-of-use",))],
    "measured at the limit of what never waits": lambda f: must(f, "saw", "pump", "gap=6"),
    "a sign of what never waits seen today": lambda f: must(f, "saw", "pump", "loose"),
    "all machines gone": lambda f: [change(f, "at: 0}}", "at: 0}, left: " + str(today) + "}")],
}


# What the reason must say.
REASONS = {
    "no such folder": "there is no folder",
    "no fleet.yaml": "no fleet.yaml",
    "an empty fleet.yaml": "holds nothing",
    "fleet.yaml cut off": "not followed",
    "a fleet without machines": "lists no machines",
    "a schedule missing": "no schedule `pump`",
    "no record": "there is no record",
    "an empty record file": "empty file",
    "a text in place of the record": "is not a record",
    "another program's database": "another program",
    "a record cut off": "damaged",
    "a bent row": "damaged",
    "a fact deleted by another tool": "were stored",
    "a machine that is not known": "no machine `pomp`",
    "no reading ever": "no reading",
    "stale readings": "no reading for 100 days",
    "nothing recorded of a machine": "nothing is recorded",
    "a machine that runs while it is laid up": "and is laid up since",
    "facts about a machine no longer listed": "does not list",
    "a clock before the newest fact": "the clock is wrong",
    "readings that contradict each other": "contradicts",
    "a machine that left before its facts": "after it left",
    "a machine put in service after its facts": "before it went into service",
    "out of use, back and out of use on one day": "Out of use: do not run",
    "measured at the limit of what never waits": "Not to be run before what is due is mended",
    "a sign of what never waits seen today": "Not to be run before what is due is mended",
    "all machines gone": "no machine is there",
}


def main():
    well = make()
    failures = 0
    silent = run(well, "due", "--overdue")
    if silent.returncode != 0 or silent.stdout or silent.stderr:
        print(f"FAILED: a fleet that is well is not silent:\n{silent.stdout.decode()}{silent.stderr.decode()}")
        failures += 1
    tried = 0
    for name, spoil in CASES.items():
        folder = top / name.replace(" ", "-")
        shutil.copytree(well, folder)
        if spoil:
            spoil(folder)
        more = () if spoil else ("--machine", "pomp")
        done = run(folder, "due", "--overdue", *more)
        said = (done.stdout + done.stderr).decode()
        tried += 1
        if REASONS[name] not in said:
            print(f"FAILED: {name}: exit status {done.returncode}, and no reason: {said!r}")
            failures += 1
        elif done.stderr and not done.stdout and done.returncode < 64:
            print(f"FAILED: {name}: complains with exit status {done.returncode}")
            failures += 1
        else:
            line = next(line for line in said.splitlines() if REASONS[name] in line)
            print(f"{name}: {done.returncode}: {line.replace(str(top), '').strip()}")
    # Facts that a list need not read, for what was worked out of them is kept: it is as it was, overdue or well, and
    # `check` and `mail` tell of the damage.
    overdue = top / "kept-overdue"
    shutil.copytree(well, overdue)
    must(overdue, "saw", "pump", "gap=6")
    for whose in (well, overdue):
        before = run(whose, "due", "--overdue")
        for spoil in (bend_row, lose_row):
            folder = top / f"{whose.name}-{spoil.__name__}"
            shutil.copytree(whose, folder)
            spoil(folder)
            after, told, mailed = run(folder, "due", "--overdue"), run(folder, "check"), run(folder, "mail")
            tried += 1
            if (after.returncode, after.stdout, after.stderr) != (before.returncode, before.stdout, before.stderr):
                print(f"FAILED: {folder.name}: another answer: {after.stdout + after.stderr!r}")
                failures += 1
            elif told.returncode != 65:
                print(f"FAILED: {folder.name}: check does not tell: {told.stdout!r}")
                failures += 1
            elif b"damaged" not in mailed.stdout and b"were stored" not in mailed.stdout:
                print(f"FAILED: {folder.name}: mail does not tell: {mailed.stdout + mailed.stderr!r}")
                failures += 1
    if not run(overdue, "due", "--overdue").stdout:
        print("FAILED: nothing was overdue")
        failures += 1
    # A holder of the lock that does not let go.
    folder = top / "locked"
    shutil.copytree(well, folder)
    holder = sqlite3.connect(folder / "record.db", isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    done = run(folder, "due", "--overdue")
    holder.execute("ROLLBACK")
    tried += 1
    print(f"a locked record: {done.returncode}: {done.stderr.decode().splitlines()[:1]}")
    if done.returncode != 75 or not done.stderr:
        print("FAILED: a locked record")
        failures += 1
    # Output that does not arrive.
    folder = top / "overdue"
    shutil.copytree(well, folder)
    change(folder, "machines:\n", "machines:\n  old: {schedule: pump}\n")
    with open("/dev/full", "wb") as full:
        done = subprocess.run([command, "--fleet", str(folder), "due", "--overdue"], stdout=full,
                              stderr=subprocess.PIPE, timeout=60)
    tried += 1
    print(f"a full disk: {done.returncode}: {done.stderr.decode().splitlines()[:1]}")
    if done.returncode != 74 or not done.stderr:
        print("FAILED: a full disk")
        failures += 1
    shutil.rmtree(top)
    print(f"silence: {tried} causes of a false all-clear tried, {failures} silent")
    sys.exit(1 if failures else 0)


main()
