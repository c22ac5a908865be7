"""Sums gcov's branches by file, and names the lines with a branch never taken. usage: ... | branches.py FOLDER"""
import collections
import json
import sys

folder = sys.argv[1]
taken, total, missing = collections.Counter(), collections.Counter(), collections.defaultdict(set)
for text in sys.stdin:
    if not text.strip():
        continue
    for file in json.loads(text)["files"]:
        name = file["file"]
        if not name.startswith(folder):
            continue
        for line in file["lines"]:
            for branch in line["branches"]:
                if branch["throw"]:
                    continue
                total[name] += 1
                if branch["count"] > 0:
                    taken[name] += 1
                else:
                    missing[name].add(line["line_number"])
for name in sorted(total):
    lines = ", ".join(map(str, sorted(missing[name])))
    print(f"{name[len(folder) + 1:]:32} {taken[name]:5} of {total[name]:5}" + (f"   not on line {lines}" if lines else ""))
print(f"branches: {sum(taken.values())} of {sum(total.values())}, {100 * sum(taken.values()) / sum(total.values()):.1f} %")
