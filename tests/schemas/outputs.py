"""The JSON that every command writes, against its schema."""
import json
import re
import shutil
import sqlite3

import columns
import strictness
import verdicts

here = verdicts.root / "tests" / "schemas"
WRITE = ("reading", "done", "saw", "looked", "meter-change", "put-off", "lay-up", "out-of-use", "back", "count", "strike", "undo",
         "import", "merge")
SCHEMA = {command: "written" for command in WRITE}  # others have one of their own name
READINGS = "readings"  # what `sheet --readings` writes, likewise
JUDGED = "judged"  # and `rounds --check`
REPLAY = "replay"  # what `forecast --replay` writes is another thing than a forecast

# Commands in their order, each with the status that it ends with (None: any). ID is the fact written last.
SAMPLE = [
    ("new .", 0), ("import facts.csv", 0), ("import facts.csv", 0), ("due", 0), ("due --overdue", 0),
    ("due --all --within 12m", 0), ("due --first 3 --exit-code", 1), ("due --machine combine", 0),
    ("due --site wullamere", 0), ("why tractor-drill engine-oil", 0), ("why sprayer nozzles", 0),
    ("why generator-standby engine-oil", 0), ("history combine", 0), ("history sprayer --all", 0),
    ("reading combine 2170 --dry-run", 0), ("done telehandler-store engine-oil --at 1712", 0), ("undo --dry-run", 0),
    ("undo --note slip", 0), ("done combine engine-oil knife --on 2026-05 --found worn --by M.T.", 0),
    ("saw sprayer over-flow=11 --position middle", 0), ("saw telehandler-store leak", 0), ("saw combine brake-pull", 0), ("saw tractor-big strange noise", 0),
    ("due --overdue", 0), ("due", 0), ("looked tractor-big strange noise --note fan --found worn", 0), ("due", 0),
    ("looked tractor-big strange noise --note mended", 0), ("looked tractor-big hum --note nothing", 64),
    ("done tractor-loader brakes --found failed --note pedal", 0), ("season harvest", 0), ("saw tractor-big oil-temperature=110 --unit C", 0),
    ("saw dryer smoke unsafe --dry-run", 0), ("done pump-north gland --on 2026-06-07 --dry-run", 0),
    ("due tractor-loader tractor-big", 0), ("why tractor-loader", 0), ("why telehandler-store hoses", 0),
    ("looked tractor-loader brakes found failed --note bled", 64),
    ("looked tractor-loader brakes found failed --note bled --found good", 65),
    ("looked tractor-loader brakes found failed --note bled --by M.T. --found good", 0),
    ("looked pump-south gland-drip --note dry", 0), ("saw tractor-big tread-depth=31", 64),
    ("looked tractor-big oil-temperature 110 C --note gauge", 0),
    ("sheet", 0), ("sheet --within 12m", 0), ("sheet --site quernholt --within 3m", 0), ("sheet moisture", 64),
    ("sheet generator-standby tractor-loader", 0), ("sheet --readings", 0), ("sheet --readings --site wullamere", 0),
    ("sheet --readings --within 3m", 64),
    ("strike ID --note slip", 0), ("find-out", 0), ("find-out generator-standby", 0),
    ("put-off tractor-drill engine-oil --until +30h --by M.T. --note parts", 0), ("sheet tractor-drill --within 6w", 0),
    ("put-off combine knife --until 2026-08-01 --by M.T. --note rain", 0), ("lay-up dryer --until 2026-07-20", 0),
    ("out-of-use pump-north --note leaking", 0), ("back pump-north", 0), ("count gland-packing 3", 0),
    ("meter-change combine --last 2190 --first 0", 0), ("history combine --all", 0),
    ("done combine knife --found failed --dry-run", 0), ("export", 0), ("reading tractor-big 229", 65),
    ("reading tractor-bg 229", 64), ("reading tractor-big much", 64), ("why combine oil", 64), ("strike nothing", 64),
    ("forecast", 0), ("forecast combine --within 6m", 0), ("forecast generator-standby", 0), ("forecast combne", 64),
    ("forecast --replay", 0), ("forecast combine --replay", 0), ("season harvest", 0), ("season pumping --odds 5%", 0),
    ("season harvest --odds 100 --machine combine --site wullamere", 0), ("season harvest --year 2027", 0),
    ("season harvest --as-of 2026-08-15", 0), ("season harvest --year 2020", 64), ("season harvest --year soon", 64),
    ("season harvest --odds 0%", 64), ("season nothing", 64), ("workload", 0),
    ("workload --by week --within 8w --site wullamere", 0), ("workload --by day", 64), ("parts", 0),
    ("parts --within 6m", 0), ("parts --within soon", 64), ("due combine dryer", 0), ("due combne", 64),
    ("season harvest combine", 0), ("workload combine", 0), ("parts combine", 0), ("parts --before harvest", 0), ("parts --before harvest combine", 0),
    ("report", 0), ("report --site wullamere", 0), ("report --season pumping combine", 0), ("report --season nothing", 64),
    ("parts --before harvest --within 3m", 64), ("parts --before nothing", 64),
    ("visits", 0), ("visits combine --first 1", 0), ("visits --site wullamere --within 2w --exit-code", 1),
    ("visits --without nobody", 64), ("visits --within 6y", 64),
    ("rounds --from 2026-06-15", 0), ("rounds --from 2026-06-15 --site wullamere --within 2w", 0),
    ("rounds --from 2026-06-15 --without contractor --first 1", 0), ("rounds", 64), ("rounds --from 2026-06-01", 64),
    ("done tractor-loader brakes --found worn --note pedal --by M.T.", 0), ("done tractor-yard brakes --found failed --by M.T.", 0),
    ("rounds --from 2026-06-15", 0), ("visits", 0), ("visits --site wullamere", 0), ("sheet --within 3m", 0),
    ("import --messages texts.txt --dry-run", 65), ("import --messages texts.txt", 65), ("import --messages texts.txt", 65),
    ("import --messages texts.txt --skip-bad", 64), ("import facts.csv --on today", 64),
    ("check", None), ("backup copy.db", 0), ("merge copy.db", 0), ("backup copy.db", 65), ("import nothing.csv", 66),
    ("import register.csv", 65), ("duee", 64), ("due --fleet nowhere", 66), ("new .", 65),
    ("help", 0), ("help due", 0), ("completion bash", 0), ("completion zsh", 0), ("completion fish", 0),
]
# A week of which each reason and each shape of a judgement comes up: the plans lie beside its fleet.
WEEK = [
    ("new .", 0), ("import facts.csv --as-of 2026-05-03", 0),
    ("rounds --from 2026-05-04 --as-of 2026-05-03", 0), ("rounds --from 2026-05-04 --as-of 2026-05-03 --keep promised.json", 0),
    ("rounds --from 2026-05-05 --as-of 2026-05-05 --keep by-hand.json", 0),
    ("rounds --from 2026-05-04 --as-of 2026-05-03 --check by-hand.json", 0),
    ("rounds --from 2026-05-04 --as-of 2026-05-03 --check by-hand.json --exit-code", 1),
    ("rounds --from 2026-05-04 --as-of 2026-05-03 --check wrong-shapes.json", 0),
    ("rounds --from 2026-05-04 --as-of 2026-05-03 --keep wrong-shapes.json", 65),
    ("rounds --from 2026-05-04 --as-of 2026-05-03 --check facts.csv", 65),
    ("rounds --from 2026-05-09 --days 2 --as-of 2026-05-03", 65),
    ("visits --within 2w --as-of 2026-05-03", 0), ("visits --within 1d --as-of 2026-05-08", 65),
]
MESSAGES = """15.06.2026 08:10
saw dryer hum
saw dryer hum
saw combine restriction 6.2 kPa
done combine engine oil
[15.06.2026, 08:11] Kari: saw tractor-big oil temperature=90 C
thanks!
"""
AHEAD = [("forecast", 0), ("forecast --replay", 0), ("season harvest", 0), ("workload", 0),
         ("workload --by week --within 8w", 0), ("parts", 0), ("parts --within 12m", 0), ("sheet", 0),
         ("sheet --within 6m", 0), ("sheet --readings", 0), ("report", 0)]
STATES = [
    ("new .", 0), *AHEAD, ("import facts.jsonl", 0), ("due", 0), ("due --overdue", 0), ("why busy oil", 0),
    ("why busy wheels", 0), ("due --machine unknown", 0), ("due --machine busy --as-of 2025-12-31", 0),
    ("import from-another-copy.jsonl", 0), ("due", 0), ("due --overdue", 0), ("find-out", 0), ("check", None),
    ("import from-a-spreadsheet.csv", 65), ("import from-a-spreadsheet.csv --skip-bad", 0),
    ("history doubtful --all", 0), ("history sold-long-ago", 0), ("export", 0),
    *AHEAD, ("season harvest --machine unknown", 0), ("season pumping", 64), ("forecast unknown", 0),
    ("forecast unread --replay", 0),
]
KEPT = [("new .", 0), ("import facts.csv", 0), ("check", None)]
OUT_OF_KEEPING = [("due", 0), ("check", None)]  # after `alter_what_is_kept`
LATER = [("due", 0), ("due --overdue", 0), *AHEAD]  # as of today, which is before the newest fact
NOBODY = [
    ("new .", 0), ("due", 0), ("due --overdue", 0), ("find-out", 0), ("check", None), ("history pump", 0),
    ("export", 0), ("undo", 65), ("forecast", 0), ("forecast --replay", 0), ("season harvest", 64), ("workload", 0),
    ("parts", 0), ("sheet", 0), ("sheet --readings", 0), ("report", 0),
]
STARTED = [
    ("new farm", 0), ("due --fleet farm", 0), ("new .", 65), ("new farm --from wide.csv", 65),
    ("new every --from every-column.csv", 65), ("new every --from every-column.csv --skip-bad --dry-run", 0),
    ("new every --from every-column.csv --skip-bad", 0), ("due --fleet every", 0), ("new wide --from wide.csv", 0),
    ("new western --from western.csv --columns Maschine=name", 0), ("new other --from western.csv --columns X=at", 64),
]


def schema_of(command):
    words = command.split()
    if "--readings" in words:
        return READINGS
    if "--check" in words:
        return JUDGED
    return REPLAY if "--replay" in words else SCHEMA.get(words[0], words[0])


def formats(program):
    """By command: the formats that its help lists."""
    text = program.run("help").stdout.decode()
    names = re.findall(r"^  ([a-z-]+) ", text.split("\nCOMMANDS\n")[1].split("\n\n")[0], re.M)
    helps = {name: program.run("help", name).stdout.decode() for name in names}
    listed = {name: re.search(r"^  --format (\S+)", told, re.M) for name, told in helps.items()}
    return {name: found[1].split("|") for name, found in listed.items() if found}  # `mail` has one form, without a name


class Answers:
    def __init__(self, program):
        self.program = program
        self.valid = 0
        self.complaints = []
        self.commands = set()
        self.schemas = {}
        self.formats = formats(program)
        self.words = {}  # by schema and key: the texts that were seen
        self.kept = {}  # one answer of each shape
        self.schema_of_plans = verdicts.Schema("plan")
        self.newest = None  # the id of the fact last written

    def schema(self, name):
        if name not in self.schemas:
            self.schemas[name] = verdicts.Schema(f"{name}.output")
        return self.schemas[name]

    def take(self, what, name, value):
        schema = self.schema(name)
        if schema.refuses(value):
            self.complaints.append(f"{what}: not as in {schema.name}: {schema.why(value)}")
            return
        self.valid += 1
        if name == "rounds" and value["scope"] is None and self.schema_of_plans.refuses(value):
            self.complaints.append(f"{what}: is no plan: {self.schema_of_plans.why(value)}")
        self.note(name, value)
        filled = {key: bool(part) for key, part in value.items() if isinstance(part, list)}
        shape = json.dumps([name, sorted(value), filled])
        self.kept.setdefault(shape, (name, value))

    def note(self, name, value):
        for key, part in value.items() if isinstance(value, dict) else ():
            if isinstance(part, str):
                self.words.setdefault((name, key), set()).add(part)
        for part in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
            self.note(name, part)

    def run(self, folder, command, status, form, as_of):
        words = [self.newest if word == "ID" else word for word in command.split()]
        done = self.program.run(*words, "--format", form, *as_of, folder=folder)
        what = f"{command} --format {form}"
        if status not in (None, done.returncode):
            self.complaints.append(f"{what}: exit {done.returncode}, not {status}: {done.stderr.decode()}")
            return
        out, name = done.stdout.decode(), command.split()[0]
        try:
            if name == "export":
                values = [json.loads(line) for line in out.splitlines()]
            else:
                values = [json.loads(out)] if out else []
            errors = [json.loads(line) for line in done.stderr.decode().splitlines()]
        except json.JSONDecodeError as error:
            self.complaints.append(f"{what}: not JSON: {error}")
            return
        if not values and not errors and name != "export":
            self.complaints.append(f"{what}: not a word")
        for value in values:
            self.take(what, schema_of(command), value)
            self.commands.add((name, form))
            if name in WRITE:
                self.newest = value["facts"][-1]["id"] if value["facts"] else self.newest
        for error in errors:
            self.take(what, "errors", error)

    def scene(self, name, source, commands, as_of=("--as-of", "2026-06-15")):
        folder = self.program.top / name
        if not folder.exists():
            shutil.copytree(source, folder, ignore=shutil.ignore_patterns("record.db*", ".*", "try"))
            (folder / "texts.txt").write_text(MESSAGES)
        for command, status in commands:
            if command.split()[0] not in (*self.formats, "duee"):
                continue
            days = () if command.startswith(("new", "backup", "help", "completion")) or "--as-of" in command else as_of
            for form in ("json", "jsonl") if command == "export" else ("json",):
                self.run(folder, command, status, form, days)

    def loose(self):
        for name, value in self.kept.values():
            yield from strictness.complaints(name, self.schemas[name], value)

    def words_not_seen(self):
        """Words of an enum that no answer had: nothing is known about them."""
        seen = {}  # the same words are the same thing, in whatever place
        for name, schema in self.schemas.items():
            for key, words in enums(schema.content, schema.content):
                seen.setdefault(frozenset(words) - {None}, set()).update(self.words.get((name, key), set()))
        for words, told in seen.items():
            for word in sorted(words - told):
                yield f"no answer had the word `{word}` of {sorted(words)}"


def enums(schema, whole):
    """(key, words) of every key whose value is one of some words."""
    if isinstance(schema, list):
        for part in schema:
            yield from enums(part, whole)
    elif isinstance(schema, dict):
        for key, value in schema.get("properties", {}).items():
            for part in [value, *value.get("allOf", [])]:
                if not part.get("$ref", "#").startswith("#"):
                    continue  # another schema, which has been looked at
                part = whole["definitions"][part["$ref"].split("/")[-1]] if "$ref" in part else part
                if "enum" in part:
                    yield key, part["enum"]
        for keyword, part in schema.items():
            if keyword != "if":
                yield from enums(part, whole)


def alter_what_is_kept(folder):
    """One machine has nothing kept, of one it is damaged, and the fleet was edited since."""
    with sqlite3.connect(folder / "record.db") as database:
        rows = database.execute("SELECT machine, state FROM derived ORDER BY machine").fetchall()
        database.execute("DELETE FROM derived WHERE machine = ?", (rows[0][0],))
        database.execute("UPDATE derived SET state = ? WHERE machine = ?", (rows[1][1][:-1], rows[1][0]))
    database.close()
    (folder / "fleet.yaml").write_text((folder / "fleet.yaml").read_text() + "# an edit\n")


def validated(program):
    """How many answers are as their schema says, and what is wrong."""
    answers = Answers(program)
    answers.scene("sample", verdicts.root / "sample-fleet", SAMPLE)
    answers.scene("kept", verdicts.root / "sample-fleet", KEPT)
    alter_what_is_kept(program.top / "kept")
    answers.scene("kept", verdicts.root / "sample-fleet", OUT_OF_KEEPING)
    answers.scene("states", here / "odd" / "states", STATES)
    answers.scene("states", here / "odd" / "states", LATER, as_of=())
    answers.scene("nobody", here / "odd" / "nobody", NOBODY)
    answers.scene("week", here / "odd" / "week", WEEK)
    answers.scene("started", here / "odd" / "lists", STARTED)
    for command, written in answers.formats.items():
        for form in {"json", "jsonl"} & set(written):
            if not (verdicts.root / "schemas" / f"{schema_of(command)}.output.schema.json").exists():
                answers.complaints.append(f"`{command}` writes {form}, and no schema says how")
            elif (command, form) not in answers.commands:
                answers.complaints.append(f"nothing that `{command}` writes as {form} was looked at")
    for path in sorted((verdicts.root / "schemas").glob("*.output.schema.json")):
        if path.name.removesuffix(".output.schema.json") not in answers.schemas:
            answers.complaints.append(f"no answer was held against {path.name}")
    return answers.valid, [*answers.complaints, *answers.words_not_seen(), *answers.loose(),
                           *columns.complaints(program, answers.schemas)]
