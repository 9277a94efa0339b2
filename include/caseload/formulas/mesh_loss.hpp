// SPDX-License-Identifier: MIT
// Sliding loss of a gear mesh: loss factor times mean friction times power.
#pragma once

#include "caseload/formulas/iso_21771.hpp"

namespace caseload::mesh_loss {

/// Loss factor H_V in closed form, load shared half and half in double contact.
///
///     H_V = pi (u+1) / (z_1 u cos b_b) (1 - eps_a + eps_1^2 + eps_2^2)
///
/// Range    1 <= eps_alpha <= 2, eps_1 and eps_2 from 0 to 1; otherwise throws Error{domain}.
/// Source   ohlendorf-1958, closed
[[nodiscard]] double loss_factor_closed(const iso_21771::Pair& pair);

/// The same as an integral along the path of contact, load shared equally by the pairs in contact.
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

/// Below this line load and above this pitch-line speed friction is held (practice of
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

namespace caseload::xu {

/// State of one point of contact.
struct Contact {
    double P_h_GPa;     ///< Hertz pressure
    double slide_roll;  ///< sliding over mean rolling speed, magnitude
    double v_e_mps;     ///< mean rolling speed
    double eta_mPas;
    double R_m;   ///< reduced radius
    double S_um;  ///< rms roughness
};

/// Local friction of a 75W-90 in elastohydrodynamic contact: regression.
///
///     mu = exp(f) P_h^1.03303 |SR|^1.036077 V_e^-0.100601 nu^0.752755 R^-0.390958
///     f  = -8.916465 - 0.354068 q + 2.812084 exp(-q) + 0.620305 exp(S),  q = |SR| P_h log10 nu
///
/// Note     a reference to check the mean friction against, not used for heat. The copy seen labels
///          P_h MPa; only GPa gives sensible friction.
/// Source   xu-2007, regression
[[nodiscard]] double friction(const Contact& contact);

struct Drive {
    double torque_1_Nm;
    double omega_1_radps;
    double face_width_mm;
    double eta_mPas;
    double S_um;
};

/// Loss of a spur mesh with this friction, integrated along the path of contact. Steel on steel.
/// Source   xu-2007, mesh-loss
[[nodiscard]] double mesh_loss_W(const iso_21771::Pair& pair, const Drive& drive);

}  // namespace caseload::xu
