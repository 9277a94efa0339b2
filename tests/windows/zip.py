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

FILES = {"caseload.exe", "caseload.html", "light.toml", "input.md", "read me.txt", "LICENSE"}


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
