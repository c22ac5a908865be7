"""The files on which the schemas and the program are compared."""
import re

import mutations
import only_the_program
import values
import verdicts
import yaml12

here = verdicts.root / "tests" / "schemas"


def folder(path):
    """All files of a fleet folder. A large one (NAME.repeat) is about its text, which no schema sees."""
    found = {}
    for file in sorted(path.rglob("*")):
        name = file.relative_to(path).as_posix()
        if file.is_file() and (verdicts.schema_of(name) or name in ("register.csv", "travel.csv")):
            found[name] = file.read_bytes()
    return found


def good_folders():
    folders = {path.name: folder(path) for path in sorted((here / "good").iterdir())}
    folders["sample-fleet"] = folder(verdicts.root / "sample-fleet")
    return folders


def with_value(text, path, raw):
    """The file with something else at a place. Written anew, so it differs in nothing but that."""
    value = yaml12.read(text)[0]
    keys = [int(key) if key.isdigit() else key for key in path.split("/")]
    mutations.owner_of(value, keys)[keys[-1]] = "PLACE"
    before, after = yaml12.write(value).decode().split("PLACE")
    return (before + raw + after).encode()


WHOLE_FILES = [b"", b"# A remark.\n", b"null\n", b"text\n", b"5\n", b"[]\n", b"- fleet: Farm\n", b"{}\n", b"--- {}\n",
               b"? \n"]
FULL = ("machines", "around", "rounds")  # the good folders that have every key between them


def read(good, one):
    source, name = one
    return yaml12.read(good[source][name])[0]


def cases(program):
    """(name, files, which of them it is about: all where none is named)."""
    good = good_folders()
    for name, files in good.items():
        yield f"good: {name}", files, None
    program.run("new", program.top / "starter")
    yield "good: what `new` writes", folder(program.top / "starter"), None
    for path in sorted((verdicts.root / "tests" / "errors").iterdir()):
        if (path / "fleet.yaml").exists():
            yield f"errors: {path.name}", folder(path), None
    for (source, name), path, texts in values.PLACES:
        for raw in texts:
            yield f"{path}: {raw}", {**good[source], name: with_value(good[source][name], path, raw)}, name
    for name in ("fleet.yaml", "schedules/pump.yaml"):
        for text in WHOLE_FILES:
            yield f"whole file: {text}", {**good["around"], name: text}, name
        yield "key too many", {**good["around"], name: good["around"][name] + b"surplus: 1\n"}, name
        text = b"\xef\xbb\xbf" + good["around"][name].replace(b"\n", b"\r\n")
        yield "good: with a byte order mark and CR LF", {**good["around"], name: text}, name
    sources = [(source, name) for source in FULL for name in good[source]]
    for what, (source, name), value in mutations.mutated([(one, read(good, one)) for one in sources]):
        yield what, {**good[source], name: yaml12.write(value)}, name


def judged(program):
    files = []
    for case, texts, about in cases(program):
        errors = program.mistakes(texts)
        if case.startswith("good: ") and errors:
            raise SystemExit(f"schemas: FAILED: {case} is not good: {errors}")
        for name, text in texts.items():
            if verdicts.schema_of(name) and about in (None, name):
                files.append(verdicts.File(case, name, text, [error for error in errors if error["file"] == name]))
    return files


def not_covered(files, schemas):
    """Keys that no good file uses, so that nothing is known about them."""
    for name, schema in schemas.items():
        used = set()

        def note(value):
            for key in value if isinstance(value, dict) else ():
                used.add(key)
            for part in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
                note(part)

        for file in files:
            if file.schema == name and file.case.startswith("good: "):
                note(file.value)
        for key in sorted(keys_of(schema.content) - used):
            yield f"no good file has the key `{key}` of {name}"


def keys_of(schema):
    found = set()
    if isinstance(schema, dict):
        if isinstance(schema.get("properties"), dict):
            found |= set(schema["properties"])
        for part in schema.values():
            found |= keys_of(part)
    elif isinstance(schema, list):
        for part in schema:
            found |= keys_of(part)
    return found


def rules_not_met(files):
    """Rules said to be the program's alone that no file breaks."""
    met = {error["code"] for file in files for error in file.errors}
    for table in (only_the_program.THE_TEXT, only_the_program.BETWEEN_THINGS, only_the_program.IN_PART):
        yield from (f"no file breaks the rule `{code}`" for code in table.keys() - met)


def maps_in(value):
    if isinstance(value, dict):
        yield value
    for part in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from maps_in(part)


def closed_maps(errors):
    """By a key that no schema has: the keys of the map that refused it."""
    found = {}
    for error in errors:
        found.update(closed_maps(error.context))
        if error.validator == "additionalProperties":
            found.update({key: set(error.schema["properties"]) for key in error.instance if key.startswith(STRANGE)})
    return found


STRANGE = "qqqqqqqq-"  # near to no key, so that the program's hint lists all that there are
NOT_AFTER_A_TASK = {"changes", "measured", "signs", "season"}  # known in `within:`, and then refused as `wrong-limb`


def keys_that_differ(program, schemas):
    """Each map with a strange key in it, so that the program and the schema both say which keys there are."""
    compared = 0
    good = good_folders()
    for source, name in [(source, name) for source in FULL for name in good[source] if verdicts.schema_of(name)]:
        files = good[source]
        value = yaml12.read(files[name])[0]
        for number, one in enumerate(list(maps_in(value))):
            one[f"{STRANGE}{number}"] = 1
        said = {}
        for error in program.mistakes({**files, name: yaml12.write(value)}):
            key = re.search(f"{STRANGE}[0-9]+", error["message"])
            if error["code"] == "unknown-key":
                said[key[0]] = set(re.findall("`([a-z-]+)`", error["hint"].split(" are ", 1)[1]))
        stated = closed_maps(schemas[verdicts.schema_of(name)].both[0].iter_errors(value))
        compared += len(said)
        for key in sorted(said.keys() | stated.keys()):
            keys = stated.get(key, set())
            if said.get(key) not in (keys, keys | NOT_AFTER_A_TASK):
                yield f"the keys of a map of {name} differ: the program {said.get(key)}, the schema {stated.get(key)}"
    if compared < 20:
        yield f"only {compared} maps were found whose keys the program lists"
