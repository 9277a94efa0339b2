#!/usr/bin/python3
"""Keeps of what a fuzzer found the files that reach most of the code: keep.py TARGET NAME FOLDER...
TARGET is the fuzzer, NAME the folder below tests/fuzz/corpus that gets them in place of what is
there, FOLDER what it found (and the folder kept before, else that is lost). At most 100 files of at
most 4 KiB: libFuzzer says what each reaches that no smaller one does, and those with most of it stay."""
import os
import shutil
import subprocess
import sys
import tempfile

MOST_FILES, MOST_BYTES = 100, 4096
target, name, folders = sys.argv[1], sys.argv[2], sys.argv[3:]
corpus = os.path.join(os.path.dirname(os.path.abspath(__file__)), "corpus", name)

with tempfile.TemporaryDirectory() as work:
    small, out = os.path.join(work, "small"), os.path.join(work, "out")
    os.mkdir(small)
    os.mkdir(out)
    for folder in folders:
        for root, _, files in os.walk(folder):
            for file in files:
                path = os.path.join(root, file)
                if 0 < os.path.getsize(path) <= MOST_BYTES:
                    shutil.copy(path, os.path.join(small, f"{len(os.listdir(small)):06d}"))
    control = os.path.join(work, "control")
    subprocess.run([target, "-merge=1", "-timeout=600", f"-merge_control_file={control}", out, small], check=True,
                   stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    # libFuzzer's control file: two counts, the names, then lines "FT number feature...".
    with open(control, encoding="utf-8") as file:
        lines = file.read().splitlines()
    files = lines[2:2 + int(lines[0])]
    reached = {}
    for line in lines[2 + len(files):]:
        words = line.split()
        if words[0] == "FT":
            reached[files[int(words[1])]] = len(words) - 2
    by_reach = sorted(reached, key=lambda path: (-reached[path], path))
    kept = [path for path in by_reach[:MOST_FILES] if reached[path] > 0]
    shutil.rmtree(corpus, ignore_errors=True)
    os.makedirs(corpus)
    for number, path in enumerate(kept):
        shutil.copy(path, os.path.join(corpus, f"{number:02d}"))
size = sum(os.path.getsize(os.path.join(corpus, file)) for file in os.listdir(corpus))
print(f"{corpus}: {len(kept)} of {len(files)} files, {size} bytes")
