#!/usr/bin/env python3
"""What is kept of machines and of kinds in the record changes no answer: lists, and answers that look ahead, are asked of a
record with it, of one without what is kept of kinds and of one without either, on the day, later and earlier, after each
sort of entry, after an edit of a fleet file and after damage.

usage: kept_books.py COMMAND

The fleets are the sample and two drawn for measuring (tests/bench/fleets), of five and of fifty machines.
"""
import json
import pathlib
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from datetime import timedelta

sys.dont_write_bytecode = True
root = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(root / "tests/bench"))
from datetime import date

from fleets.sizes import LAST, SIZES
from fleets.writing import write_fleet

command = pathlib.Path(sys.argv[1]).resolve()
QUESTIONS = ("due", "due --all --format csv", "due --format json", "due --format md", "due --overdue", "find-out",
             "due --overdue --format json", "find-out --format json", "mail")
AHEAD = ("forecast --format json", "season harvest --format json", "parts --format json", "workload --format json")
passed = failed = 0


def check(what, good, told=""):
    global passed, failed
    passed, failed = passed + bool(good), failed + (not good)
    if not good:
        print(f"FAILED {what}: {told}")


class Fleet:
    def __init__(self, top, name, files, facts, day):
        self.name, self.day = name, day
        self.folder = pathlib.Path(top) / name / "fleet"
        self.record, self.aside = self.folder / "record.db", self.folder / "record.kept"
        shutil.copytree(files, self.folder, ignore=shutil.ignore_patterns("record.db*", "try"))
        yaml = self.folder / "fleet.yaml"
        if "\nmail:" not in yaml.read_text():
            yaml.write_text(yaml.read_text() + "mail: {to: [office@example.org]}\n")
        self.said("new", self.folder)
        self.said("import", facts)
        self.machines = [row[0] for row in self.rows("SELECT name FROM machine WHERE name <> '' ORDER BY name")]

    def run(self, words, day=None):
        environment = {"PATH": "/usr/bin:/bin", "WHICHEVER_USER": "tester", "COLUMNS": "120", "HOME": str(self.folder),
                       "WHICHEVER_FLEET": str(self.folder)}
        words = [*map(str, words), *([] if words[0] == "new" else ["--as-of", str(day or self.day)])]
        done = subprocess.run([command, *words], env=environment, cwd=self.folder, text=True, capture_output=True, timeout=300)
        return done.returncode, done.stdout, done.stderr

    def said(self, *words):
        status, out, err = self.run(words)
        if status != 0:
            sys.exit(f"{self.name}: {' '.join(map(str, words))}: status {status}\n{out}{err}")
        return out

    def rows(self, query):
        with sqlite3.connect(self.record) as database:
            rows = database.execute(query).fetchall()
        database.close()
        return rows

    def unused(self):
        """Why which books are not used, as `check` has it; and what else it found, by code."""
        told = json.loads(self.run(("check", "--format", "json"))[1])
        unused = {row["machine"]: row["why"] for row in told["odd_books"]}
        unused.update({"kind " + row["schedule"]: row["why"] for row in told["odd_kinds"]})
        return unused, [each["code"] for each in told["findings"]]

    def one_of_its_kind(self):
        return ("due --format json --machine " + self.machines[0], "why " + self.machines[0])

    def same(self, after, questions=QUESTIONS, days=(0,)):
        """Whether answers with what is kept are those without, byte for byte."""
        asked = [(days_later, question) for days_later in days for question in (*questions, *self.one_of_its_kind())]
        ask = lambda: [self.run(question.split(), self.day + timedelta(days_later)) for days_later, question in asked]
        by_all = ask()
        shutil.copy(self.record, self.aside)
        for table in ("derived_together", "derived"):
            with sqlite3.connect(self.record) as database:
                database.execute("DELETE FROM " + table)
            database.close()
            for (days_later, question), got, expected in zip(asked, by_all, ask()):
                check(f"{self.name}, {after}, {days_later} days later, without {table}, {question}", got == expected, (got, expected))
        self.aside.replace(self.record)

    def showing(self, machine, more):
        """More than its first meter has ever shown."""
        most = self.rows(f"SELECT max(at) FROM fact JOIN machine ON machine.key = fact.machine WHERE machine.name = '{machine}' AND kind IN (1, 2)")
        return (most[0][0] or 0) // 100 + more

    def is_kept(self, after):
        """Of all machines, and as it would be worked out now."""
        unused, codes = self.unused()
        kept = self.rows("SELECT count(*) FROM derived")[0][0]
        kinds = self.rows("SELECT count(*) FROM derived_together")[0][0]
        check(f"{self.name}, {after}: all is kept", kept >= len(self.machines) - 1 and kinds and not unused, (kept, kinds, unused))
        check(f"{self.name}, {after}: no damage", not {"spoilt-book", "spoilt-kind"} & set(codes), codes)


def same_entries(fleet, after):
    """What an entry says of what it changes is the same where nothing is kept, but for the names of its facts."""
    blank = r'"(entered|batch)": "[^"]*"|\b[0-9a-z]{6}(?:[0-9a-z]{20})?-[0-9]+\b'
    machine, other = fleet.machines[0], fleet.machines[-1]
    look = ("looked", other, "smoke blue", "--note", "looked for it", "--found", "good")
    fleet.said("saw", other, "smoke blue")
    fleet.said(*look)
    asked = [("reading", machine, fleet.showing(machine, 5)), ("reading", machine, fleet.showing(machine, 140)), look,
             ("saw", other, "smoke", "black"), ("lay-up", machine, "--until", str(fleet.day + timedelta(40)))]
    for words in asked:
        told = []
        for table in ("", "derived_together", "derived"):
            shutil.copy(fleet.record, fleet.aside)
            if table:
                with sqlite3.connect(fleet.record) as database:
                    database.execute("DELETE FROM " + table)
                database.close()
            status, out, err = fleet.run((*words, "--format", "json"))
            told.append((status, re.sub(blank, "...", out), err))
            fleet.aside.replace(fleet.record)
        check(f"{fleet.name}, {after}, {' '.join(map(str, words))}", told[0][0] == 0 and told.count(told[0]) == 3, told)


def last_command(fleet):
    return [json.loads(line) for line in fleet.said("export", "--format", "jsonl").splitlines()][-1]["id"]


def entries(fleet, top):
    """One of each sort that takes away or comes late, and lists after each."""
    machine, other = fleet.machines[0], fleet.machines[-1]
    early = fleet.day - timedelta(500)
    exported = pathlib.Path(top) / fleet.name / "copy.jsonl"
    fleet.said("reading", machine, fleet.showing(machine, 9), "--dry-run")
    fleet.is_kept("a dry run")
    fleet.said("reading", machine, fleet.showing(machine, 20))
    fleet.same("a reading", ("due --format json", "due --overdue"))
    exported.write_text(fleet.said("export", "--format", "jsonl"))
    fleet.said("undo")
    fleet.same("undo", ("due --format json",))
    fleet.said("lay-up", other, "--on", str(early), "--until", str(early + timedelta(90)))
    fleet.said("out-of-use", other, "--on", str(early + timedelta(120)), "--note", "brakes")
    fleet.same("facts of days before", ("due --format json", "due --overdue"), (0, 400))
    fleet.said("strike", last_command(fleet))
    fleet.same("strike", ("due --format json",))
    fleet.said("merge", exported)
    fleet.same("merge", ("due --format json", "find-out"))
    fleet.said("lay-up", machine, "--on", str(fleet.day - timedelta(3)))
    fleet.said("reading", machine, fleet.showing(machine, 5), "--sure")
    ran = [gap["machine"] for gap in json.loads(fleet.said("due", "--format", "json"))["gaps"]
           if gap["kind"] == "ran-while-not-in-use"]
    check(f"{fleet.name}: a machine that runs while it is laid up", machine in ran, ran)
    fleet.same("a reading while it is laid up", ("due", "due --format json", "due --overdue", "find-out"), (0, 30))
    fleet.said("back", machine)
    fleet.same("back", ("due --format json",))
    fleet.is_kept("all entries")


def edit(fleet):
    yaml = fleet.folder / "fleet.yaml"
    schedule = next(iter(sorted((fleet.folder / "schedules").glob("*.yaml"))))
    yaml.write_text(yaml.read_text() + "# an edit\n")
    schedule.write_text(schedule.read_text().replace("months: 12", "months: 7"))
    unused, _ = fleet.unused()
    check(f"{fleet.name}: an edit makes all stale", set(unused.values()) == {"stale"} and len(unused) >= len(fleet.machines) - 1, unused)
    fleet.same("an edit", ("due --format json", "due --overdue"))
    fleet.said("reading", fleet.machines[0], fleet.showing(fleet.machines[0], 2), "--sure")
    fleet.is_kept("an entry after an edit")
    fleet.same("an entry after an edit", ("due --format json",))


def spoil(fleet, table, key):
    """One bit in the middle of the longest row; whose it is."""
    with sqlite3.connect(fleet.record) as database:
        whose, state = database.execute(f"SELECT {key}, state FROM {table} ORDER BY length(state) DESC").fetchone()
        spoilt = bytearray(state)
        spoilt[len(spoilt) // 2] ^= 4
        database.execute(f"UPDATE {table} SET state = ? WHERE {key} = ?", (bytes(spoilt), whose))
    database.close()
    return whose


def damage(fleet):
    spoil(fleet, "derived", "machine")
    unused, codes = fleet.unused()  # a kind is not used either where a book is not
    check(f"{fleet.name}: damage is told", sorted(unused.values()) == ["spoilt", "stale"] and codes.count("spoilt-book") == 1, (unused, codes))
    fleet.same("damage", ("due --format json", "due --overdue"))
    fleet.said("saw", fleet.machines[-1], "smoke", "from the exhaust")
    fleet.is_kept("an entry after damage")
    name = spoil(fleet, "derived_together", "name")
    unused, codes = fleet.unused()
    check(f"{fleet.name}: a damaged kind is told", unused == {"kind " + name: "spoilt"} and codes.count("spoilt-kind") == 1, (unused, codes))
    fleet.same("damage to a kind", ("due --format json", "due --overdue"))
    fleet.said("saw", fleet.machines[-1], "smoke", "from the exhaust, again")
    fleet.is_kept("an entry after damage to a kind")


with tempfile.TemporaryDirectory() as top:
    fleets = [Fleet(top, "sample", root / "sample-fleet", root / "sample-fleet/facts.csv", date(2026, 6, 15))]
    for size in ("tiny", "small"):
        text = pathlib.Path(top) / f"{size}-text"
        text.mkdir()
        write_fleet(SIZES[size], text)
        fleets.append(Fleet(top, size, text / "fleet", text / "facts.csv", LAST))
    for fleet in fleets:
        fleet.is_kept("import")
        fleet.same("import", days=(0, 1, 250, -25, -700))
        fleet.same("import", AHEAD, days=(0, 90))
        same_entries(fleet, "import")
        entries(fleet, top)
        edit(fleet)
        damage(fleet)

print(f"cases: {passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
