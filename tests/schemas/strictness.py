"""What the schemas of answers hold fast, tried on real answers: a key that is left out, a word that is not one of those
possible and a value of another type are refused; a key that joins is taken."""
import copy
import json

# Which keys a fact has depends on its kind and on what was told, so these need not be there in a fact.
OPTIONAL = {"meter", "at", "task", "position", "name", "value", "unit", "until", "found", "by", "note", "sure", "history", "on",
            "entered-by", "origin"}

# Texts that are one of some words, each with its own meaning, wherever they stand. Of moves `before` and `after` too.
WORDS = {"kind", "standing", "ruled_by", "basis", "state", "heading", "found", "severity", "before", "after"}

# Maps whose keys are names out of the files of a fleet: any may stand there, or not.
BY_NAME = {("takes", "parts"), ("takes", "fluids"), ("taken_before", "parts"), ("taken_before", "fluids")}


# Answers inside an answer: each is tried by itself, with the schema that both have.
ANSWERS = {"overdue", "due", "season", "workload", "parts", "forecast", "history"}


def trimmed(value):
    """The same with short lists: of things of a kind the first."""
    if isinstance(value, dict):
        return {key: trimmed(part) for key, part in value.items()}
    if not isinstance(value, list):
        return value
    kept = {}
    for part in value:
        kind = part.get("kind", json.dumps(sorted(part))) if isinstance(part, dict) else ""
        kept.setdefault(kind, part)
    return [trimmed(part) for part in kept.values()]


def maps(value, path=()):
    if path and path[-1] in ANSWERS and isinstance(value, dict) and "as_of" in value:
        return
    if isinstance(value, dict):
        yield path
    for key, part in value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ():
        yield from maps(part, (*path, key))


def at(value, path):
    for key in path:
        value = value[key]
    return value


def changed(value, path, change):
    fresh = copy.deepcopy(value)
    change(at(fresh, path))
    return fresh


def complaints(name, schema, answer):
    answer = trimmed(answer)
    for path in maps(answer):
        optional = OPTIONAL if "batch" in at(answer, path) else set()
        # Of a round or a visit they stand in the round itself.
        by_name = path[-2:] in BY_NAME or (path[:1] in (("rounds",), ("visits",)) and path[2:] in (("parts",), ("fluids",), ("fills_up",)))
        for key, part in at(answer, path).items():
            where = f"{name}: {'/'.join(map(str, (*path, key)))}"
            needed = key not in optional and not by_name
            if needed and not schema.refuses(changed(answer, path, lambda one: one.pop(key))):
                yield f"{where} may be left out, says the schema, and is always there"
            if key in WORDS and isinstance(part, str):
                if not schema.refuses(changed(answer, path, lambda one: one.update({key: "nonsense"}))):
                    yield f"{where} may be any word, says the schema"
            if not schema.refuses(changed(answer, path, lambda one: one.update({key: {"of": "another type"}}))):
                if not isinstance(part, dict):
                    yield f"{where} may be a map, says the schema"
        if not by_name and schema.refuses(changed(answer, path, lambda one: one.update({"qqqqqqqq": 1}))):
            yield f"{name}: {'/'.join(map(str, path))} may get no further key, says the schema"
