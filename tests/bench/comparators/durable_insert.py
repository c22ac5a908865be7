"""One reading inserted by the sqlite3 shell, as durably as our record is written: synchronous=EXTRA, journal DELETE."""
import sqlite3

TITLE = "durable insert"


def book(place):
    return place.work / "readings.db"


def prepare(place):
    """A table of readings as large as the fleet's."""
    with sqlite3.connect(book(place)) as made:
        made.execute("create table reading (id integer primary key, machine text not null, day integer not null, at integer not null) strict")
        made.executemany("insert into reading (machine, day, at) values (?, ?, ?)",
                         ((f"m{n % place.size.machines + 1:07}", n, n) for n in range(place.facts // 2)))
    made.close()


def command(place, _):
    return [place.sqlite, book(place), "pragma synchronous=extra; insert into reading (machine, day, at) values ('m0000001', 20000, 1000)"]
