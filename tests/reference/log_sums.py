#!/usr/bin/env python3
"""Way and time of made logs by csv, datetime and numpy, against what caseload duty says of them.

  log_sums.py PROGRAM SETUP

Each log is written to a file, read again here by other code (trapezoids over the road speed of all
lines, gaps and lines without torque included), and the sums of the event's legs have to be those.
The setup gives the gears, for logs whose ratios are not always found.
"""
import csv
import json
import math
import subprocess
import sys
import tempfile
from datetime import datetime, timedelta
from pathlib import Path

import numpy

trapezoid = getattr(numpy, "trapezoid", None) or numpy.trapz  # by its name since NumPy 2

START = datetime(2026, 5, 30, 23, 50, 0)


def speed_mps(t):
    """A car that slows to a stand each five minutes."""
    return max(0.0, 14 + 9 * math.sin(t / 17) + 5 * math.sin(t / 3.1) - (20 if t % 300 > 270 else 0))


def lines(duration_s, step_s, skip=lambda t: False):
    for i in range(int(round(duration_s / step_s))):
        t = i * step_s
        if not skip(t):
            yield t, speed_mps(t)


def wide(path, form, delimiter, comma, rows, header, torque=lambda t: True):
    def number(x):
        text = f"{x:.3f}"
        return text.replace(".", ",") if comma else text

    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, delimiter=delimiter)
        writer.writerow(header)
        for t, v in rows:
            time = (START + timedelta(seconds=t)).strftime(form) if form else number(t)
            writer.writerow([time, number(120 * v), number(25 * v) if torque(t) else "",
                             number(3.6 * v)])


def wide_sums(path, form, delimiter, comma):
    times, speeds = [], []
    with open(path, newline="", encoding="utf-8") as log:
        reader = csv.reader(log, delimiter=delimiter)
        next(reader)
        for row in reader:
            number = (lambda x: float(x.replace(",", "."))) if comma else float
            times.append(datetime.strptime(row[0], form).timestamp() if form else number(row[0]))
            speeds.append(number(row[3]) / 3.6)
    return times[-1] - times[0], trapezoid(speeds, times)


def long_form(path, steps):
    records = []
    for name, unit, step, first, value in steps:
        for i in range(int((1800 - first) / step)):
            t = first + i * step
            records.append((t, name, value(speed_mps_slow(t)), unit))
    records.sort(key=lambda one: one[0])
    with open(path, "w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, delimiter=";", quoting=csv.QUOTE_ALL)
        writer.writerow(["SECONDS", "PID", "VALUE", "UNITS"])
        for t, name, value, unit in records:
            writer.writerow([f"{t:.3f}", name, f"{value:.3f}", unit])


def speed_mps_slow(t):
    """For readings six seconds apart."""
    return 15 + 8 * math.sin(t / 40)


def long_sums(path):
    times, speeds, all_times = [], [], []
    with open(path, newline="", encoding="utf-8") as log:
        for row in csv.DictReader(log, delimiter=";"):
            all_times.append(float(row["SECONDS"]))
            if row["PID"] == "Vehicle speed":
                times.append(float(row["SECONDS"]))
                speeds.append(float(row["VALUE"]) / 3.6)
    # Before its first reading and behind its last the speed is taken as that.
    times = [all_times[0], *times, all_times[-1]]
    speeds = [speeds[0], *speeds, speeds[-1]]
    return all_times[-1] - all_times[0], trapezoid(speeds, times)


def event_of(program, path, folder, extra):
    run = subprocess.run([program, "duty", str(path), "-o", str(folder / "event.toml"), "--json",
                          *extra], capture_output=True, text=True, check=False)
    if run.returncode != 0:
        sys.exit(f"{path.name}: {run.stdout}{run.stderr}")
    answer = json.loads(run.stdout)
    legs = answer["legs"]
    return (sum(leg["duration_s"] for leg in legs), sum(leg.get("distance_m", 0) for leg in legs),
            answer["unknown"])


def main():
    program, setup = sys.argv[1:3]
    names = ["Case speed (rpm)", "Case torque (Nm)", "Speed (km/h)"]
    forms = [("seconds", "Time (s)", None, ",", False),
             ("german", "Zeit", "%d.%m.%Y %H:%M:%S,%f", ";", True),
             ("american", "Date", "%m/%d/%Y %I:%M:%S.%f %p", ",", False),
             ("british", "Date", "%d/%m/%Y %H:%M:%S.%f", "\t", False),
             ("named", "Timestamp", "%d-%b-%Y %H:%M:%S.%f", ",", False)]
    worst = {"time": 0.0, "way": 0.0}
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        jobs = []
        for name, time, form, delimiter, comma in forms:
            for kind, skip, torque in (
                    ("whole", lambda t: False, lambda t: True),
                    ("gaps", lambda t: 400 < t < 440 or 900 < t < 903.3 or 1475 < t < 1495,
                     lambda t: True),
                    ("without_torque", lambda t: False, lambda t: not 700 < t < 760),
                    ("both", lambda t: 400 < t < 440, lambda t: t % 50 > 2)):
                path = folder / f"{name}_{kind}.csv"
                wide(path, form, delimiter, comma, lines(1800, 0.1, skip), [time, *names], torque)
                jobs.append((path, wide_sums(path, form, delimiter, comma), [], 0.1))
        for step in (1, 3, 6):
            path = folder / f"long_{step}.csv"
            long_form(path, [("Case speed", "rpm", step, 0, lambda v: 120 * v),
                             ("Case torque", "Nm", step, step / 3, lambda v: 25 * v),
                             ("Vehicle speed", "km/h", step, 2 * step / 3, lambda v: 3.6 * v)])
            jobs.append((path, long_sums(path), [], 2 * step))
        # Two gears, and the clutch in between for 90 s in all.
        path = folder / "gears.csv"
        with open(path, "w", newline="", encoding="utf-8") as out:
            writer = csv.writer(out)
            writer.writerow(["Time (s)", "RPM", "Torque (Nm)", "Speed (km/h)"])
            for t, v in lines(1800, 0.1):
                ratio = 300 if v < 10 else 170
                if 600 < t < 690:
                    ratio = 230 + 100 * math.sin(t)
                writer.writerow([f"{t:.1f}", f"{max(800, ratio * v):.1f}", "200", f"{3.6 * v:.3f}"])
        jobs.append((path, wide_sums(path, None, ",", False), ["--setup", setup], 0.1))
        for path, (time_s, way_m), extra, slack_s in jobs:
            event_s, event_m, unknown = event_of(program, path, folder, extra)
            off_s, off = event_s - time_s, event_m / way_m - 1
            # The last sample weighs a step; the way of a rest below 0.5 m/s is none.
            good = -1e-6 < off_s < slack_s + 1e-6 and abs(off) < 0.005
            worst["time"] = max(worst["time"], abs(off_s))
            worst["way"] = max(worst["way"], abs(off))
            print(f"{'' if good else 'WRONG '}{path.name}: {time_s:.1f} s {way_m:.0f} m, event "
                  f"{off_s:+.2f} s {100 * off:+.3f} %, unknown {unknown['time_s']:.1f} s "
                  f"{unknown['way_m']:.0f} m")
            if not good:
                sys.exit(1)
    print(f"{len(jobs)} logs: time within {worst['time']:.2f} s, way within "
          f"{100 * worst['way']:.3f} %")


main()
