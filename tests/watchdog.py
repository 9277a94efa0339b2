#!/usr/bin/env python3
"""Every bad setup, trap log and example given to the program as a user would, under a clock: it ends
in time, by itself, with a code it documents, says why when it refuses, writes nothing then, and never
prints a number that is none. What it says to a bad setup is the text recorded for it.

usage: watchdog.py CASELOAD ROOT SECONDS"""
import os
import re
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import bad_setups

NO_NUMBER = re.compile(r"(?<![a-z])-?(nan|inf)(?![a-z])", re.IGNORECASE)


def problem(command, folder, seconds, refusal):
    """What is wrong with the run, or None; refusal: what it must say, if that is recorded."""
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
    if refusal is not None and err != refusal:
        return f"says {err[:300]!r}"
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
    with tempfile.TemporaryDirectory() as bad:
        bad_setups.unpack(bad)
        refusals = {f"{name}.toml": refusal for name, _, refusal in bad_setups.entries()}
        wrong, runs = watch(program, root, seconds, sorted(Path(bad).glob("*.toml")), refusals)
    print("\n".join(wrong[:40] + [f"{runs} runs, {len(wrong)} wrong"]))
    sys.exit(1 if wrong else 0)


def watch(program, root, seconds, bad, refusals):
    """What went wrong, and how many runs there were."""
    work = []
    for setup in bad:
        work.append((["assess", str(setup), "--draws", "63"], refusals.get(setup.name)))
        work.append((["complete", str(setup)], refusals.get(setup.name)))
        work.append((["duty", str(setup), "-o", "event.toml"], None))
    for setup in sorted(root.glob("tests/golden/*.toml")) + sorted(root.glob("docs/examples/*.toml")):
        work.append((["assess", str(setup), "--draws", "63"], None))
        work.append((["complete", str(setup)], None))
    for log in sorted(path for path in root.glob("tests/golden/logs/*") if path.suffix != ".txt"):
        work.append((["duty", str(log), "-o", "event.toml"], None))
        work.append((["assess", str(log)], None))
    if len(work) < 800:
        sys.exit(f"only {len(work)} runs: files are missing")

    def one(run):
        with tempfile.TemporaryDirectory() as folder:
            return problem([program, *run[0]], folder, seconds, run[1])

    with ThreadPoolExecutor(2) as pool:
        results = list(pool.map(one, work))
    return [f"{' '.join(run[0])}: {result}" for run, result in zip(work, results) if result], len(work)


main()
