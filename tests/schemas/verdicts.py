"""The verdict of the program on a fleet folder, that of the schemas on its files, and whether they are alike."""
import copy
import json
import os
import pathlib
import re
import shutil
import subprocess
import tempfile

import yaml
from jsonschema import Draft7Validator, Draft202012Validator, RefResolver, ValidationError, validators

import only_the_program
import yaml12

root = pathlib.Path(__file__).resolve().parent.parent.parent
ENVIRONMENT = {"PATH": "/usr/bin:/bin", "WHICHEVER_USER": "tester", "HOME": "/"}


def at_the_end(_validator, pattern, instance, _schema):
    # Patterns are those of ECMA 262, where $ is the end of the text and not also before a last line break.
    if isinstance(instance, str) and not re.search(pattern.replace("$", r"\Z"), instance):
        yield ValidationError(f"{instance!r} does not match {pattern!r}")


DRAFTS = [validators.extend(draft, {"pattern": at_the_end}) for draft in (Draft7Validator, Draft202012Validator)]


def other_schema(place):
    """An answer that holds other answers refers to their schemas, which lie beside its own."""
    return json.loads((root / "schemas" / place.split("/")[-1]).read_text())


class Schema:
    def __init__(self, name, content=None, drafts=DRAFTS):
        self.name = name
        self.content = content or json.loads((root / "schemas" / f"{name}.schema.json").read_text())
        self.both = [draft(self.content, resolver=RefResolver("file:///", self.content, handlers={"file": other_schema}))
                     for draft in drafts]

    def refuses(self, value):
        verdicts = {not draft.is_valid(value) for draft in self.both}
        if len(verdicts) != 1:
            raise SystemExit(f"schemas: FAILED: {self.name}: the drafts differ on {value}")
        return verdicts.pop()

    def why(self, value):
        error = min(self.both[0].iter_errors(value), key=lambda one: len(one.path), default=None)
        return "" if error is None else f"{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}"

    def broken(self, change):
        """The same without something."""
        content = copy.deepcopy(self.content)
        change(content)
        return Schema(self.name, content, DRAFTS[:1])


class Program:
    """The binary, and a folder with a record in which fleets come and go."""

    def __init__(self, binary):
        self.binary = pathlib.Path(binary).resolve()
        self.top = pathlib.Path(tempfile.mkdtemp(prefix="schemas-"))
        self.folder = self.top / "fleet"
        self.folder.mkdir()
        (self.folder / "fleet.yaml").write_text("fleet: Empty\n")
        made = self.run("new", self.folder)
        if made.returncode != 0:
            raise SystemExit(f"schemas: FAILED: no record could be made: {made.stderr.decode()}")

    def run(self, *words, folder=None):
        command = [str(self.binary), *map(str, words)]
        return subprocess.run(command, cwd=folder or self.top, env=ENVIRONMENT, capture_output=True, timeout=60)

    def mistakes(self, files):
        """What the program says about these files, by name; nothing where it takes them."""
        shutil.rmtree(self.folder / "schedules", ignore_errors=True)
        for name in ("fleet.yaml", "register.csv", "travel.csv"):
            (self.folder / name).unlink(missing_ok=True)
        for name, text in files.items():
            path = self.folder / name
            path.parent.mkdir(exist_ok=True)
            path.write_bytes(text)
        done = self.run("--fleet", self.folder, "due", "--as-of", "2026-06-15", "--format", "json")
        errors = [json.loads(line)["error"] for line in done.stderr.decode().splitlines()]
        if done.returncode not in (0, 78) or (done.returncode == 78) != bool(errors):
            raise SystemExit(f"schemas: FAILED: exit {done.returncode} is neither a good nor a bad fleet: {errors}")
        for error in errors:
            if error["file"]:
                error["file"] = os.path.relpath(error["file"], self.folder)
        return errors


def schema_of(name):
    return "fleet" if name == "fleet.yaml" else "schedule" if name.endswith((".yaml", ".yml")) else None


class File:
    """A file of a case, what an editor reads in it, and what the program said about it."""

    def __init__(self, case, name, text, errors):
        self.case, self.name, self.text, self.errors = case, name, text, errors
        self.schema = schema_of(name)
        try:
            self.value, places = yaml12.read(text)
            self.readable = True
        except yaml.YAMLError:
            self.readable = False
            return
        self.unexcused = [error for error in errors if not only_the_program.excused(error, places)]
        self.values_are_right = all(error["code"] in only_the_program.BETWEEN_THINGS for error in errors)

    def complaint(self, schema):
        """How the two verdicts differ, or nothing."""
        if not self.readable:
            return None if self.errors else "an editor cannot read what the program takes"
        refused = schema.refuses(self.value)
        if refused and not self.errors:
            return "the schema refuses what the program takes: " + schema.why(self.value)
        if refused and self.values_are_right:
            return f"the schema refuses what is wrong only between things ({self.codes()}): " + schema.why(self.value)
        if not refused and self.unexcused:
            return "the schema takes what the program refuses: " + "; ".join(
                f"{error['code']}: {error['message']}" for error in self.unexcused)
        return None

    def codes(self):
        return ", ".join(error["code"] for error in self.errors)
