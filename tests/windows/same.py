#!/usr/bin/env python3
"""The Windows program under wine against the native one: every number of every example, and what a
user of Windows meets: names beyond ASCII, CR LF, a mistake, a setup dropped on the program, the
shop's book in text form.

usage: same.py CASELOAD CASELOAD.EXE EXAMPLES

Numbers at rest agree to 1e-8 of their size, what the roots are solved to: pow and exp of the two C
libraries differ in their last digit. Over an event to 1e-6: what its steps are followed to."""
import json
import math
import os
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

AT_REST = 1e-8
OVER_EVENT = 1e-6
SMALL = 1e-6  # W, K: what a balance is solved to


def run(command, folder):
    environment = dict(os.environ, WINEDEBUG="-all", LC_ALL="C.UTF-8")
    done = subprocess.run(command, cwd=folder, env=environment, stdin=subprocess.DEVNULL,
                          capture_output=True, check=False)
    text = done.stdout.decode("utf-8") + done.stderr.decode("utf-8")
    return done.returncode, text.replace("\r\n", "\n")


def differences(ours, theirs, tolerance, where=""):
    if isinstance(ours, dict) and isinstance(theirs, dict):
        if list(ours) != list(theirs):
            yield f"{where}: other members"
        for key in ours.keys() & theirs.keys():
            if key == "peak_at_s":
                continue  # where a flat top is highest; the top itself is compared
            yield from differences(ours[key], theirs[key], tolerance, f"{where}.{key}")
    elif isinstance(ours, list) and isinstance(theirs, list):
        if len(ours) != len(theirs):
            yield f"{where}: {len(ours)} and {len(theirs)} long"
        for i, pair in enumerate(zip(ours, theirs)):
            yield from differences(*pair, tolerance, f"{where}[{i}]")
    elif isinstance(ours, float) or isinstance(theirs, float):
        if not math.isclose(ours, theirs, rel_tol=tolerance, abs_tol=SMALL):
            yield f"{where}: {ours} and {theirs}"
    elif ours != theirs:
        yield f"{where}: {ours} and {theirs}"


def at_rest(document):
    return [leg["at_rest"] for side in ("fitted", "without")
            for leg in document["assessment"][side]["legs"]]


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
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    native, windows = (str(Path(name).resolve()) for name in sys.argv[1:3])
    examples = Path(sys.argv[3])
    programs = [native], ["wine", windows]
    wrong = []
    compared = 0
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        shutil.copytree(examples, folder, dirs_exist_ok=True)
        for setup in sorted(examples.glob("*.toml")):
            documents = [json.loads(run(program + ["assess", setup.name, "--json"], folder)[1])
                         for program in programs]
            rests = [at_rest(document) for document in documents]
            compared += len(rests[0])
            wrong += list(differences(*rests, AT_REST, setup.name))
            wrong += list(differences(*documents, OVER_EVENT, setup.name))
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
    if compared < 8:
        sys.exit(f"{compared} legs are too few")
    print(f"{compared} legs at rest agree to {AT_REST:g}, their events to {OVER_EVENT:g}")


if __name__ == "__main__":
    main()
