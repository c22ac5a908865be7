"""Values of every kind, right and wrong, as they are written in a file: what is put where in the fleets under good.

Which of them are right is not said here: the program and the schemas say it, and must agree.
"""
AROUND = "around", "fleet.yaml"
ROUNDS = "rounds", "fleet.yaml"
MACHINES = "machines", "fleet.yaml"
COMBINE = "machines", "schedules/combine.yaml"
PRESS = "machines", "schedules/press.yaml"
AMOUNTS = [
    "0", "0.00", "250", "250.5", "0250", "12.340", "1000000000", "1000000000.0", "1000000001", "-1", "-0", "+250",
    "1e3", "0x10", "0o17", ".5", "5.", "0.125", ".inf", ".nan", "1,000", "'250'", '"1000000000.00"',
    '"1000000000.01"', '"1e3"', '" 250"', '"0"', '"-1"', '"0.125"', '"0.500"', '"5."', "250 h", "null", "~", '""',
    "true", "yes", "many", "1_000", "[250]",
]
WHOLES = [
    "0", "1", "12", "012", "100", "101", "5200", "5201", "12.0", "12.5", "1e1", "-1", '"12"', '"0"', '"99"', '"101"',
    '"12.0"', '"99999"', "true",
]
NAMES = [
    "dusty", "a", "2nd", "a-", "-a", "Dusty", "a_b", "a b", "12", "012", "1.5", "-5", "true", "True", '""', "null",
    "ä", '"a\\n"', "{a: b}",
]
DAYS = [
    "2026-03-01", '"2026-03-01"', "2024-02-29", "2026-02-29", "2026-02-30", "2026-04-31", "2026-13-01", "2026-00-10",
    "1899-12-31", "1900-01-01", "2199-12-31", "2200-01-01", "2026-3-1", "2026-03-01 ", "2026-03-01T00:00:00Z",
    '"2026-03-01\\n"', "May 1", "20260301", "01.03.2026", "2026-03", "2026", "[2026-03-01]",
]
SPANS_OF_DAYS = [
    "2026", '"2026"', "1899", "2200", "2026.0", "2.026e3", "2026-03", "2026-13", "2026-1", "2026-02-30", "2026-12-31",
    "{on: 2026-03}", "{on: 2026-03, at: 5}", "{at: 5}", "{on: 2026, since: 5}", "{}", "[2026]", "true",
]
TIMES = [
    "50 min", "50min", "1 h", "1h30min", "1 h 30 min", "1 h 59 min", "1 h 60 min", "1 h 00059 min", "1 h ", "90",
    "1.5 h", "99999 min", "100000 min", "min", "1 hour", "1 d", "-5 min", '"1 h\\n"', "00:50",
]
MEASURES = [
    "25", "-1.6", "-0", "0.123456", "0.1234567", "'0.1234560'", "'0.1234567'", "'-1000000000'", "'-1000000000.5'",
    "-1000000001", "1000000000", "+5", "1e-3", "'+5'", "true", "high",
]
SPANS = [
    '"08:00-12:00"', "08:00-12:00", '"00:00-24:00"', '"24:00-24:00"', '"23:59-24:01"', '"8:00-12:00"',
    '"12:00-08:00"', '"08:00-08:00"', '"08:00"', '"08:60-12:00"', '"25:00-26:00"', "[]", '["08:00-12:00"]',
    '["08:00-12:00", "13:00-15:00"]', '["08:00-12:00", "11:00-15:00"]', '["08:00-12:00", 13]', "8", "{from: 08:00}",
]
YES = ["true", "false", "True", "TRUE", "yes", "no", '"true"', "1", "null"]
DAYS_OF_YEAR = [
    "08-01", "02-29", "02-30", "09-31", "12-31", "13-01", "00-10", "8-1", '"08-01"', "--08-01", "0801", "2026-08-01",
]
DAY_COUNTS = [
    "7 days", "1 day", "2 weeks", "1 week", "0 days", "3650 days", "3651 days", "7", "7 d", "7days", "7  days",
    "1.5 days", "1000001 days", "99999999 days", "-1 days", "3 months",
]

PLACES = [
    (COMBINE, "tasks/engine-oil/every/hours", AMOUNTS),
    (ROUNDS, "costs/hour", ["0", "-1", "1000000000", "1000000001", "many", '"0.5"', '"-1"', '"1000000001"']),
    (COMBINE, "tasks/air-inner/every/weeks", WHOLES),
    (PRESS, "tasks/grease/people", WHOLES),
    (COMBINE, "tasks/air-inner/every/changes/air-outer", [
        "0", "1", "1000000", "1000001", "-1", "1.5", '"3"', '"0"', '"1000000"', '"1000001"',
    ]),
    (COMBINE, "tasks/engine-oil/grace/weeks", ["0", "5200", "5201", "-1", '"0"', "2.5", '"2.5"']),
    (PRESS, "tasks/grease/every/years", ["1", "100", "101", "0", "1.5", '"100"', '"101"', '"0"']),
    (COMBINE, "tasks/air-outer/every/days", ["36525", "36526", "0", '"36525"', '"0"', "1.5"]),
    (COMBINE, "tasks/engine-oil/every/months", ["1200", "1201", "0", '"1"', '"0"', "1.5"]),
    (COMBINE, "tasks/engine-oil/grace/changes", ["0", "1000000", "1000001", "-1", "1.5", '"0"', '"1000001"']),
    (COMBINE, "tasks/air-outer/grace/days", ["0", "36525", "36526", "-1", "1.5", '"14"', '"1.5"']),
    (MACHINES, "machines/combine/conditions/0", NAMES),
    (MACHINES, "machines/combine/left", DAYS),
    (MACHINES, "machines/combine/in-service", SPANS_OF_DAYS),
    (MACHINES, "machines/press/bought/on", SPANS_OF_DAYS[:11]),
    (PRESS, "tasks/grease/takes", TIMES),
    (COMBINE, "tasks/air-outer/every/measured/cover-depth/below", MEASURES),
    (ROUNDS, "calls/c-01/between", SPANS),
    (AROUND, "sites/yard/open/fri", ["[]", '["08:00-12:00", "13:00-15:00"]', '["08:00-12:00", "12:30"]', "8"]),
    (ROUNDS, "crews/van/hours/fri", ["[]", '["08:00-12:00"]', '["08:00-12:00", "13:00-15:00"]', '"12:30"', "8"]),
    (ROUNDS, "crews/van/hours", ["{}", '{mo: "08:00-12:00"}', '{mon-thu: "08:00-12:00", tue: "08:00-12:00"}', "[]"]),
    (PRESS, "tasks/grease/safety", YES),
    (AROUND, "seasons/harvest/from", DAYS_OF_YEAR),
    (AROUND, "parts/oil-filter-a/lead-time", DAY_COUNTS),
    (AROUND, "stale-after", [
        "60", "0", "36525", "36526", "60 days", "0 days", "8 weeks", "60.0", "+60", '"60"', "two months", "-3", "true",
    ]),
    (AROUND, "fleet", [
        "Farm", "12", "true", "null", '" "', '"\\t"', '"a\\tb"', '"\\u0007"', "[a]", "{a: b}", "|\n  two\n  lines",
    ]),
    (AROUND, "time-zone", [
        "UTC", "Europe/Oslo", "Etc/GMT+1", "America/North_Dakota/Center", "Oslo, Norway", "/UTC", "Europe/",
        "Europe//Oslo", "+01:00", "1", '"UTC\\n"', '" UTC"', "true",
    ]),
    (AROUND, "grace", [
        "5%", "5 %", "5  %", "0%", "100%", "100.00%", "100.01%", "101%", "99.99%", "99.999%", "5.%", "-5%", "5",
        "0.05", "{}", "{days: 3, weeks: 1}", "{hours: 0}", "{hours: -1}", "{months: 1}", "{usage: {}}",
        "{usage: {engine: 0}}", "[5%]",
    ]),
    (ROUNDS, "costs/late", ["300%", "300.0%", "300.5%", "10000%", "10001%", "0 %", "300"]),
    (ROUNDS, "travel/speed", [
        "48 km/h", "0 km/h", "0.01 km/h", "300 km/h", "300.00 km/h", "300.01 km/h", "301 km/h", "48", "48km/h",
        "48 mph",
    ]),
    (ROUNDS, "travel/road-factor", [
        "1", "0.99", "1.30", "10", "10.01", "11", '"1"', '"0.9"', '"10.00"', '"10.01"', '"11"',
    ]),
    (AROUND, "sites/yard/at", [
        "[54.1, 3.2]", "[-90, -180]", "[90, 180.0]", "[91, 3]", "[54.1, 181]", "[54.1, -181]", "[54.1]",
        "[54.1, 3, 5]", "[]", '["54.1", "180"]', '["54.1", "180.5"]', '["54.1234567", 3]', "54.1", "[a, b]",
        "[54.1, null]",
    ]),
    (AROUND, "sites/yard/closed", [
        "[]", "[2026-05-04]", "[2026-02-29]", "[2026-05-32]", "[2026-05]", "[harvest]", "[easter]", "[2026-]", "[12]",
        "harvest", '[""]', "[20-05]",
    ]),
    (AROUND, "sites/yard/open", [
        "{}", '{mon: "08:00-12:00"}', '{monday-fri: "08:00-12:00"}', '{sat-mon: "08:00-12:00"}',
        '{mo: "08:00-12:00"}', '{mon-fr: "08:00-12:00"}', '{mon-tue-wed: "08:00-12:00"}',
        '{mon-fri: "08:00-12:00", wed: "13:00-14:00"}', "[]", '{Mon: "08:00-12:00"}', '{weekday: "08:00-12:00"}',
    ]),
    (AROUND, "mail/to", [
        "[a@b]", "[a@b, c@d]", "[]", "[a@b@c]", "['@b']", "['a@']", "[a b@c]", "['a,b@c']", "[12]", "a@b",
        '["a@b\\n"]', '["a\\u202e@b"]', "[ä@ö]", "['<a@b>']",
        "['a.b+c@d-e.f']", "['.a@b']", "['a.@b']", "['a..b@c']", "['a@b.']", "['a@b..c']", "['a@b_c']", "['a:b@c']",
        "['a[b@c']", f"['{'l' * 64}@b']", f"['{'l' * 65}@b']", f"['a@{'d' * 252}']", f"['a@{'d' * 253}']",
    ]),
    (AROUND, "mail/weekly-word", [
        "mon", "tue", "wed", "thu", "fri", "sat", "sun", "monday", "tuesday", "wednesday", "thursday", "friday",
        "saturday", "sunday", "Monday", "mo", "daily", "1", "off", "Off", "no",
    ]),
    (PRESS, "tasks/grease/counts-from", ["done", "due", "earlier", "Due", "later", "true"]),
    (PRESS, "tasks/grease/until", ["month-end", "year-end", "[]"]),
    (PRESS, "tasks/grease/by-whom", ["competent-person", "anybody"]),
    (PRESS, "tasks/grease/fluids/grease-2", [
        "11.5 L", "0 L", "0.01 L", "11.5L", "11.5  L", '"11.5 "', "11.5 L or so", "x L", "11.5", "1e3 L",
        "1000000000 L", "1000000000.5 L", "0.125 L",
    ]),
    (PRESS, "tasks/grease/positions", [
        "[]", "[a]", "[a, b, a]", "[1, 2]", "[1, 2, 1]", "[1, 1.0]", '["1", 1]', "[a@b]", "[a/b]", "['a,b']", "[a;b]",
        "[' a']", "['a ']", "[a b]", '[" "]', "[null]", "[[a]]", "left", "[true]", "[true, True]", "[1, 01]",
    ]),
    (PRESS, "tasks/grease/needs", [
        "[]", "[lifting]", "[lifting, lifting]", "[Lifting]", "[1, 1]", "[1, 01]", "lifting", "{lifting: 1}",
    ]),
    (PRESS, "tasks/grease/tools", ["[]", "[pan, pan]", "[1, pan]", "[null]", '[" "]', "pan"]),
    (PRESS, "tasks/grease/cautions", [
        "[]", "[hot-fluid]", "[hot-fluid, hot-fluid]", "[hot-fluids]", "[Hot-Fluid]", "[hot_fluid]", "[hot fluid]",
        "[gloves]", '["Gloves!"]', '["Mind the geese"]', "[Öl]", "[12]", "[1.5]", "[true]", "[null]", '[" "]', '["\\n"]',
        "hot-fluid", "{hot-fluid: 1}",
    ]),
    (COMBINE, "tasks/air-inner/every/signs", ["[]", "[leak]", "[leak, leak]", "[Leak]", "leak"]),
    (COMBINE, "tasks/air-inner/every/season/harvest", [
        "14 days before", "1 day before", "2 weeks before", "1 week before", "0 days before", "364 days before",
        "365 days before", "52 weeks before", "53 weeks before", "1000 days before", "14 days", "14 before", "14",
    ]),
    (COMBINE, "tasks/air-inner/every/measured/restriction", [
        "{above: 1, unit: kPa}", "{above: 1, below: 2, unit: kPa}", "{unit: kPa}", "{above: 1}", "{}", "25",
        "{above: 1, unit: 5}", "{above: 1, unit: kPa, limit: 3}",
    ]),
    (COMBINE, "tasks/air-inner/every/measured", ["{}", "{Restriction: {above: 1, unit: kPa}}", "[]"]),
    (COMBINE, "tasks/air-inner/every", [
        "{}", "{days: 1, weeks: 1}", "{days: 1, months: 1}", "{days: 1, years: 1}", "{weeks: 1, months: 1}",
        "{weeks: 1, years: 1}", "{months: 1, years: 1}", "{hours: 5, usage: {separator: 5}}",
        "{hours: 5, usage: {engine: 5}}", "{usage: {}}", "{usage: {separator: 0}}", "{usage: {rotor: 5}}",
        "{changes: {}}", "{changes: {air-inner: 2}}", "{season: {}}", "{season: {spring: 3 days before}}", "{day: 1}",
    ]),
    (COMBINE, "tasks/engine-oil/follow-up/check-leaks/within", [
        "{}", "{years: 1}", "{signs: [leak]}", "{changes: {air-outer: 1}}", "{season: {harvest: 1 day before}}",
        "{measured: {x: {above: 1, unit: mm}}}", "{days: 1, months: 1}", "{hours: 0}",
    ]),
    (COMBINE, "tasks", [
        "{}", "[]", "null", "{Engine: {do: x, every: {days: 1}}}", "{engine-oil: null}", "{engine-oil: {do: x}}",
        "{engine-oil: {every: {days: 1}}}",
    ]),
    (COMBINE, "schedule", ["Combine", "combine-2", "12", "null", "true"]),
    (COMBINE, "meters", [
        "{}", "{engine: {}, separator: {unit: h}}", "{Engine: {unit: h}, separator: {unit: h}}", "[engine]",
        "{engine: {unit: h, rolls-over-at: 0}, separator: {unit: h}}",
        "{engine: {unit: h, shows: 3}, separator: {unit: h}}",
    ]),
    (MACHINES, "machines", [
        "{}", "null", "[]", "{Combine: {schedule: combine}}",
        "{combine: {schedule: combine, in-service: 2020, bought: 2021}}", "{combine: {name: x}}",
        "{combine: {schedule: combine, meters: {}}}", "{combine: {schedule: combine, site: field}}",
    ]),
    (MACHINES, "machines/combine/expect", [
        "{}", "{per-year: 5, harvest: 6}", "{winter: 5}", "{per-year: -1}", "{harvest: many}", "5",
    ]),
    (MACHINES, "machines/combine/change", [
        "{}", "{engine-oil: {}}", "{seal: {}}", "{engine-oil: {do: x}}", "{engine-oil: {every: {}}}", "[]",
    ]),
    (ROUNDS, "calls/c-01", [
        "{do: x, takes: 1 h}", "{site: yard, machine: pump, do: x, takes: 1 h}", "{site: yard, do: x}",
        "{site: yard, takes: 1 h}", "{machine: dryer, do: x, takes: 1 h}",
        "{site: yard, do: x, takes: 1 h, from: 2026-05-08, by: 2026-05-04}",
    ]),
    (ROUNDS, "travel/table", ["ways.csv", "../travel.csv", "sub/travel.csv", "register.csv", "travel.txt", ".csv", "5",
                              "[travel.csv]"]),
    (ROUNDS, "crews/van/carries", ["{}", "{Filter: 1}", "{filter: 0}", "[filter]", "{filter: 1.5, belt: 2}"]),
    (ROUNDS, "crews/van", ["{start: yard}", "{hours: {}}", "{start: field, hours: {}}"]),
    (AROUND, "seasons/harvest", ["{from: 08-01}", "{to: 08-01}", "{from: 08-01, to: 08-02, every: year}"]),
    (AROUND, "mail", ["{}", "{from: a@b}", "a@b"]),
    (AROUND, "sites", ["{yard: {}, Yard: {}}", "{yard: {}, '': {}}"]),
    (AROUND, "seasons", ["{harvest: {from: 08-01, to: 09-20}, Spring 2: {from: 03-01, to: 04-01}}"]),
    (AROUND, "parts", ["{Filter: {}}", "{-a: {}}"]),
    (ROUNDS, "crews", ["{Van: {start: yard, hours: {}}}"]),
    (ROUNDS, "calls", ["{C-01: {site: yard, do: x, takes: 1 h}}"]),
    (COMBINE, "tasks/engine-oil/in", ["{}", "{Dusty: {hours: 5}}", "{dusty: {}}", "[dusty]"]),
    (PRESS, "tasks/grease/fluids", ["{}", "{Grease: 1 kg}", "{grease-2: 1}"]),
    (PRESS, "tasks/grease/parts", ["{}", "{Filter: 1}", "{filter: 0}", "[filter]"]),
    (COMBINE, "tasks/engine-oil/follow-up", ["{}", "{Look: {do: x, within: {days: 1}}}", "{look: {do: x}}"]),
]
