#!/usr/bin/env python3
"""The JSON Schema the program writes, by Debian's python3-jsonschema: every setup that the program
reads must pass, and what an editor should mark must not.

usage: schema.py CASELOAD SETUP..."""
import json
import subprocess
import sys
import tomllib
from pathlib import Path

import jsonschema

WRONG = {
    "a key with a typo": 'gears.modul = "5 mm"',
    "a table with a typo": "[gearz]",
    "a word that is none": 'housing.place = "outside"',
    "a number where text with its unit belongs": "vehicle.mass = 2350",
    "a bin's member with a typo": "[leg.loop]\nbins = [{ share = 1, torqe = \"300 N m\" }]",
    "teeth as a name": 'set.A.teeth = "B"',
    "a flag as text": 'oil.ep_additive = "yes"',
}


RIGHT = {
    "teeth as a ratio": 'gears.fitted = "31/43"\nset.A.teeth = "31/43"',
}


def main():
    program, *setups = sys.argv[1:]
    if not setups:
        sys.exit(__doc__)
    schema = json.loads(subprocess.run([program, "keys", "--schema"], check=True,
                                       capture_output=True).stdout)
    jsonschema.Draft7Validator.check_schema(schema)
    validator = jsonschema.Draft7Validator(schema)
    wrong = []
    for setup in setups:
        for error in validator.iter_errors(tomllib.loads(Path(setup).read_text(encoding="utf-8"))):
            wrong.append(f"{setup}: {error.json_path}: {error.message}")
    for what, toml in WRONG.items():
        if validator.is_valid(tomllib.loads(toml)):
            wrong.append(f"{what} passes: {toml}")
    for what, toml in RIGHT.items():
        if not validator.is_valid(tomllib.loads("caseload = 1\n" + toml)):
            wrong.append(f"{what} is marked: {toml}")
    if wrong:
        sys.exit("\n".join(wrong))
    print(f"{len(setups)} setups pass, {len(WRONG)} mistakes are marked")


if __name__ == "__main__":
    main()
