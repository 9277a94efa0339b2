#!/usr/bin/env python3
"""The ZIP for Windows as its user meets it: unpacked into a folder with an umlaut and a blank, and run
there under wine against the native program.

usage: zip.py CASELOAD ZIP PAGE

PAGE is the live page as preset live built it."""
import sys
import tempfile
import zipfile
from pathlib import Path

sys.dont_write_bytecode = True  # nothing is left in the source
from same import run  # noqa: E402

FILES = {"caseload.exe", "caseload.html", "light.toml", "input.md", "read me.txt", "LICENSE",
         "THIRD-PARTY.txt"}
NOTICES = (Path(__file__).parents[2] / "THIRD-PARTY.txt").read_bytes()


def main():
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    native, packed, page = (Path(name).resolve() for name in sys.argv[1:4])
    wrong = []
    with tempfile.TemporaryDirectory() as name:
        unpacked = Path(name) / "Größe 1"
        with zipfile.ZipFile(packed) as archive:
            archive.extractall(unpacked)
        folders = list(unpacked.iterdir())
        if len(folders) != 1 or not folders[0].is_dir():
            sys.exit(f"not one folder: {folders}")
        folder = folders[0]
        held = {file.name for file in folder.iterdir()}
        if held != FILES:
            sys.exit(f"missing {FILES - held}, too much {held - FILES}")
        if (folder / "caseload.html").read_bytes() != page.read_bytes():
            wrong.append("the page is not the one that was built")
        if (folder / "THIRD-PARTY.txt").read_bytes() != NOTICES:
            wrong.append("the notices are not those of the source")
        if NOTICES not in page.read_bytes():
            wrong.append("the page does not hold the notices")
        windows = ["wine", str(folder / "caseload.exe")]
        screens = [run(program + ["assess", "light.toml"], folder)
                   for program in ([str(native)], windows)]
        if screens[0] != screens[1] or screens[1][0] != 0:
            wrong.append(f"the first screen: {screens[0]} and {screens[1]}")
        # Dropped on the program: the file is all it is given, as Windows names it.
        code, said = run(windows + ["Z:" + str(folder / "light.toml").replace("/", "\\")], folder)
        dropped = folder / "light.html"
        if code != 0 or "Written: " not in said or dropped.stat().st_size < 50000:
            wrong.append(f"dropped: {code}, {said}")
        # A log dropped: an event beside it, and a second one beside the first.
        rows = "".join(f"{i},{2000 + i % 50},{300 + i % 40},20\n" for i in range(900))
        log = folder / "day 1.csv"
        log.write_text("Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n" + rows)
        named = "Z:" + str(log).replace("/", "\\")
        car = "Z:" + str(folder / "light.toml").replace("/", "\\")
        for words, event in (([named], "day 1-event.toml"), ([named, car], "day 1-event-2.toml")):
            code, said = run(windows + words, folder)
            if code != 0 or "caseload = 1" not in (folder / event).read_text(encoding="utf-8"):
                wrong.append(f"dropped log: {code}, {said}")
        log.write_text("Time (s),Engine speed (rpm)\n1,2000\n2,2100\n")
        code, said = run(windows + [named], folder)
        if code != 2 or "together with the car's setup" not in said:
            wrong.append(f"dropped log without its car: {code}, {said}")
        # Without a word in a prompt; a double click has a window of its own, which wine has not.
        no_word = [run(program, folder) for program in ([str(native)], windows)]
        if no_word[0] != no_word[1] or no_word[1][0] != 2 or "The first four" not in no_word[1][1]:
            wrong.append(f"no command: {no_word}")
        # The program finds the live page beside itself.
        code, said = run(windows + ["assess", "light.toml", "--live", "--page", "live.html"], folder)
        if code != 0 or (folder / "live.html").stat().st_size < page.stat().st_size:
            wrong.append(f"live: {code}, {said}")
        read_me = (folder / "read me.txt").read_text(encoding="utf-8")
        wrong += [f"{name} is not told of" for name in ("caseload.exe", "caseload.html",
                                                         "light.toml", "input.md")
                  if name not in read_me]
    if wrong:
        sys.exit("\n".join(wrong))
    print(f"{packed.name}: runs from where it was unpacked")


if __name__ == "__main__":
    main()
