#!/usr/bin/env python3
"""Independent values for the tests of oil, air, film, exchanger and wall, and for the rows of
tables/published.toml with the source "independent-recomputation". Written from the formulas, not
from the C++; where there is a choice the other way is taken: Mason's double series instead of
Bessel functions, scipy's Brent instead of TOMS 748. Needs python3-scipy."""
from math import exp, log10, sqrt

from scipy.optimize import brentq

G = 9.80665
L, W, H = 0.45, 0.30, 0.20  # box: along, across, high, m
AREA = 2 * (L * W + L * H + W * H)


def air(t, p=101325.0):
    T = t + 273.15
    rho = p / (287.05 * T)
    mu = 1.458e-6 * T**1.5 / (T + 110.4)
    k = 2.64638e-3 * T**1.5 / (T + 245.4 * 10 ** (-12 / T))
    cp = 1030.5 - 0.19975 * T + 3.9734e-4 * T * T
    return rho, mu, mu / rho, k, cp, mu * cp / k, 1 / T


def body(Re, Pr):
    laminar = 0.664 * Re**0.5 * Pr ** (1 / 3)
    turbulent = 0.037 * Re**0.8 * Pr / (1 + 2.443 * Re**-0.1 * (Pr ** (2 / 3) - 1))
    return 0.3 + sqrt(laminar**2 + turbulent**2)


def forced(v, film, p=101325.0):
    if v == 0:
        return 0.0
    _, _, nu, k, _, Pr, _ = air(film, p)
    length = AREA / (2 * (W + H))
    return body(v * length / nu, Pr) * k / length


def natural(ts, ta, p=101325.0):
    rho, _, nu, k, cp, Pr, beta = air((ts + ta) / 2, p)
    per_m3 = G * beta * max(abs(ts - ta), 1e-6) / (nu * k / (rho * cp))
    flat = L * W / (2 * (L + W))
    Ra = per_m3 * flat**3
    side = (0.825 + 0.387 * (per_m3 * H**3) ** (1 / 6)
            / (1 + (0.492 / Pr) ** (9 / 16)) ** (8 / 27)) ** 2
    up = 0.54 * Ra**0.25 if Ra <= 1e7 else 0.15 * Ra ** (1 / 3)
    down = 0.52 * Ra**0.2
    return (2 * (L + W) * H * side * k / H + L * W * (up + down) * k / flat) / AREA


def mixed(v, ts, ta):
    return (forced(v, (ts + ta) / 2) ** 3 + natural(ts, ta) ** 3) ** (1 / 3)


def radiation(emissivity, ts, tr):
    a, b = ts + 273.15, tr + 273.15
    return emissivity * 5.670374e-8 * (a**4 - b**4) / (a - b)


def chain(v, emissivity, dirt_m, oil=110.0, ta=35.0):
    """UA and outer surface of oil - wall - coat - air, oil film 200 W/m2K on 0.8 of the area."""
    R = 1 / (200 * 0.8 * AREA) + 0.020 / (160 * AREA) + dirt_m / (0.27 * AREA)

    def out(ts):
        return AREA * (mixed(v, ts, ta) + radiation(emissivity, ts, ta)) * (ts - ta)

    ts = brentq(lambda t: (oil - t) / R - out(t), ta + 1e-9, oil - 1e-9, xtol=1e-12)
    return (oil - ts) / R / (oil - ta), ts


def unmixed(NTU, C):
    total, a, b, term_a, term_b = 0.0, 0.0, 0.0, exp(-NTU), exp(-C * NTU)
    for n in range(400):
        a += term_a
        b += term_b
        total += (1 - a) * (1 - b)
        term_a *= NTU / (n + 1)
        term_b *= C * NTU / (n + 1)
    return total / (C * NTU)


def walther(nu40, nu100):
    def y(nu):
        return log10(log10(nu + 0.7))

    B = (y(nu40) - y(nu100)) / (log10(373.15) - log10(313.15))
    A = y(nu40) + B * log10(313.15)
    return A, B, lambda t: 10 ** (10 ** (A - B * log10(t + 273.15))) - 0.7


def density(rho15, t):
    a, d = 0.6278 / rho15, t - 15
    return rho15 * exp(-a * d * (1 + 0.8 * a * d))


def cooler():
    """Rating 6 kW at 60 K, 8 L/min, 8 m/s on 0.03 m2, oil 868 kg/m3 at 100 degC, air 40 degC."""
    rho = density(868, 100)
    oil_kgps = 8 / 60000 * rho
    oil = oil_kgps * (2050 + 3.3 * 100)
    rho_a, _, _, _, cp_a, _, _ = air(40)
    blown = rho_a * 8 * 0.03 * cp_a
    least, most = min(oil, blown), max(oil, blown)
    eps = 6000 / (least * 60)
    UA = brentq(lambda n: unmixed(n, least / most) - eps, 1e-3, 20, xtol=1e-14) * least

    def per_K(v, flow):
        o, b = oil * flow / 8, blown * v / 8
        u = UA / (0.5 / (v / 8) ** 0.6 + 0.5 / (flow / 8) ** (1 / 3))
        return unmixed(u / min(o, b), min(o, b) / max(o, b)) * min(o, b)

    return UA, per_K


def main():
    print("air: t, rho, mu, nu, k, cp, Pr")
    for t in (0, 40, 100):
        print(t, *(f"{x:.7g}" for x in air(t)[:6]))
    print("forced film at 70 degC")
    for v in (1, 2.5, 5, 10, 20, 30, 60):
        print(v, f"{forced(v, 70):.4f}")
    print("natural film")
    for ts, ta in ((60, 20), (80, 20), (100, 20), (120, 40), (100, 35)):
        print(ts, ta, f"{natural(ts, ta):.4f}")
    print("at 84556 Pa", f"{natural(100, 35, 84556.0):.4f}")
    print("UA clean, surface, UA 3 mm dust, UA emissivity 0.1")
    for v in (0, 1, 2, 5, 10, 20, 30, 60):
        clean, ts = chain(v, 0.9, 0)
        print(v, f"{clean:.4f} {ts:.4f} {chain(v, 0.9, 0.003)[0]:.4f} {chain(v, 0.1, 0)[0]:.4f}")
    print("unmixed cross-flow")
    for NTU, C in ((0.5, 1), (1, 0.5), (2, 0.75), (3, 1), (5, 0.7)):
        print(NTU, C, f"{unmixed(NTU, C):.8f}")
    UA, per_K = cooler()
    print("cooler UA", f"{UA:.4f}")
    print(*(f"{per_K(v, 8):.3f}" for v in (0.5, 1, 2, 4, 6, 8, 12, 16)))
    print(*(f"{per_K(8, f):.3f}" for f in (2, 4, 6, 8, 12)))
    print("Walther: A, B, viscosity at -20, 0, 20, 60, 80, 120, 150")
    for pair in ((105, 16.0), (140, 14.6), (360, 26.5), (30.8, 5.9)):
        A, B, nu = walther(*pair)
        print(*pair, f"{A:.8f} {B:.8f}", *(f"{nu(t):.6g}" for t in (-20, 0, 20, 60, 80, 120, 150)))
    print("density 890 at 60, 100, 120; 860 at 40, 100")
    print(*(f"{density(r, t):.4f}" for r, t in
            ((890, 60), (890, 100), (890, 120), (860, 40), (860, 100))))
    print("oxidation life, k1 -9.31")
    print(*(f"{10 ** (-9.31 + 4750 / (t + 273.15)):.6g}"
            for t in (80, 90, 100, 110, 120, 130, 140, 150, 163)))


if __name__ == "__main__":
    main()
