"""The due list by one statement of SQL (due.sql) on the latest rows; `first` is the first hundred of what is overdue."""
import datetime
import pathlib

from comparators import latest_rows

TITLE = "tuned SQL"
STATEMENT = pathlib.Path(__file__).with_name("due.sql")


def prepare(place):
    latest_rows.make(place)


def command(place, rows):
    as_of = latest_rows.number(datetime.date.fromisoformat(place.as_of))
    return [place.sqlite, "-readonly", "-csv", "-header", "-cmd", f".parameter set :as_of {as_of}", "-cmd", f".parameter set :all {int(rows == 'all')}",
            "-cmd", f".parameter set :rows {100 if rows == 'first' else -1}", latest_rows.path(place), f".read {STATEMENT}"]
