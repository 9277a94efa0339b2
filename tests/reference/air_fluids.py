#!/usr/bin/env python3
"""Air of the US Standard Atmosphere 1976 from the library fluids (python3-fluids; 1.0.22 seen).

usage: air_fluids.py [--check PROGRAM]

Without arguments: prints density, viscosity, conductivity at some states and pressure over
altitude, as tests/formulas/air_test.cpp holds them.
--check: runs PROGRAM (tests/reference/air_states.cpp, our functions) and exits with 1 if one of its
values deviates too far. Density, viscosity, conductivity: 0.002 %; both sides evaluate the same
published equations, and the gas constant, 287.05 here and 287.05287 there, is the largest
difference, 0.001 %. Pressure: 0.05 %; our short form takes the height as geopotential."""
import subprocess
import sys

import fluids
from fluids.atmosphere import ATMOSPHERE_1976

TOLERANCE = {"density": 2e-5, "mu": 2e-5, "k": 2e-5, "pressure": 5e-4}
FEWEST = {"state": 50, "altitude": 40}
STATES = ((-40, 101325), (0, 101325), (20, 101325), (40, 101325), (70, 101325), (100, 101325),
          (40, 79495))
ALTITUDES = (-400, 0, 500, 1500, 2000, 3000, 4500)


def expected(temp_degC, pressure_Pa):
    T = temp_degC + 273.15
    return (ATMOSPHERE_1976.density(T, pressure_Pa), ATMOSPHERE_1976.viscosity(T),
            ATMOSPHERE_1976.thermal_conductivity(T))


def pressure(altitude_m):
    return ATMOSPHERE_1976(altitude_m).P


def check(program):
    lines = subprocess.run([program], check=True, stdout=subprocess.PIPE, text=True).stdout
    worst = dict.fromkeys(TOLERANCE, 0.0)
    count = dict.fromkeys(FEWEST, 0)
    for line in lines.splitlines():
        kind, *numbers = line.split()
        count[kind] += 1
        at, *ours = (float(x) for x in numbers)
        if kind == "state":
            at_Pa, *ours = ours
            rows = zip(("density", "mu", "k"), ours, expected(at, at_Pa), strict=True)
        else:
            rows = zip(("pressure",), ours, (pressure(at),), strict=True)
        for name, mine, theirs in rows:
            deviation = abs(mine / theirs - 1)
            worst[name] = max(worst[name], deviation)
            if not deviation <= TOLERANCE[name]:
                sys.exit(f"{line}: {name} {mine!r}, fluids {fluids.__version__} gives {theirs!r}: "
                         f"{deviation:.2e} apart")
    for kind, fewest in FEWEST.items():
        if count[kind] < fewest:
            sys.exit(f"{count[kind]} lines of {kind} are too few to check")
    print(f"fluids {fluids.__version__}: worst deviation",
          ", ".join(f"{name} {deviation:.1e}" for name, deviation in worst.items()))


def show():
    print("fluids", fluids.__version__)
    for state in STATES:
        print(*state, *(f"{x:.8g}" for x in expected(*state)))
    for altitude in ALTITUDES:
        print(altitude, f"{pressure(float(altitude)):.7g}")


if __name__ == "__main__":
    if len(sys.argv) == 3 and sys.argv[1] == "--check":
        check(sys.argv[2])
    elif len(sys.argv) == 1:
        show()
    else:
        sys.exit(__doc__)
