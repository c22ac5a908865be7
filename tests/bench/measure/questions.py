"""What is asked at which size, beside what, and which ratio of CPU time is wanted."""
import dataclasses
import shutil

from comparators import due_pandas, due_script, durable_insert, fifty_machines, scan, select_one, shell_import, tuned_sql


@dataclasses.dataclass
class Against:
    comparator: object
    what: object = None      # which rows, or which words
    target: float = 0        # 0: none
    wall: bool = False       # the target holds for time on the wall too


@dataclasses.dataclass
class Question:
    name: str
    sizes: tuple
    words: object                      # of a place: the command
    against: list = dataclasses.field(default_factory=list)
    before: object = None              # of a place: what is done before each time
    seconds: float = 0                 # CPU seconds it may take, 0 for any
    peak: float = 0                    # MB it may take, 0 for any
    grows: bool = False                # it is about the whole fleet: a point must not cost more in a larger one
    if_named: tuple = ()               # sizes at which it is asked only where --only names it: it takes too much


MACHINE = "m0000001"  # every size has it, and nothing later is known of its kind
EVERY = ("tiny", "small", "medium", "large", "huge")
MANY = ("medium", "large", "huge")


def asks(*words):
    return lambda place: place.ours(*words)


def asks_last(*words):
    """About the last day that anything is known of: nothing need be asked of the past, of no kind."""
    return lambda place: [place.binary, "--fleet", place.fleet, *words, "--as-of", place.last_day]


def asks_earlier(*words):
    """About a day before the newest facts of every machine: a question of the past, which is answered by them all."""
    return lambda place: [place.binary, "--fleet", place.fleet, *words, "--as-of", place.earlier]


def a_reading(place):
    """Of a copy, which grows; on the last day that anything is known of, the value of the newest reading."""
    facts = (place.text / "facts.csv").read_text(encoding="ascii").splitlines()
    value = next(row.split(",")[3] for row in reversed(facts) if row.split(",")[1:3] == ["reading", MACHINE])
    copy = place.work / "written"
    shutil.rmtree(copy, ignore_errors=True)
    shutil.copytree(place.fleet, copy)
    return [place.binary, "--fleet", copy, "reading", MACHINE, value, "--as-of", place.last_day]


def fresh(place):
    place.empty_fleet(place.work / "fresh")


def overdue(size):
    """At a million points the limit is the scan; at 2,000 machines what a database does in a statement."""
    sql, pandas, bare, peak = (0.6, 0.06, 0, 0) if size == "medium" else (0.2, 0.05, 2, 150)
    return Question("due --overdue", (size,), asks("due", "--overdue"),
                    [Against(tuned_sql, "first", sql), Against(due_pandas, "overdue", pandas), Against(due_script, "overdue"), Against(scan, None, bare)],
                    peak=peak, grows=True)


def one_machine(words):
    return [Question(" ".join(words[:-1]) + " M", (size,), asks(*words), [Against(fifty_machines, words, 5 if size == "large" else 1.5)])
            for size in ("medium", "large")]


QUESTIONS = [
    Question("due", ("tiny", "small"), asks("due"), [Against(select_one, None, 2)]),
    Question("reading", ("tiny", "small", "medium"), a_reading, [Against(durable_insert, None, 3, wall=True)]),
    Question("due --overdue", ("tiny", "small"), asks("due", "--overdue"),
             [Against(tuned_sql, "first"), Against(due_pandas, "overdue"), Against(due_script, "overdue")]),
    overdue("medium"), overdue("large"), overdue("huge"),
    Question("due, last day", ("tiny", "small"), asks_last("due"), [Against(select_one, None)]),
    *(Question("due --overdue, last day", (size,), asks_last("due", "--overdue"), [Against(scan, None)], grows=True) for size in EVERY),
    Question("due, earlier day", ("tiny", "small"), asks_earlier("due"), [Against(select_one, None)]),
    *(Question("due --overdue, earlier day", (size,), asks_earlier("due", "--overdue"), [Against(scan, None)], grows=True) for size in EVERY),
    Question("due --all --format csv", MANY, asks("due", "--all", "--format", "csv"), [Against(scan, None, 15), Against(tuned_sql, "all")], peak=200, grows=True),
    Question("due --all --format json", MANY, asks("due", "--all", "--format", "json"), [Against(scan, None, 25)], grows=True),
    *one_machine(("due", "--machine", MACHINE)), *one_machine(("why", MACHINE)),
    Question("import", EVERY, lambda place: place.import_into(place.work / "fresh"), [Against(shell_import, None, 3)], before=fresh, grows=True,
             if_named=("large", "huge")),
    Question("season harvest", ("medium",), asks("season", "harvest"), seconds=3),
    Question("parts", ("medium",), asks("parts"), seconds=3),
    Question("workload", ("medium",), asks("workload"), seconds=3),
    Question("forecast", ("medium",), asks("forecast"), seconds=3),
]
CHECKED = (due_script, due_pandas, tuned_sql)  # give the due list, so theirs must be ours
