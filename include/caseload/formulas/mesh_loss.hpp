// SPDX-License-Identifier: MIT
// Sliding loss of a gear mesh: loss factor times mean friction times power.
#pragma once

#include "caseload/formulas/iso_21771.hpp"

namespace caseload::mesh_loss {

/// Loss factor H_V in closed form, load shared half and half in double contact.
///
///     H_V = pi (u+1) / (z_1 u cos b_b) (1 - eps_a + eps_1^2 + eps_2^2)
///
/// Range    1 <= eps_alpha <= 2, eps_1 and eps_2 from 0 to 1.
/// Source   ohlendorf-1958, closed
[[nodiscard]] double loss_factor_closed(const iso_21771::Pair& pair);

/// The same as an integral along the path of contact, valid for any contact ratio below 3.
///
///     H_V = (1/r_b1 + 1/r_b2) / (p_bt cos b_b) int f(x) |x| dx
///
/// Note     a helical pair takes the transverse integral over cos b_b: its spread is 0.7 to 1.5.
/// Source   ohlendorf-1958, integral
[[nodiscard]] double loss_factor(const iso_21771::Pair& pair);

}  // namespace caseload::mesh_loss

namespace caseload::schlenk {

/// Oil factor, from memory; 0.8 also fits measured spur gears with a synthetic 75W-90.
inline constexpr double X_L_mineral = 1.0;
inline constexpr double X_L_synthetic = 0.8;

struct Friction {
    double w_Npmm;       ///< F_bt / b
    double v_sumC_mps;   ///< sum speed at the pitch point
    double rho_redC_mm;
    double eta_mPas;     ///< at oil temperature
    double Ra_um;        ///< mean of both flanks
    double X_L;
};

/// Mean friction of a mesh.
///
///     mu = 0.048 (w / (v_sumC rho_redC))^0.2 eta^-0.05 Ra^0.25 X_L
///
/// Note     w is not taken below 150 N/mm; the caller limits the pitch-line speed to 50 m/s.
/// Source   iso-tr-14179-2, mesh-friction
[[nodiscard]] double friction(const Friction& state);

}  // namespace caseload::schlenk
