// SPDX-License-Identifier: MIT
// Sliding loss of a gear mesh: loss factor times mean friction times power.
#pragma once

#include "caseload/formulas/iso_21771.hpp"

namespace caseload::mesh_loss {

/// Loss factor H_V: an integral along the path of contact, load shared equally by the pairs in
/// contact.
///
///     H_V = (1/r_b1 + 1/r_b2) / (p_bt cos b_b) int f(x) |x| dx
///
/// Range    0 < eps_alpha < 4.
/// Note     a helical pair takes the transverse integral over cos b_b; with the load spread along
///          the lines of contact instead it would be 17 to 18 % higher without tip relief: its
///          band is 0.7 to 1.5.
/// Source   ohlendorf-1958, integral
[[nodiscard]] double loss_factor(const iso_21771::Pair& pair);

}  // namespace caseload::mesh_loss

namespace caseload::schlenk {

/// Oil factor, from memory; 0.8 also fits measured spur gears with a synthetic 75W-90.
inline constexpr double X_L_mineral = 1.0;
inline constexpr double X_L_synthetic = 0.8;

/// Below this line load and above this pitch-line speed friction is constant (practice of
/// ISO/TR 14179-2 and DIN 3990-4, from memory).
inline constexpr double least_w_Npmm = 150;
inline constexpr double largest_v_mps = 50;

struct Friction {
    double w_Npmm;      ///< F_bt / b
    double v_sumC_mps;  ///< sum speed at the pitch point, for the limited form see sum_speed_mps
    double rho_redC_mm;
    double eta_mPas;  ///< at oil temperature
    double Ra_um;     ///< mean of both flanks
    double X_L;
};

struct PitchPoint {
    double v_mps;
    double alpha_wt_rad;
};

/// Sum speed the friction is taken at: 2 v sin a_wt, v not above 50 m/s.
/// Source   iso-tr-14179-2, speed-limit
[[nodiscard]] double sum_speed_mps(const PitchPoint& point);

/// Mean friction of a mesh, w not taken below 150 N/mm.
///
///     mu = 0.048 (w / (v_sumC rho_redC))^0.2 eta^-0.05 Ra^0.25 X_L
///
/// Range    w >= 0, all else > 0.
/// Source   iso-tr-14179-2, mesh-friction
[[nodiscard]] double friction(const Friction& state);

/// The same without the limit of line load, for comparison.
/// Source   iso-tr-14179-2, unlimited
[[nodiscard]] double friction_unlimited(const Friction& state);

}  // namespace caseload::schlenk
