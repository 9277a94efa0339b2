// SPDX-License-Identifier: MIT
// First bending critical speed of a prop shaft.
#pragma once

namespace caseload::prop_shaft {

/// Steel tube: Young's modulus and density.
inline constexpr double E_steel_Pa = 206e9;
inline constexpr double density_steel_kgpm3 = 7850;
/// Joints, centre supports and the sliding spline give way: share of the ideal critical speed that
/// is left. Judgement between 0.85 and 0.95.
inline constexpr double ends_share = 0.9;

struct Tube {
    double length_mm;  ///< joint centre to joint centre
    double outside_mm;
    double wall_mm;  ///< outside / 2: a solid bar
};

/// Critical speed of a uniform tube on pinned ends, without `ends_share`.
///
///     n_c = (30 pi / L^2) sqrt(E / rho) sqrt(D^2 + d^2) / 4    r/min, metres
///
/// Range    0 < wall <= outside / 2.
/// Note     Euler-Bernoulli beam; steel gives 1.207e8 sqrt(D^2 + d^2) / L^2 in mm.
/// Source   beam-theory, pinned-tube
[[nodiscard]] double critical_speed_rpm(const Tube& tube);

}  // namespace caseload::prop_shaft
