"""YAML as editors read it: version 1.2, core schema. A day is text, `no` and `010` are text and 10, keys are text.

Every value keeps its place, so that what the program says about a line can be held against what an editor sees there.
"""
import functools
import re
from typing import NamedTuple

import yaml

CORE = {
    "null": r"null|Null|NULL|~|",
    "bool": r"true|True|TRUE|false|False|FALSE",
    "int": r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+",
    "float": r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?|[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)",
}
TAG = "tag:yaml.org,2002:"


PATTERNS = {TAG + kind: re.compile(f"({pattern})\\Z") for kind, pattern in CORE.items()}


@functools.cache
def tag_of(text):
    """What a text without quotes is read as."""
    return next((tag for tag, pattern in PATTERNS.items() if pattern.match(text)), TAG + "str")


class Core:
    """In place of the rules of YAML 1.1."""

    def resolve(self, kind, value, implicit):
        return tag_of(value) if kind is yaml.ScalarNode and implicit[0] else super().resolve(kind, value, implicit)


class Loader(Core, yaml.CSafeLoader):
    yaml_implicit_resolvers = {}


class Dumper(Core, yaml.CSafeDumper):
    yaml_implicit_resolvers = {}


class Raw(str):
    """A value to be written without quotes, whatever it will be read as."""


class Quoted(str):
    """A value to be written in quotes."""


def write_raw(dumper, text):
    return dumper.represent_scalar(dumper.resolve(yaml.ScalarNode, text, (True, False)), str(text))


Dumper.add_representer(Raw, write_raw)
Dumper.add_representer(Quoted, lambda dumper, text: dumper.represent_scalar(TAG + "str", str(text), style='"'))
Dumper.ignore_aliases = lambda self, data: True


def write(value):
    # The program wants quotes closed on their line.
    return yaml.dump(value, Dumper=Dumper, sort_keys=False, width=100_000, allow_unicode=True).encode()


class Seen(NamedTuple):
    value: object
    within: object = None  # the list it stands in


def scalar(node):
    kind, text = node.tag.removeprefix(TAG), node.value
    if kind == "null":
        return None
    if kind == "bool":
        return text.lower() == "true"
    if kind == "int":
        return int(text, 0) if text[:2] in ("0o", "0x") else int(text)
    if kind == "float":
        return float(re.sub(r"\.(?=inf|nan)", "", text.lower()))
    return text


def build(node, places, within=None):
    if isinstance(node, yaml.ScalarNode):
        value = scalar(node)
    elif isinstance(node, yaml.SequenceNode):
        value = []
        value.extend(build(item, places, value) for item in node.value)
    else:
        value = {}
        for key, item in node.value:
            if not isinstance(key, yaml.ScalarNode) or key.value in value:
                raise yaml.YAMLError("a key that is no text, or is there twice")
            places[key.start_mark.line + 1, key.start_mark.column + 1] = Seen(key.value)
            value[key.value] = build(item, places)
    places.setdefault((node.start_mark.line + 1, node.start_mark.column + 1), Seen(value, within))
    return value


def read(text):
    """The one document of a file, and by line and column what stands there. Raises yaml.YAMLError."""
    node = yaml.compose(text, Loader)
    places = {}
    return (None if node is None else build(node, places)), places
