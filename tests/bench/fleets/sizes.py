"""How large the fleets are. A machine is the same in every fleet of one way of life: its number is its seed."""
import dataclasses
import datetime

AS_OF = datetime.date(2026, 6, 15)
LAST = datetime.date(2026, 7, 10)  # of one kind of machine facts go on after the day asked about, and must not count
EARLIER = datetime.date(2026, 5, 20)
KINDS = 18
KIND_GOING_ON = 0


@dataclasses.dataclass(frozen=True)
class Size:
    name: str
    machines: int
    tasks: int      # of each kind of machine
    years: tuple    # since it was put in service, from and to
    days: tuple     # from one look at the meter to the next, from and to
    hours: tuple    # a thousandth of what it works on an even day, from and to
    intervals: tuple
    register: bool  # machines in register.csv, and not in fleet.yaml

    def points(self):
        return self.machines * self.tasks


SIZES = {size.name: size for size in (
    Size("tiny", 5, 12, (4, 8), (12, 36), (1500, 5000), (250, 250, 500, 1000), False),
    Size("small", 50, 12, (4, 8), (12, 36), (1500, 5000), (250, 250, 500, 1000), False),
    Size("medium", 2_000, 10, (2, 5), (20, 90), (500, 3000), (250, 500, 1000, 2000), False),
    Size("large", 100_000, 10, (2, 5), (20, 90), (500, 3000), (250, 500, 1000, 2000), True),
    Size("huge", 1_000_000, 10, (2, 5), (20, 90), (500, 3000), (250, 500, 1000, 2000), True),
)}
