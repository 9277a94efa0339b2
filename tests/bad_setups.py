#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes the bad setups of tests/golden as files, beside the bases they name: bad_setups.py FOLDER
The form of tests/golden/bad.txt is described at its top; bad_files_test.cpp reads it too."""
import re
import shutil
import sys
from pathlib import Path

GOLDEN = Path(__file__).resolve().parent / "golden"
ENTRY = re.compile(r"=== (\S+) of (\S+)\n(.*?)^---\n(.*?)(?=^=== |\Z)", re.M | re.S)
EDIT = re.compile(r"(\d+)(\+|-\d*)?: ?(.*)")


def edited(lines, edits):
    """lines with edits, which count from 1 and before any of them."""
    after = {number: [line] for number, line in enumerate(lines, 1)}
    after[len(lines) + 1] = []
    for edit in edits:
        first, how, text = EDIT.fullmatch(edit).groups()
        first = int(first)
        if how == "+":
            after[first].insert(len(after[first]) - (first <= len(lines)), text)
        elif how:
            for number in range(first, int(how[1:] or len(lines)) + 1):
                after[number].pop()
        else:
            after[first][-1] = text
    return [line for number in sorted(after) for line in after[number]]


def entries():
    """Name, setup and refusal of each entry of bad.txt."""
    for name, base, edits, refusal in ENTRY.findall((GOLDEN / "bad.txt").read_text(encoding="utf-8")):
        lines = [f"# {name}"] + (GOLDEN / base).read_text(encoding="utf-8").splitlines()
        yield name, "\n".join(edited(lines, edits.split("\n")[:-1])) + "\n", refusal


def unpack(folder):
    Path(folder).mkdir(parents=True, exist_ok=True)
    for file in GOLDEN.glob("bad/**/*.toml"):
        shutil.copy(file, folder)
    for name, setup, _ in entries():
        (Path(folder) / f"{name}.toml").write_text(setup, encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    unpack(sys.argv[1])
