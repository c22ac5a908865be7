"""Whether a comparator gives the answer that the command gives: machine, task, standing by facts, use and use left, the day
it was fitted, the day it comes due by the calendar, and where the comparator says it the day on which it came due."""
import csv

from measure.turns import measured

KEY = ["machine", "task", "standing", "fitted_on", "calendar_due_on", "calendar_left_days"]


def hundredths(text):
    if not text:
        return ""
    whole, _, rest = text.partition(".")
    value = abs(int(whole)) * 100 + int((rest + "00")[:2])
    return -value if text.startswith("-") else value


def of_ours(path):
    """Odds are left out: a standing by estimate, coming and later are no standing by facts."""
    with open(path, newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["row"] != "point":
                continue
            by_facts = row["standing"] in ("overdue", "due") and row["by_estimate"] == "no" or row["standing"] == "no-record"
            yield {**row, "standing": row["standing"] if by_facts else "", "used": row["usage_used"], "left": row["usage_left"],
                   "due_on": row["due_on"] if by_facts else ""}


def canonical(rows, columns, standing):
    return {(*(row[key] for key in KEY), hundredths(row["used"]), hundredths(row["left"]), *(row[key] for key in columns))
            for row in rows if standing in (row["standing"], None)}


class Answers:
    """Of one place, rows `overdue` or `all`; ours is asked once."""

    def __init__(self, place, rows):
        self.place, self.rows, self.standing = place, rows, "overdue" if rows == "overdue" else None
        self.ours = place.work / f"ours-{rows}.csv"
        question = ("due", "--overdue") if rows == "overdue" else ("due", "--all")
        self.ask(place.ours(*question, "--format", "csv"), self.ours)

    def ask(self, words, path):
        if (status := measured(self.place.launcher(), words, str(path)).status) != 0:
            raise SystemExit(f"ended with {status}: {' '.join(map(str, words))}")

    def differences(self, comparator):
        """What is in one answer and not in the other, in words; and how many rows ours has."""
        theirs = self.place.work / "theirs.csv"
        self.ask(comparator.command(self.place, self.rows), theirs)
        with theirs.open(newline="", encoding="utf-8") as file:
            listed = list(csv.DictReader(file))
        if not listed:
            return [f"{comparator.TITLE} lists nothing"], 0
        also = [key for key in ("due_on",) if key in listed[0]]
        have, want = canonical(of_ours(self.ours), also, self.standing), canonical(listed, also, self.standing)
        wrong = [] if len(want) == len(listed) else [f"{comparator.TITLE} lists {len(listed)} rows, {len(want)} of them that no other is"]
        wrong += [f"ours alone: {row}" for row in sorted(have - want, key=str)[:5]]
        wrong += [f"{comparator.TITLE} alone: {row}" for row in sorted(want - have, key=str)[:5]]
        if self.rows == "all" and len(have) != self.place.size.points():
            wrong.append(f"ours has {len(have)} points of {self.place.size.points()}")
        return wrong, len(have)
