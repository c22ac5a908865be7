"""The schemas by themselves: valid in both drafts, and written in what means the same in both."""
import json
import re

from jsonschema import Draft7Validator, Draft202012Validator
from jsonschema.exceptions import SchemaError

import verdicts

ONE = {"additionalProperties", "propertyNames", "items", "contains", "not", "if", "then"}  # a schema under the keyword
MANY = {"allOf", "anyOf", "oneOf"}
NAMED = {"properties", "definitions"}
PLAIN = {"type", "enum", "const", "pattern", "minimum", "maximum", "exclusiveMinimum", "required", "minItems",
         "maxItems", "uniqueItems", "minProperties"}
SAID = {"$schema", "title", "description"}
FORBIDS = PLAIN | MANY | {"additionalProperties", "propertyNames", "not", "contains", "items", "$ref"}


def is_of_an_answer(reference):
    """The schema of another answer, or a definition in it."""
    file, _, inside = reference.partition("#/definitions/")
    path = verdicts.root / "schemas" / file
    return path.exists() and (not inside or inside in json.loads(path.read_text()).get("definitions", {}))


def inner(schema):
    """(where, schema) of it and all in it."""
    todo = [("", schema)]
    while todo:
        where, one = todo.pop()
        if not isinstance(one, dict):
            continue
        yield where, one
        for keyword, value in one.items():
            if keyword in ONE:
                todo.append((f"{where}/{keyword}", value))
            elif keyword in MANY:
                todo += [(f"{where}/{keyword}/{i}", part) for i, part in enumerate(value)]
            elif keyword in NAMED:
                todo += [(f"{where}/{keyword}/{name}", part) for name, part in value.items()]


def faults(name, schema):
    for draft in (Draft7Validator, Draft202012Validator):
        try:
            draft.check_schema(schema)
        except SchemaError as error:
            yield f"is not valid in {draft.META_SCHEMA['$schema']}: {error.message}"
    if schema.get("$schema") != "http://json-schema.org/draft-07/schema#":
        yield "does not say that it is of draft 7"
    defined, used = set(schema.get("definitions", {})), set()
    is_output = name.endswith(".output")
    for where, one in inner(schema):
        for keyword in one.keys() - ONE - MANY - NAMED - PLAIN - SAID - {"$ref"}:
            yield f"{where} has the keyword {keyword}, which is not known to mean the same in both drafts"
        if "$ref" in one:
            if one["$ref"].startswith("#/definitions/"):
                used.add(one["$ref"].removeprefix("#/definitions/"))
            elif not (is_output and is_of_an_answer(one["$ref"])):
                yield f"{where} refers to {one['$ref']}, which is no schema of an answer"
            if len(one) > 1:
                yield f"{where} has keywords beside $ref, which draft 7 passes over"
        # With the flag u, which many validators set, an escape of any other character is no pattern.
        if re.search(r"\\(?![.\\tn]|u[0-9a-f]{4})", re.sub(r"\\\\", "", one.get("pattern", ""))):
            yield f"{where} has a pattern that is none in all readings of ECMA 262"
        if isinstance(one.get("items"), list):
            yield f"{where} lists items one by one, which the drafts write differently"
        if is_output and one.get("additionalProperties") is False:
            yield f"{where} forbids keys, but keys may join an answer"
        for key, value in one.get("properties", {}).items():
            if not is_output and not value.get("description"):
                yield f"{where} says nothing about `{key}`"
    if defined != used:
        yield f"definitions that are missing or not used: {sorted(defined ^ used)}"


def complaints():
    told, shared = [], {}
    for path in sorted((verdicts.root / "schemas").glob("*.schema.json")):
        name = path.name.removesuffix(".schema.json")
        schema = json.loads(path.read_text())
        told += [f"{path.name} {fault}" for fault in faults(name, schema)]
        # Each file is whole by itself, so what several need stands in each: it must not drift apart.
        for key, value in schema.get("definitions", {}).items():
            first, other = shared.setdefault((key, name.endswith(".output")), (path.name, value))
            if other != value:
                told.append(f"`{key}` is defined otherwise in {first} and in {path.name}")
    return told


def at(schema, where):
    for key in where.split("/")[1:]:
        schema = schema[int(key)] if isinstance(schema, list) else schema[key]
    return schema


def breaks(schema):
    """(what, how): every way of leaving out a keyword, a key, a required key or a word."""
    for where, one in inner(schema):
        for keyword in sorted(one.keys() & FORBIDS - ({"$ref"} if "/allOf/" in where else set())):
            yield f"{where}: without {keyword}", lambda s, w=where, k=keyword: at(s, w).pop(k)
        for keyword in sorted(one.keys() & {"required", "enum", "type", "anyOf", "oneOf"}):
            for i in range(len(one[keyword]) if isinstance(one[keyword], list) else 0):
                yield (f"{where}: without {keyword} {json.dumps(one[keyword][i])[:60]}",
                       lambda s, w=where, k=keyword, i=i: at(s, w)[k].pop(i))
        for key in one.get("properties", {}):
            yield f"{where}: without the key {key}", lambda s, w=where, k=key: at(s, w)["properties"].pop(k)


def thorough(schemas, files):
    """What is defined alike in both schemas is one thing: it is noticed where it is noticed in one of them."""
    noticed = {}
    for name, schema in schemas.items():
        own = [file for file in files if file.schema == name]
        for what, how in breaks(schema.content):
            key = what if what.startswith("/definitions/") else name + what
            if noticed.get(key):
                continue
            try:
                broken = schema.broken(how)
                noticed[key] = any(file.complaint(broken) for file in own)
            except Exception:  # it is no schema any more
                noticed[key] = True
    for key in sorted(key for key, seen in noticed.items() if not seen):
        print(f"not noticed: {key}")
    print(f"{sum(noticed.values())} breaks of {len(noticed)} noticed")
