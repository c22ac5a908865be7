"""Runs a command that writes while something goes wrong, and looks at the book and at what was said of it."""
import itertools
import json
import shutil
import stat

from support import DRAWN, Damaged, insist, rows_of, run, words
from writings import Stage

IO_FAILED = 74
KILLED = (-9, 137)
PRIVATE = 0o600


def content_of(file):
    """A file's content; of a copy of the book, what is written in it."""
    data = file.read_bytes() if file.exists() else b""
    return rows_of(file) if data.startswith(b"SQLite format 3\0") else data


class Bench:
    def __init__(self, binary, top, summary):
        self.binary = binary
        self.top = top
        self.summary = summary
        self.stage = Stage(binary, top)
        self.numbers = itertools.count()
        self.writings = self.stage.writings()
        self.journals = 0  # how many were seen, and were private
        self.known = {writing: self.know(writing) for writing in self.writings}

    def folder(self):
        return self.top / f"run-{next(self.numbers)}"

    def set(self, writing):
        return self.stage.set(writing, self.folder())

    def know(self, writing):
        """What the book and the file hold before and after a run in which nothing goes wrong."""
        folder = self.set(writing)
        record = folder / (writing.starts or "fleet") / "record.db"
        old = None if writing.starts else rows_of(record)
        old_file = content_of(folder / writing.makes) if writing.makes else None
        insist(run(self.binary, self.stage.words(writing), folder), writing.title)
        new_file = content_of(folder / writing.makes) if writing.makes else None
        return {"old": old, "new": rows_of(record, DRAWN), "old file": old_file, "new file": new_file}

    def run(self, writing, folder, **how):
        return run(self.binary, self.stage.words(writing), folder, umask=0, **how)

    def verdict(self, writing, folder):
        """`old`, `new`, or what is wrong. Looks at a copy, so that a cut-off write is still there for the command."""
        known = self.known[writing]
        copy = self.folder()
        copy.mkdir()
        fleet = folder / (writing.starts or "fleet")
        for file in fleet.glob("record.db*"):
            shutil.copy(file, copy)
        try:
            if not writing.starts and rows_of(copy / "record.db") == known["old"]:
                verdict = "old"
            elif rows_of(copy / "record.db", DRAWN) == known["new"]:
                verdict = "new"
            else:
                verdict = "in between"
        except Damaged as error:
            verdict = f"damaged: {error}"
        shutil.rmtree(copy)
        if writing.starts and (verdict != "new" or not (fleet / "fleet.yaml").exists()):
            return "old"  # no fleet yet; whether it can be started all the same, the next run tells
        if writing.makes:
            if verdict != "old":
                return f"the book is {verdict}"
            content = content_of(folder / writing.makes)
            sides = {"old": known["old file"], "new": known["new file"]}
            return next((side for side, known_content in sides.items() if content == known_content), "half a file")
        return verdict

    def look(self, writing, folder, done, what, may_leave=None, statuses=(IO_FAILED,), mute=False):
        """Judges a run in which something went wrong, then runs what comes next, and takes the folder away.
        `may_leave`: which new files it may leave where it failed, if that is known. `mute`: it could not speak."""
        check = self.summary.check
        what = f"{writing.title}, {what}: "
        complained = (done.stderr or b"").decode(errors="replace")
        check(done.returncode in (0, *statuses, *KILLED), f"{what}exit status {done.returncode}: {complained}")
        verdict = self.verdict(writing, folder)
        check(verdict in ("old", "new"), f"{what}exit status {done.returncode}, and it is {verdict}")
        if done.returncode == 0:
            check(verdict == "new", f"{what}exit status 0, and it is {verdict}")
        if "nothing was stored" in complained:
            check(verdict == "old", f"{what}it says that nothing was stored, and it is {verdict}")
        if "is stored" in complained:
            check(verdict == "new", f"{what}it says that it is stored, and it is {verdict}")
        if not mute and done.returncode not in (0, *KILLED):
            check(complained, f"{what}exit status {done.returncode}, and no word about it")
            if verdict == "new" and not writing.makes:
                check("stored" in complained, f"{what}it is stored, and there is no word about it: {complained}")
        for file in folder.rglob("*record.db*"):  # also while it has no name yet
            mode = stat.S_IMODE(file.stat().st_mode)
            check(mode == PRIVATE, f"{what}{file.name} has the mode {mode:o}")
            self.journals += file.name.endswith("-journal")
        if may_leave is not None and verdict == "old" and not writing.starts:
            left = {file.name for file in folder.rglob("*")} - {file.name for file in self.stage.base.rglob("*")}
            check(left <= may_leave, f"{what}it left behind {sorted(left - may_leave)}")
        self.go_on(writing, folder, verdict, what)
        shutil.rmtree(folder)

    def go_on(self, writing, folder, verdict, what):
        """The next command just works."""
        fleet = writing.starts or "fleet"
        if verdict == "old":
            again = run(self.binary, self.stage.words(writing), folder)
            works = again.returncode == 0 and self.verdict(writing, folder) == "new"
            if not self.summary.check(works, f"{what}the same command afterwards: {again.returncode} "
                                             f"{again.stderr.decode()}") and writing.starts:
                return  # there is no fleet to ask
        checked = run(self.binary, words("check", "--format json"), folder, fleet)  # reads all facts
        told = json.loads(checked.stdout) if checked.stdout else {}
        unused = told["odd_books"] + told["odd_kinds"] if told else checked.stderr.decode()
        self.summary.check(unused == [], f"{what}`check` afterwards: what is kept of machines is not used: {unused}")
        listed = run(self.binary, words("due"), folder, fleet)
        self.summary.check(listed.returncode == 0,
                           f"{what}`due` afterwards: {listed.returncode} {listed.stderr.decode()}")
