"""An answer that cannot be given: standard output is a full disk, is closed, or its reader has gone."""
import os
import subprocess

from bench import IO_FAILED
from support import listed_commands, run, words

# How each command that only asks is run. A new one is one line here.
READS = {
    "due": "",
    "why": "loader engine-oil",
    "history": "loader",
    "export": "",
    "help": "",
    "check": "",
    "find-out": "",
    "forecast": "",
    "season": "harvest",
    "workload": "",
    "parts": "",
    "sheet": "",
    "report": "",
    "visits": "",
    "rounds": "--from today",
    "completion": "bash",
    "mail": "",
}
ONE_FORM = ("mail",)  # a message, whatever the format
CLOSED = {  # what the shell closes before the command starts
    ">&-": "stdout closed",
    "<&- >&-": "stdin and stdout closed",
    ">&- 2>&-": "stdout and stderr closed",
    "<&- >&- 2>&-": "all closed",
}


def shell(redirection):
    return ["bash", "-c", f'exec "$@" {redirection}', "-"]


def asked(bench):
    """Everything that prints and stores nothing: name and arguments."""
    yield "--version", ["--version"]
    yield "--help", ["--help"]
    for command in listed_commands(bench.binary):
        yield f"{command} --help", [command, "--help"]
        if command in READS:
            yield command, words(command, READS[command])
            if command != "help" and command not in ONE_FORM:
                yield f"{command} as JSON", words(command, f"{READS[command]} --format json")
        else:
            known = any(command == writing.command for writing in bench.writings)
            bench.summary.check(known, f"`{command}` is neither in READS nor in WRITINGS, so it is not tried")
    for writing in bench.writings:
        if not writing.makes and not writing.starts:
            yield f"{writing.title} --dry-run", [*bench.stage.words(writing), "--dry-run"]


def closed_pipe():
    reads, writes = os.pipe()
    os.close(reads)
    return writes


def with_questions(bench):
    check = bench.summary.check
    folder = bench.folder()
    bench.stage.set(bench.writings[0], folder)
    record = folder / "fleet" / "record.db"
    before = record.read_bytes()
    runs = 0
    with open("/dev/full", "wb") as full:
        for name, arguments in asked(bench):
            fine = run(bench.binary, arguments, folder)
            check(fine.returncode == 0 and fine.stdout, f"{name}: {fine.returncode} {fine.stderr.decode()}")
            done = run(bench.binary, arguments, folder, stdout=full)
            check(done.returncode == IO_FAILED and done.stderr, f"{name} > /dev/full: exit status {done.returncode}")
            for redirection, what in CLOSED.items():
                done = run(bench.binary, arguments, folder, before=shell(redirection))
                check(done.returncode == IO_FAILED, f"{name}, {what}: exit status {done.returncode}")
                check(done.stderr or "2>" in redirection, f"{name}, {what}: no word about it")
            gone = closed_pipe()
            done = run(bench.binary, arguments, folder, stdout=gone)
            os.close(gone)
            check(done.returncode == 0 and not done.stderr, f"{name} | nobody: exit status {done.returncode}")
            check(record.read_bytes() == before, f"{name} changed the record")
            runs += 7
    return runs


def with_writings(bench):
    """What was stored before the answer failed stays, and is said."""
    runs = 0
    for writing in bench.writings:
        if "--output" in writing.rest:
            continue  # prints nothing
        with open("/dev/full", "wb") as full:
            folder = bench.set(writing)
            done = bench.run(writing, folder, stdout=full)
        bench.summary.check(done.returncode == IO_FAILED, f"{writing.title} > /dev/full: exit {done.returncode}")
        bench.look(writing, folder, done, "> /dev/full")
        for redirection, what in CLOSED.items():
            folder = bench.set(writing)
            done = bench.run(writing, folder, before=shell(redirection))
            bench.summary.check(done.returncode == IO_FAILED, f"{writing.title}, {what}: exit {done.returncode}")
            bench.look(writing, folder, done, what, mute="2>" in redirection)
        runs += 1 + len(CLOSED)
    return runs


def errors_unheard(bench):
    """A complaint that cannot be printed must not end up in a file of ours: the lowest closed number is given anew."""
    runs = 0
    for arguments in (["new", "fleet"], words("reading", "loader 1"), words("import", "missing.csv"),
                      words("reading", "nobody 5")):
        folder = bench.folder()
        bench.stage.set(bench.writings[0], folder)
        before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
        heard = run(bench.binary, arguments, folder)
        for redirection in ("2>&-", *CLOSED):
            done = subprocess.run([*shell(redirection), str(bench.binary), "--fleet", "fleet", *arguments], cwd=folder,
                                  stdin=subprocess.DEVNULL, capture_output=True, timeout=60)
            bench.summary.check(done.returncode == heard.returncode != 0,
                                f"{arguments} {redirection}: {done.returncode} instead of {heard.returncode}")
            after = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
            bench.summary.check(before == after, f"{arguments} {redirection} changed a file")
            runs += 1
    return runs


def all_of_it(bench):
    return with_questions(bench) + with_writings(bench) + errors_unheard(bench)
