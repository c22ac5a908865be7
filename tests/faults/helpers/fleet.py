"""A small fleet with a book: enough machines, tasks and facts that a record has more than one page of each table."""
import datetime
import json
import shutil

from support import exported, insist, run, words

FLEET = """\
fleet: Test yard
time-zone: UTC
seasons: {harvest: {from: 08-01, to: 09-20}}
stale-after: 60 days
mail: {to: [office@skarvey.example]}
parts:
  oil-filter: {what: Oil filter, unit: piece}
sites: {yard: {name: Yard, at: [54.1, 3.2]}, hill: {name: Hill, at: [54.2, 3.2]}}
crews: {van: {start: yard, hours: {mon-sun: "07:00-16:00"}}}
costs: {hour: 44, km: 0.55}
machines:
  loader: {name: Loader tractor, schedule: tractor, site: hill, in-service: {on: 2024-01-01, at: 0}}
  drill: {name: Drill tractor, schedule: tractor, in-service: {on: 2024-01-01, at: 0}}
  pump: {name: Pump, schedule: tractor, in-service: {on: 2024-01-01, at: 0}}
"""
SCHEDULE = """\
schedule: tractor
meters: {engine: {unit: h}}
tasks:
  engine-oil:
    do: Change the oil
    every: {hours: 250, months: 12, signs: [leak]}
    parts: {oil-filter: 1}
    follow-up: {check-leaks: {do: Look for leaks, within: {hours: 1}}}
  air-filter:
    do: Change the air filter
    every: {hours: 500, measured: {restriction: {above: 6, unit: kPa}}}
"""
HEAD = "kind,machine,on,at,task,note\n"


def weekly(machine, count, first_day, first_hour):
    days = (first_day + datetime.timedelta(days=7 * week) for week in range(count))
    return [f"reading,{machine},{day},{first_hour + 10 * week},,\n" for week, day in enumerate(days)]


def make(binary, folder):
    """Makes `folder` with `fleet` and what the commands of the list read: rows to import, another copy of the book."""
    fleet = folder / "fleet"
    (fleet / "schedules").mkdir(parents=True)
    (fleet / "fleet.yaml").write_text(FLEET)
    (fleet / "schedules" / "tractor.yaml").write_text(SCHEDULE)
    insist(run(binary, ["new", "fleet"], folder), "making the record")

    begun = datetime.date(2024, 1, 8)
    rows = weekly("loader", 120, begun, 5) + weekly("drill", 40, begun, 5)
    rows += [f"service,loader,{2024 + n // 2}-0{3 + n % 2 * 4}-01,,engine-oil,done in the yard\n" for n in range(5)]
    rows.append("laid-up,pump,2026-05-01,,,\n")
    (folder / "first.csv").write_text(HEAD + "".join(rows))
    insist(run(binary, words("import", "first.csv"), folder), "the first import")
    (folder / "rows.csv").write_text(HEAD + "".join(weekly("pump", 120, begun, 7)))

    (folder / "texts.txt").write_text("loader 1210\nsaw loader leak\nlooked loader leak found good\npump 9\nsaw pump noise\n")
    (folder / "list.csv").write_text("Machine;Site;Hours\n" + "".join(f"Machine {n};Yard;{n * 100}\n" for n in range(40)))

    # The other copy is of the same book and knows one fact more.
    shutil.copytree(fleet, folder / "elsewhere")
    insist(run(binary, words("reading", "pump 9 --on 2024-01-20"), folder, "elsewhere"), "writing in the other copy")
    shutil.copy(folder / "elsewhere" / "record.db", folder / "other.db")
    shutil.rmtree(folder / "elsewhere")
    (fleet / ".compiled-fleet").unlink(missing_ok=True)  # so that writing commands have to make it


def last_reading(binary, folder):
    """The id of the loader's last reading, for whoever strikes it."""
    facts = map(json.loads, exported(binary, folder).stdout.decode().splitlines())
    ids = [fact["id"] for fact in facts if fact["kind"] == "reading" and fact["machine"] == "loader"]
    return ids[-1]
