#!/usr/bin/env python3
"""What a version of the program answers to the drawn setups and the examples, one JSON document a line.

usage: answers.py PROGRAM [FIRST] > answers.jsonl        (FIRST: only that many of the drawn setups)

The setups are those of tests/changes/setups.jsonl and docs/examples; 255 draws each."""
import json
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

HERE = Path(__file__).resolve().parent
EXAMPLES = HERE.parents[1] / "docs" / "examples"
DRAWS = 255


def answer(program, name, path):
    done = subprocess.run([program, "assess", str(path), "--json", "--draws", str(DRAWS)],
                          capture_output=True, text=True, check=False)
    if done.returncode != 0:
        first = done.stderr.strip().splitlines()[0] if done.stderr.strip() else ""
        return {"name": name, "code": done.returncode, "error": first.split(": ", 1)[-1]}
    whole = json.loads(done.stdout)
    band, likely = whole["band"], whole["assessment"]["fitted"]
    bearings = [bearing["name"] for bearing in likely["damage"]["bearings"]]
    lives = {bearing: share["p50"] for bearing, share in zip(bearings, band["fitted"]["life_share"])}
    # A check that did not vary over its parts counts once a setup, by its worst part.
    checks = {}
    for word in ("look", "watch", "stop"):
        for check in band[word]:
            checks[check["id"]] = word
    return {"name": name, "code": 0, "verdict": band["verdict"],
            "oil_word": band["oil_word"], "case_word": band["case_word"],
            "oil_degC": [band["fitted"]["peak_oil_degC"][p] for p in ("p10", "p50", "p90")],
            "life_share": lives, "checks": dict(sorted(checks.items()))}


def setups(folder, first=None):
    """Name and file of every setup: examples where they are, drawn ones written to the folder."""
    lines = (HERE / "setups.jsonl").read_text().splitlines()[:first]
    for path in sorted(EXAMPLES.glob("*.toml")):
        yield path.name, path
    for line in lines:
        one = json.loads(line)
        path = Path(folder, one["name"] + ".toml")
        path.write_text(one["text"])
        yield one["name"], path


def answers(program, first=None, threads=2):
    """Answers of the program in the order of the setups."""
    with tempfile.TemporaryDirectory() as folder, ThreadPoolExecutor(threads) as pool:
        return list(pool.map(lambda one: answer(program, *one), setups(folder, first)))


def main():
    if len(sys.argv) not in (2, 3):
        sys.exit(__doc__)
    program = str(Path(sys.argv[1]).resolve())
    for one in answers(program, int(sys.argv[2]) if len(sys.argv) == 3 else None):
        print(json.dumps(one))


if __name__ == "__main__":
    main()
