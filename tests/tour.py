#!/usr/bin/env python3
"""Runs the commands of a document, docs/tour.md for one, in their order.

usage: tour.py [--update] FOLDER_OF_CASELOAD DOCUMENT [LEAST]

In a block ```console a line `$ command` runs in a folder of its own, in which docs/examples was
copied and files stay from one block to the next; a command that ends in a backslash goes on in the
next line. The lines up to the next command are its output. A block ```toml FILE is appended to
FILE. Exits with 1 if a byte
differs or fewer commands than LEAST ran (10); --update writes what was seen into DOCUMENT instead."""
import difflib
import re
import shutil
import sys
import tempfile
from pathlib import Path

from first_run import shown

BLOCK = re.compile(r"(?ms)^```(console|toml (\S+))\n(.*?)^```\n")


def commands_of(block):
    """Commands of a block as they are written, continuation lines with them."""
    return re.findall(r"(?m)^\$ (?:.*\\\n)*.*\n", block)


def main():
    arguments = sys.argv[1:]
    update = arguments[:1] == ["--update"]
    if len(arguments) - update not in (2, 3):
        sys.exit(__doc__)
    program_folder, document = (Path(name).resolve() for name in arguments[update:][:2])
    least = int(arguments[update:][2]) if len(arguments) - update == 3 else 10
    if not Path(program_folder, "caseload").is_file():
        sys.exit(f"no caseload in {program_folder}")
    recorded = document.read_text(encoding="utf-8")
    ran = 0
    with tempfile.TemporaryDirectory() as folder:
        shutil.copytree(document.parent / "examples", folder, dirs_exist_ok=True)

        def block_now(match):
            nonlocal ran
            if match[2]:
                with Path(folder, match[2]).open("a", encoding="utf-8") as file:
                    file.write(match[3])
                return match[0]
            seen = ""
            for command in commands_of(match[3]):
                ran += 1
                seen += command + shown(command[2:], folder, program_folder)
            return f"```console\n{seen}```\n"

        now = BLOCK.sub(block_now, recorded)
    if ran < least:
        sys.exit(f"{document}: {ran} commands, fewer than {least}")
    if update:
        document.write_text(now, encoding="utf-8")
    elif now != recorded:
        sys.stdout.writelines(difflib.unified_diff(recorded.splitlines(keepends=True),
                                                   now.splitlines(keepends=True), str(document),
                                                   "now"))
        sys.exit("the document runs differently now; if that is meant: tests/tour.py --update "
                 f"{program_folder} {document}")


if __name__ == "__main__":
    main()
