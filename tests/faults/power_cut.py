#!/usr/bin/env python3
"""Cuts the power at every moment of every command that writes, and looks at what is left.

usage: power_cut.py COMMAND [--states N] [--seed S] [--keep DIR]

Each command of writings.py is run once under strace, which records every write, sync, name and removal. For each
moment of the recording, states are built that a power cut could leave (disk.py has the model), and each must be the
old book or the new one, whole; and the new one once the command had said that it is saved.

Each state is judged by a reader in this process: SQLite's own checks, and all rows of all tables. One different state
in 20 is also given to the command itself (`export`, and `due`, which reads the fleet's files too), which must say the
same as that reader. Where a cut left an unfinished write, the command is recorded once more as it clears it, and the
power is cut in there as well.

So that this is known to find something, the same is done with the recorded syncs ignored: as if there were none, and
as if only the last one were missing, the sync of the folder after the journal is gone. Both must find losses.

Ids and the journal's marks are random, so the same seed gives the same cuts and not the same bytes. --keep writes the
first bad state of each command there.
"""
import argparse
import math
import pathlib
import random
import shutil
import sys
from concurrent.futures import ProcessPoolExecutor

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent / "helpers"))
import disk
from judges import BETWEEN, DAMAGED, NEW, OLD, judge_of
from recording import record
from support import need_strace, scratch, Summary, words
from writings import Stage

SAMPLE = 20
WORKERS = 2
JOURNAL = bytes.fromhex("d9d505f920a163d7")  # how a journal begins
COLUMNS = ("cuts", "states", "different", "asked", DAMAGED, BETWEEN, "lost after saved")


class Tally(dict):
    def __init__(self):
        super().__init__((column, 0) for column in COLUMNS)

    def row(self, title):
        return f"{title:<34}" + "".join(f"{self[column]:>{len(column) + 2}}" for column in COLUMNS)

    def bad(self):
        return self[DAMAGED] + self[BETWEEN] + self["lost after saved"]

    def add(self, other):
        for column in COLUMNS:
            self[column] += other[column]


def said_at(recording):
    """After which event the command has said that it is saved. Who writes to a file says so by its end."""
    said = [at + 1 for at, event in enumerate(recording.events) if event.kind == "said"]
    return said[0] if said else len(recording.events)


def fates(title, seed, cut, draws):
    """All kept, nothing kept, and then by lot."""
    yield disk.Whole()
    if draws > 1:
        yield disk.Nothing()
    for draw in range(2, draws):
        yield disk.Chance(random.Random(f"{seed}/{title}/{cut}/{draw}"))


def draws_for(recording, states, counts):
    """How many states for each cut: one where all is synced, a tenth of the rest after "saved", which is short."""
    cuts = range(len(recording.events) + 1)
    said = said_at(recording)
    unsettled = [cut for cut in cuts if not disk.is_settled(recording, cut, counts)]
    left = states - (len(cuts) - len(unsettled))
    late = [cut for cut in unsettled if cut >= said]
    for cut in cuts:
        if cut not in unsettled:
            yield cut, 1
            continue
        share = 1 if not late else 0.1 if cut in late else 0.9
        among = len(late) if cut in late else len(unsettled) - len(late)
        yield cut, max(2, math.ceil(left * share / among))


class Replay:
    """All cuts of one recording."""

    def __init__(self, title, recording, judge, options):
        self.title = title
        self.recording = recording
        self.judge = judge
        self.options = options
        self.unfinished = []  # states with a write that whoever opens the record next has to take back

    def run(self, states, counts=disk.as_recorded, only=None):
        """`only` is what each state must be, where that is known; otherwise it is old, or new."""
        tally, seen = Tally(), set()
        in_earnest = counts is disk.as_recorded
        said = said_at(self.recording)
        for cut, draws in draws_for(self.recording, states, counts):
            tally["cuts"] += 1
            for fate in fates(self.title, self.options.seed, cut, draws):
                files, folders = disk.state(self.recording, cut, fate, counts)
                verdict = self.judge.verdict(files, folders)
                tally["states"] += 1
                bad = verdict if verdict in (DAMAGED, BETWEEN) else None
                if not bad and (verdict != only if only else cut >= said and verdict == OLD):
                    bad = "lost after saved"
                if bad:
                    tally[bad] += 1
                if bad and in_earnest:
                    self.keep_state(f"{bad}, cut before event {cut}", files, folders)
                key = hash((tuple(sorted(files.items())), tuple(sorted(folders))))
                if key in seen:
                    continue
                seen.add(key)
                tally["different"] += 1
                if not in_earnest:
                    continue
                if verdict == OLD and any(map(is_to_be_played_back, files.items())):
                    self.unfinished.append((files, folders))
                if tally["different"] % SAMPLE == 1 and verdict in (OLD, NEW):
                    tally["asked"] += 1
                    if not self.judge.ask_command(files, folders, verdict):
                        tally[BETWEEN] += 1
                        self.keep_state(f"the command does not say {verdict}, cut before event {cut}", files, folders)
        return tally

    def keep_state(self, why, files, folders):
        if self.options.keep:
            folder = self.options.keep / self.title.replace(" ", "-").replace("/", "-")
            if not folder.exists():
                disk.lay_out(files, folders, folder)
                print(f"kept in {folder}: {why}")


def is_to_be_played_back(file):
    """Whether a file is a journal with pages in it, by its first bytes."""
    name, data = file
    return name.endswith("-journal") and data[:8] == JOURNAL and any(data[8:12])


def cut_again(replay, binary, place, states, options):
    """Cuts the power while the command clears what an earlier cut left unfinished: it stays old."""
    tally = Tally()
    chosen = list(replay.unfinished)
    random.Random(f"{options.seed}/{replay.title}").shuffle(chosen)
    count = max(1, states // 100)
    for files, folders in chosen[:count]:
        shutil.rmtree(place, ignore_errors=True)
        disk.lay_out(files, folders, place)
        again = record(binary, words("export", "--format jsonl"), place, fleet=replay.judge.fleet)
        second = Replay(replay.title + " again", again, replay.judge, options)
        tally.add(second.run(max(10, states // count), only=OLD))
    return tally


class Findings:
    """What was found of one command."""

    def __init__(self, status, complained):
        self.status = status
        self.complained = complained
        self.earnest, self.second, self.none, self.full = Tally(), Tally(), Tally(), Tally()


def look_at(stage, writing, number, states, options):
    place = options.scratch / f"place-{number}"
    before = stage.set(writing, options.scratch / f"before-{number}")
    after = stage.set(writing, options.scratch / f"after-{number}")
    recording = record(stage.binary, stage.words(writing), after)
    found = Findings(recording.status, recording.complained.decode())
    if found.status != 0:
        return found
    replay = Replay(writing.title, recording, judge_of(stage.binary, writing, before, after, place), options)
    found.earnest = replay.run(states)
    if not writing.makes and not writing.starts:
        few = max(150, states // 8)  # enough that some of each cut's states are drawn by lot
        found.second = cut_again(replay, stage.binary, place, few, options)
        found.none = replay.run(few, disk.without_any)
        found.full = replay.run(few, disk.without_last)
    return found


def main():
    parser = argparse.ArgumentParser(description="cuts the power at every moment of every command that writes")
    parser.add_argument("command", type=lambda path: pathlib.Path(path).resolve())
    parser.add_argument("--states", type=int, default=10000, help="about how many states in all")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--keep", type=pathlib.Path, help="a folder for the first bad state of each command")
    options = parser.parse_args()
    need_strace()
    options.scratch = scratch("power")
    summary = Summary(__file__)
    stage = Stage(options.command, options.scratch)
    for command in stage.skipped():
        print(f"skipped: this binary has no command `{command}`")
    writings = stage.writings()
    share = math.ceil(options.states / len(writings))
    print(f"{'command':<34}" + "".join(f"  {column}" for column in COLUMNS))
    total, second, none, full = Tally(), Tally(), Tally(), Tally()
    with ProcessPoolExecutor(WORKERS) as pool:
        tasks = [pool.submit(look_at, stage, writing, number, share, options)
                 for number, writing in enumerate(writings)]
        for writing, task in zip(writings, tasks):
            found = task.result()
            if not summary.check(found.status == 0, f"{writing.title}: {found.status} {found.complained}"):
                continue
            tally = found.earnest
            print(tally.row(writing.title), flush=True)
            summary.check(tally.bad() == 0,
                          f"{writing.title}: {tally.bad()} of {tally['states']} states break the promise")
            total.add(tally)
            second.add(found.second)
            none.add(found.none)
            full.add(found.full)
    print(total.row("all of them"))
    print(second.row("power cut again while clearing up"))
    print("with syncs ignored, where something must be found:")
    print(none.row("no sync at all"))
    print(full.row("no sync of the folder at the end"))
    summary.check(second["states"] > 0, "no state with an unfinished write was found, so none was cut again")
    summary.check(second.bad() == 0, "a second power cut, while clearing up, breaks the promise")
    summary.check(none[DAMAGED] > 0, "without any sync nothing was found damaged: this test sees nothing")
    summary.check(full["lost after saved"] > 0, "without the last sync nothing was lost: this test sees nothing")
    summary.end()


main()
