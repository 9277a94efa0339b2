// SPDX-License-Identifier: MIT
// Unevenness of the ground along a wheel's track, as a spectrum of height.
//
//     G_d(n) = G (n / n0)^-2        one-sided, n in cycles/m, n0 = 0.1 cycles/m
//
// Waviness 2, as the standard fits it; measured ground has 1.5 to 2.5 (from memory). Off the road
// the standard needs nothing below 0.05 cycles/m.
#pragma once

namespace caseload::road_roughness {

/// Reference spatial frequency, cycles/m. Source: ISO 8608.
inline constexpr double n0_pm = 0.1;

/// One-sided density of the vertical velocity a wheel sees, for each m/s it rolls, m; white:
///
///     G_v / v = (2 pi n0)^2 G
///
/// Derived from the spectrum above.
///
/// Range    roughness G in m3, > 0.
/// Source   iso-8608, velocity
[[nodiscard]] double velocity_density_m(double roughness_m3);

/// Root mean square of height with wavelengths over 18.288 m (60 ft) left out, the measure of
/// mobility models:
///
///     sqrt(G n0^2 18.288)
///
/// Range    roughness in m3, > 0.
/// Source   iso-8608, height
[[nodiscard]] double rms_height_m(double roughness_m3);

}  // namespace caseload::road_roughness
