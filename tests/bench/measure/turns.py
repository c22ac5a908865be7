"""Commands in turns, A B C A B C, each a whole process: seconds of CPU and on the wall, and MB at its peak."""
import dataclasses
import statistics
import subprocess
import time


@dataclasses.dataclass
class Run:
    cpu: float
    wall: float
    peak: float
    status: int


def measured(launcher, words, output="/dev/null"):
    said = subprocess.run([launcher, output, *map(str, words)], stdout=subprocess.PIPE, check=True).stdout
    user, system, wall, peak, status = map(int, said.split())
    return Run((user + system) / 1e6, wall / 1e6, peak / 1024, status)


@dataclasses.dataclass
class Command:
    """What is run, and what is done before each time, which is not measured."""
    title: str
    words: list
    before: object = None
    runs: list = dataclasses.field(default_factory=list)

    def once(self, launcher):
        if self.before:
            self.before()
        run = measured(launcher, self.words)
        if run.status != 0:
            raise SystemExit(f"{self.title} ended with {run.status}: {' '.join(map(str, self.words))}")
        return run

    def median(self, what):
        return statistics.median(getattr(run, what) for run in self.runs)


def in_turns(launcher, commands, rounds, seconds):
    """So many rounds, or as many as fit into the time, but three; where one round fills the time, one. The first round, with
    cold caches, counts only there."""
    start = time.monotonic()
    first = [command.once(launcher) for command in commands]
    round_time = time.monotonic() - start
    if rounds == 1 or round_time > seconds:
        for command, run in zip(commands, first):
            command.runs.append(run)
        return
    while len(commands[0].runs) < rounds:
        for command in commands:
            command.runs.append(command.once(launcher))
        if len(commands[0].runs) >= 3 and time.monotonic() - start + round_time > seconds:
            return
