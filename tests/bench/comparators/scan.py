"""A bare scan of the latest rows (scan.cpp)."""
from comparators import latest_rows

TITLE = "bare scan"


def prepare(place):
    latest_rows.make(place)


def command(place, _):
    return [place.tool("comparators/scan.cpp", "-lsqlite3"), latest_rows.path(place)]
