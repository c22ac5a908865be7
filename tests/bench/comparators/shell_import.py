"""`.import` of the sqlite3 shell: the same facts into a table of texts without an index, durably, judged by nobody."""
TITLE = ".import"


def book(place):
    return place.work / "imported.db"


def before_each(place):
    book(place).unlink(missing_ok=True)


def command(place, _):
    return [place.sqlite, book(place), "-cmd", "pragma synchronous=extra",
            "-cmd", 'create table fact ("on", kind, machine, at, task, last, first, "until", note)',
            f".import --csv --skip 1 {place.text / 'facts.csv'} fact"]
