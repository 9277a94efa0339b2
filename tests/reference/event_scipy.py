#!/usr/bin/env python3
"""The event done again by another integrator, from the curves the program prints.

usage: event_scipy.py [--self-test] PROGRAM SETUP

Runs `PROGRAM assess SETUP --curves`, builds its own modified Akima splines, integrates the network
of oil, housing and steel with scipy's DOP853 and its event location, and compares every sample of
the program (every 30 s and at each end of a leg). Exits with 1 if one differs by more than 0.01 K.
--self-test makes one number of the network wrong after the other (capacities and curves by 1 %,
conductances, which matter less, by 5 %, those of one group of bearings by 10 %, switches by 1 K)
and exits with 1 if the comparison does not notice one of them. Needs python3-scipy."""
import copy
import json
import subprocess
import sys
from bisect import bisect_right
from math import exp

import numpy as np
from scipy.integrate import solve_ivp

TOLERANCE_K = 0.01
FEWEST_TIMES = 20
NODES = ("oil", "housing", "steel")
CURVES = ("oil_W", "steel_W", "housing_W", "outside_W", "cooler_W")


class Makima:
    """Modified Akima spline, constant beyond its ends. Akima, J. ACM 17 (1970) 589, eq. 1 and end
    points by his extrapolation of slopes, with the modified weights |m3 - m2| + |m3 + m2| / 2."""

    def __init__(self, x, y):
        x, y = np.asarray(x, float), np.asarray(y, float)
        if len(x) < 4 or len(x) != len(y) or not (np.diff(x) > 0).all():
            raise ValueError("a curve needs four or more points in rising order")
        m = np.empty(len(x) + 3)
        m[2:-2] = np.diff(y) / np.diff(x)
        m[1] = 2 * m[2] - m[3]
        m[0] = 2 * m[1] - m[2]
        m[-2] = 2 * m[-3] - m[-4]
        m[-1] = 2 * m[-2] - m[-3]
        weight = np.abs(np.diff(m)) + np.abs(m[1:] + m[:-1]) / 2
        before, after = weight[2:], weight[:-2]  # the far side's weight goes to the near slope
        both = before + after
        self.slope = np.divide(before * m[1:-2] + after * m[2:-1], both, out=np.zeros(len(x)),
                               where=both > 0).tolist()
        self.x, self.y = x.tolist(), y.tolist()

    def __call__(self, at):
        x, y = self.x, self.y
        if at <= x[0]:
            return y[0]
        if at >= x[-1]:
            return y[-1]
        i = bisect_right(x, at) - 1
        h = x[i + 1] - x[i]
        s = (at - x[i]) / h
        rise = y[i + 1] - y[i]
        d0, d1 = h * self.slope[i], h * self.slope[i + 1]
        return y[i] + s * (d0 + s * (3 * rise - 2 * d0 - d1 + s * (d0 + d1 - 2 * rise)))


class Switch:
    """Off at first; on above its temperature, off below that less the hysteresis."""

    def __init__(self, above_degC, hysteresis_K):
        self.above_degC, self.hysteresis_K, self.on = above_degC, hysteresis_K, False

    @property
    def fitted(self):
        return self.above_degC is not None

    def moves(self, oil_degC):
        """Positive while the switch stays as it is."""
        if self.on:
            return oil_degC - (self.above_degC - self.hysteresis_K)
        return self.above_degC - oil_degC


def integrate(document, side, accuracy):
    """Temperatures at the times of the program's samples."""
    runs, t_s = [], 0.0
    for index in document["run"]:
        runs.append((index, t_s, t_s + document["legs"][index]["duration_s"]))
        t_s = runs[-1][2]
    at_s = np.array(side["samples"]["t_s"])
    found = np.full((3, len(at_s)), np.nan)
    state = np.array([side["start"][f"{node}_degC"] for node in NODES])
    found[:, at_s <= 0] = state[:, None]
    splines = [[{name: Makima(**s[name]) for name in CURVES} |
                {"pump": s["pump"], "fan": s["fan"], "films": [Makima(**f) for f in s["films_W"]]}
                for s in leg["states"]] for leg in side["legs"]]
    capacity = [side["capacities"][f"{node}_JpK"] for node in NODES]
    pump = Switch(document["pump_on_above_degC"], document["switch_hysteresis_K"])
    fan = Switch(document["fan_on_above_degC"], document["switch_hysteresis_K"])
    driving_W, stopped_s, moved = 0.0, 0.0, 0
    bolted = document.get("neighbour")
    for index, start_s, end_s in runs:
        leg, network = document["legs"][index], side["legs"][index]
        stop = leg["kind"] == "stop"
        if not stop:
            driving_W, stopped_s = network["exhaust_driving_W"], end_s
        stays = document["exhaust_idle_share"] if stop and leg["engine"] == "idle" else 0.0
        oil_housing, oil_steel = (network["paths"][key]
                                  for key in ("oil_housing_WpK", "oil_steel_WpK"))
        groups = [tuple(group["bearings"] * group[f"{node}_WpK"] for node in NODES)
                  for group in network["films"]]
        flange = network["paths"].get("neighbour_WpK", 0.0)
        now_s = start_s
        while now_s < end_s:
            for switch in (pump, fan):
                # At a leg's start, and after the other switch moved. A switch that just moved
                # stays: both its limits lie 5 K apart.
                if switch.fitted and switch.moves(state[0]) < 0:
                    switch.on = not switch.on
            runs_pump = (not stop or leg["pump_on"]) and (not pump.fitted or pump.on)
            runs_fan = (not stop or leg["fan_on"]) and (not fan.fitted or fan.on)
            (here,) = (s for s in splines[index]
                       if s["pump"] == runs_pump and s["fan"] == runs_fan)
            made_oil, made_steel, made_housing, outside, cooler = (here[name] for name in CURVES)
            lost = here["films"] or [lambda _: 0.0] * len(groups)

            def rates(t, y):
                oil, housing, steel = y
                exhaust_W = driving_W
                if stop:
                    left = exp((stopped_s - t) / document["exhaust_decay_s"])
                    exhaust_W *= stays + (1 - stays) * left
                neighbour_W = 0.0
                if bolted:
                    cooled_s = max(t - stopped_s - bolted["keeps_s"], 0.0)
                    excess_K = bolted["driving_degC"] - bolted["ambient_degC"]
                    neighbour_degC = (bolted["ambient_degC"] +
                                      excess_K * exp(-cooled_s / bolted["decay_s"]))
                    neighbour_W = flange * (neighbour_degC - housing)
                a = oil_housing * (oil - housing)
                b = oil_steel * (oil - steel)
                given = [0.0, 0.0, 0.0]
                for paths, loss in zip(groups, lost, strict=True):
                    unheated = sum(path * node for path, node in zip(paths, y)) / sum(paths)
                    film = unheated + loss(unheated) / sum(paths)
                    for i, path in enumerate(paths):
                        given[i] += path * (film - y[i])
                return ((made_oil(oil) - a - b - cooler(oil) + given[0]) / capacity[0],
                        (made_housing(oil) + a - outside(housing) + exhaust_W + neighbour_W
                         + given[1]) / capacity[1],
                        (made_steel(oil) + b + given[2]) / capacity[2])

            events = []
            fitted = [switch for switch in (pump, fan) if switch.fitted]
            for switch in fitted:
                def event(t, y, switch=switch):
                    return switch.moves(y[0])
                event.terminal, event.direction = True, -1
                events.append(event)
            solved = solve_ivp(rates, (now_s, end_s), state, method="DOP853", rtol=accuracy,
                               atol=accuracy, max_step=60, dense_output=True,
                               events=events or None)
            if not solved.success:
                sys.exit(f"scipy: {solved.message}")
            reached_s, state = solved.t[-1], solved.y[:, -1]
            here_s = (at_s > now_s) & (at_s <= reached_s)
            if here_s.any():
                found[:, here_s] = solved.sol(at_s[here_s])
            now_s = reached_s
            for switch, times in zip(fitted, solved.t_events or [], strict=True):
                if len(times):
                    switch.on = not switch.on
                    moved += 1
    if np.isnan(found).any():
        sys.exit("a sample of the program lies outside the event")
    return found, moved


def worst_difference(document, side, accuracy=1e-9):
    """Largest difference in K, and a line that says where."""
    found, moved = integrate(document, side, accuracy)
    samples = side["samples"]
    ours = np.array([samples[f"{node}_degC"] for node in NODES])
    if ours.shape[1] < FEWEST_TIMES:
        sys.exit(f"{ours.shape[1]} samples are too few to compare")
    apart = np.abs(found - ours)
    node, at = np.unravel_index(np.argmax(apart), apart.shape)
    return apart[node, at], (f"worst difference {apart[node, at]:.5f} K ({NODES[node]}, after "
                             f"{samples['t_s'][at]:.0f} s) of {ours.shape[1]} times, "
                             f"switched {moved} times, oil to {ours[0].max():.1f} degC")


def wrong_by_a_little(document, side):
    """(words, document, side) with one number wrong in each; numbers that are 0 are left out."""
    def changed(words, change):
        d, s = copy.deepcopy((document, side))
        change(d, s)
        return words, d, s

    def scale(table, key, by):
        table[key] *= by

    for key in side["capacities"]:
        yield changed(key, lambda d, s, key=key: scale(s["capacities"], key, 1.01))
    drives = [i for i in sorted(set(document["run"])) if document["legs"][i]["kind"] == "drive"]
    for i in drives:
        name = document["legs"][i]["name"]
        for key in side["legs"][i]["paths"]:
            yield changed(f"{name}: {key}", lambda d, s, i=i, key=key: scale(
                s["legs"][i]["paths"], key, 1.05))
        for j in range(len(side["legs"][i]["films"])):
            for key in ("housing_WpK", "steel_WpK"):
                yield changed(f"{name}: films {j} {key}", lambda d, s, i=i, j=j, key=key: scale(
                    s["legs"][i]["films"][j], key, 1.1))

            def lose(d, s, i=i, j=j):
                for state in s["legs"][i]["states"]:
                    state["films_W"][j]["y"] = [1.01 * y for y in state["films_W"][j]["y"]]
            yield changed(f"{name}: films_W {j}", lose)
        for curve in CURVES:
            if any(any(state[curve]["y"]) for state in side["legs"][i]["states"]):
                def change(d, s, i=i, curve=curve):
                    for state in s["legs"][i]["states"]:
                        state[curve]["y"] = [1.01 * y for y in state[curve]["y"]]
                yield changed(f"{name}: {curve}", change)
    cooled = any(any(state["cooler_W"]["y"]) for i in drives for state in side["legs"][i]["states"])
    for key in ("pump_on_above_degC", "fan_on_above_degC"):
        if document[key] is not None and (cooled or key.startswith("pump")):
            def move(d, s, key=key):
                d[key] += 1
            yield changed(key, move)


def main():
    arguments = sys.argv[1:]
    self_test = arguments[:1] == ["--self-test"]
    if len(arguments) != 2 + self_test:
        sys.exit(__doc__)
    program, setup = arguments[-2:]
    document = json.loads(subprocess.run([program, "assess", setup, "--curves"], check=True,
                                         stdout=subprocess.PIPE).stdout)
    if document["schema"] != 1:
        sys.exit(f"schema {document['schema']} is not known here")
    failed = False
    for name, side in document["sides"].items():
        worst_K, words = worst_difference(document, side)
        failed |= not worst_K <= TOLERANCE_K
        print(f"{document['setup']}, {name}: {words}")
        for wrong, d, s in wrong_by_a_little(document, side) if self_test else ():
            apart_K, _ = worst_difference(d, s, accuracy=1e-6)  # K: far below TOLERANCE_K
            noticed = apart_K > TOLERANCE_K
            failed |= not noticed
            print(f"  {wrong} wrong: {apart_K:.4f} K, {'noticed' if noticed else 'NOT NOTICED'}")
    sys.exit(1 if failed else 0)


if __name__ == "__main__":
    main()
