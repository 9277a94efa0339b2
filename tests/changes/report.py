#!/usr/bin/env python3
"""The measured part of docs/changes.md: what this version answers differently from version 0.1.

usage: report.py --record PROGRAM    answers every setup, records them and writes the document's part
       report.py --check PROGRAM     the document is what the recorded answers make, and the program
                                     still answers the examples and the first 20 drawn setups so

version_0_1.jsonl holds the answers of version 0.1.0, this_version.jsonl those of this one; both by
answers.py over the examples and the 300 setups of `draw.py 20261129 300`."""
import json
import math
import re
import statistics
import sys
from pathlib import Path

from answers import answers
from draw import setup

HERE = Path(__file__).resolve().parent
DOCUMENT = HERE.parents[1] / "docs" / "changes.md"
BEFORE, AFTER, SETUPS = HERE / "version_0_1.jsonl", HERE / "this_version.jsonl", HERE / "setups.jsonl"
MARKS = ("<!-- measured: begin -->\n", "<!-- measured: end -->\n")
SEED = 20261129
CHECKED = 20
# Answers agree to 1e-9 between machines (docs/live.md); a change of the calculation moves far more.
SAME = 1e-6
WORDS = ("fine", "watch", "stop")
CEILING_degC = 160


def read(path):
    return {one["name"]: one for one in map(json.loads, path.read_text().splitlines())}


def outcome(one):
    return one["verdict"] if one["code"] == 0 else "refused"


def oil(one):
    value = one["oil_degC"][1]
    return f"above {CEILING_degC}" if value is None else f"{value:.0f}"


def spread(values, shape):
    values = sorted(values)
    ends = [values[0], values[len(values) // 10], statistics.median(values), values[-1 - len(values) // 10], values[-1]]
    return " | ".join(shape.format(round(value, 3) + 0.0) for value in ends)


def reason(error):
    """A refusal without the numbers and names of one setup."""
    return re.sub(r"\s+", " ", re.sub(r"[\d.]+", "N", error.replace("error: ", ""))).strip()


def measured(before, after):
    drawn = [name for name in before if name.startswith("drawn-")]
    out = [f"{len(drawn)} setups drawn at random within what such cars are (judgement; two-gear patterns, scavenged oil, half of "
           "them with a cooler; courses, no logs), 255 calculations each.", "",
           "| 0.1 \\\\ this version | FINE | WATCH | STOP | refused | together |", "|---|---|---|---|---|---|"]
    table = {(old, new): 0 for old in (*WORDS, "refused") for new in (*WORDS, "refused")}
    for name in drawn:
        table[outcome(before[name]), outcome(after[name])] += 1
    for old in (*WORDS, "refused"):
        row = [table[old, new] for new in (*WORDS, "refused")]
        if sum(row):
            out.append(f"| {old if old == 'refused' else old.upper()} | " + " | ".join(map(str, row)) + f" | {sum(row)} |")
    sums = [sum(table[old, new] for old in (*WORDS, "refused")) for new in (*WORDS, "refused")]
    out += ["| together | " + " | ".join(map(str, sums)) + f" | {len(drawn)} |", ""]

    both = [name for name in drawn if before[name]["code"] == after[name]["code"] == 0]
    moved = [after[name]["oil_degC"][1] - before[name]["oil_degC"][1] for name in both
             if before[name]["oil_degC"][1] is not None and after[name]["oil_degC"][1] is not None]
    lives = [after[name]["life_share"][bearing] / share for name in both
             for bearing, share in before[name]["life_share"].items() if share and after[name]["life_share"][bearing]]
    out += ["| of the drawn setups | least | 10 % below | middle | 10 % above | most |", "|---|---|---|---|---|---|",
            f"| likely peak of the oil moved by, K ({len(moved)} setups) | " + spread(moved, "{:+.1f}") + " |",
            f"| bearing life used, this version over 0.1 ({len(lives)} bearings) | " + spread(lives, "{:.3f}") + " |", ""]

    def share(answers_of, check, verdict):
        ran = [name for name in drawn if answers_of[name]["code"] == 0]
        hit = sum(answers_of[name]["checks"].get(check) == verdict for name in ran)
        return f"{100 * hit / len(ran):.0f} %"

    found = sorted({check for side in (before, after) for name in drawn for check in side[name].get("checks", {})})
    out += ["| check | on watch, 0.1 | now | on stop, 0.1 | now | to look at now |", "|---|---|---|---|---|---|"]
    out += [f"| {check} | {share(before, check, 'watch')} | {share(after, check, 'watch')} | "
            f"{share(before, check, 'stop')} | {share(after, check, 'stop')} | {share(after, check, 'look')} |" for check in found]
    words = [(after[name]["oil_word"], after[name]["case_word"]) for name in drawn if after[name]["code"] == 0]
    out += ["", "| oil \\\\ case, this version | fine | watch | stop |", "|---|---|---|---|"]
    out += [f"| {oil_word} | " + " | ".join(str(words.count((oil_word, case_word))) for case_word in WORDS) + " |" for oil_word in WORDS]

    refused = {}
    for name in drawn:
        if after[name]["code"] != 0 and before[name]["code"] == 0:
            refused.setdefault(reason(after[name]["error"]), []).append(name)
    if refused:
        out += ["", "Refused now:", ""]
        out += [f"- {len(names)}: {text}" for text, names in sorted(refused.items(), key=lambda one: (-len(one[1]), one[0]))]

    out += ["", "| example | 0.1 | this version | likely oil, degC | most used bearing |", "|---|---|---|---|---|"]
    for name in before:
        if name in drawn:
            continue
        old, new = before[name], after[name]
        worst = [max(one["life_share"].items(), key=lambda pair: pair[1]) for one in (old, new)]
        out.append(f"| {name} | {outcome(old).upper()} | {outcome(new).upper()} | {oil(old)} -> {oil(new)} | "
                   + " -> ".join(f"{bearing} {100 * share:.2g} %" for bearing, share in worst) + " |")
    return "\n".join(out) + "\n"


def with_measured(text, part):
    begin, end = (text.index(mark) for mark in MARKS)
    return text[:begin + len(MARKS[0])] + part + text[end:]


def differs(left, right):
    if isinstance(left, float) or isinstance(right, float):
        return left is None or right is None or not math.isclose(left, right, rel_tol=SAME, abs_tol=1e-12)
    if isinstance(left, dict) and isinstance(right, dict):
        return left.keys() != right.keys() or any(differs(left[key], right[key]) for key in left)
    if isinstance(left, list) and isinstance(right, list):
        return len(left) != len(right) or any(map(differs, left, right))
    return left != right


def main():
    if len(sys.argv) != 3 or sys.argv[1] not in ("--record", "--check"):
        sys.exit(__doc__)
    program = str(Path(sys.argv[2]).resolve())
    lines = SETUPS.read_text().splitlines()
    drawn_again = [json.dumps({"name": f"drawn-{i:03d}", "text": setup(SEED, i)}) for i in range(len(lines))]
    if lines != drawn_again:
        sys.exit("setups.jsonl is not what draw.py draws")
    if sys.argv[1] == "--record":
        AFTER.write_text("".join(json.dumps(one) + "\n" for one in answers(program)))
        DOCUMENT.write_text(with_measured(DOCUMENT.read_text(), measured(read(BEFORE), read(AFTER))))
        return
    text = DOCUMENT.read_text()
    if text != with_measured(text, measured(read(BEFORE), read(AFTER))):
        sys.exit("docs/changes.md is not what the recorded answers make")
    recorded = read(AFTER)
    other = [one["name"] for one in answers(program, CHECKED) if differs(one, recorded[one["name"]])]
    if other:
        sys.exit(f"answers differ from those recorded: {', '.join(other)}; if on purpose: report.py --record")
    print(f"examples and {CHECKED} drawn setups answer as recorded, and docs/changes.md says so")


main()
