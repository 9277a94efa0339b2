// SPDX-License-Identifier: MIT
// Windage of a gear in air or mist.
#pragma once

namespace caseload::diab {

/// What a helical gear below 30 deg drags less than a spur one once a whole tooth overlaps. From
/// memory, weak.
inline constexpr double helical_less = 0.2;

/// Windage of a helical gear over that of a spur one: 1 - 0.2 min(1, eps_beta).
///
/// Range    overlap ratio >= 0.
/// Note     the 0.2 from memory; that it comes in with the overlap is judgement, so that the
///          smallest helix changes next to nothing.
/// Source   gear-practice, helical-windage
[[nodiscard]] double helical_share(double overlap_ratio);

struct Gear {
    double R_m;  ///< pitch radius
    double b_m;
    int z;
    double h_1_m;  ///< side to wall, counted to 0.5 R
    double h_2_m;
};

struct Medium {
    double omega_radps;
    double density_kgpm3;  ///< of the mist
    double mu_Pas;         ///< of the air
};

/// Windage torque after Diab, Ville, Velex and Changenet.
///
///     C = 60 Re^-0.25 (b/R)^0.8 z^-0.4 ((h_1/R)^0.56 + (h_2/R)^0.56),  Re = rho omega R^2 / mu
///     T = C rho omega^2 R^5 / 2
///
/// Range    omega, density, mu, R, b > 0; h >= 0.
/// Note     constants from memory; the groups are those of the paper's abstract; Dawson's and
///          Anderson and Loewenthal's formulas agree within 35 %.
/// Source   diab-2004, dimensional
[[nodiscard]] double windage_torque_Nm(const Gear& gear, const Medium& medium);

}  // namespace caseload::diab
