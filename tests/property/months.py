#!/usr/bin/env python3
"""100,000 random sums of days and months, and the month's end, against python-dateutil. usage: months.py MONTH_TABLE"""
import datetime
import random
import subprocess
import sys

from dateutil.relativedelta import relativedelta

SEED, CASES = 20260301, 100_000
luck = random.Random(SEED)
first = datetime.date(1950, 1, 1)
questions = [(first + datetime.timedelta(days=luck.randrange(70_000)), luck.randrange(-300, 600)) for _ in range(CASES)]
asked = "".join(f"{day} {months}\n" for day, months in questions)
answers = subprocess.run([sys.argv[1]], input=asked, capture_output=True, text=True, check=True).stdout.splitlines()
wrong = 0
for (day, months), answer in zip(questions, answers, strict=True):
    expected = f"{day + relativedelta(months=months)} {day + relativedelta(months=months, day=31)}"
    if answer != expected:
        wrong += 1
        if wrong <= 10:
            print(f"{day} + {months} months: ours {answer}, dateutil {expected}")
print(f"{CASES} sums, {wrong} differ (seed {SEED})")
print(f"cases: {0 if wrong else 1} passed, {1 if wrong else 0} failed")
sys.exit(1 if wrong else 0)
