"""The commands that write, each as it is run by the fault tests. A new command is one line here.

A command that the binary does not have yet is skipped, with a word about it.
"""
import shutil
from typing import NamedTuple

import fleet
from support import listed_commands, words


class Writing(NamedTuple):
    command: str
    rest: str = ""
    makes: str = ""  # the file that it makes or replaces, where it is not the book that it changes
    starts: str = ""  # the fleet that it starts, where it does
    without: str = ""  # what is taken away before it runs: a file, or `*` for all

    @property
    def title(self):
        shown = f"{self.command} {self.rest}".split(" --")[0]
        return shown.replace("{last-reading}", "ID").replace("{its-command}", "ID").strip()


WRITINGS = [
    Writing("reading", "loader 1210 --on 2026-06-14"),
    Writing("done", "loader engine-oil --at 1210 --on 2026-06-14 --by tester"),
    Writing("saw", "loader leak restriction=7"),
    Writing("looked", "loader leak --note tightened"),
    Writing("meter-change", "loader --last 1210 --first 0"),
    Writing("strike", "{last-reading} --note misread"),
    Writing("undo", "{its-command}"),
    Writing("import", "rows.csv"),
    Writing("import", "texts.txt --messages"),
    Writing("new", "yard", starts="yard", without="*"),
    Writing("new", "fleet", starts="fleet", without="fleet/record.db"),
    Writing("new", "taken --from list.csv --as-of 2026-06-15", starts="taken"),
    Writing("export", "--output book.csv", makes="book.csv"),
    Writing("put-off", "loader engine-oil --until 2026-07-04 --by tester --note harvest"),
    Writing("lay-up", "drill --until 2026-11-01"),
    Writing("out-of-use", "drill --note cracked"),
    Writing("back", "pump"),
    Writing("count", "oil-filter 4"),
    Writing("merge", "other.db"),
    Writing("backup", "copy.db", makes="copy.db"),
]


class Stage:
    """The fleet made once, from which each run gets a fresh copy."""

    def __init__(self, binary, folder):
        self.binary = binary
        self.base = folder / "base"
        fleet.make(binary, self.base)
        self.last_reading = fleet.last_reading(binary, self.base)

    def writings(self):
        """Those that this binary has."""
        listed = listed_commands(self.binary)
        return [writing for writing in WRITINGS if writing.command in listed]

    def skipped(self):
        listed = listed_commands(self.binary)
        return [writing.command for writing in WRITINGS if writing.command not in listed]

    def set(self, writing, folder):
        """Puts in `folder` what the command finds before it runs."""
        if writing.without == "*":
            folder.mkdir()
        else:
            shutil.copytree(self.base, folder)
            if writing.without:
                (folder / writing.without).unlink()
        return folder

    def words(self, writing):
        command = self.last_reading.split("-")[0]  # an import: it must be named to be undone
        return words(writing.command,
                     writing.rest.replace("{last-reading}", self.last_reading).replace("{its-command}", command))
