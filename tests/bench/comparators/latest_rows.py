"""The latest state of a fleet as a database, one narrow row a point and one a meter: what a tuned program would keep.

Made from the facts by the plain script's reader; making it is not measured.
"""
import datetime
import sqlite3

from comparators import due_script

EPOCH = datetime.date(1970, 1, 1)
MONTHS = range(1990 * 12, 2060 * 12)  # since the year 0
TABLES = """
create table machine (id integer primary key, name text not null) strict;
create table task (id integer primary key, name text not null, safety integer not null, hours integer not null, months integer not null,
                   grace integer not null, grace_days integer not null) strict;
create table meter (machine integer primary key, day integer not null, usage integer not null) strict;
create table point (id integer primary key, machine integer not null, task integer not null, fitted_on integer not null, fitted_at integer not null) strict;
create table day (id integer primary key, month integer not null, into_month integer not null) strict;
create table month (id integer primary key, first_day integer not null, last_day integer not null) strict;
"""


def path(place):
    return place.text / "latest.db"


def number(day):
    return (day - EPOCH).days


def first_of(month):
    return number(datetime.date(month // 12, month % 12 + 1, 1))


def make(place):
    """One for all that need it, and kept beside the fleet."""
    if path(place).exists():
        return
    kinds, machines = due_script.read_fleet(place.text, datetime.date.fromisoformat(place.as_of))
    tasks = [task for of_kind in kinds.values() for task in of_kind]
    ids = {(task["kind"], task["task"]): n for n, task in enumerate(tasks, 1)}
    unfinished = path(place).with_suffix(".part")
    unfinished.unlink(missing_ok=True)
    book = sqlite3.connect(unfinished)
    with book:
        book.executescript(TABLES)
        book.executemany("insert into task values (?, ?, ?, ?, ?, ?, ?)",
                         ((ids[task["kind"], task["task"]], task["task"], int(task["safety"]), int(task["hours"]) * 100, int(task["months"]),
                           int(task["grace_hours"]) * 100, int(task["grace_days"])) for task in tasks))
        book.executemany("insert into machine values (?, ?)", enumerate(machines, 1))
        book.executemany("insert into meter values (?, ?, ?)",
                         ((n, number(it.book[-1][0]), it.book[-1][1]) for n, it in enumerate(machines.values(), 1)))
        book.executemany("insert into point (machine, task, fitted_on, fitted_at) values (?, ?, ?, ?)", points(kinds, machines, ids))
        book.executemany("insert into month values (?, ?, ?)", ((n, first_of(n), first_of(n + 1) - 1) for n in MONTHS))
        book.executemany("insert into day values (?, ?, ?)", ((day, n, day - first_of(n)) for n in MONTHS for day in range(first_of(n), first_of(n + 1))))
    book.execute("analyze")
    book.close()
    unfinished.rename(path(place))


def points(kinds, machines, ids):
    for n, machine in enumerate(machines.values(), 1):
        for task in kinds[machine.kind]:
            day, usage = machine.done.get(task["task"], (machine.first_day, 0))
            yield n, ids[task["kind"], task["task"]], number(day), usage
