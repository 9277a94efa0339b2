#!/usr/bin/env python3
"""Every number in the formulas of tables/why.toml, 1 % larger in turn: `why --check` must notice.

    why_mutations.py PROGRAM SETUP... [--part K/N]

Says which numbers no setup notices: they stand in branches no setup takes, in limits no value comes
near, or in steps no calculated number follows from. Not part of ctest: it runs the program once or more for each of them.
"""
import pathlib
import re
import subprocess
import sys
import tempfile

TABLE = pathlib.Path(__file__).resolve().parent.parent / "tables/why.toml"
NUMBER = re.compile(r"(?<![\w.])\d+(?:\.\d+)?(?:e-?\d+)?(?![\w.])")
FORMULA = re.compile(r'(?:^(\w+) = "|(?:value|equation|may_leave) = ")([^"]*)"', re.M)


def numbers(text):
    """Places of the numbers in formulas, apart from the ends a sum counts between."""
    heading = ""
    for line in re.finditer(r"^.*$", text, re.M):
        if line.group().startswith("["):
            heading = line.group().strip("[]")
        if line.group().startswith("#"):
            continue
        variant = heading.endswith(".value")
        for formula in FORMULA.finditer(line.group()):
            if formula.group(1) and (not variant or formula.group(1) in ("words", "symbol", "unit", "source")):
                continue
            counted = [m.span(1) for m in re.finditer(r"(?:sum|largest)\(\w+, ([^,]*, [^,]*),", formula.group(2))]
            for number in NUMBER.finditer(formula.group(2)):
                if float(number.group()) == 0 or any(a <= number.start() < b for a, b in counted):
                    continue
                at = line.start() + formula.start(2) + number.start()
                name = heading if variant else f"{heading}.{line.group().split(' ', 1)[0]}"
                yield at, number.group(), name


def noticed(program, setups, text, folder):
    table = pathlib.Path(folder) / "why.toml"
    table.write_text(text, encoding="utf-8")
    for setup in setups:
        run = subprocess.run([program, "why", "--check", "--formulas", table, setup], capture_output=True)
        if run.returncode not in (0, 2):
            return True
    return False


def main():
    arguments = sys.argv[1:]
    part, parts = 1, 1
    if "--part" in arguments:
        at = arguments.index("--part")
        part, parts = map(int, arguments[at + 1].split("/"))
        del arguments[at:at + 2]
    program, setups = arguments[0], arguments[1:]
    text = TABLE.read_text(encoding="utf-8")
    found = list(numbers(text))[part - 1::parts]
    survivors = []
    with tempfile.TemporaryDirectory() as folder:
        if noticed(program, setups, text, folder):
            sys.exit("the table itself does not agree")
        for at, number, name in found:
            moved = text[:at] + repr(float(number) * 1.01) + text[at + len(number):]
            if not noticed(program, setups, moved, folder):
                line = text.count("\n", 0, at) + 1
                survivors.append(f"line {line}, {name}: {number}")
                print("not noticed:", survivors[-1], flush=True)
    print(f"{len(found) - len(survivors)} of {len(found)} numbers noticed when 1 % larger, {len(survivors)} not")


main()
