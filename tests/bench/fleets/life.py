"""What is written down of one machine, from its first day on: rows of facts in the order of their days.

Readings; services with and without a value (without one only on a day with a reading), some by month or year alone;
meters that are changed; machines laid up, some back since, and machines out of use. Nothing that needs a judgement:
whatever the comparators work out must be exact.
"""
import datetime

from fleets.sizes import AS_OF, KIND_GOING_ON, LAST

COLUMNS = "on,kind,machine,at,task,last,first,until,note\n"
EVEN = 100
# Use in each month, of an even month's 100.
SEASON = (40, 40, 70, 120, 140, 110, 140, 190, 160, 90, 60, 40)


def tenths(value):
    return f"{value // 10}.{value % 10}"


def add_months(day, months):
    """About so much later: good enough to say when somebody would have thought of it."""
    return day + datetime.timedelta(months * 61 // 2)


class Life:
    def __init__(self, size, machine, tasks):
        self.size, self.it, self.tasks, self.luck, self.rows = size, machine, tasks, machine.luck, []
        self.last = LAST if machine.kind == KIND_GOING_ON else AS_OF
        self.meter_change = self.luck.percent(4)
        self.lay_up = self.luck.percent(8)
        self.unsafe = self.luck.percent(2)
        self.day, self.usage, self.offset = machine.first_day, 0, 0  # in tenths of an hour
        self.fitted = [(self.day, 0, True) for _ in tasks]          # day, usage, since it was new
        self.patience = [self.draw_patience() for _ in tasks]

    def draw_patience(self):
        """When it is thought of, in percent of the interval; of a few nobody thinks for long."""
        return self.luck.between(150, 300) if self.luck.percent(3) else self.luck.between(80, 105)

    def write(self, day, kind, at="", task="", last="", first="", until="", note=""):
        self.rows.append(f"{day},{kind},{self.it.key},{at},{task},{last},{first},{until},{note}\n")

    def work(self):
        days = self.luck.between(*self.size.days)
        worked = days * self.it.hours * SEASON[self.day.month - 1] * self.luck.between(50, 150) // (100 * EVEN * EVEN)
        self.day += datetime.timedelta(days)
        self.usage += min(worked, 150 * days)
        return self.day <= self.last

    def service(self, i, task):
        """The value stands beside it or not; the first of a task may be known by its month or year alone."""
        on, at = str(self.day), tenths(self.usage - self.offset)
        new = self.fitted[i][2]
        if new and not self.meter_change and self.luck.percent(10):
            part = on[:4] if self.luck.percent(20) else on[:7]
            if (part + "-01-01")[:10] > str(self.it.first_day):
                on = part
        if len(on) == 10 and self.luck.percent(30):
            at = ""
        self.write(on, "service", at=at, task=task.key)
        self.fitted[i] = (self.day, self.usage, False)
        self.patience[i] = self.draw_patience()

    def wants(self, i, task):
        day, usage, _ = self.fitted[i]
        percent = self.patience[i]
        return (task.hours > 0 and (self.usage - usage) * 10 >= task.hours * percent
                or task.months > 0 and self.day >= add_months(day, task.months * percent // 100))

    def change_meter(self):
        self.day += datetime.timedelta(1)
        self.write(self.day, "meter-change", last=tenths(self.usage - self.offset), first="0")
        self.offset = self.usage
        self.meter_change = False

    def stand(self):
        """Laid up for the winter and back, or to this day."""
        self.day += datetime.timedelta(1)
        until = self.day + datetime.timedelta(self.luck.between(60, 200))
        self.write(self.day, "laid-up", until=until if self.luck.percent(50) else "", note="winter")
        self.lay_up = False
        self.day = until
        if self.day > self.last:
            return False
        self.write(self.day, "back")
        return True

    def lived(self):
        half = self.it.first_day + (AS_OF - self.it.first_day) / 2
        while self.work():
            self.write(self.day, "reading", at=tenths(self.usage - self.offset))
            for i, task in enumerate(self.tasks):
                if self.wants(i, task):
                    self.service(i, task)
            if self.day >= self.last:
                break
            if self.meter_change and self.day > half:
                self.change_meter()
            if self.lay_up and self.day > half and self.day.month in (10, 11, 3, 4) and not self.stand():
                break
            if self.unsafe and self.day > AS_OF - datetime.timedelta(100):
                self.write(self.day, "out-of-use", note="guard broken")
                break
        return self.rows
