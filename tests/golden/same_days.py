#!/usr/bin/env python3
"""One question asked by every command and in every format: each point has one due day, whoever tells it, is due by
estimate in all of them, and nobody may run its machine in all of them or in none.

usage: same_days.py COMMAND
"""
import csv
import html.parser
import io
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from datetime import date, timedelta

root = pathlib.Path(__file__).resolve().parents[2]
command = pathlib.Path(sys.argv[1]).resolve()
WRITTEN = "2026-06-15"  # the day on which the sample's facts were entered
ASKED = [WRITTEN, "2025-12-10", "2026-02-28", "2026-03-05"]  # before harvest, in the pumping season, after it
DAY = r"\d{4}-\d{2}-\d{2}"
# What a line of the list says of the day: it was reached, is today's by the reading of a meter, is certain, the latest, or
# expected.
TOLD = re.compile(rf"\b(?:since|on|about|by(?= {DAY} at the latest)) ({DAY})|  (today) ·")
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
    for line in text.replace("\n      ", "  ").splitlines():  # what there is to say of a point stands below it
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


class Recurring(Fleet):
    """A loader whose oil is due every 150 h of its 900 a year, and another that does not work in harvest."""

    def __init__(self, top):
        self.folder = pathlib.Path(top) / "recurring"
        (self.folder / "schedules").mkdir(parents=True)
        (self.folder / "fleet.yaml").write_text("""\
fleet: Recurring
time-zone: UTC
seasons: {harvest: {from: 08-01, to: 09-20}}
parts: {oil-filter: {stock: 1, lead-time: 10 days}}
machines:
  loader: {schedule: tractor, in-service: {on: 2020-01-01, at: 0}, expect: {per-year: 900, harvest: 250}}
  other: {schedule: tractor, in-service: {on: 2020-01-01, at: 0}, expect: {per-year: 300, harvest: 0}}
""")
        (self.folder / "schedules" / "tractor.yaml").write_text("""\
schedule: tractor
meters: {engine: {unit: h}}
tasks: {oil: {do: Change oil, every: {hours: 150}, takes: 30 min, parts: {oil-filter: 1}}}
""")
        facts = self.folder / "facts.csv"
        facts.write_text("""\
kind,machine,on,at,task
reading,loader,2024-06-10,3900,
reading,loader,2025-06-10,4800,
reading,loader,2026-01-10,5400,
service,loader,2026-02-01,5450,oil
reading,loader,2026-02-15,5490,
reading,other,2025-02-15,1500,
service,other,2026-02-01,1800,oil
reading,other,2026-02-15,1815,
""")
        self.as_of = "2026-02-20"
        self.run("new", self.folder)
        self.run("import", facts, "--as-of", self.as_of)


def by_due(fleet):
    """The points of the due list in JSON, against which all others are held, and the same list in CSV and text."""
    points = {key(point): point for point in fleet.json("due", "--all")["points"]}
    days = {name: point["due_on"] for name, point in points.items()}
    every = list(csv.DictReader(io.StringIO(fleet.ask("due", "--all", "--format", "csv"))))
    rows = [row for row in every if row["row"] == "point"]
    check("due --format csv", {key(row): row["due_on"] or None for row in rows}, days)
    check("due --format csv: people", {key(row): row["people"] for row in rows},
          {name: str(point["people"]) for name, point in points.items()})
    not_to_run(fleet, points, every)
    text = of_text(fleet.ask("due", "--all"), fleet.as_of)
    # One line stands for a machine of which nothing is recorded.
    silent = {name for name in days if name not in text}
    check("due as text: left out", {machine for machine, _ in silent}, set())
    check("due as text", text, {name: day for name, day in days.items() if name not in silent})
    check("due: days told", sum(day is not None for day in days.values()) > 50, True)
    return points


def yes_or_no(value):
    return "yes" if value else "no"


def stopped_of(points):
    """The machines that nobody may run, as their points say it."""
    return {machine for (machine, _), point in points.items() if point["do_not_run"]}


def not_to_run(fleet, points, rows):
    """Every row of a machine says the same of running it: in the list, in the overdue list, and in a calendar."""
    stopped = stopped_of(points)
    if fleet.as_of == WRITTEN:  # one that is out of use, and one with a sign for safety
        check("due: machines that nobody may run", len(stopped) > 1, True)
    check("due: do_not_run is of the machine", {name for name, point in points.items() if point["do_not_run"]},
          {name for name in points if name[0] in stopped})
    for words in (["due"], ["due", "--overdue"]):
        answer = fleet.json(*words)
        for use in answer["not_in_use"]:
            if use["state"] == "out-of-use":
                check(f"{words}: {use['machine']} is out of use", use["machine"] in stopped, True)
        for row in answer["points"] + answer["seen"] + answer["not_in_use"]:
            check(f"{words}: do_not_run of {row['machine']}", row["do_not_run"], row["machine"] in stopped)
        calendar = fleet.ask(*words, "--format", "ics").replace("\r\n ", "").replace("\n ", "")
        for event in calendar.split("BEGIN:VEVENT")[1:]:
            summary = re.search(r"^SUMMARY:(do not run: )?([^\s:]+)", event, re.M)
            if summary[2] in {machine for machine, _ in points}:
                check(f"{words} --format ics: {summary[2]}", bool(summary[1]), summary[2] in stopped)
                check(f"{words} --format ics: category of {summary[2]}",
                      bool(re.search(r"^CATEGORIES:.*\bdo-not-run\b", event, re.M)), summary[2] in stopped)
    check("due --format csv: rows not-to-run", sorted(row["machine"] for row in rows if row["row"] == "not-to-run"),
          sorted(stopped))
    for row in rows:
        if row["machine"]:
            check(f"due --format csv: do_not_run of {row['machine']}", row["do_not_run"],
                  yes_or_no(row["machine"] in stopped))
    for words in (["due"], ["due", "--overdue"], ["forecast"], ["season", "harvest"], ["workload"], ["parts"],
                  ["find-out"], ["sheet"], ["sheet", "--readings"], ["visits"], ["rounds", "--from", fleet.as_of],
                  ["why", "combine"], ["rounds", "--from", fleet.as_of, "--site", "quernholt"]):
        answer = fleet.json(*words)
        # Of one machine, or a site, its own alone.
        own = [machine["machine"] for machine in answer["not_to_run"]]
        asked = stopped & {"combine"} if words[0] == "why" else stopped
        if "--site" in words:
            asked = {machine for (machine, _), point in points.items() if point["site"] == "quernholt"} & stopped
        check(f"{words}: not_to_run", sorted(own), sorted(asked))
        for use in answer["not_in_use"]:
            check(f"{words}: do_not_run of {use['machine']}, not in use", use["do_not_run"], use["machine"] in stopped)
    sheets = fleet.json("sheet", "--within", "30d")["sheets"]
    check("sheet: do_not_run", {sheet["machine"] for sheet in sheets if sheet["do_not_run"]},
          {sheet["machine"] for sheet in sheets} & stopped)


def by_machine(fleet, points):
    for machine in sorted({machine for machine, _ in points}):
        own = {name: point["due_on"] for name, point in points.items() if name[0] == machine}
        asked = fleet.json("due", machine, "--all")["points"]
        check(f"due {machine}", {key(point): point["due_on"] for point in asked}, own)


def by_forecast(fleet, points):
    answer = fleet.json("forecast", "--within", "12m")
    listed = {name: point for name, point in points.items() if point["due_on"] and point["due_on"] <= answer["to"]}
    expected = {name: (point["due_on"], point["due_span"]) for name, point in listed.items()}
    check("forecast", {key(point): (point["due_on"], point["due_span"]) for point in answer["points"]}, expected)
    due = ("overdue", "due")  # what is to come is called after each answer's own horizon
    check("forecast: what is due", {key(point): point["standing"] for point in answer["points"] if point["standing"] in due},
          {name: point["standing"] for name, point in listed.items() if point["standing"] in due})
    kept = ("by_estimate", "past_grace_by_estimate", "do_not_run")
    check("forecast: marks", {key(point): [point[name] for name in kept] for point in answer["points"]},
          {name: [point[each] for each in kept] for name, point in listed.items()})
    stopped = stopped_of(points)
    for use in answer["not_in_use"]:
        check(f"forecast: do_not_run of {use['machine']}", use["do_not_run"], use["machine"] in stopped)
    days = [point["due_on"] for point in answer["points"]]
    check("forecast: in the order of days", days, sorted(days))
    rows = [row for row in csv.DictReader(io.StringIO(fleet.ask("forecast", "--within", "12m", "--format", "csv")))]
    spans = {key(row): (row["due_on"], {p: row[f"due_span_{p}"] or None for p in ("p10", "p50", "p90")})
             for row in rows if row["row"] == "point"}
    check("forecast --format csv", spans, expected)
    check("forecast --format csv: marks",
          {key(row): [row[name] for name in kept] for row in rows if row["row"] == "point"},
          {name: [yes_or_no(point[each]) for each in kept] for name, point in listed.items()})
    for row in rows:
        if row["row"] == "machine":
            check(f"forecast --format csv: {row['machine']}", row["do_not_run"], yes_or_no(row["machine"] in stopped))
    forecast_as_text(fleet, listed)


def forecast_as_text(fleet, listed):
    """What is due, by estimate too, is told with its standing and since when; what is to come with its day."""
    text = fleet.ask("forecast", *sorted({machine for machine, _ in listed}), "--within", "12m")
    text = re.sub(r"\n {20,}", " ", text)  # a row goes on in the line below
    told = {(words[1], words[2]): (words[3], words[4]) for words in
            re.finditer(rf"^  (\S+) +(\S+) +(overdue|due|{DAY}) +(\S.*)", text.split("Due next")[1], re.M)}
    check("forecast as text: points", told.keys(), listed.keys())
    for name, (day, words) in told.items():
        point = listed[name]
        reached = point["standing"] in ("overdue", "due")
        check(f"forecast as text: {name}", day, point["standing"] if reached else point["due_on"])
        if reached:
            since = "today" if point["due_on"] == fleet.as_of else "since " + point["due_on"]
            check(f"forecast as text: {name} due", re.match(rf"today|since {DAY}|", words)[0], since)
        check(f"forecast as text: {name} by estimate", "by estimate: read the meter" in words.replace("over by estimate", ""),
              point["by_estimate"] or point["past_grace_by_estimate"])
        check(f"forecast as text: {name} past grace", "overdue by estimate" in words, point["past_grace_by_estimate"])


def day_before(day):
    return (date.fromisoformat(day) - timedelta(1)).isoformat()


def by_season(fleet, points):
    for season in ("harvest", "pumping"):
        answer = fleet.json("season", season)
        items = answer["beforehand"] + answer["have_ready"] + answer["put_off"]
        told = items + answer["not_before_end"] + answer["find_out"]
        check(f"season {season}: points", len(told) > 5, True)
        for item in items:
            point = points[key(item)]
            if item["again"]:  # its own days, after those of the first time
                check(f"season {season}: {key(item)} again", item["due_span"]["p10"] > fleet.as_of, True)
                continue
            check(f"season {season}: {key(item)}", item["due_span"], point["due_span"])
            for mark in ("by_estimate", "past_grace_by_estimate", "do_not_run"):
                check(f"season {season}: {mark} of {key(item)}", item[mark], point[mark])
            if not point["by_estimate"]:  # a point by estimate is due today, whatever the odds
                check(f"season {season}: middle of {key(item)}", item["due_span"]["p50"], point["due_on"])
        stopped = stopped_of(points)
        for row in told + answer["others"]:
            check(f"season {season}: do_not_run of {row['machine']}", row["do_not_run"], row["machine"] in stopped)
        rows = csv.DictReader(io.StringIO(fleet.ask("season", season, "--format", "csv")))
        for row in rows:
            if row["row"] in ("not-before-end", "find-out", "other"):
                check(f"season {season} --format csv: do_not_run of {row['machine']}", row["do_not_run"],
                      yes_or_no(row["machine"] in stopped))
        whole_blocks(fleet, season, answer, points, told)
        days_to_do_by(fleet, season, answer, points)
        by_parts_before(fleet, season, answer)
        by_formats(fleet, season, answer)


def whole_blocks(fleet, season, answer, points, told):
    """Each point stands in a block, or its machine is named as one that does not work."""
    others = {other["machine"]: other for other in answer["others"]}
    # One that is laid up and back in time works.
    stands = {use["machine"] for use in answer["not_in_use"]
              if use["state"] == "out-of-use" or not use["until"] or use["until"] > answer["to"]}
    included = {(item["machine"], part["task"] + (f"@{part['position']}" if part["position"] else ""))
                for item in answer["beforehand"] + answer["have_ready"] + answer["put_off"]
                for part in item["includes"]}
    expected = {name for name in points if name[0] not in others.keys() | stands}
    check(f"season {season}: every point is told", {key(item) for item in told} | included, expected)
    for machine, other in others.items():
        own = [point for name, point in points.items() if name[0] == machine]
        for count, standing in (("overdue", "overdue"), ("due", "due"), ("no_record", "no-record")):
            check(f"season {season}: {machine} {count}", other[count],
                  sum(point["standing"] == standing for point in own))


def days_to_do_by(fleet, season, answer, points):
    """Due or to be mended: today; else the early end. Where its machine is laid up then, the last day before it is back. At
    the latest the day before the season; where that is under way, its end."""
    latest = answer["to"] if answer["under_way"] else day_before(answer["from"])
    back = {use["machine"]: use["until"] for use in answer["not_in_use"]}
    for item in answer["beforehand"] + answer["have_ready"]:
        point = points[key(item)]
        if item["again"] or item["includes"] or point["put_off"]:
            check(f"season {season}: {key(item)} in time", fleet.as_of <= item["do_by"] <= latest, True)
            continue
        now = point["standing"] in ("overdue", "due") or item["to_mend"]
        early = fleet.as_of if now else point["due_span"]["p10"]
        if early < (back.get(item["machine"]) or ""):
            early = day_before(back[item["machine"]])
        check(f"season {season}: {key(item)} do by", item["do_by"], max(fleet.as_of, min(early, latest)))


def by_parts_before(fleet, season, answer):
    parts = fleet.json("parts", "--before", season)
    # Those that other work alone takes are no parts of the season's list.
    own = [part for part in parts["parts"] if not all(use["other_work"] for use in part["uses"])]
    check(f"parts --before {season}", own, answer["parts"])
    rounds_of_parts(f"parts --before {season}", answer, parts)
    uses = sorted((key(use), use["do_by"], use["ready"], part["part"], use["amount"])
                  for part in parts["parts"] for use in part["uses"] if not use["other_work"])
    takes = []
    for block in ("beforehand", "have_ready"):
        for item in answer[block]:
            if item["included_in"]:  # the one that includes it takes them
                continue
            amounts = list(item["takes"]["parts"].items())
            amounts += [(fluid, amount["amount"]) for fluid, amount in item["takes"]["fluids"].items()]
            takes += [(key(item), item["do_by"], block == "have_ready", part, amount) for part, amount in amounts]
    check(f"parts --before {season}: the rows of the season", uses, sorted(takes))
    rows = {row["part"]: row["order_by"] for row in csv.DictReader(io.StringIO(fleet.ask("parts", "--before", season, "--format", "csv"))) if row["row"] == "part"}
    check(f"parts --before {season} --format csv", rows, {part["part"]: part["order_by"] or "" for part in parts["parts"]})


def rounds_of_parts(what, answer, parts):
    """The first, second and third service of a point are the same in both, and each has its own day to do it by."""
    told = {}
    for item in answer["beforehand"] + answer["have_ready"]:
        for each in [item, *item["rounds_between"]]:
            check(f"{what}: {key(item)} has one round {each['round']}", (key(item), each["round"]) in told, False)
            told[key(item), each["round"]] = (each["do_by"], each["due_span"])
    for name in {name for name, _ in told}:
        rounds = sorted(number for other, number in told if other == name)
        check(f"{what}: the rounds of {name}", rounds, list(range(rounds[0], rounds[0] + len(rounds))))
    # On the machines of the season: those that a service includes come again with no row of their own.
    at_work = {item["machine"] for item in answer["beforehand"] + answer["have_ready"]}
    for part in parts["parts"]:
        seen = set()
        for use in part["uses"]:
            check(f"{what}: {part['part']} once for a round", (key(use), use["round"]) in seen, False)
            seen.add((key(use), use["round"]))
            if use["machine"] in at_work and (not use["other_work"] or (key(use), use["round"]) in told):
                check(f"{what}: {key(use)} round {use['round']}", (use["do_by"], use["due_span"]), told.get((key(use), use["round"])))
    return told


def by_recurring(top):
    """One service that comes three times and more before the season's end: some before it begins, some in it."""
    fleet = Recurring(top)
    answer, parts = fleet.json("season", "harvest"), fleet.json("parts", "--before", "harvest")
    told = rounds_of_parts("recurring", answer, parts)
    check("recurring: rounds in between", sum(len(item["rounds_between"]) for item in answer["beforehand"]) >= 1, True)
    check("recurring: rounds", len([name for name, _ in told if name == ("loader", "oil")]) >= 4, True)
    filters = parts["parts"][0]
    own = {use["round"]: use["do_by"] for use in filters["uses"] if use["machine"] == "loader"}
    check("recurring: every round takes its part", own, {number: day for (name, number), (day, _) in told.items() if name == ("loader", "oil")})
    check("recurring: need", filters["need"], sum(use["amount"] for use in filters["uses"] if use["likely"]))
    check("recurring: orders", (filters["order_by"], filters["missed_from"], filters["need"]),
          tuple(answer["parts"][0][name] for name in ("order_by", "missed_from", "need")))
    days = [item["do_by"] for item in answer["have_ready"]]
    text = fleet.ask("season", "harvest")
    check("recurring: days as text", [day for day in days if day not in text], [])
    for item in answer["beforehand"]:
        for once in item["rounds_between"]:
            check("recurring: in between as text", once["do_by"] in text, True)
    return fleet


def by_parts(fleet, points):
    """The next service of a point comes due when the due list says, whenever it is done."""
    told = [use for part in fleet.json("parts", "--within", "12m")["parts"] for use in part["uses"] if use["round"] == 1]
    check("parts: uses", len(told) > 5, True)
    for use in told:
        span = points[key(use)]["due_span"]
        if span["p50"]:
            check(f"parts: {key(use)}", use["due_span"], span)
        check(f"parts: {key(use)} do by", use["do_by"] >= fleet.as_of, True)


def by_formats(fleet, season, answer):
    rows = list(csv.DictReader(io.StringIO(fleet.ask("season", season, "--format", "csv"))))
    text = fleet.ask("season", season)
    check(f"season {season} as text: overdue by estimate", "overdue by estimate: read the meter" in text,
          any(item["past_grace_by_estimate"] for block in ("beforehand", "have_ready", "put_off") for item in answer[block]))
    for block, name in (("beforehand", "beforehand"), ("have_ready", "have-ready")):
        days = [(key(item), item["do_by"]) for item in answer[block]]
        check(f"season {season} --format csv: {name}", [(key(row), row["do_by"]) for row in rows if row["row"] == name], days)
        marks = ("by_estimate", "past_grace_by_estimate", "do_not_run")
        check(f"season {season} --format csv: marks of {name}",
              [[row[mark] for mark in marks] for row in rows if row["row"] == name],
              [[yes_or_no(item[mark]) for mark in marks] for item in answer[block]])
        for item in answer[block]:  # several positions share a line
            line = rf"^[SCD]* *{item['do_by']} +{re.escape(item['machine'])} +{re.escape(item['task'])}"
            check(f"season {season} as text: {key(item)}", bool(re.search(line, text, re.M)), True)


def by_why(fleet, points):
    tasks = sorted({(machine, task.split("@")[0]) for machine, task in points})
    with ThreadPoolExecutor(2) as pool:
        answers = list(pool.map(lambda task: fleet.json("why", *task), tasks))
    told = {key(point): (point["standing"], point["due_on"], point["due_span"])
            for answer in answers for point in answer["points"]}
    for name, point in points.items():
        # Why looks 30 days ahead, as the due list does where nothing else is said.
        check(f"why {' '.join(name)}", told.get(name), (point["standing"], point["due_on"], point["due_span"]))


def by_sheet(fleet, points):
    """Each point of a job sheet, whatever it stands under, and all that is due is on one."""
    for words in (["sheet"], ["sheet", "--within", "30d"]):
        on_sheets(fleet, points, words)


def on_sheets(fleet, points, words):
    answer = fleet.json(*words)
    told = {}
    for sheet in answer["sheets"] + answer["others"]:
        listed = [point for block in ("checks_owed", "measure_again", "put_off", "find_out") for point in sheet[block]]
        listed += [point for task in sheet["tasks"] for point in task["points"]]
        told |= {key(point): (point["standing"], point["due_on"], point["due_span"]) for point in listed}
        for task in sheet["tasks"]:
            told |= {key(point): None for part in task["includes"] for point in part["points"]}
            told |= {(sheet["machine"], check): None for check in task["renewed_checks"]}
    due = {name for name, point in points.items() if point["standing"] in ("overdue", "due", "coming", "no-record")}
    if "--within" not in words:  # nothing is called coming
        due = {name for name in due if points[name]["standing"] != "coming"}
    check(f"{words}: all that is due or coming is told", due - told.keys(), set())
    for name, days in told.items():
        point = points[name]
        standing = point["standing"]
        if standing == "coming" and "--within" not in words:
            standing = "later"
        if days:
            check(f"{words}: {name}", days, (standing, point["due_on"], point["due_span"]))
    sheet_stock(fleet, answer)


def sheet_stock(fleet, answer):
    """What a sheet says is not in stock: the days of `parts`, and those from which a season's work can have it."""
    parts = {part["part"]: part for part in fleet.json("parts")["parts"]}
    awaited = {}
    for season in ("harvest", "pumping"):
        told = fleet.json("season", season)
        awaited |= {(key(item), part["part"]): part for block in ("beforehand", "have_ready") for item in told[block]
                    if not item["again"] for part in item["waits_for"]}
    for sheet in answer["sheets"]:
        sums = {}
        for task in sheet["tasks"]:
            for lack in task["short"]:
                row = parts.get(lack["part"])
                if sheet["state"] is None and row is not None:
                    fleet.stock_compared += 1
                    what = f"sheet: {sheet['machine']} {task['task']} {lack['part']}"
                    check(f"{what}: counted", lack["counted"], row["stock"] is not None)
                    if lack["counted"]:
                        check(f"{what}: order", (lack["order_by"], lack["late_days"]), (row["order_by"], row["late_days"]))
                        check(f"{what}: short", 0 < lack["short_by"] <= row["short_by"], True)
                        uses = [use["do_by"] for use in row["uses"] if use["machine"] == sheet["machine"]]
                        check(f"{what}: the day of the work", lack["short_on"] in uses, True)
                for point in task["points"]:
                    wait = awaited.get((key(point), lack["part"]))
                    if wait and lack["counted"] and lack["there"] > lack["short_on"]:
                        check(f"sheet: {key(point)} waits for {lack['part']}", lack["there"], wait["from"])
                if not task["waits"] and lack["counted"]:
                    sums[lack["part"]] = sums.get(lack["part"], 0) + lack["short_by"]
        added = {part["part"]: part["short"]["short_by"] for part in sheet["parts"]
                 if part["short"] and part["short"]["counted"] and not part["from"]}
        check(f"sheet: {sheet['machine']} adds up what is not in stock", {part: round(amount, 2) for part, amount in sums.items()}, added)


class Page(html.parser.HTMLParser):
    """What a report's page says of each point in its list and on the pages of machines: the machine, and the day."""

    def __init__(self):
        super().__init__()
        self.days, self.part, self.row, self.into = {}, "", None, None

    def handle_starttag(self, tag, attributes):
        kinds = dict(attributes).get("class", "").split()
        if tag == "section" and "part" in kinds:
            self.part = dict(attributes)["id"]
        if tag == "table":
            self.row = None
        if tag == "tr":
            self.row = {"task": "", "whose": "", "when": "", "doing": "", "where": ""}
        self.into = next((kind for kind in kinds if kind in ("task", "whose", "when", "doing", "where")), self.into)

    def handle_endtag(self, tag):
        if tag == "tr" and self.row and self.row["task"]:
            self.row = {kind: " ".join(said.split()) for kind, said in self.row.items()}
            machine = self.part.removeprefix("machine-") if self.part.startswith("machine-") else self.row["whose"]
            self.days.setdefault(self.part, {})[machine, self.row["task"]] = self.row["when"]
        if tag in ("th", "td"):
            self.into = None

    def handle_data(self, data):
        if self.row is not None and self.into:
            self.row[self.into] += data


def by_report(fleet, points):
    """The page of a report, and its JSON: the answers as each command gives them."""
    report = fleet.json("report")
    season = "pumping" if report["season"]["season"] == "pumping" else "harvest"
    alone = {"due": ["due"], "overdue": ["due", "--overdue"], "season": ["season", season], "workload": ["workload"],
             "parts": ["parts", "--before", season], "forecast": ["forecast"]}
    for part, words in alone.items():
        answer = fleet.json(*words)
        if part == "forecast":  # on a page of one horizon: what it calls coming is coming in the due list, too
            for point in answer["points"]:
                if point["standing"] == "coming":
                    point["standing"] = points[key(point)]["standing"]
            check("report: forecast: some come later", any(point["standing"] == "later" for point in answer["points"]), True)
        check(f"report: {part}", report[part] == answer, True)
    for machine in report["machines"]:
        check(f"report: {machine['machine']}", machine["history"] == fleet.json("history", machine["machine"]), True)
    page = Page()
    page.feed(fleet.ask("report"))
    told = {}
    for part, days in page.days.items():
        if part in ("due", "overdue") or part.startswith("machine-"):
            for name, when in days.items():
                if name in points:  # a machine without record is one line
                    day = re.search(rf"\b(?:since|on|about|by(?= {DAY} at the latest)) ({DAY})|^(today)$", when)
                    day = (day[1] or fleet.as_of) if day else None
                    check(f"report: {part} says of {name}", day, points[name]["due_on"])
                    told[name] = part
    check("report: the page tells all points but those without record", told.keys() ^ points.keys(),
          {name for name, point in points.items() if point["standing"] == "no-record"} - told.keys())


def by_rounds(fleet, points):
    """A week: its tasks on their due days, nothing that is due forgotten, and the same stops in every format."""
    words = ["rounds", "--from", fleet.as_of]
    plan = fleet.json(*words)
    stops = [(one, stop) for one in plan["rounds"] for stop in one["stops"]]
    told = {key({"machine": visit["machine"], **task}): task["due_on"]
            for visit in [stop for _, stop in stops] + plan["put_off"] for task in visit["tasks"]}
    check("rounds: due days", told, {name: points[name]["due_on"] for name in told})
    check("rounds: some were compared", len(told) > 2, True)
    left = {key(row) for row in plan["not_planned"] if row["task"]}
    due = {name for name, point in points.items() if point["standing"] in ("overdue", "due")}
    check("rounds: what is due has a place or a reason", due - told.keys() - left, set())
    without = {name for name, point in points.items() if point["standing"] == "no-record" and not point["put_off"]}
    check("rounds: without record", without - {key(row) for row in plan["no_record"]} - left, set())
    times = [(one["crew"], one["on"], stop["visit"], stop["arrives"], stop["starts"], stop["ends"]) for one, stop in stops]
    rows = list(csv.DictReader(io.StringIO(fleet.ask(*words, "--format", "csv"))))
    check("rounds --format csv", [tuple(row[name] for name in ("crew", "on", "visit", "arrives", "starts", "ends"))
                                  for row in rows if row["row"] == "stop"], times)
    check("rounds --format csv: not this week", [row["visit"] for row in rows if row["row"] == "put-off"],
          [out["visit"] for out in plan["put_off"]])
    text = re.sub(r"\s+", " ", fleet.ask(*words))
    said = re.findall(r"Arrive (\d\d:\d\d)[^;]*(?:; [^;]* free)?; begin (\d\d:\d\d)[^;]*; done by (\d\d:\d\d)", text)
    check("rounds as text", said, [each[3:] for each in times])
    cost = sum(round(100 * (one["cost"] + sum(stop["waiting"] for stop in one["stops"]))) for one in plan["rounds"])
    cost += sum(round(100 * out["cost"]) for out in plan["put_off"])
    check("rounds: the figures add up", cost, round(100 * plan["cost"]["total"]))
    what_waits("rounds", plan, text, rows, points)


def what_waits(name, plan, text, rows, points):
    """What was seen is told in every format, and what of it waits to be mended is of the same facts."""
    check(f"{name}: what was seen, as text", [seen["sign"] for seen in plan["seen"] if f"{seen['sign']}, seen" not in text], [])
    check(f"{name}: something was", len(plan["to_mend"]) > 0, True)
    seen = {row["fact"]: (row["machine"], row["sign"], row["found"]) for row in plan["seen"]}
    was_seen = [row for row in plan["to_mend"] if row["name"] is None]
    check(f"{name}: what waits to be mended", [(row["machine"], row["sign"], row["found"]) for row in was_seen],
          [seen.get(row["fact"]) for row in was_seen])
    # What was measured is at the limit of the same point of the due list.
    for row in plan["to_mend"]:
        if row["name"] is None:
            continue
        limbs = [limb for limb in points[key(row)]["limbs"] if limb["kind"] == "measured" and limb["name"] == row["name"]]
        check(f"{name}: {key(row)} was measured", [(limb["value"], limb["limit"], limb["unit"]) for limb in limbs],
              [(row["value"], row["limit"], row["unit"])])
    check(f"{name} --format csv: what waits to be mended",
          [(row["machine"], row["task"], row["found"], row["on"], row["call"], row["do_not_run"]) for row in rows if row["row"] == "to-mend"],
          [(row["machine"], row["task"] or "", row["found"] or "", row["on"], row["call"] or "", yes_or_no(row["do_not_run"]))
           for row in plan["to_mend"]])


def unnamed(visits):
    """What is short, without the machines for which it is kept."""
    for visit in visits:
        for lack in visit["short"] + [lack for task in visit["tasks"] for lack in task["short"]]:
            lack.pop("kept_for", None)  # one visit may be asked twice
    return visits


def by_visits(fleet, points):
    """The weeks ahead: each point that is due by their end has its day or a reason, on the due day of the list; what is
    not known is what the due list has; and the same visits in every format."""
    plan = fleet.json("visits")
    to = plan["span"]["to"]
    tasks = [(visit, task) for visit in plan["visits"] for task in visit["tasks"]]
    told = {key(task): (task["due_on"], task["due_span"]) for _, task in tasks}
    check("visits: due days", told, {name: (points[name]["due_on"], points[name]["due_span"]) for name in told})
    check("visits: each task once, and some were compared", len(told) == len(tasks) > 10, True)
    impossible = {key(out): out["due_on"] for out in plan["not_possible"]}
    check("visits: due days of what is not possible", impossible, {name: points[name]["due_on"] for name in impossible})
    left = {key(row) for row in plan["not_planned"]} | impossible.keys()
    due = {name for name, point in points.items()
           if point["due_on"] and point["due_on"] <= to and point["standing"] != "no-record"}
    check("visits: what is due by then has a day or a reason", told.keys() | left, due)
    check("visits: without record", {key(row) for row in plan["no_record"]},
          {name for name, point in points.items() if point["standing"] == "no-record"})
    marks = ("standing", "by_estimate", "past_grace_by_estimate", "safety", "competent_person", "cautions", "do_not_run")
    listed = {key(point): point for point in fleet.json("due", "--within", "12w")["points"]}
    check("visits: marks", {key(task): [task[mark] for mark in marks] for _, task in tasks},
          {name: [listed[name][mark] for mark in marks] for name in told})
    for words in ([], ["--site", "quernholt"], ["combine"]):
        scoped, list = fleet.json("visits", *words), fleet.json("due", *words)
        for part in ("scope", "gaps", "seen", "not_in_use", "cautions"):
            check(f"visits {words}: {part}", scoped[part], list[part])
    # Of a site, or a machine, the same visits as of the fleet; but none is named that is not told, whatever is kept for it.
    check("visits --site", unnamed(fleet.json("visits", "--site", "quernholt")["visits"]),
          unnamed([visit for visit in plan["visits"] if visit["site"] == "quernholt"]))
    check("visits combine", unnamed(fleet.json("visits", "combine")["visits"]),
          unnamed([visit for visit in plan["visits"] if any(task["machine"] == "combine" for task in visit["tasks"])]))
    days = [(visit["on"], visit["site"], visit["crew"], key(task), task["early_days"], task["late_days"])
            for visit, task in tasks]
    rows = [row for row in csv.DictReader(io.StringIO(fleet.ask("visits", "--format", "csv")))]
    check("visits --format csv", [(row["on"], row["site"], row["crew"], key(row), int(row["early_days"]),
                                   int(row["late_days"])) for row in rows if row["row"] == "task"], days)
    for kind, part in (("not-possible", "not_possible"), ("no-record", "no_record"), ("not-planned", "not_planned"),
                       ("unknown", "unknown"), ("again", "again")):
        check(f"visits --format csv: {kind}", [key(row) for row in rows if row["row"] == kind],
              [key(point) for point in plan[part]])
    text = fleet.ask("visits")
    check("visits as text", [day for day in re.findall(rf"^\w+day ({DAY}): ", text, re.M)],
          [visit["on"] for visit in plan["visits"]])
    said = re.findall(rf"^(?:\w+day ({DAY}): |    - (\S+): )", text, re.M)
    at, lines = None, []
    for day, task in said:
        at = day or at
        lines += [(at, task)] if task and task != "look before it runs" else []
    check("visits as text: tasks", [line for line in lines if line[1] != "look"], [(visit["on"], key(task)[1]) for visit, task in tasks])
    cents = lambda money: round(100 * money)
    sums = {"trips": sum(cents(visit["trip_cost"]) for visit in plan["visits"]),
            "early": sum(cents(task["early"]) for _, task in tasks), "late": sum(cents(task["late"]) for _, task in tasks)}
    sums["total"] = sum(sums.values())
    check("visits: the figures add up", {name: cents(plan["cost"][name]) for name in sums}, sums)
    what_waits("visits", plan, re.sub(r"\s+", " ", fleet.ask("visits")), rows, points)
    check("visits: the bound, the plan and own days", plan["bound"] <= plan["cost"]["total"] <= plan["on_own_days"]["total"], True)


with tempfile.TemporaryDirectory(prefix="same-days-") as top:
    fleet = Fleet(top)
    fleet.stock_compared = 0
    for fleet.as_of in ASKED:
        points = by_due(fleet)
        by_machine(fleet, points)
        by_forecast(fleet, points)
        by_season(fleet, points)
        by_parts(fleet, points)
        by_why(fleet, points)
        by_sheet(fleet, points)
        by_report(fleet, points)
        by_visits(fleet, points)
        by_rounds(fleet, points)
    check("sheet: stock was compared on some day", fleet.stock_compared > 0, True)
    fleet = by_recurring(top)
print(f"cases: {passed} passed, {failed} failed")
sys.exit(1 if failed or not passed else 0)
