#!/usr/bin/env python3
"""Many variations on several processes, as docs/growing.md says: the parts put together are the
bytes of one run, and SQLite reads the lines as they are.

usage: growing.py CASELOAD SETUP"""
import json
import sqlite3
import subprocess
import sys
import tempfile
from pathlib import Path

SHARDS = 4


def run(command, folder):
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        sys.exit(f"{command}: {done.returncode}\n{done.stdout}{done.stderr}")
    return done.stdout


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    program, setup = (str(Path(name).resolve()) for name in sys.argv[1:])
    with tempfile.TemporaryDirectory() as folder:
        masses = [1500 + 20 * i for i in range(12)]
        rows = Path(folder, "variations.csv")
        rows.write_text("vehicle.mass\n" + "".join(f"{mass} kg\n" for mass in masses))
        each = [program, "assess", setup, "--each", "variations.csv", "--draws", "63"]
        whole = run(each, folder)
        # GNU parallel, as the document has it
        run(["parallel", "--no-notice", "-j2", *each, "--threads", "1", "--shard", f"{{}}/{SHARDS}",
             "--out", "part{}.jsonl", ":::", *map(str, range(1, SHARDS + 1))], folder)
        parts = [Path(folder, f"part{k}.jsonl").read_text().splitlines(keepends=True)
                 for k in range(1, SHARDS + 1)]
        together = "".join(parts[i % SHARDS][i // SHARDS] for i in range(len(masses)))
        if together != whole:
            sys.exit("the parts put together are not the bytes of one run")
        # SQLite: one row a line, values by their path
        database = sqlite3.connect(":memory:")
        database.execute("create table answer (line text)")
        database.executemany("insert into answer values (?)", [(line,) for line in whole.splitlines()])
        selected = [row[0] for row in database.execute("select line ->> '$.oil_likely_degC' from answer")]
        cautions = {row[0] for row in database.execute("select line ->> '$.caution' from answer")}
        if len(cautions) != 1 or "rule book come first" not in cautions.pop():
            sys.exit("a line does not say what comes first")
        direct = [json.loads(line)["oil_likely_degC"] for line in whole.splitlines()]
        if selected != direct or len(set(selected)) < len(masses) // 2:
            sys.exit(f"SQLite reads {selected}, the lines say {direct}")
    print(f"{len(masses)} rows: {SHARDS} parts by parallel and one run are the same bytes; SQLite reads them")


main()
