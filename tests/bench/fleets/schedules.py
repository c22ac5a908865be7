"""The kinds of machines and their tasks: hours and months racing, with three sorts of grace."""
import dataclasses

from fleets.luck import Luck
from fleets.sizes import KINDS

# key, what to do, a safety task, by hours, by months
TASKS = [
    ("engine-oil", "Change engine oil and filter", False, True, True),
    ("brakes", "Look at the brakes and set them", True, True, True),
    ("air-filter", "Change the outer air element", False, True, False),
    ("fuel-filter", "Change the fuel filter", False, True, True),
    ("hydraulic-oil", "Change hydraulic oil and filters", False, True, True),
    ("coolant", "Change the coolant", False, False, True),
    ("belts", "Set or change the belts", False, True, True),
    ("guards", "Look at guards and stops", True, False, True),
    ("greasing", "Grease all nipples", False, True, False),
    ("gear-oil", "Change gear oil", False, True, True),
    ("battery", "Test the battery", False, False, True),
    ("cab-filter", "Change the cab filter", False, True, True),
]
MONTHS = (12, 18, 24, 36, 48)
PARTS = {"engine-oil": "oil-filter", "air-filter": "air-element", "fuel-filter": "fuel-element", "belts": "belt-set", "cab-filter": "cab-element"}


@dataclasses.dataclass(frozen=True)
class Task:
    key: str
    do: str
    safety: bool
    hours: int         # 0: not by hours
    months: int        # 0: not by months
    grace_hours: int   # its own grace, else 0 and the fleet's percentage holds
    grace_days: int
    minutes: int
    part: str


def kind_name(kind):
    return f"kind-{kind + 1:02}"


def kinds_of(size):
    """The tasks of each kind, in the order of its file."""
    kinds = []
    for kind in range(KINDS):
        luck = Luck(7_000_000_000 + kind)
        tasks = []
        for key, do, safety, by_hours, by_months in TASKS[:size.tasks]:
            hours, months = luck.pick(size.intervals), luck.pick(MONTHS)
            own = luck.percent(25) and not safety
            part = f"{PARTS[key]}-{kind // 3}" if key in PARTS else ""
            tasks.append(Task(key, do, safety, hours if by_hours else 0, months if by_months else 0,
                              hours // 20 * 2 if own else 0, 14 if own else 0, luck.between(1, 24) * 10, part))
        kinds.append(tasks)
    return kinds


def schedule_yaml(kind, tasks):
    lines = [f"schedule: {kind_name(kind)}", "meters: {engine: {unit: h}}", "tasks:"]
    for task in tasks:
        limbs = [f"hours: {task.hours}"] * (task.hours > 0) + [f"months: {task.months}"] * (task.months > 0)
        lines += [f"  {task.key}:", f"    do: {task.do}", f"    every: {{{', '.join(limbs)}}}", f"    takes: {task.minutes} min"]
        if task.safety:
            lines.append("    safety: true")
        if task.grace_days:
            lines.append(f"    grace: {{hours: {task.grace_hours}, days: {task.grace_days}}}")
        if task.part:
            lines.append(f"    parts: {{{task.part}: 1}}")
    return "\n".join(lines) + "\n"
