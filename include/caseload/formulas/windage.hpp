// SPDX-License-Identifier: MIT
// Windage of a gear in air or mist after Diab, Ville, Velex and Changenet.
#pragma once

namespace caseload::diab {

/// Share of the spur value a helical gear below 30 deg takes. From memory, weak.
inline constexpr double helical_share = 0.8;

struct Gear {
    double R_m;  ///< pitch radius
    double b_m;
    int z;
    double h_1_m;  ///< side to wall, counted to 0.5 R
    double h_2_m;
};

struct Medium {
    double omega_radps;
    double density_kgpm3;
    double mu_Pas;
};

/// Windage torque.
///
///     C = 60 Re^-0.25 (b/R)^0.8 z^-0.4 ((h_1/R)^0.56 + (h_2/R)^0.56),  Re = rho omega R^2 / mu
///     T = C rho omega^2 R^5 / 2
///
/// Note     constants from memory; the groups are those of the paper's abstract; Dawson's and
///          Anderson and Loewenthal's formulas agree within 35 %.
/// Source   diab-2004, dimensional
[[nodiscard]] double windage_torque_Nm(const Gear& gear, const Medium& medium);

}  // namespace caseload::diab
