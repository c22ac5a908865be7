"""CSV against JSON: the same thing has the same key in both, and a figure is the same number."""
import csv
import io
import json

# Asked of the sample fleet. A key inside another is joined to it by `_`; a limb's by its kind.
ASKED = {"due": "due", "due combine": "due", "forecast": "forecast", "forecast --replay": "replay",
         "season harvest": "season", "workload --within 3m": "workload", "parts": "parts",
         "history combine": "history", "rounds --from 2026-06-15": "rounds", "visits": "visits"}
ONLY_CSV = {"row"}  # which list of the JSON a row comes from
NO_FIGURES = {"on"}  # a day of which only the year is known


def keys_of(schema, whole, before=()):
    """Every key, alone and behind the keys that it stands in."""
    found = set()
    if isinstance(schema, list):
        for part in schema:
            found |= keys_of(part, whole, before)
    elif isinstance(schema, dict):
        if "$ref" in schema:
            found |= keys_of(whole["definitions"][schema["$ref"].split("/")[-1]], whole, before)
        kind = schema.get("if", {}).get("properties", {}).get("kind", {}).get("const")  # of a limb
        if kind:
            return found | keys_of(schema["then"], whole, (*before, kind))
        for key, value in schema.get("properties", {}).items():
            path = (*before, key)
            found |= {"_".join(path[i:]) for i in range(len(path))}
            found |= keys_of(value, whole, path)
        for keyword in ("allOf", "anyOf", "items"):
            found |= keys_of(schema.get(keyword, []), whole, before)
    return found


def figures(value, found):
    """Every number of an answer."""
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for part in value:
            figures(part, found)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        found.add(float(value))
    return found


def number(cell):
    try:
        return float(cell)
    except ValueError:
        return None


def complaints(program, schemas):
    folder = program.top / "sample"
    for asked, name in ASKED.items():
        def answer(form):
            return program.run(*asked.split(), "--format", form, "--as-of", "2026-06-15", folder=folder).stdout.decode()

        known = keys_of(schemas[name].content, schemas[name].content)
        told = figures(json.loads(answer("json")), set())
        rows = list(csv.DictReader(io.StringIO(answer("csv"))))
        if not rows:
            yield f"{asked}: no rows"
            continue
        for column in rows[0]:
            if column not in known | ONLY_CSV:
                yield f"{asked}: the column `{column}` is no key of {schemas[name].name}"
            for row in rows:
                figure = None if column in NO_FIGURES else number(row[column])
                if figure is not None and figure not in told:
                    yield f"{asked}: JSON has no {row[column]}, which CSV says of `{column}`"
                    break
