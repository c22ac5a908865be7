"""The rules that no schema can state, by the program's code for breaking them, each with the reason.

A schema that refuses what the program takes is always wrong. A schema may take what the program refuses only where
the code stands here, and for a code that it can judge in part, only where the value found at the place is one that it
cannot judge.
"""
import re


def spelling(seen, message):
    """A number, or true and false, that would be right but for how it is written. Bounds a schema can state."""
    if not isinstance(seen.value, (bool, int, float)) or "is more than" in message or "within the years" in message:
        return False
    return not (seen.value < 0 and ("is negative" in message or "is not a name" in message))


def count_as_text(seen, message):
    """A count in quotes, or of days or weeks. That it is not 0 a pattern can say."""
    return (isinstance(seen.value, str) and re.fullmatch("[0-9]+( (days?|weeks?)( before)?)?", seen.value) is not None
            and not re.search("cannot be 0( |$)", message))


def beside_a_number(seen, message):
    return "has its hours already" in message or any(not isinstance(one, str) for one in seen.within or [])


def says(words):
    return lambda _seen, message: words in message


# About the file before it is YAML, or about YAML itself: an editor reports these by other means than a schema.
THE_TEXT = {
    "not-utf8": "bytes",
    "control-character": "bytes, or escapes, of any text",
    "bad-yaml": "no values are there yet",
    "unclosed-quote": "no values are there yet",
    "second-document": "a schema sees one document",
    "anchor-or-alias": "is resolved before a schema sees values",
    "explicit-tag": "is resolved before a schema sees values",
    "duplicate-key": "a map of values has each key once",
    "key-not-text": "a map of values has only text as keys",
    "too-deep": "a bound on nesting, met only where the shape is wrong too",
}

# Bounds on the size of a file, which no schema counts. The large files that show them are not read here.
NOT_JUDGED = {
    "line-too-long": "a bound on lines",
    "file-too-large": "a bound on bytes",
    "too-many-values": "a bound on keys and values of a whole file",
}

# About two things that must agree. The values alone are right, so a schema must take them.
BETWEEN_THINGS = {
    "wrong-suffix": "about the file's name",
    "schedule-name": "the file's name against the name inside",
    "no-machines": "machines may stand in register.csv",
    "unknown-schedule": "schedules are other files",
    "unknown-zone": "which time zones there are is a matter of the computer",
    "no-travel-table": "the table is another file",
    "carried-fluid": "what tasks pour is in other files",
    "unknown-site": "a name that must be a key elsewhere",
    "unknown-season": "a name that must be a key elsewhere, for a schedule in another file",
    "unknown-machine": "a name that must be a key elsewhere, or be in register.csv",
    "unknown-task": "a name that must be a key elsewhere",
    "unknown-meter": "a name that must be a key of the machine or its schedule",
    "no-hour-meter": "depends on the meters of every machine of the schedule",
    "same-meter-twice": "which meter `hours` means depends on the machine",
    "changes-of-itself": "a key against the key of the task around it",
    "ring-of-covers": "a walk through all tasks",
    "left-before-start": "two days to compare",
    "from-after-by": "two days to compare",
    "seasons-above-year": "a sum to compare",
}

# Values of which a schema can judge most.
IN_PART = {
    "bad-number": (spelling, "how a number is spelled (+5, 1e3, 0x10, 5., 0.125) is gone when it is a value"),
    "bad-number-of-days": (lambda seen, message: spelling(seen, message) or "is more than" in message,
                           "how a number is spelled is gone when it is a value; a pattern does not compare numbers"),
    "bad-name": (spelling, "how a number, or true, is spelled is gone when it is a value"),
    "bad-yes-or-no": (spelling, "True and TRUE are the same value as true"),
    "out-of-range": (count_as_text, "a pattern does not compare numbers"),
    "bad-day": (lambda seen, message: spelling(seen, message) or "-02-29\" is not a day of the calendar" in message,
                "29 February needs arithmetic; how a year is spelled is gone when it is a value"),
    "bad-clock-span": (says("ends before it begins"), "a pattern does not compare times"),
    "overlapping-hours": (says("overlaps another span"), "a schema does not compare times"),
    "bad-coordinates": (lambda seen, _message: isinstance(seen.value, list) and len(seen.value) == 2
                        and 90 < abs(float(seen.value[0])) <= 180 and abs(float(seen.value[1])) <= 180,
                        "drafts 7 and 2020-12 write the first of a list differently, so one bound serves both degrees"),
    "repeated-value": (beside_a_number, "weekdays overlap as mon-fri and wed do; numbers are compared as written"),
}


def excused(error, places):
    code = error["code"]
    if code in THE_TEXT or code in BETWEEN_THINGS:
        return True
    seen = places.get((error["line"], error["column"]))
    return code in IN_PART and seen is not None and IN_PART[code][0](seen, error["message"])
