"""Where a fleet of one size lies, and the tools to measure with. Fleets are kept under build/bench: of each text of the
generator one, and of each binary the record that it imported."""
import functools
import hashlib
import pathlib
import shutil
import subprocess
import sys
import time

from fleets.sizes import AS_OF, EARLIER, LAST, SIZES
from fleets.writing import by_kind, write_fleet
from measure.turns import measured

BENCH = pathlib.Path(__file__).resolve().parent.parent
KEPT = BENCH.parent.parent / "build/bench"


def hashed(paths):
    return hashlib.sha256(b"".join(path.read_bytes() for path in paths)).hexdigest()[:10]


def say(text):
    print(text, file=sys.stderr, flush=True)


@functools.cache
def has_pandas(python):
    return subprocess.run([python, "-c", "import importlib.util as u; exit(u.find_spec('pandas') is None)"]).returncode == 0


class Place:
    python = "/usr/bin/python3"

    def __init__(self, size, binary):
        self.size, self.binary, self.as_of, self.last_day, self.earlier = SIZES[size], binary, str(AS_OF), str(LAST), str(EARLIER)
        self.sqlite = shutil.which("sqlite3")
        self.python_with_pandas = next((python for python in (self.python, sys.executable) if has_pandas(python)), None)
        makers = [*sorted((BENCH / "fleets").glob("*.py")), BENCH / "comparators/latest_rows.py", BENCH / "comparators/due_script.py"]
        self.text = KEPT / f"{size}-{hashed(makers)}"
        self.fleet = self.text / f"fleet-{hashed([binary])}"
        self.record = self.fleet / "record.db"
        self.work = self.text / "work"
        self.others = {size: self}
        self.write_text()
        self.facts = int((self.text / "facts.count").read_text())
        shutil.rmtree(self.work, ignore_errors=True)
        self.work.mkdir()

    def other(self, size):
        if size not in self.others:
            self.others[size] = Place(size, self.binary)
            self.others[size].furnish()
        return self.others[size]

    def write_text(self):
        if self.text.exists():
            return
        part, start = self.text.with_suffix(".part"), time.monotonic()
        shutil.rmtree(part, ignore_errors=True)
        part.mkdir(parents=True)
        facts = write_fleet(self.size, part)
        (part / "facts.count").write_text(str(facts))
        part.rename(self.text)
        say(f"{self.size.name}: {self.size.machines:,} machines, {self.size.points():,} points, {facts:,} facts written in {time.monotonic() - start:.1f} s")

    def furnish(self):
        """The fleet with its record, by our own import; of a large one kind by kind, for a whole file takes too much memory."""
        if self.fleet.exists():
            return
        part = self.fleet.with_suffix(".part")
        self.empty_fleet(part)
        files = by_kind(self.text, self.work) if self.size.register else [self.text / "facts.csv"]
        runs = [measured(self.launcher(), self.import_into(part, file)) for file in files]
        if any(run.status != 0 for run in runs):
            sys.exit(f"the import of {self.size.name} ended with {[run.status for run in runs]}")
        part.rename(self.fleet)
        say(f"{self.size.name}: imported in {len(files)} files, {sum(run.cpu for run in runs):.1f} s of CPU, {sum(run.wall for run in runs):.1f} s, "
            f"{max(run.peak for run in runs):.0f} MB")

    def empty_fleet(self, folder):
        shutil.rmtree(folder, ignore_errors=True)
        shutil.copytree(self.text / "fleet", folder)
        subprocess.run([self.binary, "new", folder], stdout=subprocess.DEVNULL, check=True)

    def import_into(self, folder, file=None):
        return [self.binary, "--fleet", folder, "import", file or self.text / "facts.csv", "--as-of", self.last_day]

    def ours(self, *words):
        """A question about the day asked about."""
        return [self.binary, "--fleet", self.fleet, *words, "--as-of", self.as_of]

    @functools.cache
    def tool(self, source, *libraries):
        """A small program of this folder, compiled once."""
        path = BENCH / source
        built = KEPT / f"{path.stem}-{hashed([path])}"
        if not built.exists():
            KEPT.mkdir(parents=True, exist_ok=True)
            subprocess.run(["c++", "-std=c++20", "-O2", "-Wall", "-Wextra", "-o", built, path, *libraries], check=True)
        return built

    def launcher(self):
        return self.tool("measure/launch.cpp")
