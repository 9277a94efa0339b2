"""Values of the seat, play and replacement tests, apart from the C++ code. Needs Python 3, SciPy.

Pressed rings from u = A r + B/r of each body with conditions at every surface (no closed form for
pressures), tolerances from the formulas behind ISO 286, backlash from the involute itself, age
replacement from the condition on the hazard with the incomplete gamma function.
"""
from itertools import product
from math import acos, cos, exp, gamma, log, pi, radians, sin, sqrt, tan

import numpy as np
from scipy.optimize import brentq, minimize_scalar
from scipy.special import gammainc

STEEL = (206e3, 0.30, 12.0e-6)
ALUMINIUM = (71e3, 0.33, 23.4e-6)


def nested(diameters, materials, interferences, temps):
    """Pressures and gaps between concentric bodies: every set of closed joints is tried."""
    n = len(materials)
    r = [d / 2 for d in diameters]
    for closed in product((True, False), repeat=n - 1):
        M, v = np.zeros((2 * n, 2 * n)), np.zeros(2 * n)
        row = 0

        def stress(i, radius):  # coefficients of A_i, B_i in the radial stress
            E, nu, _ = materials[i]
            return E / (1 - nu), -E / (1 + nu) / radius**2

        def load(i):  # constant part: u = A r + B/r + alpha T r, so that stress needs no T
            return materials[i][2] * (temps[i] - 20)

        if r[0] == 0:
            M[row, 1] = 1  # no singular part in a solid
        else:
            M[row, 0:2] = stress(0, r[0])
        row += 1
        for i, shut in enumerate(closed):
            a = r[i + 1]
            if shut:
                M[row, 2 * i : 2 * i + 2] = stress(i, a)
                M[row, 2 * i + 2 : 2 * i + 4] = [-x for x in stress(i + 1, a)]
                row += 1
                M[row, 2 * i : 2 * i + 2] = (-a, -1 / a)
                M[row, 2 * i + 2 : 2 * i + 4] = (a, 1 / a)
                v[row] = interferences[i] / 2 + a * (load(i) - load(i + 1))
                row += 1
            else:
                M[row, 2 * i : 2 * i + 2] = stress(i, a)
                row += 1
                M[row, 2 * i + 2 : 2 * i + 4] = stress(i + 1, a)
                row += 1
        M[row, 2 * n - 2 : 2 * n] = stress(n - 1, r[n])
        x = np.linalg.solve(M, v)

        def u(i, radius):  # elastic part only
            return x[2 * i] * radius + x[2 * i + 1] / radius

        pressures, gaps = [], []
        for i in range(n - 1):
            a = r[i + 1]
            s = stress(i, a)
            pressures.append(-(s[0] * x[2 * i] + s[1] * x[2 * i + 1]) if closed[i] else 0)
            open_mm = u(i + 1, a) - u(i, a) + a * (load(i + 1) - load(i)) - interferences[i] / 2
            gaps.append(0 if closed[i] else 2 * open_mm)
        if min(pressures) >= 0 and min(gaps) >= -1e-15:
            shrink = -2 * u(0, r[0]) if r[0] else 0
            E, nu, _ = materials[-1]
            hoop = E / (1 - nu) * x[-2] + E / (1 + nu) / r[-2] ** 2 * x[-1]
            return pressures, gaps, shrink, hoop
    raise ValueError


def direct(interference, ring_degC, case_degC):
    return nested([158, 170, 210], [STEEL, ALUMINIUM], [interference], [ring_degC, case_degC])


def retained(delta_2, temp_degC, delta_1=0.030):
    return nested([158, 170, 190, 230], [STEEL, STEEL, ALUMINIUM], [delta_1, delta_2], [temp_degC] * 3)


def iso_286_unit_um(low, high):
    D = sqrt(low * high)
    return 0.45 * D ** (1 / 3) + 0.001 * D, D


def involute(a):
    return tan(a) - a


def exact_backlash(a_mm, alpha_deg, growth):
    alpha = radians(alpha_deg)
    wider = acos(cos(alpha) / (1 + growth))
    return 2 * a_mm * cos(alpha) * (involute(wider) - involute(alpha)) / cos(wider)


def weibull_integral(T, b):
    return gamma(1 / b) / b * gammainc(1 / b, T**b)


def age_replacement(b, planned, failure):
    """T/eta, cost rate x eta, cost against run to failure, R(T), from h(T) I(T) - F(T) = C_p/(C_f - C_p)."""
    T = brentq(lambda t: b * t ** (b - 1) * weibull_integral(t, b) - 1 + exp(-(t**b)) - planned / (failure - planned), 1e-6, 30)
    rate = (planned * exp(-(T**b)) + failure * (1 - exp(-(T**b)))) / weibull_integral(T, b)
    return T, rate, rate * gamma(1 + 1 / b) / failure, exp(-(T**b))


def within_two_percent(b, failure):
    T, rate, _, _ = age_replacement(b, 1, failure)
    def over(t):
        return (exp(-(t**b)) + failure * (1 - exp(-(t**b)))) / weibull_integral(t, b) - 1.02 * rate
    return brentq(over, 1e-3 * T, T), brentq(over, T, 9 * T) if over(9 * T) > 0 else None


def campaign(b, used, per_event, wanted, q=0.9):
    return ((used**b + log(wanted) / log(q)) ** (1 / b) - used) / per_event


def bearing_survival(D):
    return 1 if D <= 0.05 else 0.9 ** (((D - 0.05) / 0.95) ** 1.5)


def main():
    print("shrink fit 4-6-8 in, 0.005 in on radius, psi", nested([8, 12, 16], [(30e6, 0.3, 0)] * 2, [0.010], [20, 20]))
    for ring, case in ((20, 20), (-20, -20), (80, 80), (110, 110), (120, 100)):
        print("direct", ring, case, direct(0.040, ring, case))
    print("direct release", brentq(lambda T: direct(0.040, T, T)[0][0] - direct(0.040, T, T)[1][0], 0, 100))
    for d2, T in ((0.150, -20), (0.150, 20), (0.150, 80), (0.150, 110), (0.250, 20), (0.250, 110)):
        print("retained", d2, T, retained(d2, T))
    for d2 in (0.150, 0.250):
        print("retainer release", d2, brentq(lambda T: retained(d2, T)[0][1] - retained(d2, T)[1][1], 20, 250))
    print("ring only held by retainer", brentq(lambda T: retained(0.150, T, -0.010)[0][0] - retained(0.150, T, -0.010)[1][0], -50, 250))
    for shaft_bore in (0, 70):
        p, _, _, _ = nested([shaft_bore, 110, 122], [STEEL] * 2, [0.010], [20, 20])
        grown = p[0] * 122 / STEEL[0] * 2 * 110**2 / (122**2 - 110**2)
        print("inner reduction", shaft_bore, grown / 0.010)
    print("outer reduction", nested([158, 170, 210], [STEEL] * 2, [0.010], [20, 20])[2] / 0.010)
    for low, high in ((50, 80), (80, 120), (120, 180), (180, 250)):
        i, D = iso_286_unit_um(low, high)
        print("ISO 286", low, high, "IT5-7", 7 * i, 10 * i, 16 * i, "k", 0.6 * D ** (1 / 3), "n", 5 * D**0.34)
    angle = acos(1 - 0.015 / (2 * 0.04 * 12.7))
    print("ball bearing of 45 mm bore", angle / pi * 180, 2 * 0.04 * 12.7 * sin(angle))
    for growth in (0.0005, 0.001026, 0.002):
        print("backlash 185 mm 20 deg", growth, exact_backlash(185, 20, growth), 2 * 185 * tan(radians(20)) * growth)
    for b in (1.5, 2, 2.5, 3.5):
        for f in (3, 5, 10, 20):
            T, rate, ratio, R = age_replacement(b, 1, f)
            print("age", b, f, f"{T:.6f} {ratio:.6f} {R:.6f}", within_two_percent(b, f))
    for r in (1, 2, 5, 9, 10):
        T, rate, _, _ = age_replacement(3, 1, 1 + r)
        print("Weibull 10, 3, failure", 1 + r, f"{10 * T:.4f} {rate / 10:.5f}")
    T, rate, _, R = age_replacement(2.5, 1, 5)
    print("2.5, 1000, 1, 5:", 1000 * T, rate / 1000, "to failure", 5 / 1000 / gamma(1.4), "patched", 1000 * (1 / (5 * 1.5)) ** 0.4)
    def uniform(T):
        return (100 * (1 - T / 40) + 200 * T / 40) / (T - T * T / 80) / 1000
    print("uniform", [uniform(T) for T in (10, 20, 30, 40)], minimize_scalar(uniform, bounds=(1, 40), method="bounded").x)
    for D0 in (0, 0.25, 0.5, 1, 1.5):
        print("campaign, L10", D0, [round(campaign(1.5, D0, 1, R), 4) for R in (0.9, 0.95, 0.99)])
    print("campaign", [[campaign(1.5, D0, 0.05, R) for R in (0.9, 0.95, 0.99)] for D0 in (0, 0.5)], campaign(1.5, 0.6, 0.04, 0.95))
    print("case", bearing_survival(0.5) * bearing_survival(1.0) * 0.99 ** (2**2.5),
          bearing_survival(1.0) / bearing_survival(0.5) * 0.99 ** (2**2.5 - 1))


if __name__ == "__main__":
    main()
