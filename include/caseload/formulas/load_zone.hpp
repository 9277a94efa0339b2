// SPDX-License-Identifier: MIT
// What running play does to the load zone of a radial bearing: rigid rings under a radial load,
// elements between them that give way by a power of their load (Sjoevall 1933, as in Harris,
// Rolling Bearing Analysis 4e, chapter 7: form from memory, integrals and constants recomputed).
#pragma once

#include "caseload/formulas/element_stiffness.hpp"

namespace caseload::load_zone {

using element_stiffness::Contact;

struct Means {
    double load;      ///< J_r: F_r / (Z Q_max)
    double moment;    ///< J_m: mean of Q / Q_max
    double turning;   ///< J_1: mean of (Q / Q_max)^s to the power 1/s, s 3 ball, 4 roller
    double standing;  ///< J_2: the same with 10/3 and 9/2
};
/// Means over the circle of Q / Q_max = (1 - (1 - cos psi) / (2 eps))^n inside the zone.
///
/// Range    0.001 <= eps <= 2000; 0.5 is zero play, from 1 on every element carries load.
/// Source   harris-4e, ch7-integrals
[[nodiscard]] Means means(Contact contact, double eps);

/// Half of the angle elements carry load over: acos(1 - 2 eps), 180 deg from eps = 1 on.
/// Source   harris-4e, ch7-zone
[[nodiscard]] double half_zone_deg(double eps);

struct Played {
    double play_mm;      ///< running play on diameter; negative: preload
    double stiffness_N;  ///< K_n of an element, N/mm^n
    double F_r_N;
    int Z;  ///< elements
};
/// Play, load and bearing in one number: x = P_d (Z K_n / F_r)^(1/n).
///
/// Range    F_r and the stiffness > 0, Z from 1.
/// Source   harris-4e, ch7-x
[[nodiscard]] double play_number(Contact contact, const Played& played);

/// Extent of the load zone at a play number: root of x = (1 - 2 eps) / eps / J_r^(1/n).
/// Note     beyond the ends of eps the nearer end.
/// Source   harris-4e, ch7-eps
[[nodiscard]] double zone_eps(Contact contact, double x);

/// Play number of a load zone of this extent, the other way round.
/// Range    0.001 <= eps <= 2000.
/// Source   harris-4e, ch7-eps
[[nodiscard]] double zone_play_number(Contact contact, double eps);

/// k, equivalent element load over that of zero play, where the rating standard defines C.
///
///     r_i = (J_1 / J_r) / (J_1 / J_r)(0.5), r_e with J_2
///     k = ((r_i^E + u r_e^E) / (1 + u))^(w / p')        E 10/3, w 9/10, p' 3 ball; 9/2, 8/9, 4
///     u = (1.044 ((1 - g) / (1 + g))^1.72)^(10/3) ball; (1.038 ((1 - g) / (1 +
///     g))^(143/108))^(9/2)
///
/// with g = D_w / D_pw 0.12: other bearings move k by 0.002 at 1.1 and 0.02 at 2.8.
/// Note     structure from memory.
/// Source   iso-ts-16281, equivalent
[[nodiscard]] double zone_factor(Contact contact, const Means& zone);

/// k at a play number: (1 + 0.1328 x)^0.2439 ball, (1 + 0.1049 x)^0.2479 roller from x = 0 on;
/// below it `zone_factor`, interpolated.
///
/// Note     closed forms fitted here, within 0.25 % up to x 300. Below 0 within 0.05 %; beyond the
///          end of eps k grows with |x|^n, as a preload spreads evenly.
/// Source   iso-ts-16281, play-factor
[[nodiscard]] double play_factor(Contact contact, double x);

/// Largest k of a play: one element carries all. 0.407 Z^(2/3) ball, 0.378 Z^(3/4) roller.
/// Source   iso-ts-16281, one-element
[[nodiscard]] double largest_play_factor(Contact contact, int Z);

/// k_M, sum of the element loads over that of zero play: (J_m / J_r) / (J_m / J_r)(0.5),
/// interpolated within 0.05 %. The load-dependent torque grows with it.
/// Source   harris-4e, ch7-moment
[[nodiscard]] double moment_factor(Contact contact, double x);

/// More preload than this, on diameter, is a wrong entry and no bearing that runs. Judgement.
inline constexpr double least_play_mm = -0.1;

/// Load below which a zone has no meaning: k and k_M are 1. Judgement.
inline constexpr double least_load_N = 1;

struct Factors {
    double load = 1;    ///< k, at most `largest_play_factor` while there is play
    double moment = 1;  ///< k_M
};
/// Both factors of a bearing, 1 below `least_load_N`.
///
/// Range    play from -5 to 5 mm; see `least_play_mm`.
/// Source   iso-ts-16281, play-factor
[[nodiscard]] Factors factors(Contact contact, const Played& played);

/// `factors`, k alone.
/// Source   iso-ts-16281, play-factor
[[nodiscard]] double load_factor(Contact contact, const Played& played);

}  // namespace caseload::load_zone
