#!/usr/bin/env python3
"""The Windows program under wine against the native one: every number of every example, random
setups in one process, and what a user of Windows meets: names beyond ASCII, CR LF, a mistake, a
setup dropped on the program, the shop's book in text form.

usage: same.py CASELOAD CASELOAD.EXE EXAMPLES RANDOM [WHOLE]

RANDOM holds lines of caseload_random_setups. Both programs answer all of them by one --each, the
first WHOLE (20) each by --json too, where all numbers are.

What no event goes into agrees to 1e-8, what the roots are solved to: pow and exp of the two C
libraries differ in their last digit. Over an event to 1e-6: what its steps are followed to."""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

AT_REST = 1e-8
OVER_EVENT = 1e-6
NO_EVENT = re.compile(r"\.(at_rest|oil_at_rest_degC|loads|driving_h|distance_m)\b")
CEILING = 160  # degC: above it no temperature is told
DRAWS = ["--draws", "63"]  # the least


def run(command, folder, with_errors=True):
    environment = dict(os.environ, WINEDEBUG="-all", LC_ALL="C.UTF-8")
    done = subprocess.run(command, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                          capture_output=True, check=False)
    text = done.stdout.decode("utf-8")
    if with_errors or done.returncode != 0:
        text += done.stderr.decode("utf-8")
    return done.returncode, text.replace("\r\n", "\n")


def leaves(ours, theirs, where=""):
    """Every value of two documents with its place."""
    if isinstance(ours, dict) and isinstance(theirs, dict):
        if list(ours) != list(theirs):
            yield f"{where}: members", list(ours), list(theirs)
        for key in (one for one in ours if one in theirs):
            yield from leaves(ours[key], theirs[key], f"{where}.{key}")
    elif isinstance(ours, list) and isinstance(theirs, list):
        if len(ours) != len(theirs):
            yield f"{where}: length", len(ours), len(theirs)
        for i, pair in enumerate(zip(ours, theirs)):
            yield from leaves(*pair, f"{where}[{i}]")
    else:
        yield where, ours, theirs


class Comparison:
    def __init__(self):
        self.legs = 0
        self.numbers = 0
        self.largest = {AT_REST: 0.0, OVER_EVENT: 0.0}

    def differences(self, ours, theirs, where):
        for place, a, b in leaves(ours, theirs, where):
            if place.endswith(".peak_at_s"):
                continue  # where a flat top is highest; the top itself is compared
            self.legs += place.endswith((".at_rest.found", ".oil_at_rest_degC"))
            numbers = all(type(one) in (int, float) for one in (a, b))
            self.numbers += numbers
            if a == b and type(a) is type(b):
                continue
            # Two whole numbers are counts, of events for instance.
            if not numbers or float not in (type(a), type(b)):
                yield f"{place}: {a} and {b}"
                continue
            tolerance = AT_REST if NO_EVENT.search(place) else OVER_EVENT
            # What is near nothing counts against 1 of its unit, a share of a life against itself.
            least = sys.float_info.min if re.search("share|dose", place) else 1
            apart = abs(a - b) / max(abs(a), abs(b), least)
            self.largest[tolerance] = max(self.largest[tolerance], apart)
            if not apart <= tolerance:
                yield f"{place}: {a} and {b}, apart by {apart:.1e}"

    def told(self):
        rest = f"{self.legs} legs at rest to {self.largest[AT_REST]:.1e}, " if self.legs else ""
        return f"{self.numbers} numbers, {rest}events to {self.largest[OVER_EVENT]:.1e}"


def whole(said):
    """An answer by --json. What an assumption is worth is a difference of two events, near nothing
    for most, and its place in the list is one of last digits: by its key, and as what the second
    event comes to."""
    code, text = said
    if code != 0:
        return {"code": code, "said": text}
    document = json.loads(text)
    fitted = document["assessment"]["fitted"]
    peak = fitted["event"]["peak_oil_degC"]
    peak = CEILING if peak is None else peak
    life = max(one["life_share"] for one in fitted["damage"]["bearings"])
    for one in document["assumed"]:
        for end in ("low", "high"):
            one[f"oil_{end}_K"] += peak
            one[f"life_{end}_share"] += life
    document["assumed"] = dict(sorted((one["key"], one) for one in document["assumed"]))
    return document


def random_differences(programs, folder, setups, wholes):
    """Random setups: all in one process of each program, some each alone with all their numbers."""
    (folder / "random").mkdir()
    names = [f"random/{number}.toml" for number in range(1, len(setups) + 1)]
    for name, text in zip(names, setups):
        (folder / name).write_bytes(text.encode())
    (folder / "random.txt").write_text("\n".join(names) + "\n")
    rows = []
    seconds = []
    for program in programs:
        begun = time.monotonic()
        # Only what the program prints: wine now and then has a line of its own beside it.
        code, said = run(program + ["assess", "--each", "random.txt", "--threads", "2"] + DRAWS,
                         folder, with_errors=False)
        seconds.append(time.monotonic() - begun)
        if code != 0:
            yield f"--each: {code}, {said}"
            return
        rows.append([json.loads(line) for line in said.splitlines()])
    if [(row["number"], row["setup"]) for row in rows[0]] != list(enumerate(names, 1)):
        yield "--each: not a row for each setup of its list"
    each = Comparison()
    yield from each.differences(*rows, "each")
    answered = sum(row["error"] is None for row in rows[0])
    if answered < 150:
        yield f"--each: {answered} rows with an answer are too few"
    print(f"{len(names)} random setups in one process, {answered} with an answer, native "
          f"{seconds[0]:.0f} s, under wine {seconds[1]:.0f} s: {each.told()}", flush=True)

    def both(name):
        return [whole(run(program + ["assess", name, "--json"] + DRAWS, folder))
                for program in programs]

    alone = Comparison()
    begun = time.monotonic()
    with ThreadPoolExecutor(2) as pool:
        for name, documents in zip(names, pool.map(both, names[:wholes])):
            yield from alone.differences(*documents, name)
    if alone.legs < 2 * min(wholes, len(names)):
        yield f"{alone.legs} legs at rest of random setups are too few"
    print(f"{wholes} of them each alone, {time.monotonic() - begun:.0f} s: {alone.told()}")


def book_differences(programs, folder):
    """The book is kept by the native program; the other reads its text form to the byte."""
    native, windows = programs
    for words in (["add", "case", "TC-07", "--date", "2026-01-01", "--words", "Größe"],
                  ["add", "event", "TC-07", "light.toml", "--date", "2026-01-02", "--times", "2"],
                  ["add", "finding", "TC-07", "bearing.output_rear", "abrasive-wear",
                   "--date", "2026-01-03"],
                  ["add", "part", "TC-07", "bearing.output_rear", "B-1", "--date", "2026-01-04"],
                  ["export", "Büro.txt"], ["export", "shop.csv"]):
        code, said = run(native + ["book"] + words, folder)
        if code != 0:
            yield f"book {words}: {code}, {said}"
    text = folder / "Büro.txt"
    (folder / "crlf.txt").write_bytes(text.read_bytes().replace(b"\n", b"\r\n"))
    for name in (text.name, "crlf.txt", "shop.csv"):
        for words in (["due"], ["due", "--json"], ["show"], ["show", "--json"],
                      ["show", "--records"], ["fleet"], ["replay"]):
            answers = [run(program + ["book"] + words + ["--book", name], folder)
                       for program in programs]
            if answers[0] != answers[1] or answers[1][0] != 0:
                yield f"book {words} of {name}: {answers[0]} and {answers[1]}"
        for ending, same_as in ((".txt", text), (".csv", folder / "shop.csv")):
            again = folder / f"again{ending}"
            code, said = run(windows + ["book", "export", "--force", again.name, "--book", name],
                             folder)
            if code != 0 or again.read_bytes() != same_as.read_bytes():
                yield f"book export of {name} to {ending}: {code}, {said}"
        before = (folder / name).read_bytes()
        for words in (["add", "oil", "TC-07"], ["import", "shop.csv"], ["backup", "copy.book"],
                      ["merge", "shop.book"], ["correct", "x", "--strike"]):
            code, said = run(windows + ["book"] + words + ["--book", name], folder)
            if code != 2 or "keeps no book file itself; it reads the text form" not in said:
                yield f"book {words} of {name}: {code}, {said}"
        if (folder / name).read_bytes() != before or (folder / "copy.book").exists():
            yield f"book: {name} was written to"
    code, said = run(windows + ["book", "due"], folder)
    if code != 2 or "caseload book export" not in said:
        yield f"book due of the book's own file: {code}, {said}"


def main():
    if len(sys.argv) not in (5, 6):
        sys.exit(__doc__)
    native, windows = (str(Path(name).resolve()) for name in sys.argv[1:3])
    examples = Path(sys.argv[3])
    setups = [json.loads(line)["text"]
              for line in Path(sys.argv[4]).read_text(encoding="utf-8").splitlines()]
    wholes = int(sys.argv[5]) if len(sys.argv) == 6 else 20
    programs = [native], ["wine", windows]
    wrong = []
    compared = Comparison()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(examples, folder, dirs_exist_ok=True)
        for setup in sorted(examples.glob("*.toml")):
            documents = [whole(run(program + ["assess", setup.name, "--json"], folder))
                         for program in programs]
            if "code" in documents[0]:
                wrong.append(f"{setup.name}: {documents[0]}")
            wrong += compared.differences(*documents, setup.name)
        print(f"examples: {compared.told()}", flush=True)
        wrong += random_differences(programs, folder, setups, wholes)
        # Names beyond ASCII, and a file as an editor of Windows writes it.
        strange = folder / "Größe" / "réglage 1.toml"
        strange.parent.mkdir()
        strange.write_bytes((folder / "dip.toml").read_bytes().replace(b"\n", b"\r\n"))
        screens = [run(program + ["assess", f"{strange.parent.name}/{strange.name}", "--page",
                                  f"{strange.parent.name}/Seite é.html"], folder)
                   for program in programs]
        if screens[0] != screens[1] or screens[1][0] != 0:
            wrong.append(f"names beyond ASCII: {screens[1]}")
        if not (strange.parent / "Seite é.html").is_file():
            wrong.append("the page with a name beyond ASCII is not there")
        # Dropped on the program: the file is all it is given. Its page lies beside it.
        code, said = run(programs[1] + ["dip.toml"], folder)
        if code != 0 or "Written: dip.html" not in said:
            wrong.append(f"dropped: {code}, {said}")
        if (folder / "dip.html").stat().st_size < 50000:
            wrong.append("dropped: no page beside the setup")
        (folder / "typo.toml").write_bytes(b"caseload = 1\r\nvehicle.mas = 2\r\n")
        mistakes = [run(program + ["assess", "typo.toml"], folder) for program in programs]
        if mistakes[0] != mistakes[1] or mistakes[1][0] != 2:
            wrong.append(f"a mistake: {mistakes[0]} and {mistakes[1]}")
        wrong += list(book_differences(programs, folder))
    if wrong:
        sys.exit("\n".join(wrong[:40]) + f"\n{len(wrong)} differences")
    if compared.legs < 8:
        sys.exit(f"{compared.legs} legs are too few")
    print(f"all agree: at rest to {AT_REST:g}, over an event to {OVER_EVENT:g}")


if __name__ == "__main__":
    main()
