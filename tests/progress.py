#!/usr/bin/env python3
"""What long work shows on a terminal: how far it is and how long it will still take, gone before the
answer, and never a byte of it where standard error is no terminal. And that --threads left out puts
every core to work.

usage: progress.py CASELOAD SETUP SETUP_WITH_SETS"""
import os
import pty
import re
import subprocess
import sys
import tempfile
import time

SHOWN = re.compile(rb"\r(\d+) %, (\d+) (s|min) left *")


def on_a_terminal(command, out):
    """What standard error says on a terminal, and the seconds it took."""
    ours, theirs = pty.openpty()
    began = time.monotonic()
    with subprocess.Popen(command, stdout=out, stderr=theirs, stdin=subprocess.DEVNULL) as process:
        os.close(theirs)
        said = b""
        while True:
            try:
                more = os.read(ours, 65536)
            except OSError:  # the terminal is closed with its last writer
                break
            if not more:
                break
            said += more
        code = process.wait()
    os.close(ours)
    assert code == 0, (code, said)
    return said, time.monotonic() - began


def long_enough(make, out):
    """The first of growing work that lasts 3 s here: what it said, and its command."""
    size = 1
    while True:
        command = make(size)
        out.seek(0)
        out.truncate()
        said, seconds = on_a_terminal(command, out)
        if seconds > 3:
            return said, command
        size *= 2


def check_terminal(make, folder):
    with open(os.path.join(folder, "terminal.out"), "wb+") as out:
        said, command = long_enough(make, out)
        out.seek(0)
        answer = out.read()
    shown = SHOWN.findall(said)
    assert len(shown) >= 2, (command, said[-300:])
    percents = [int(percent) for percent, _, _ in shown]
    assert percents == sorted(percents) and percents[-1] <= 99, percents
    # Cleared at the end: blanks over the last words, and nothing after them.
    rest = said[said.rindex(b"left"):]
    assert re.fullmatch(rb"left *\r +\r", rest), rest
    assert SHOWN.sub(b"", said).strip() == b"", said
    done = subprocess.run(command, capture_output=True, stdin=subprocess.DEVNULL, check=True)
    assert done.stderr == b"", done.stderr[:200]
    assert done.stdout == answer, command
    assert b"left" not in answer or b" s left" not in answer


def check_refusal(program, folder, setup):
    """Work that ends in a moment says nothing on a terminal either."""
    with open(os.path.join(folder, "short.out"), "wb") as out:
        said, seconds = on_a_terminal([program, "assess", setup, "--draws", "63"], out)
    assert said == b"" or seconds > 2, said


def most_threads(command):
    most = 0
    with subprocess.Popen(command, stdout=subprocess.DEVNULL, stdin=subprocess.DEVNULL) as process:
        while process.poll() is None:
            try:
                most = max(most, len(os.listdir(f"/proc/{process.pid}/task")))
            except FileNotFoundError:
                break
            time.sleep(0.002)
        assert process.returncode == 0, command
    return most


def main():
    program, setup, sets = sys.argv[1:]
    with tempfile.TemporaryDirectory() as folder:
        def rows(count):
            path = os.path.join(folder, f"rows{count}.csv")
            with open(path, "w", encoding="utf-8") as file:
                file.write("vehicle.mass\n")
                file.writelines(f"\"{1800 + i % 900} kg\"\n" for i in range(8 * count))
            return path

        check_terminal(lambda size: [program, "assess", setup, "--draws", "63", "--threads", "1",
                                     "--each", rows(4 * size)], folder)
        check_refusal(program, folder, setup)
        cores = len(os.sched_getaffinity(0))
        season = os.path.join(folder, "season.toml")
        with open(season, "w", encoding="utf-8") as file:
            file.write("run = [\"a\", \"a\", \"a\", \"a\"]\n[event.a]\nduration = \"5 h\"\n")
        for command in (["assess", setup], ["assess", setup, "--each", rows(1)],
                        ["compare", setup, "--with", "vehicle.mass=2500 kg"],
                        ["compare", setup, "--grid", "vehicle.mass"],
                        ["sets", sets], ["cooler", setup], ["bearings", setup],
                        ["season", setup, season]):
            used = most_threads([program] + command)
            assert used >= min(cores, 2), (command, used)
            assert most_threads([program] + command + ["--threads", "1"]) == 1, command
    print("shown on a terminal only, and gone before the answer; one thread a core")


if __name__ == "__main__":
    main()
