#!/usr/bin/env python3
"""Every bad setup, trap log and example given to the program as a user would, under a clock: it ends
in time, by itself, with a code it documents, says why when it refuses, writes nothing then, and never
prints a number that is none.

usage: watchdog.py CASELOAD ROOT SECONDS"""
import os
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

NO_NUMBER = re.compile(r"(?<![a-z])-?(nan|inf)(?![a-z])", re.IGNORECASE)


def problem(command, folder, seconds):
    """What is wrong with the run, or None."""
    before = sorted(os.listdir(folder))
    try:
        done = subprocess.run(command, cwd=folder, capture_output=True, stdin=subprocess.DEVNULL,
                              timeout=seconds, check=False)
    except subprocess.TimeoutExpired:
        return f"still running after {seconds} s"
    out = done.stdout.decode("utf-8", "replace")
    err = done.stderr.decode("utf-8", "replace")
    if done.returncode not in (0, 2):
        return f"ended with {done.returncode}: {err[:300]}"
    if done.returncode == 2 and not err.strip():
        return "refused without a word"
    if done.returncode == 2 and sorted(os.listdir(folder)) != before:
        return "refused and left a file behind"
    found = NO_NUMBER.search(out)
    if found:
        return f"prints {found[0]}: {out[max(0, found.start() - 60):found.end() + 20]!r}"
    return None


def main():
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    program, root, seconds = str(Path(sys.argv[1]).resolve()), Path(sys.argv[2]).resolve(), float(sys.argv[3])
    work = []
    setups = sorted(root.glob("tests/golden/bad/*.toml")) + sorted(root.glob("tests/golden/*.toml")) + \
        sorted(root.glob("docs/examples/*.toml"))
    for setup in setups:
        work.append(["assess", str(setup), "--draws", "63"])
        work.append(["complete", str(setup)])
    for log in sorted(path for path in root.glob("tests/golden/logs/*") if path.suffix != ".txt"):
        work.append(["duty", str(log), "-o", "event.toml"])
        work.append(["assess", str(log)])
    for setup in setups:
        if setup.parent.name == "bad":
            work.append(["duty", str(setup), "-o", "event.toml"])
    if len(work) < 300:
        sys.exit(f"only {len(work)} runs: files are missing")

    def one(arguments):
        with tempfile.TemporaryDirectory() as folder:
            return problem([program, *arguments], folder, seconds)

    with ThreadPoolExecutor(2) as pool:
        results = list(pool.map(one, work))
    wrong = [f"{' '.join(arguments)}: {result}" for arguments, result in zip(work, results) if result]
    print("\n".join(wrong[:40] + [f"{len(work)} runs, {len(wrong)} wrong"]))
    sys.exit(1 if wrong else 0)


main()
