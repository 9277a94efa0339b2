#!/usr/bin/env python3
"""Air of the US Standard Atmosphere 1976 from the library fluids (python3-fluids; 1.0.22 seen).

Without arguments: prints density, viscosity, conductivity at some states and pressure over
altitude.
--check: reads lines "temp_degC pressure_Pa density mu k" from standard input and exits with 1 if
one deviates by more than 0.002 % (both sides evaluate the same published equations; the gas
constant, 287.05 here and 287.05287 there, is the largest difference, 0.001 %). No line at all is
an error too."""
import sys

import fluids
from fluids.atmosphere import ATMOSPHERE_1976

TOLERANCE = 2e-5
STATES = ((-40, 101325), (0, 101325), (20, 101325), (40, 101325), (70, 101325), (100, 101325),
          (40, 79495))
ALTITUDES = (-400, 0, 500, 1500, 2000, 3000, 4500)


def expected(temp_degC, pressure_Pa):
    T = temp_degC + 273.15
    return (ATMOSPHERE_1976.density(T, pressure_Pa), ATMOSPHERE_1976.viscosity(T),
            ATMOSPHERE_1976.thermal_conductivity(T))


def check():
    worst = None
    for line in sys.stdin:
        if not line.strip():
            continue
        temp_degC, pressure_Pa, *ours = (float(x) for x in line.split())
        for name, mine, theirs in zip(("density", "mu", "k"), ours,
                                      expected(temp_degC, pressure_Pa), strict=True):
            deviation = abs(mine / theirs - 1)
            worst = max(worst or 0.0, deviation)
            if not deviation <= TOLERANCE:
                sys.exit(f"{name} at {temp_degC} degC, {pressure_Pa} Pa: {mine!r}, fluids "
                         f"{fluids.__version__} gives {theirs!r}: {deviation:.2e} apart")
    if worst is None:
        sys.exit("no line to check")
    print(f"fluids {fluids.__version__}: worst deviation {worst:.1e}")


def show():
    print("fluids", fluids.__version__)
    for state in STATES:
        print(*state, *(f"{x:.8g}" for x in expected(*state)))
    for altitude in ALTITUDES:
        print(altitude, f"{ATMOSPHERE_1976(float(altitude)).P:.7g}")


if __name__ == "__main__":
    if sys.argv[1:] == ["--check"]:
        check()
    elif len(sys.argv) == 1:
        show()
    else:
        sys.exit("usage: air_fluids.py [--check]")
