#!/usr/bin/python3
"""The due list as somebody writes it in an afternoon: Python's csv, a dictionary for each machine.
usage: due_script.py FOLDER AS-OF overdue|all

Also the days on which use reached an interval, which the other comparators leave out: it has the whole book in hand.
"""
import calendar
import csv
import datetime
import sys

TITLE = "plain script"
COLUMNS = ["machine", "task", "standing", "used", "left", "fitted_on", "calendar_due_on", "calendar_left_days", "due_on"]


def command(place, rows):
    return [place.python, __file__, place.text, place.as_of, rows]


def day_of(text):
    """Of a month or a year its first day."""
    return datetime.date.fromisoformat((text + "-01-01")[:10])


def later(day, months):
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return datetime.date(year, month + 1, min(day.day, calendar.monthrange(year, month + 1)[1]))


def hundredths(text):
    whole, _, rest = text.partition(".")
    return int(whole) * 100 + int((rest + "00")[:2])


def show(value):
    return f"{'-' * (value < 0)}{abs(value) // 100}.{abs(value) % 100:02}"


class Machine:
    def __init__(self, kind, first_day):
        self.kind, self.first_day, self.offset = kind, first_day, 0
        self.book = [(first_day, 0)]  # use by day
        self.done = {}                # task: day, usage

    def read(self, day, usage):
        if self.book[-1][0] == day:
            self.book[-1] = (day, usage)
        else:
            self.book.append((day, usage))

    def take(self, fact, day):
        kind = fact["kind"]
        if kind == "reading":
            self.read(day, hundredths(fact["at"]) + self.offset)
        elif kind == "meter-change":
            self.read(day, hundredths(fact["last"]) + self.offset)
            self.offset += hundredths(fact["last"]) - hundredths(fact["first"])
        elif kind == "service":
            # Without a value it is of a day with a reading.
            usage = hundredths(fact["at"]) + self.offset if fact["at"] else self.book[-1][1]
            known = self.done.get(fact["task"])
            if not known or known[0] <= day:
                self.done[fact["task"]] = (day, usage)

    def reached(self, usage):
        """The first day on which use was that much: between two readings it grows by the day, rounded to a hundredth."""
        for (day, low), (end, high) in zip(self.book, self.book[1:]):
            if high >= usage:
                days, grown = (end - day).days, high - low
                for n in range(days + 1):
                    if low + (2 * grown * n + days) // (2 * days) >= usage:
                        return day + datetime.timedelta(n)
        return None


def read_fleet(folder, as_of):
    with open(f"{folder}/tasks.csv", newline="") as file:
        kinds = {}
        for row in csv.DictReader(file):
            kinds.setdefault(row["kind"], []).append(row)
    with open(f"{folder}/machines.csv", newline="") as file:
        machines = {row["machine"]: Machine(row["kind"], day_of(row["first_day"])) for row in csv.DictReader(file)}
    with open(f"{folder}/facts.csv", newline="") as file:
        for fact in csv.DictReader(file):
            day = day_of(fact["on"])
            if day <= as_of:
                machines[fact["machine"]].take(fact, day)
    return kinds, machines


def standing(task, machine, as_of):
    """overdue, due or neither; used, left; fitted on; due by the calendar, days left; the day it came due."""
    fitted_on, fitted_at = machine.done.get(task["task"], (machine.first_day, 0))
    used, limbs = machine.book[-1][1] - fitted_at, []
    left = due_by = days_left = ""
    if task["hours"] != "0":
        interval = int(task["hours"]) * 100
        grace = 0 if task["safety"] == "1" else int(task["grace_hours"]) * 100 or interval * 5 // 100
        left = interval - used
        if left <= 0:
            limbs.append((left >= -grace, machine.reached(fitted_at + interval)))
    if task["months"] != "0":
        due_by = later(fitted_on, int(task["months"]))
        grace = 0 if task["safety"] == "1" else int(task["grace_days"]) or (due_by - fitted_on).days * 5 // 100
        days_left = (due_by - as_of).days
        if days_left <= 0:
            limbs.append((-days_left <= grace, due_by))
    in_grace, due_on = min(limbs) if limbs else (None, "")
    said = "" if in_grace is None else "due" if in_grace else "overdue"
    return said, show(used) if left != "" else "", show(left) if left != "" else "", fitted_on, due_by, days_left, due_on


def main():
    folder, as_of, rows = sys.argv[1], datetime.date.fromisoformat(sys.argv[2]), sys.argv[3]
    kinds, machines = read_fleet(folder, as_of)
    out = csv.writer(sys.stdout, lineterminator="\n")
    out.writerow(COLUMNS)
    listed = []
    for key, machine in machines.items():
        for task in kinds[machine.kind]:
            row = standing(task, machine, as_of)
            if rows == "all" or row[0] == "overdue":
                listed.append((task["safety"] != "1", row[-1] or datetime.date.max, key, task["task"], *row))
    listed.sort(key=lambda row: row[:2])
    out.writerows(row[2:] for row in listed)


if __name__ == "__main__":
    main()
