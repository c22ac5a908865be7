"""A fleet all of whose texts are hostile, and a book about it."""
import json

from names import NAMES

DAY = "2026-06-15"
SCHEDULES = 5
TASKS = len(NAMES) // SCHEDULES


def taken(text, breaks="\r\n\t"):
    """What controls terminals is refused in fleet files and facts alike; line breaks are refused in names of people."""
    return "".join(letter for letter in text if letter in breaks or not (ord(letter) < 32 or 127 <= ord(letter) < 160))


def quoted(text):
    """A YAML scalar in double quotes: JSON's escapes are YAML's."""
    return json.dumps(taken(text), ensure_ascii=False)


def schedule(number):
    lines = [f"schedule: kind-{number}", "meters: {engine: {unit: h}}", "tasks:"]
    for i in range(TASKS):
        at = number * TASKS + i
        name, other = NAMES[at], NAMES[-1 - at]
        lines += [
            f"  task-{at}:", f"    do: {quoted(name)}", f"    every: {{hours: {100 + 40 * i}, months: {6 + i}}}",
            "    takes: 30 min", f"    parts: {{part-{at}: 1}}", "    fluids: {oil: 2 L}", f"    tools: [{quoted(other)}]",
            f"    steps: [{quoted(name)}, {quoted(other)}]", f"    notes: {quoted(other)}",
            "    cautions: [hot-fluid]",
        ]
        if i == 0:
            lines += [f"    follow-up: {{look: {{do: {quoted(other)}, within: {{hours: 2}}}}}}"]
        if i == 1:
            lines += ["    safety: true"]
    return "\n".join(lines) + "\n"


def fleet():
    lines = [f"fleet: {quoted(NAMES[14])}", "time-zone: UTC", "currency: GBP",
             "mail: {to: [office@farm.example], from: whichever@farm.example}", "sites:"]
    for i in range(4):
        lines.append(f"  site-{i}: {{name: {quoted(NAMES[10 * i])}, at: [54.{i}, 3.2], customer: {quoted(NAMES[10 * i + 4])}, "
                     f"access: {quoted(NAMES[10 * i + 5])}, contact: {quoted(NAMES[10 * i + 6])}}}")
    lines += ["seasons: {harvest: {from: 08-01, to: 09-20}}", "parts:"]
    for i, name in enumerate(NAMES):
        lines.append(f"  part-{i}: {{what: {quoted(name)}, unit: piece, price: 3, supplier: {quoted(NAMES[-1 - i])}}}")
    lines += ["crews:", f"  van: {{name: {quoted(NAMES[21])}, start: site-0, hours: {{mon-sun: \"05:00-22:00\"}}}}",
              "costs: {hour: 44, km: 0.55}", "calls:"]
    for i in range(4):
        lines.append(f"  c-{i}: {{site: site-{i}, do: {quoted(NAMES[7 * i + 2])}, takes: 30 min, wait: 90}}")
    lines.append(f"  gas: {{machine: m1, do: {quoted(NAMES[11])}, takes: 30 min, needs: [gas]}}")
    lines.append("machines:")
    for i, name in enumerate(NAMES):
        lines.append(f"  m{i}: {{name: {quoted(name)}, schedule: kind-{i % SCHEDULES}, site: site-{i % 4}, "
                     f"serial: {quoted(NAMES[-1 - i])}, notes: {quoted(name)}, in-service: {{on: 2024-03-01, at: 0}}}}")
    return "\n".join(lines) + "\n"


def facts():
    """JSON Lines: readings, services, signs and states, with hostile notes, names and people."""
    rows = []
    for i, name in enumerate(NAMES):
        who, other = taken(name, ""), taken(NAMES[-1 - i])
        machine = {"machine": f"m{i}"}
        for month, at in (("2024-09-01", 60 + i), ("2025-05-01", 150 + 2 * i), ("2026-05-20", 300 + 3 * i)):
            rows.append({"kind": "reading", **machine, "on": month, "at": at})
        task = (i % SCHEDULES) * TASKS
        rows.append({"kind": "service", **machine, "on": "2025-06-01", "task": f"task-{task}", "by": who, "note": other})
        rows.append({"kind": "sign", **machine, "on": "2026-05-20", "name": f"odd {i}", "note": other})
        if i % 8 == 0:
            rows.append({"kind": "out-of-use", **machine, "on": "2026-06-01", "note": taken(name)})
        if i % 8 == 3:
            rows.append({"kind": "laid-up", **machine, "on": "2026-06-01", "until": "2026-07-01", "note": taken(name)})
        if i % 8 == 5:
            rows.append({"kind": "put-off", **machine, "on": "2026-06-01", "task": f"task-{task + 2}", "until": "2026-09-01",
                         "by": who, "note": other})
    return "".join(json.dumps(row) + "\n" for row in rows)


def write(folder):
    (folder / "schedules").mkdir(parents=True)
    (folder / "fleet.yaml").write_text(fleet(), encoding="utf-8")
    for number in range(SCHEDULES):
        (folder / "schedules" / f"kind-{number}.yaml").write_text(schedule(number), encoding="utf-8")
    (folder / "facts.jsonl").write_text(facts(), encoding="utf-8")
