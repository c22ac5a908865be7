"""Files with one mistake each, made from good ones by chance, but by the same chance every time."""
import copy
import random

from yaml12 import Quoted, Raw

SEED = 20260615
EACH = 10  # of every kind of mistake that is made by chance


def swapped(word):
    """A slip of the fingers: two neighbours change places."""
    for i in range(len(word) - 1):
        if word[i] != word[i + 1]:
            return word[:i] + word[i + 1] + word[i] + word[i + 2:]
    return word + "x"


def renamed(owner, key, fresh):
    entries = [(fresh if k == key else k, v) for k, v in owner.items()]
    owner.clear()
    owner.update(entries)


def is_number(value):
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def is_text(value):
    return isinstance(value, str)


def is_scalar(value):
    return not isinstance(value, (dict, list))


def another_shape(owner, key, value):
    """Wrong nearly everywhere: a list of the value instead of it, a text instead of a map or list."""
    owner[key] = [value] if is_scalar(value) else "some text"


# Name, what it is done to, and how. A change gets the map or list, the key or position in it, and the value there.
EVERYWHERE = [
    ("another shape", lambda o, k, v: True, another_shape),
    ("key too many", lambda o, k, v: isinstance(v, dict), lambda o, k, v: v.update({"surplus": 1})),
    ("key left out", lambda o, k, v: k in NEEDED, lambda o, k, v: o.pop(k)),
]
NEEDED = {"fleet", "to", "from", "schedule", "tasks", "on", "unit", "do", "every", "within", "takes", "start", "hours"}
BY_CHANCE = [
    ("key left out", lambda o, k, v: isinstance(o, dict), lambda o, k, v: o.pop(k)),
    ("key misspelt", lambda o, k, v: isinstance(o, dict), lambda o, k, v: renamed(o, k, swapped(k))),
    ("key not a name", lambda o, k, v: isinstance(o, dict), lambda o, k, v: renamed(o, k, k.upper() + " 2")),
    ("no value", lambda o, k, v: True, lambda o, k, v: o.__setitem__(k, None)),
    ("blank text", lambda o, k, v: is_scalar(v), lambda o, k, v: o.__setitem__(k, Quoted(" "))),
    ("map emptied", lambda o, k, v: isinstance(v, dict), lambda o, k, v: v.clear()),
    ("list emptied", lambda o, k, v: isinstance(v, list), lambda o, k, v: v.clear()),
    ("map for scalar", lambda o, k, v: is_scalar(v), lambda o, k, v: o.__setitem__(k, {"one": v})),
    ("scalar for list", lambda o, k, v: isinstance(v, list), lambda o, k, v: o.__setitem__(k, v[0] if v else 5)),
    ("item twice", lambda o, k, v: isinstance(v, list) and v, lambda o, k, v: v.append(v[0])),
    ("number in quotes", lambda o, k, v: is_number(v), lambda o, k, v: o.__setitem__(k, Quoted(v))),
    ("number negative", lambda o, k, v: is_number(v), lambda o, k, v: o.__setitem__(k, Raw(f"-{v}"))),
    ("number nought", lambda o, k, v: is_number(v), lambda o, k, v: o.__setitem__(k, 0)),
    ("number too large", lambda o, k, v: is_number(v), lambda o, k, v: o.__setitem__(k, 10_000_000_000)),
    ("word for number", lambda o, k, v: is_number(v), lambda o, k, v: o.__setitem__(k, "many")),
    ("number for text", lambda o, k, v: is_text(v), lambda o, k, v: o.__setitem__(k, 12.5)),
    ("truth for anything", lambda o, k, v: True, lambda o, k, v: o.__setitem__(k, True)),
    ("text misspelt", lambda o, k, v: is_text(v), lambda o, k, v: o.__setitem__(k, swapped(v))),
    ("text with something behind", lambda o, k, v: is_text(v), lambda o, k, v: o.__setitem__(k, v + ", or so")),
]


def paths(value, before=()):
    """Where all keys and items are."""
    for key in value if isinstance(value, dict) else range(len(value)) if isinstance(value, list) else ():
        yield (*before, key)
        yield from paths(value[key], (*before, key))


def owner_of(value, path):
    for key in path[:-1]:
        value = value[key]
    return value


def once_each(fitting):
    """Of places with the same key in the same kind of map of the same kind of file, the first."""
    found = {}
    for name, value, path in fitting:
        kind = [key if isinstance(key, str) else "item" for key in path[-2:]]
        found.setdefault((name[-1].split("/")[0], *kind, len(path) == 1), (name, value, path))
    return found.values()


def mutated(good):
    """From (name, value) of good files, the fullest first: (what was done, which file, its value)."""
    chance = random.Random(SEED)
    places = [(name, value, path) for name, value in good for path in paths(value)]
    for what, suits, change in EVERYWHERE + BY_CHANCE:
        fitting = [(name, value, path) for name, value, path in places
                   if suits(owner_of(value, path), path[-1], owner_of(value, path)[path[-1]])]
        by_chance = (what, suits, change) in BY_CHANCE
        for name, value, path in chance.sample(fitting, min(EACH, len(fitting))) if by_chance else once_each(fitting):
            fresh = copy.deepcopy(value)
            owner = owner_of(fresh, path)
            change(owner, path[-1], owner[path[-1]])
            yield f"{what}: {'/'.join(map(str, path))}", name, fresh
