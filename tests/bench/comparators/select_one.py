"""The least that a program which opens a database costs: `sqlite3 record.db 'select 1'`."""
TITLE = "select 1"


def command(place, _):
    return [place.sqlite, place.record, "select 1"]
