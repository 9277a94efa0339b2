#!/usr/bin/env python3
"""Replays docs/first-run.txt, a terminal session of somebody who starts with caseload.

usage: first_run.py [--update] FOLDER_OF_CASELOAD SESSION

Lines before the first command are words to the reader. `$ command` runs in an empty folder with
caseload on the path; `edit: old -> new` replaces old, which must stand there exactly once, in
our-case.toml; every other line is output. Exits with 1 if a byte differs. --update writes what was
seen into SESSION instead."""
import difflib
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

EDITED = "our-case.toml"
COMMAND, EDIT = "$ ", "edit: "


def shown(command, folder, program_folder):
    """What the terminal shows after the command."""
    environment = {"PATH": f"{program_folder}:{os.environ['PATH']}", "LC_ALL": "C"}
    return subprocess.run(command, shell=True, cwd=folder, env=environment,
                          stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                          stderr=subprocess.STDOUT, text=True, encoding="utf-8").stdout


def replay(words, steps, program_folder):
    """The session as it runs now."""
    seen = words
    with tempfile.TemporaryDirectory() as folder:
        for step in steps:
            seen += step if step.startswith(COMMAND) else "\n" + step
            if step.startswith(COMMAND):
                output = shown(step[len(COMMAND):], folder, program_folder)
                if re.search(r"(?m)^(\$ |edit: )", output):
                    sys.exit(f"{step}output that looks like a step cannot be recorded:\n{output}")
                seen += output
                continue
            old, new = step[len(EDIT):].rstrip("\n").split(" -> ")
            file = Path(folder, EDITED)
            text = file.read_text(encoding="utf-8")
            if text.count(old) != 1:
                sys.exit(f"{step}'{old}' stands {text.count(old)} times in {EDITED}")
            file.write_text(text.replace(old, new), encoding="utf-8")
    return seen


def main():
    arguments = sys.argv[1:]
    update = arguments[:1] == ["--update"]
    if len(arguments) != 2 + update:
        sys.exit(__doc__)
    program_folder, session = Path(arguments[-2]).resolve(), Path(arguments[-1])
    if not Path(program_folder, "caseload").is_file():
        sys.exit(f"no caseload in {program_folder}")
    recorded = session.read_text(encoding="utf-8")
    lines = recorded.splitlines(keepends=True)
    steps = [line for line in lines if line.startswith((COMMAND, EDIT))]
    if len(steps) < 20:
        sys.exit(f"{session}: {len(steps)} steps are not a session")
    seen = replay("".join(lines[:lines.index(steps[0])]), steps, program_folder)
    if update:
        session.write_text(seen, encoding="utf-8")
    elif seen != recorded:
        sys.stdout.writelines(difflib.unified_diff(lines, seen.splitlines(keepends=True),
                                                   str(session), "now"))
        sys.exit("the session runs differently now; if that is meant: tests/first_run.py --update "
                 f"{program_folder} {session}")


if __name__ == "__main__":
    main()
