#!/usr/bin/env python3
"""Many who write at once, and readers among them; then a record that somebody holds for too long.

usage: crowd.py COMMAND

8 writers give 50 commands each, one after the other: readings of a machine of their own, readings of their own meter
on a machine that all share, and measurements on that machine. Meanwhile 2 readers ask for the due list. Afterwards
the book holds each of the 400 facts once, no command failed, and no reader saw usage go back.

Another process that holds the write lock for longer than the command waits (10 s) gives status 75, and nothing is
stored; one that lets go in time is waited for.
"""
import datetime
import json
import pathlib
import sqlite3
import sys
import threading
import time
from concurrent.futures import ThreadPoolExecutor

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "helpers"))
from support import Summary, exported, insist, rows_of, run, scratch, words

WRITERS, EACH, READERS = 8, 50, 2
PATIENCE = 10  # seconds that a command waits
BUSY = 75

FLEET = "fleet: Crowded yard\ntime-zone: UTC\nmachines:\n" + "".join(
    f"  own-{n}: {{schedule: single, in-service: {{on: 2026-03-01, at: 0}}}}\n" for n in range(WRITERS)
) + "  shared: {schedule: shared, in-service: {on: 2026-03-01, at: 0}}\n"
SINGLE = "schedule: single\nmeters: {engine: {unit: h}}\ntasks: {oil: {do: Change the oil, every: {hours: 5000}}}\n"
SHARED = "schedule: shared\nmeters:\n" + "".join(
    f"  m{n}: {{unit: h}}\n" for n in range(WRITERS)
) + "tasks:\n" + "".join(
    f"  oil-{n}: {{do: Change the oil, every: {{usage: {{m{n}: 5000}}}}}}\n" for n in range(WRITERS)
) + "  filter: {do: Change the filter, every: {measured: {restriction: {above: 90, unit: kPa}}}}\n"


def make(binary, folder):
    (folder / "fleet" / "schedules").mkdir(parents=True)
    (folder / "fleet" / "fleet.yaml").write_text(FLEET)
    (folder / "fleet" / "schedules" / "single.yaml").write_text(SINGLE)
    (folder / "fleet" / "schedules" / "shared.yaml").write_text(SHARED)
    insist(run(binary, ["new", "fleet"], folder), "making the record")
    return folder


def step(writer, number):
    """One command of a writer, and the fact that it adds: no two are alike."""
    day = datetime.date(2026, 4, 1) + datetime.timedelta(days=number)
    hours = 10 * (number + 1) + writer / 10
    if number % 3 == 0:
        return words("reading", f"own-{writer} {hours} --on {day}"), ("reading", f"own-{writer}", str(day), hours)
    if number % 3 == 1:
        rest = f"shared {hours} --meter m{writer} --on {day}"
        return words("reading", rest), ("reading", "shared", str(day), hours)
    value = round(writer + number / 100, 2)
    return words("saw", f"shared restriction={value} --on {day}"), ("measurement", "shared", str(day), value)


def crowd(binary, folder, check):
    slowest, answers, over = [0.0] * WRITERS, [0] * READERS, threading.Event()

    def write(writer):
        for number in range(EACH):
            begun = time.monotonic()
            done = run(binary, step(writer, number)[0], folder)
            slowest[writer] = max(slowest[writer], time.monotonic() - begun)
            check(done.returncode == 0 and b"Saved" in done.stdout and not done.stderr,
                  f"writer {writer}, command {number}: {done.returncode} {done.stderr.decode()}")

    def read(reader):
        used = {}
        while not over.is_set():
            done = run(binary, words("due", "--format json"), folder)
            if not check(done.returncode == 0, f"reader {reader}: {done.returncode} {done.stderr.decode()}"):
                continue
            points = json.loads(done.stdout)["points"]
            check(len(points) == 2 * WRITERS + 1, f"reader {reader} saw {len(points)} service points")
            for point in points:
                now = point["limbs"][0].get("used") or 0
                place = point["machine"], point["task"]
                if point["limbs"][0]["kind"] == "usage":
                    check(now >= used.get(place, 0), f"reader {reader}: {place} went back to {now}")
                    used[place] = now
            answers[reader] += 1
        check(any(used.values()), f"reader {reader} saw no usage at all")

    begun = time.monotonic()
    with ThreadPoolExecutor(WRITERS + READERS) as pool:
        readers = [pool.submit(read, number) for number in range(READERS)]
        writers = [pool.submit(write, number) for number in range(WRITERS)]
        try:
            for writer in writers:
                writer.result()
            seconds = time.monotonic() - begun
        finally:
            over.set()
        for reader in readers:
            reader.result()

    facts = [json.loads(line) for line in insist(exported(binary, folder), "export").stdout.decode().splitlines()]
    found = sorted((fact["kind"], fact["machine"], fact["on"], float(fact.get("at") or fact.get("value")))
                   for fact in facts)
    expected = sorted(step(writer, number)[1] for writer in range(WRITERS) for number in range(EACH))
    check(len(facts) == WRITERS * EACH, f"{len(facts)} facts instead of {WRITERS * EACH}")
    check(found == expected, "the facts are not those that were written")
    check(len({fact["id"] for fact in facts}) == len(facts), "an id was given twice")
    rows_of(folder / "fleet" / "record.db")
    check(min(answers) > 0, "a reader got no answer at all")
    print(f"crowd: {len(facts)} facts by {WRITERS} writers in {seconds:.1f} s, "
          f"the slowest command {max(slowest):.2f} s, {sum(answers)} answers to {READERS} readers")


class Held:
    """A record that is locked by this process, as another program would."""

    def __init__(self, folder, how):
        self.database = sqlite3.connect(folder / "fleet" / "record.db", isolation_level=None, check_same_thread=False)
        self.database.execute(f"BEGIN {how}")

    def let_go(self):
        self.database.execute("ROLLBACK")
        self.database.close()


READING = words("reading", "own-0 5 --on 2026-03-02")


def held_too_long(binary, folder, check):
    before = rows_of(folder / "fleet" / "record.db")
    held = Held(folder, "IMMEDIATE")
    asked = run(binary, words("due"), folder)
    check(asked.returncode == 0, f"a reader beside a writer: {asked.returncode} {asked.stderr.decode()}")
    given_up(binary, folder, check, held, before)


def held_by_a_reader(binary, folder, check):
    """Who reads without end does not keep a writer from beginning, only from ending."""
    before = rows_of(folder / "fleet" / "record.db")
    held = Held(folder, "DEFERRED")
    held.database.execute("SELECT count(*) FROM fact").fetchone()
    given_up(binary, folder, check, held, before)


def given_up(binary, folder, check, held, before):
    begun = time.monotonic()
    done = run(binary, READING, folder)
    waited = time.monotonic() - begun
    held.let_go()
    said = done.stderr.decode()
    check(done.returncode == BUSY, f"a record that is held: exit status {done.returncode} {said}")
    check("another program is using the record" in said and "nothing was stored" in said, f"it says: {said}")
    check(not done.stdout, f"it prints {done.stdout.decode()}")
    check(PATIENCE - 1 < waited < PATIENCE + 20, f"it waited {waited:.1f} s")
    check(rows_of(folder / "fleet" / "record.db") == before, "something was stored in a record that is held")
    again = run(binary, READING, folder)
    check(again.returncode == 0, f"once it was let go: {again.returncode} {again.stderr.decode()}")
    check(len(exported(binary, folder).stdout.splitlines()) == 1, "the reading is not there once")
    print(f"{folder.name.replace('_', ' ')}: status {done.returncode} after {waited:.1f} s")


def held_from_readers(binary, folder, check):
    held = Held(folder, "EXCLUSIVE")
    done = run(binary, words("due", "--format json"), folder)
    held.let_go()
    check(done.returncode == BUSY and not done.stdout, f"a list of what is held: exit status {done.returncode}")
    code = json.loads(done.stderr)["error"]["code"] if done.stderr else "nothing"
    check(code == "record-busy", f"a list of what is held says {code}")
    again = run(binary, words("due"), folder)
    check(again.returncode == 0, f"a list once it was let go: {again.returncode} {again.stderr.decode()}")


def held_for_a_while(binary, folder, check):
    held = Held(folder, "IMMEDIATE")
    timer = threading.Timer(3, held.let_go)
    timer.start()
    begun = time.monotonic()
    done = run(binary, READING, folder)
    waited = time.monotonic() - begun
    timer.join()
    check(done.returncode == 0 and waited > 2, f"let go in time: {done.returncode} after {waited:.1f} s")
    check(len(exported(binary, folder).stdout.splitlines()) == 1, "let go in time, and it is not stored")


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: crowd.py COMMAND")
    binary = pathlib.Path(sys.argv[1]).resolve()
    top = scratch("crowd", on_disk=True)  # where a sync takes its time, so that locks are held
    summary = Summary(__file__)
    parts = crowd, held_too_long, held_by_a_reader, held_from_readers, held_for_a_while
    with ThreadPoolExecutor(len(parts)) as pool:
        for part in [pool.submit(part, binary, make(binary, top / part.__name__), summary.check) for part in parts]:
            part.result()
    summary.end()


main()
