#!/usr/bin/python3
"""Holds the JSON Schemas against the program: the same verdict on files of a fleet, and the shape of every JSON answer.

usage: run.py WHICHEVER_BINARY [--thorough]

--thorough breaks the schemas in every place, one at a time, and tells which breaks no file of the corpus notices.
"""
import sys

sys.dont_write_bytecode = True

import pathlib
import shutil

import corpus
import outputs
import shapes
import verdicts

FEWEST = 300  # files judged; fewer means that the corpus went missing


def main():
    program = verdicts.Program(sys.argv[1])
    schemas = {name: verdicts.Schema(name) for name in ("fleet", "schedule")}
    try:
        complaints = shapes.complaints()
        files = corpus.judged(program)
        for file in files:
            if complaint := file.complaint(schemas[file.schema]):
                complaints.append(f"{file.case}, {file.name}: {complaint}")
        complaints += [*corpus.not_covered(files, schemas), *corpus.keys_that_differ(program, schemas),
                       *corpus.rules_not_met(files)]
        judged = len({(file.schema, file.text) for file in files})
        if judged < FEWEST:
            complaints.append(f"only {judged} files were judged")
        valid, told = outputs.validated(program)
        complaints += told
        if "--thorough" in sys.argv[2:]:
            shapes.thorough(schemas, files)
    finally:
        shutil.rmtree(program.top)
    for complaint in complaints:
        print(f"schemas: FAILED: {complaint}")
    print(f"schemas: {judged} files judged alike, {valid} outputs valid" if not complaints
          else f"schemas: {len(complaints)} failures")
    sys.exit(1 if complaints else 0)


main()
