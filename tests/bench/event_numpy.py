#!/usr/bin/env python3
"""The same event by vectorised NumPy and by SciPy, on the curves the program exports, for a time to
set beside tests/bench/caseload_bench. Not a test.

usage: event_numpy.py PROGRAM SETUP [EVENTS]

NumPy: EVENTS copies of the network (each with its own scale of heat made) stepped together, curves
by linear interpolation, in two forms a careful analyst would write: explicit, classical Runge-Kutta
with 8 s a step (the oil node settles with about 20 s), and the linearly implicit method of the fast
case (src/ask/rosenbrock.hpp), its step by the largest error of all events and its tolerance, 0.01 K
a step. SciPy: one event after the other, DOP853 on linear interpolation. All without damage. Prints
microseconds an event."""
import json
import subprocess
import sys
import time
from math import exp

import numpy as np
from scipy.integrate import solve_ivp

CURVES = ("oil_W", "steel_W", "housing_W", "outside_W", "cooler_W")


def inverse_of(w):
    def minor(rows, columns):
        return w[rows[0]][columns[0]] * w[rows[1]][columns[1]] - w[rows[0]][columns[1]] * w[rows[1]][columns[0]]
    others = ((1, 2), (0, 2), (0, 1))
    adjugate = [[(-1) ** (i + j) * minor(others[j], others[i]) for j in range(3)] for i in range(3)]
    one = 1 / sum(w[0][j] * adjugate[j][0] for j in range(3))
    return [[adjugate[i][j] * one for j in range(3)] for i in range(3)]


def times(inverse, v):
    return np.array([sum(inverse[i][j] * v[j] for j in range(3)) for i in range(3)])


class Case:
    """One side of the document, with the first switch state of each leg."""

    def __init__(self, document):
        side = document["sides"][0] if isinstance(document["sides"], list) else document["sides"]["fitted"]
        self.capacity = [side["capacities"][f"{n}_JpK"] for n in ("oil", "housing", "steel")]
        self.start = [side["start"][f"{n}_degC"] for n in ("oil", "housing", "steel")]
        self.legs = []
        driving_W = 0.0
        for index in document["run"]:
            leg, network = document["legs"][index], side["legs"][index]
            if leg["kind"] != "stop":
                driving_W = network["exhaust_driving_W"]
            grid = np.arange(-40.0, 461.0, 1.0)
            table = {name: np.interp(grid, network["states"][0][name]["x"], network["states"][0][name]["y"])
                     for name in CURVES}
            films = [([group["bearings"] * group[f"{n}_WpK"] for n in ("oil", "housing", "steel")],
                      np.interp(grid, lost["x"], lost["y"]))
                     for group, lost in zip(network["films"], network["states"][0]["films_W"] or
                                            [{"x": [0.0], "y": [0.0]}] * len(network["films"]))]
            self.legs.append((leg["duration_s"], leg["kind"] == "stop", driving_W, network["paths"], table, films))

    @staticmethod
    def look(table, at):
        position = np.clip(at + 40.0, 0.0, 499.0)
        low = position.astype(int) if isinstance(position, np.ndarray) else int(position)
        return table[low] + (position - low) * (table[low + 1] - table[low])

    def slope(self, leg, t, y, scale):
        duration, stop, driving_W, paths, table, films = leg
        oil, housing, steel = y
        to_housing = paths["oil_housing_WpK"] * (oil - housing)
        to_steel = paths["oil_steel_WpK"] * (oil - steel)
        given = [0.0, 0.0, 0.0]
        for group, lost in films:
            unheated = sum(path * node for path, node in zip(group, y)) / sum(group)
            film = unheated + scale * self.look(lost, unheated) / sum(group)
            given = [g + path * (film - node) for g, path, node in zip(given, group, y)]
        exhaust = driving_W * (exp(-t / 600) if stop else 1)
        return np.array([
            (scale * self.look(table["oil_W"], oil) - to_housing - to_steel - self.look(table["cooler_W"], oil) + given[0]) / self.capacity[0],
            (scale * self.look(table["housing_W"], oil) + to_housing + given[1] - self.look(table["outside_W"], housing) + exhaust) / self.capacity[1],
            (scale * self.look(table["steel_W"], oil) + to_steel + given[2]) / self.capacity[2]])

    def vectorised(self, events):
        scale = np.linspace(0.8, 1.2, events)
        y = np.array([np.full(events, v) for v in self.start])
        for leg in self.legs:
            steps = max(1, round(leg[0] / 8))
            h = leg[0] / steps
            for i in range(steps):
                t = i * h
                k1 = self.slope(leg, t, y, scale)
                k2 = self.slope(leg, t + h / 2, y + h / 2 * k1, scale)
                k3 = self.slope(leg, t + h / 2, y + h / 2 * k2, scale)
                k4 = self.slope(leg, t + h, y + h * k3, scale)
                y = y + h / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        return y

    @staticmethod
    def look_slope(table, at):
        position = np.clip(at + 40.0, 0.0, 499.0)
        low = position.astype(int)
        return table[low + 1] - table[low]

    def jacobian(self, leg, t, y, scale):
        """By state (3 x 3) and by time, each entry for all events."""
        duration, stop, driving_W, paths, table, films = leg
        oil, housing, steel = y
        c_oil, c_housing, c_steel = self.capacity
        a, b, c = (paths[f"{n}_WpK"] for n in ("oil_housing", "oil_steel", "steel_housing"))
        same = np.ones_like(oil)
        state = [[(scale * self.look_slope(table["oil_W"], oil) - a - b - self.look_slope(table["cooler_W"], oil)) / c_oil, a / c_oil * same, b / c_oil * same],
                 [(scale * self.look_slope(table["housing_W"], oil) + a) / c_housing, (-a - c - self.look_slope(table["outside_W"], housing)) / c_housing, c / c_housing * same],
                 [(scale * self.look_slope(table["steel_W"], oil) + b) / c_steel, c / c_steel * same, -(b + c) / c_steel * same]]
        by_time = -driving_W / 600 * exp(-t / 600) / c_housing if stop else 0.0
        return state, by_time

    def implicit(self, events):
        scale = np.linspace(0.8, 1.2, events)
        y = np.array([np.full(events, v) for v in self.start])
        d, e32, tolerance_K = 1 / (2 + 2**0.5), 6 + 2**0.5, 0.01
        for leg in self.legs:
            t, h = 0.0, 1.0
            while t < leg[0] - 1e-9:
                h = min(h, 300.0, leg[0] - t)
                f0 = self.slope(leg, t, y, scale)
                state, by_time = self.jacobian(leg, t, y, scale)
                hd = h * d
                w = [[(i == j) - hd * state[i][j] for j in range(3)] for i in range(3)]
                inverse = inverse_of(w)
                later = np.array([0.0, hd * by_time, 0.0])[:, None]
                k1 = times(inverse, f0 + later)
                f1 = self.slope(leg, t + h / 2, y + h / 2 * k1, scale)
                k2 = times(inverse, f1 - k1) + k1
                new = y + h * k2
                f2 = self.slope(leg, t + h, new, scale)
                k3 = times(inverse, f2 - e32 * (k2 - f1) - 2 * (k1 - f0) + later)
                error_K = np.abs(h / 6 * (k1 - 2 * k2 + k3)).max()
                if error_K <= tolerance_K:
                    y, t = new, t + h
                h *= min(max(0.9 * (tolerance_K / max(error_K, 1e-9)) ** (1 / 3), 0.2), 5.0)
        return y

    def scipy(self):
        y = np.array(self.start)
        for leg in self.legs:
            y = solve_ivp(lambda t, s: self.slope(leg, t, s, 1.0), (0, leg[0]), y, method="DOP853", rtol=1e-6, atol=1e-4).y[:, -1]
        return y


def main():
    program, setup = sys.argv[1:3]
    events = int(sys.argv[3]) if len(sys.argv) > 3 else 1023
    case = Case(json.loads(subprocess.run([program, "assess", setup, "--curves"], check=True, capture_output=True, text=True).stdout))
    begin = time.process_time()
    end = case.vectorised(events)
    vector_us = (time.process_time() - begin) / events * 1e6
    begin = time.process_time()
    one = case.scipy()
    scipy_us = (time.process_time() - begin) * 1e6
    print(f"NumPy, explicit, {events} events together: {vector_us:.1f} us an event; last oil {end[0][events // 2]:.2f} degC")
    begin = time.process_time()
    end = case.implicit(events)
    implicit_us = (time.process_time() - begin) / events * 1e6
    print(f"NumPy, implicit, {events} events together: {implicit_us:.1f} us an event; last oil {end[0][events // 2]:.2f} degC")
    print(f"SciPy, one event: {scipy_us:.0f} us; last oil {one[0]:.2f} degC")


main()
