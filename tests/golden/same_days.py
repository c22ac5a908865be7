#!/usr/bin/env python3
"""One question asked by every command and in every format: each point has one due day, whoever tells it.

usage: same_days.py COMMAND
"""
import csv
import io
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

root = pathlib.Path(__file__).resolve().parents[2]
command = pathlib.Path(sys.argv[1]).resolve()
WRITTEN = "2026-06-15"  # the day on which the sample's facts were entered
ASKED = [WRITTEN, "2025-12-10", "2026-02-28", "2026-03-05"]  # before harvest, in the pumping season, after it
DAY = r"\d{4}-\d{2}-\d{2}"
# What a line of the list says of the day: it was reached, is today's by the reading of a meter, is certain, or expected.
TOLD = re.compile(rf"\b(?:since|on|about) ({DAY})|  (today)\b")
passed = failed = 0


def check(what, got, expected):
    global passed, failed
    if got == expected:
        passed += 1
        return
    failed += 1
    if isinstance(got, dict) and isinstance(expected, dict):  # only what differs
        names = {name for name in got.keys() | expected.keys() if got.get(name) != expected.get(name)}
        got, expected = ({name: value for name, value in side.items() if name in names} for side in (got, expected))
    print(f"FAILED on {fleet.as_of}, {what}: {got}, expected {expected}")


def key(point):
    return point["machine"], point["task"] + (f"@{point['position']}" if point["position"] else "")


def of_text(text, as_of):
    """The day that each line of a point says."""
    days = {}
    for line in text.splitlines():
        words = re.match(r"(?:!!|!|\?|>| ) +(?:overdue|due|no record|coming|later) +(\S+) +(\S+) {2,}(.*)", line)
        if words:
            told = TOLD.search(words[3])
            days[words[1], words[2]] = (told[1] or as_of) if told else None
    return days


class Fleet:
    def __init__(self, top):
        self.folder = pathlib.Path(top) / "fleet"
        shutil.copytree(root / "sample-fleet", self.folder, ignore=shutil.ignore_patterns("record.db*", "try"))
        self.run("new", self.folder)
        self.run("import", self.folder / "facts.csv", "--as-of", WRITTEN)
        self.as_of = WRITTEN

    def run(self, *words):
        environment = {"PATH": "/usr/bin:/bin", "WHICHEVER_USER": "tester", "COLUMNS": "400",
                       "HOME": str(self.folder), "WHICHEVER_FLEET": str(self.folder)}
        done = subprocess.run([command, *map(str, words)], env=environment, cwd=self.folder, text=True,
                              capture_output=True, timeout=120)
        if done.returncode != 0:
            sys.exit(f"{' '.join(map(str, words))}: status {done.returncode}\n{done.stderr}")
        return done.stdout

    def ask(self, *words):
        return self.run(*words, "--as-of", self.as_of)

    def json(self, *words):
        return json.loads(self.ask(*words, "--format", "json"))


def by_due(fleet):
    """The points of the due list in JSON, against which all others are held, and the same list in CSV and text."""
    points = {key(point): point for point in fleet.json("due", "--all")["points"]}
    days = {name: point["due_on"] for name, point in points.items()}
    rows = [row for row in csv.DictReader(io.StringIO(fleet.ask("due", "--all", "--format", "csv")))
            if row["row"] == "point"]
    check("due --format csv", {key(row): row["due_on"] or None for row in rows}, days)
    text = of_text(fleet.ask("due", "--all"), fleet.as_of)
    # One line stands for a machine of which nothing is recorded.
    silent = {name for name in days if name not in text}
    check("due as text: left out", {machine for machine, _ in silent}, {"generator-standby"})
    check("due as text", text, {name: day for name, day in days.items() if name not in silent})
    check("due: days told", sum(day is not None for day in days.values()) > 50, True)
    return points


def by_machine(fleet, points):
    for machine in sorted({machine for machine, _ in points}):
        own = {name: point["due_on"] for name, point in points.items() if name[0] == machine}
        asked = fleet.json("due", machine, "--all")["points"]
        check(f"due {machine}", {key(point): point["due_on"] for point in asked}, own)


def by_forecast(fleet, points):
    answer = fleet.json("forecast", "--within", "12m")
    expected = {name: (point["due_on"], point["due_span"]) for name, point in points.items()
                if point["due_on"] and point["due_on"] <= answer["to"]}
    check("forecast", {key(point): (point["due_on"], point["due_span"]) for point in answer["points"]}, expected)
    days = [point["due_on"] for point in answer["points"]]
    check("forecast: in the order of days", days, sorted(days))
    rows = [row for row in csv.DictReader(io.StringIO(fleet.ask("forecast", "--within", "12m", "--format", "csv")))]
    check("forecast --format csv: has no points of its own", {row["row"] for row in rows} - {"now", "ahead"}, set())


def by_season(fleet, points):
    for season in ("harvest", "pumping"):
        answer = fleet.json("season", season)
        told = answer["beforehand"] + answer["can_wait"] + answer["unknown"]
        check(f"season {season}: points", len(told) > 5, True)
        for item in told:
            point = points[key(item)]
            if "due_span" not in item:
                continue
            check(f"season {season}: {key(item)}", item["due_span"], point["due_span"])
            if not point["by_estimate"]:  # a point by estimate is due today, whatever the odds
                check(f"season {season}: middle of {key(item)}", item["due_span"]["p50"], point["due_on"])


def by_why(fleet, points):
    tasks = sorted({(machine, task.split("@")[0]) for machine, task in points})
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda task: fleet.json("why", *task), tasks))
    told = {key(point): (point["standing"], point["due_on"], point["due_span"])
            for answer in answers for point in answer["points"]}
    for name, point in points.items():
        # Why looks 30 days ahead, as the due list does where nothing else is said.
        check(f"why {' '.join(name)}", told.get(name), (point["standing"], point["due_on"], point["due_span"]))


with tempfile.TemporaryDirectory(prefix="same-days-") as top:
    fleet = Fleet(top)
    for fleet.as_of in ASKED:
        points = by_due(fleet)
        by_machine(fleet, points)
        by_forecast(fleet, points)
        by_season(fleet, points)
        by_why(fleet, points)
print(f"cases: {passed} passed, {failed} failed")
sys.exit(1 if failed or not passed else 0)
