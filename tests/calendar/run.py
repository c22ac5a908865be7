#!/usr/bin/python3
"""The calendar of the due list, as two parsers of another make read it, beside the same list in JSON.

usage: run.py WHICHEVER_BINARY
"""
import sys

sys.dont_write_bytecode = True

import json
import os
import pathlib
import re
import shutil
import subprocess
import tempfile
from collections import Counter
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import icalendar
import vobject

root = pathlib.Path(__file__).resolve().parents[2]
TODAY = "2026-06-15"
STEPS = 8
WARNING = "do not run: "
STANDINGS = {"overdue", "due", "coming", "later"}
passed, failures = 0, []


def check(what, got, expected):
    global passed
    if got == expected:
        passed += 1
    else:
        failures.append(f"{what}: {got!r}, expected {expected!r}")


class Fleet:
    def __init__(self, binary, folder, name=None):
        self.binary, self.folder = binary, folder
        shutil.copytree(root / "sample-fleet", folder, ignore=shutil.ignore_patterns("record.db*", "try"))
        if name is not None:
            text = (folder / "fleet.yaml").read_text().replace("fleet: Thrennay estate", f"fleet: {json.dumps(name)}")
            (folder / "fleet.yaml").write_text(text)
        self.run("new", ".")
        self.run("import", "facts.csv", "--as-of", TODAY)

    def run(self, *words, status=0):
        done = subprocess.run([self.binary, *words], cwd=self.folder, capture_output=True, timeout=120,
                              env={"PATH": "/usr/bin:/bin", "HOME": str(self.folder), "WHICHEVER_USER": "tester"})
        if done.returncode != status:
            sys.exit(f"{' '.join(words)}: {done.returncode} {done.stderr.decode()}")
        return done.stdout

    def ics(self, *words, as_of=TODAY):
        return self.run("due", *words, "--format", "ics", "--as-of", as_of)

    def json(self, *words, as_of=TODAY):
        return json.loads(self.run("due", *words, "--format", "json", "--as-of", as_of))


def events_of(raw):
    """By UID, as both parsers read them; what they read differently is complained of."""
    first = {}
    for event in icalendar.Calendar.from_ical(raw).walk("VEVENT"):
        first[str(event["UID"])] = {
            "day": event["DTSTART"].dt, "end": event["DTEND"].dt,
            "summary": str(event["SUMMARY"]).removeprefix(WARNING), "warned": str(event["SUMMARY"]).startswith(WARNING),
            "description": str(event["DESCRIPTION"]), "location": str(event.get("LOCATION", "")),
            "sequence": int(event["SEQUENCE"]), "stamp": event["DTSTAMP"].dt, "free": str(event["TRANSP"]),
            "status": str(event.get("STATUS", "")),
            "categories": [str(each) for each in event["CATEGORIES"].cats] if "CATEGORIES" in event else []}
    second = vobject.readOne(raw.decode())
    count = 0
    for event in second.vevent_list if "vevent" in second.contents else []:
        count += 1
        other = first[event.uid.value]
        check("both parsers: summary", event.summary.value, WARNING * other["warned"] + other["summary"])
        check("both parsers: description", event.description.value, other["description"])
        check("both parsers: day", event.dtstart.value, other["day"])
        check("both parsers: end", event.dtend.value, other["end"])
    check("both parsers: how many", count, len(first))
    check("events have names of their own", raw.count(b"BEGIN:VEVENT\r\n"), len(first))
    return first


def by_the_standard(raw):
    check("lines end with CRLF", raw.count(b"\n"), raw.count(b"\r\n"))
    check("the last line too", raw.endswith(b"END:VCALENDAR\r\n"), True)
    long = [line for line in raw.split(b"\r\n") if len(line) > 75]
    check("lines are folded at 75 octets", long, [])
    for line in raw.split(b"\r\n"):
        line.decode()  # never within a character


def label(point):
    return point["machine"], point["task"] + (f"@{point['position']}" if point["position"] else "")


def as_the_list(fleet, *words, as_of=TODAY):
    raw = fleet.ics(*words, as_of=as_of)
    by_the_standard(raw)
    events, answer = events_of(raw), fleet.json(*words, as_of=as_of)
    sentences = {each["name"]: each["sentence"] for each in answer["caution_sentences"]}
    today = date.fromisoformat(as_of)
    days = {}
    for uid, event in events.items():
        check("an event is one whole day", event["end"] - event["day"], timedelta(1))
        check("that is free", event["free"], "TRANSPARENT")
        check("and carries every step", sum(f"\n{n}. " in f"\n{event['description']}" for n in range(1, STEPS + 1)), STEPS)
        days.setdefault(event["summary"].split(": ")[0], []).append(event)
    expected = Counter()
    for point in answer["points"]:
        due = point["standing"] in ("overdue", "due")
        if point["standing"] == "no-record":
            told = {point["machine"], " ".join(label(point))} & set(days)
            check(f"{label(point)}: without record", {event["day"] for name in told for event in days[name]}, {today})
            continue
        if not due and point["due_on"] is None and not point["measure_again"]:
            continue
        day = today if due or point["due_on"] is None else max(today, date.fromisoformat(point["due_on"]))
        name = " ".join(label(point))
        mine = [event for event in days.get(name, []) if "find out" not in event["summary"]]
        check(f"{name}: its event", len(mine), 1)
        if not mine:
            continue
        expected[name] += 1
        event = mine[0]
        check(f"{name}: its day", event["day"], day)
        standing = point["standing"].replace("-", " ")
        check(f"{name}: its standing", f": {standing}" in event["summary"], True)
        check(f"{name}: its category", point["standing"] in event["categories"], True)
        check(f"{name}: safety", "safety" in event["categories"], point["safety"])
        for caution in point["cautions"]:
            check(f"{name}: minds {caution}", sentences.get(caution, caution) in event["description"], True)
    check("points were compared", sum(expected.values()) > 20 or bool(words), True)
    said = "\n".join(event["description"] for event in events.values())
    for gap in answer["gaps"]:
        if gap["kind"] not in ("nothing-recorded",):
            check(f"gap {gap['kind']}", gap["say"] in said, True)
    for seen in answer["seen"]:
        check(f"seen {seen['sign']}", any(seen["sign"] in e["summary"] and e["day"] == today for e in events.values()), True)
    for use in answer["not_in_use"]:
        check(f"not in use: {use['machine']}", any(e["summary"].startswith(use["machine"]) and use["state"] in e["categories"]
                                                    for e in events.values()), True)
    # Out of use, or with a sign for safety: whichever of its rows says so, all its events do.
    stopped = {row["machine"] for block in ("points", "seen", "not_in_use") for row in answer[block] if row["do_not_run"]}
    out = {use["machine"] for use in answer["not_in_use"] if use["state"] == "out-of-use"}
    check("nobody may run what is out of use", out <= stopped, True)
    for event in events.values():
        warned = re.split("[ :]", event["summary"])[0] in stopped
        check(f"{event['summary']}: says first that nobody may run it",
              (event["warned"], event["description"].startswith("Do not run: "), "do-not-run" in event["categories"]),
              (warned, warned, warned))
    return events


def points_of(events):
    return {uid for uid, event in events.items() if STANDINGS & set(event["categories"])}


def what_moves(binary, top):
    fleet = Fleet(binary, top / "moves")
    before = as_the_list(fleet, as_of=TODAY)
    check("asked twice, the same to the byte", fleet.ics(), fleet.ics())
    fleet.run("reading", "sprayer", "1140", "--as-of", TODAY, "--sure")
    after = events_of(fleet.ics())
    check("a reading: the same names of points", points_of(before), points_of(after))
    moved = [uid for uid in before if uid in after and before[uid]["day"] != after[uid]["day"]]
    check("a reading moves days", len(moved) > 0, True)
    check("and all are newer", all(after[uid]["sequence"] > before[uid]["sequence"] for uid in after if uid in before), True)
    check("by their stamp too", all(after[uid]["stamp"] >= before[uid]["stamp"] for uid in after if uid in before), True)
    later = events_of(fleet.ics(as_of="2026-06-16"))
    check("the next day they are newer again",
          all(later[uid]["sequence"] > after[uid]["sequence"] and later[uid]["stamp"] >= after[uid]["stamp"]
              for uid in later if uid in after), True)
    overdue = [uid for uid, event in after.items() if "overdue" in event["categories"] and uid in later]
    check("what is overdue moves with the day", {later[uid]["day"] for uid in overdue}, {date(2026, 6, 16)})
    fleet.run("done", "tractor-loader", "brakes", "--as-of", "2026-06-16", "--by", "M.T.")
    done = events_of(fleet.ics(as_of="2026-06-16"))
    name = "tractor-loader brakes"
    is_of = lambda events: {uid for uid, event in events.items() if event["summary"].split(": ")[0] == name}
    check("the next interval is another event", is_of(done) & is_of(later), set())
    check("and there is one", len(is_of(done)), 1)


def moves_within_a_day(binary, top):
    """By the clock: a fleet file is edited, and a backup put back that has lost facts."""
    fleet = Fleet(binary, top / "within")
    ask = lambda: fleet.run("due", "--all", "--format", "ics")
    fleet.run("backup", "lost.db")
    for value in ("1140", "1141", "1142"):
        fleet.run("reading", "sprayer", value, "--sure")
    raw = ask()
    check("asked twice of the clock's day, the same to the byte", ask(), raw)
    before = events_of(raw)
    schedule = fleet.folder / "schedules" / "field-tractor.yaml"
    text = schedule.read_text()
    edited = re.sub(r"(coolant:.*?years: )4", r"\g<1>5", text, count=1, flags=re.S)
    check("the interval was edited", edited == text, False)
    schedule.write_text(edited)
    after = events_of(ask())
    newer(before, after, "an edited interval")
    shutil.copy(fleet.folder / "lost.db", fleet.folder / "record.db")
    schedule.write_text(text)
    newer(after, events_of(ask()), "a backup that has lost facts")


def newer(before, after, what):
    moved = [uid for uid in before if uid in after and before[uid]["day"] != after[uid]["day"]]
    check(f"{what}: something moved", len(moved) > 0, True)
    for uid in before:
        if uid not in after:
            continue
        old, new = before[uid], after[uid]
        check(f"{what}: {new['summary']}: no number falls", new["sequence"] >= old["sequence"] and new["stamp"] >= old["stamp"],
              True)
        if uid in moved:
            check(f"{what}: {new['summary']}: moved, and newer",
                  new["sequence"] > old["sequence"] and new["stamp"] > old["stamp"], True)


def files(binary, top):
    fleet = Fleet(binary, top / "files")
    fleet.ics("--output", "due.ics")
    first = os.stat(fleet.folder / "due.ics")
    fleet.ics("--output", "due.ics")
    second = os.stat(fleet.folder / "due.ics")
    check("an unchanged file is left alone", (first.st_ino, first.st_mtime_ns), (second.st_ino, second.st_mtime_ns))
    check("and holds the answer", (fleet.folder / "due.ics").read_bytes(), fleet.ics())
    fleet.run("count", "grease", "9", "--as-of", TODAY)
    fleet.ics("--output", "due.ics")
    check("a changed one is replaced", os.stat(fleet.folder / "due.ics").st_ino != first.st_ino, True)


def rounds_of_a_week(binary, top):
    """Events from when to when, by the fleet's clocks; the week's own is a whole day."""
    fleet = Fleet(binary, top / "rounds")
    ask = lambda form: fleet.run("rounds", "--from", TODAY, "--as-of", TODAY, "--format", form)
    raw, plan = ask("ics"), json.loads(ask("json"))
    by_the_standard(raw)
    events = list(events_of(raw).values())
    zone = ZoneInfo("Europe/London")
    at = lambda day, clock: datetime.fromisoformat(f"{day}T{clock}").replace(tzinfo=zone)
    expected = [(at(one["on"], one["leaves"]), at(one["on"], one["back"])) for one in plan["rounds"]]
    for one in plan["rounds"]:
        for stop in one["stops"]:
            expected.append((at(one["on"], stop["starts"]), at(one["on"], stop["ends"])))
            mine = [event for event in events if (event["day"], event["end"]) == expected[-1] and "visit" in event["categories"]]
            said = mine[0]["description"] if mine else ""
            check(f"{stop['visit']}: its tasks", [task["task"] in said for task in stop["tasks"]], [True] * len(stop["tasks"]))
            check(f"{stop['visit']}: its contact", (stop["contact"] or "") in said, True)
    timed = [event for event in events if event["free"] == "OPAQUE"]
    check("rounds and stops, each at its time", sorted((event["day"], event["end"]) for event in timed), sorted(expected))
    check("some were compared", len(expected) > 5, True)
    whole = [event for event in events if event["free"] == "TRANSPARENT"]
    check("one whole day", [event["day"] for event in whole], [date.fromisoformat(TODAY)])
    for out in plan["put_off"]:
        check(f"{out['visit']}: said not to be this week", out["why"] in whole[0]["description"], True)
    for event in events:
        check("carries every step", sum(f"\n{n}. " in event["description"] for n in range(1, STEPS + 1)), STEPS)
    check("asked twice, the same to the byte", ask("ics"), raw)
    planned_anew(fleet, events_of(raw), ask("json"))


def planned_anew(fleet, first, kept):
    """Whoever imports the new calendar over the old one has the visits of the new plan, and no other."""
    (fleet.folder / "week.json").write_bytes(kept)
    ask = lambda form, plan, *more: fleet.run("rounds", "--from", TODAY, "--as-of", TODAY, "--keep", plan, *more,
                                              "--format", form)
    raw = ask("ics", "week.json", "--without", "fitter")
    by_the_standard(raw)
    second = events_of(raw)
    cancelled = {uid for uid, event in second.items() if event["status"] == "CANCELLED"}
    last = max(event["sequence"] for event in first.values())
    check("all of it is above the calendar that it replaces", min(event["sequence"] for event in second.values()) > last,
          True)
    check("its stamps too", all(second[uid]["stamp"] > event["stamp"] for uid, event in first.items() if uid in second),
          True)
    ahead = {uid for uid, event in first.items() if event["free"] == "OPAQUE"}
    check("what stood there is there or cancelled", ahead - set(second), set())
    check("what is cancelled stood there", cancelled - ahead, set())
    check("the fitter's rounds are", all(uid in cancelled for uid in ahead if "fitter" in first[uid]["categories"]
                                         and "round" in first[uid]["categories"]), True)
    check("some were", len(cancelled) > 2, True)
    for uid in cancelled:
        check("at the time at which they stood", (second[uid]["day"], second[uid]["end"]),
              (first[uid]["day"], first[uid]["end"]))
    anew = json.loads(ask("json", "week.json", "--without", "fitter"))
    made = {stop["uid"] for one in anew["rounds"] for stop in one["stops"]}
    check("none that is made is", made & cancelled, set())
    check("the plan says the number", anew["sequence"], max(event["sequence"] for event in second.values()))
    (fleet.folder / "second.json").write_text(json.dumps(anew))
    third = events_of(ask("ics", "second.json", "--without", "fitter"))
    check("once", {event["status"] for event in third.values()}, {""})
    check("and above again", min(event["sequence"] for event in third.values()) > anew["sequence"], True)


def main():
    binary = str(pathlib.Path(sys.argv[1]).resolve())
    top = pathlib.Path(tempfile.mkdtemp(prefix="calendar-"))
    try:
        fleet = Fleet(binary, top / "one")
        one = as_the_list(fleet)
        for words in (["--all"], ["--site", "wullamere"], ["combine", "sprayer"], ["--within", "12m"]):
            mine = as_the_list(fleet, *words)
            for uid in set(one) & set(mine):
                check("a scope has the same days", mine[uid]["day"], one[uid]["day"])
        for as_of in ("2025-12-10", "2026-02-28"):
            as_the_list(fleet, as_of=as_of)
        overdue = events_of(fleet.ics("--overdue"))
        by_the_standard(fleet.ics("--overdue"))
        listed = fleet.json("--overdue")
        check("the overdue list is of today", {event["day"] for event in overdue.values()}, {date.fromisoformat(TODAY)})
        names = {event["summary"].split(": ")[0] for event in overdue.values()}
        for point in listed["points"]:
            known = " ".join(label(point)) in names or point["machine"] in names
            check(f"overdue: {label(point)}", known, True)
        shared = [uid for uid in overdue if uid in one]
        check("a point has one name in both lists", len(shared) > 5, True)
        check("cut to the first of each standing", len(events_of(fleet.ics("--first", "1"))) < len(one), True)
        other = events_of(Fleet(binary, top / "two", "Other estate").ics())
        check("two fleets have no name in common", set(one) & set(other), set())
        hostile = events_of(Fleet(binary, top / "three", "x;, END:VEVENT\u2028BEGIN:VEVENT").ics())
        check("a name brings no event along", len(hostile), len(one))
        what_moves(binary, top)
        moves_within_a_day(binary, top)
        rounds_of_a_week(binary, top)
        files(binary, top)
    finally:
        shutil.rmtree(top)
    for failure in failures[:40]:
        print(f"calendar: FAILED: {failure}")
    print(f"calendar: {passed} checks passed, {len(failures)} failed")
    sys.exit(1 if failures else 0)


main()
