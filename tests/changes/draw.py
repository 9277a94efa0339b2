#!/usr/bin/env python3
"""Believable setups drawn at random, one JSON document a line: what a shop could have written.

usage: draw.py SEED COUNT > setups.jsonl

tests/random_setups.hpp draws over the whole range of every key, to break the reader; these draw
over what cars of the trade are (mass, power, tyres, courses, coolers: judgement), so that a share
of verdicts among them means something. Each depends on the seed and its own number alone."""
import json
import random
import sys

TYRES = [33, 35, 37, 39, 40, 42]
COURSES = ["hard-road", "graded", "rough-desert", "sand", "rock", "forest"]
SYNTHETIC = ["75W-90 synthetic", "75W-140 synthetic", "SAE 250 synthetic"]
MINERAL = ["80W-90 mineral", "85W-140 mineral"]
# Usual paces of the courses' tables in m/s, for a leg whose pace is entered.
PACES = {"hard-road": 22, "graded": 19, "rough-desert": 26, "sand": 15, "rock": 2.5, "forest": 17}


def setup(seed, number):
    dice = random.Random(f"{seed}/{number}")
    low, chance, one_of = dice.uniform, lambda share: dice.random() < share, dice.choice
    pattern = one_of(["two-gear-185mm", "two-gear-215mm"])
    teeth = 74 if pattern == "two-gear-185mm" else 86
    first = round(teeth * low(0.40, 0.52))
    power_hp = round(low(180, 950), -1)
    mass_kg = round(min(max(power_hp * low(2.2, 7), 800), 4200), -1)
    lines = [
        "caseload = 1",
        f'base = "pattern:{pattern}"',
        f"gears.fitted = [{first}, {teeth - first}]",
        f'oil.grade = "{one_of(SYNTHETIC if chance(0.8) else MINERAL)}"',
        f'housing.place = "{one_of(["open", "behind-skid-plate", "behind-skid-plate", "tunnel"])}"',
        f'vehicle.mass = "{mass_kg:.0f} kg"',
        f'vehicle.tyre = "{one_of(TYRES)} in"',
        f"vehicle.axle_ratio = {low(3.7, 6.2):.2f}",
        f'vehicle.engine_power = "{power_hp:.0f} hp"',
        f'event.ambient = "{low(5, 45):.0f} degC"',
    ]
    if chance(0.3):
        lines.append(f'oil.state = "{one_of(["fresh-filtered", "fresh", "one-event", "dirty"])}"')
    if chance(0.3):
        lines.append(f'oil.fill = "{low(2.2, 5):.1f} L"')
    if chance(0.2):
        lines.append(f'lubrication.drain = "{one_of(["good", "fair", "poor"])}"')
    if chance(0.2):
        lines.append(f'housing.exhaust = "{one_of(["none", "near-shielded", "near-bare"])}"')
    if chance(0.2):
        lines.append(f'housing.dirt = "{one_of(["clean", "dust", "mud"])}"')
    if chance(0.15):
        lines.append(f'gears.finish = "{one_of(["superfinished", "ground", "shaved"])}"')
    if chance(0.15):
        lines.append(f'seal.input.material = "{one_of(["FKM", "NBR", "HNBR", "ACM", "VMQ"])}"')
    if chance(0.2):
        for bearing in ("input_rear", "output_rear"):
            lines.append(f'bearing.{bearing}.seat = {{ carrier = "aluminium", ring_fit = "{one_of(["K7", "M7", "N7", "P7"])}", '
                         f'boss_outside = "{low(190, 220):.0f} mm" }}')
    if chance(0.5):
        size = f"{10 * round(low(15, 32))}x{10 * round(low(9, 18))}x{one_of([32, 45, 50])}"
        lines += ["cooler.fit = true", f'cooler.core = "{size} mm"', f'cooler.duct = "{one_of(["sealed", "open", "none"])}"']
        if chance(0.4):
            lines.append(f'cooler.thermostat_opens = "{one_of([75, 80, 85])} degC"')
        if chance(0.4):
            lines.append(f'cooler.fan_face_speed = "{low(2, 6):.1f} m/s"')
        if chance(0.4):
            lines.append(f'cooler.air_warmer_by = "{low(2, 15):.0f} K"')
    if chance(0.4):
        lines += [f'event.course = "{one_of(COURSES)}"', f'event.duration = "{low(1, 10):.1f} h"']
    else:
        lines.append('event.run = ["out", "2 x lap", "fuel", "lap"]')
        for leg in ("out", "lap"):
            course = one_of(COURSES)
            lines += [f'leg.{leg}.course = "{course}"', f'leg.{leg}.duration = "{low(20, 120):.0f} min"']
            if chance(0.3):
                lines.append(f'leg.{leg}.pace = "{PACES[course] * low(0.8, 1.1):.1f} m/s"')
        lines += ['leg.fuel.kind = "stop"', f'leg.fuel.duration = "{low(5, 30):.0f} min"', f'leg.fuel.engine = "{one_of(["off", "idle"])}"']
    return "\n".join(lines) + "\n"


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    seed, count = int(sys.argv[1]), int(sys.argv[2])
    for number in range(count):
        print(json.dumps({"name": f"drawn-{number:03d}", "text": setup(seed, number)}))


if __name__ == "__main__":
    main()
