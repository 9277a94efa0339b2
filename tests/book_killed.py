#!/usr/bin/python3
"""A running `caseload book add` killed at random moments: book_killed.py PROGRAM KILLS SETUP [SEED]
Afterwards every acknowledged record is there, and replay agrees. Two writers at once lose nothing."""
import os
import random
import signal
import subprocess
import sys
import tempfile
import time

program, kills = sys.argv[1], int(sys.argv[2])
setup = sys.argv[3]
seed = int(sys.argv[4]) if len(sys.argv) > 4 else 1


def run(*arguments):
    done = subprocess.run([program, "book", *arguments], capture_output=True, text=True)
    assert done.returncode == 0, (arguments, done.stdout, done.stderr)
    return done.stdout


def added(text):
    return [line.split()[1].rstrip(":") for line in text.splitlines() if line.startswith("added ")]


with tempfile.TemporaryDirectory() as folder:
    book = os.path.join(folder, "shop.book")
    acknowledged = added(run("add", "case", "A", "--date", "2026-01-01", "--book", book))
    acknowledged += added(run("add", "event", "A", setup, "--date", "2026-01-01", "--book", book))

    begun = time.monotonic()
    run("add", "reading", "A", "time", "1", "--date", "2026-01-02", "--book", book)
    whole = time.monotonic() - begun
    dice = random.Random(seed)
    done = killed = 0
    while killed < kills:
        done += 1
        one = subprocess.Popen(
            [program, "book", "add", "reading", "A", "x", str(done), "--date", "2026-01-02",
             "--book", book], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        time.sleep(dice.uniform(0, 1.2 * whole))
        if one.poll() is None:
            one.send_signal(signal.SIGKILL)
        out = one.communicate()[0]
        if one.returncode == -signal.SIGKILL:
            killed += 1
        else:
            assert one.returncode == 0, one.returncode
        acknowledged += added(out)
        assert done < 20 * kills, "hardly any was killed"

    writers = [subprocess.Popen(
        ["sh", "-c", f'for k in 1 2 3 4 5 6 7 8 9 10; do "{program}" book add reading A {name} $k '
         f'--date 2026-01-02 --book "{book}" || exit 1; done'],
        stdout=subprocess.PIPE, text=True) for name in ("left", "right")]
    for one in writers:
        acknowledged += added(one.communicate()[0])
        assert one.returncode == 0

    held = [line.split()[0] for line in run("show", "--records", "--book", book).splitlines()]
    assert len(held) == len(set(held))
    lost = [record for record in acknowledged if record not in held]
    assert not lost, lost
    assert len(held) <= done + 24, "more records than programs that ran"
    assert "all agree" in run("replay", "--book", book)
    print(f"seed {seed}: {killed} killed, {len(acknowledged)} acknowledged, {len(held)} held, none lost")
