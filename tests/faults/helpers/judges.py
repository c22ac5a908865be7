"""What a folder must be after a power cut: as it was before the command, or as it is after it."""
import hashlib
import shutil

from disk import lay_out
from support import DRAWN, Damaged, rows_of, run, words

OLD, NEW, BETWEEN, DAMAGED = "old", "new", "in between", "damaged"


class BookJudge:
    """Judges the record by all rows of all its tables, read by the database engine in this process. That takes a
    millisecond; the command itself takes ten and is asked about a sample (`ask_command`)."""

    fleet = "fleet"

    def __init__(self, binary, writing, before, after, place):
        self.binary = binary
        self.place = place
        self.verdicts = {}
        self.rows = {side: rows_of(top / self.fleet / "record.db") for side, top in ((OLD, before), (NEW, after))}
        self.answers = {side: self.answer(top) for side, top in ((OLD, before), (NEW, after))}
        if not writing.makes and self.rows[OLD] == self.rows[NEW]:
            raise SystemExit(f"`{writing.title}` changed nothing, so there is nothing to judge")

    def answer(self, top):
        """What people are told: the whole book, and the due list, which needs the fleet's files as well."""
        questions = words("export", "--format jsonl"), words("due", "--format json")
        answers = [run(self.binary, question, top, self.fleet) for question in questions]
        return [(done.returncode, done.stdout, done.stderr) for done in answers]

    def cleared(self):
        shutil.rmtree(self.place, ignore_errors=True)
        return self.place

    def side_of(self, rows):
        return next((side for side, known in self.rows.items() if rows == known), BETWEEN)

    def verdict(self, files, _folders):
        """By the record and its journal; the same bytes are looked at once."""
        book = {name: data for name, data in files.items() if name.startswith(self.fleet + "/record.db")}
        key = hashlib.sha256(repr(sorted(book.items())).encode()).digest()
        if key not in self.verdicts:
            lay_out(book, {"", self.fleet}, self.cleared())
            try:
                self.verdicts[key] = self.side_of(rows_of(self.place / self.fleet / "record.db"))
            except Damaged:
                self.verdicts[key] = DAMAGED
        return self.verdicts[key]

    def ask_command(self, files, folders, verdict):
        """Whether the command itself tells the same as our own reader."""
        lay_out(files, folders, self.cleared())
        return self.answer(self.place) == self.answers.get(verdict)


class FileJudge(BookJudge):
    """For a command that makes or replaces a file and leaves the book alone."""

    def __init__(self, binary, writing, before, after, place):
        super().__init__(binary, writing, before, after, place)
        made = after / writing.makes
        self.name = writing.makes
        self.contents = {OLD: None, NEW: made.read_bytes()}
        if (before / writing.makes).exists():
            self.contents[OLD] = (before / writing.makes).read_bytes()

    def verdict(self, files, folders):
        if super().verdict(files, folders) != OLD:
            return DAMAGED
        content = files.get(self.name)
        return next((side for side, known in self.contents.items() if content == known), BETWEEN)

    def ask_command(self, files, folders, verdict):
        return super().ask_command(files, folders, OLD)


class StartJudge(BookJudge):
    """For a command that starts a fleet: whole, or so that the same command makes it whole."""

    def __init__(self, binary, writing, before, after, place):
        self.binary = binary
        self.place = place
        self.fleet = writing.starts
        self.command = words(writing.command, writing.rest)
        self.before = before
        self.rows = {NEW: rows_of(after / self.fleet / "record.db")}
        self.told = rows_of(after / self.fleet / "record.db", DRAWN)
        self.answers = {NEW: self.answer(after)}
        self.others = {path.relative_to(after).as_posix(): path.read_bytes() for path in after.rglob("*")
                       if path.is_file() and not path.name.startswith((".", "record.db"))}
        self.verdicts = {}

    def verdict(self, files, folders):
        key = hashlib.sha256(repr((sorted(files.items()), sorted(folders))).encode()).digest()
        if key not in self.verdicts:
            self.verdicts[key] = self.look(files, folders)
        return self.verdicts[key]

    def look(self, files, folders):
        record = self.place / self.fleet / "record.db"
        lay_out(files, folders, self.cleared())
        if self.is_whole(record) and all(files.get(name) == data for name, data in self.others.items()):
            return NEW
        lay_out(files, folders, self.cleared())  # once more: to look may have rolled something back
        again = run(self.binary, self.command, self.place, self.fleet)
        return OLD if again.returncode == 0 and self.says_the_same(record) else BETWEEN

    def is_whole(self, record):
        try:
            return rows_of(record) == self.rows[NEW]
        except Damaged:
            return False

    def says_the_same(self, record):
        """Made by another run, so with ids of its own."""
        try:
            return rows_of(record, DRAWN) == self.told
        except Damaged:
            return False

    def ask_command(self, files, folders, verdict):
        return verdict != NEW or super().ask_command(files, folders, verdict)


def judge_of(binary, writing, before, after, place):
    kind = StartJudge if writing.starts else FileJudge if writing.makes else BookJudge
    return kind(binary, writing, before, after, place)
