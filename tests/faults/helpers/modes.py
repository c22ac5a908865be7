"""The book is its owner's alone: the record, its journal while there is one, and every file made from it."""
import re
import stat

from bench import PRIVATE
from calls import injecting, strace
from support import insist, run, words

CREATED = re.compile(r'openat\([^"]*"([^"]*)", [A-Z_|]*O_CREAT[A-Z_|]*, (0\d+)\)')


def mode_of(file):
    return stat.S_IMODE(file.stat().st_mode)


def sweep(bench):
    check = bench.summary.check
    runs = 0
    for umask in (0o000, 0o022, 0o077):
        what = f"umask {umask:03o}: "
        folder = bench.folder()
        folder.mkdir()
        insist(run(bench.binary, words("new", "yard"), folder, umask=umask), "new")
        check(mode_of(folder / "yard" / "record.db") == PRIVATE, f"{what}record.db")

        # Killed at its first sync, a command leaves its journal.
        reading = bench.writings[0]
        folder = bench.set(reading)
        cut = injecting(folder.with_suffix(".trace"), "fdatasync:signal=KILL:when=1")
        run(bench.binary, bench.stage.words(reading), folder, before=cut, umask=umask)
        journal = folder / "fleet" / "record.db-journal"
        check(journal.exists() and mode_of(journal) == PRIVATE, f"{what}the journal")
        runs += 2

        for writing in bench.writings:
            folder = bench.set(writing)
            trace = folder.with_suffix(".trace")
            insist(run(bench.binary, bench.stage.words(writing), folder, before=strace(trace, "-e", "trace=openat"),
                       umask=umask), writing.title)
            created = CREATED.findall(trace.read_text())
            check(created, f"{writing.title}: it made no file at all")
            for name, mode in created:  # the mode asked for, so that it was never wider, not even for a moment
                own = name.endswith(".yaml")  # a fleet's files are no secret
                check(own or int(mode, 8) == PRIVATE, f"{what}{writing.title} made {name} with {mode}")
            if writing.makes:
                check(mode_of(folder / writing.makes) == PRIVATE, f"{what}{writing.makes}")
            runs += 1
    return runs
