// SPDX-License-Identifier: MIT
// ISO 6336-1: load factors of gear teeth. From memory of the 2006 and 2019 editions; the numbers
// agree with a second write-up, none was read in the standard itself.
#pragma once

#include "caseload/formulas/iso_21771.hpp"

namespace caseload::iso_6336_1 {

/// What one mesh carries, before any load factor.
struct ToothLoad {
    double F_t_N;          ///< tangential, at the reference circle
    double face_width_mm;  ///< b, common
};

/// Tangential force at the reference circle.
///
///     F_t = 2000 T_1 / d_1
///
/// Given    torque of gear 1, magnitude.
/// Source   iso-6336-1, force
[[nodiscard]] double reference_force_N(const iso_21771::Pair& pair, double torque_1_Nm);

/// Factors on the load, each >= 1: K_beta is K_Hbeta for flanks, K_Fbeta for roots; K_alpha alike.
struct LoadFactors {
    double K_A;
    double K_v;
    double K_beta;
    double K_alpha;
};

/// K_A K_v K_beta K_alpha.
///
/// Range    each from 1 to 100.
/// Source   iso-6336-1, factors
[[nodiscard]] double load_factor(const LoadFactors& factors);

/// Bore of each rim over its mean tooth diameter (d_a + d_f)/2; 0: solid.
struct Rims {
    double q_1;
    double q_2;
};

/// Mass of both gears as it acts along the line of action, per face width. The standard takes the
/// larger gear as u times the smaller one all over.
///
///     m_red = pi/8 (d_m/d_b)^2 d_m^2 / (1/((1 - q_p^4) rho) + 1/((1 - q_w^4) rho u^2)),
///     d_m, d_b of the smaller gear, rho 7.83e-6 kg/mm3
///
/// Returns  kg per mm of face width.
/// Range    q from 0 to 0.95.
/// Source   iso-6336-1, reduced-mass
[[nodiscard]] double reduced_mass_kgpmm(const iso_21771::Pair& pair, const Rims& rims);

/// Speed of gear 1 at which teeth meet at the natural frequency of the mesh.
///
///     n_E1 = 30000/(pi z_1) sqrt(c_g / m_red)      c_g = 14 (0.75 eps_a + 0.25) N/(mm um)
///
/// Range    eps_alpha from 1 to 2.5.
/// Note     stiffness of steel discs with 1.2 <= eps_alpha; near 1 it is up to 10 % too stiff.
/// Source   iso-6336-1, resonance
[[nodiscard]] double resonance_speed_rpm(const iso_21771::Pair& pair, const Rims& rims);

struct SpeedRange {
    double from_rpm;
    double to_rpm;
};

/// Speeds of gear 1 inside the main resonance, 0.85 < N < 1.15.
///
/// Source   iso-6336-1, resonance-range
[[nodiscard]] SpeedRange resonance_range(const iso_21771::Pair& pair, const Rims& rims);

/// Single deviation of pitch or profile for an accuracy grade.
///
///     f = 8 um at grade 6, times sqrt 2 a grade
///
/// Range    grade 3 to 12.
/// Note     the step is that of ISO 1328-1; 8 um for modules near 5 mm is a judgement.
/// Source   iso-6336-1, deviation
[[nodiscard]] double deviation_um(int grade);

/// What is left of a deviation after running in, case-hardened flanks.
///
///     f_eff = f - min(0.075 f, 3 um)
///
/// Source   iso-6336-1, running-in
[[nodiscard]] double run_in_deviation_um(double deviation_um);

/// C_v1 .. C_v7 of method B.
struct DynamicCoefficients {
    double C_v1;
    double C_v2;
    double C_v3;
    double C_v4;
    double C_v5;
    double C_v6;
    double C_v7;
};

/// Range    eps_gamma from 1 to 11.
/// Note     the coefficients step at eps_gamma = 2, up to 7 %; the step is in the standard.
/// Source   iso-6336-1, coefficients
[[nodiscard]] DynamicCoefficients dynamic_coefficients(double eps_gamma);

/// Below this K_A F_t/b the dynamic load is constant (judgement: there the standard's stiffness and
/// its range of resonance change, and no tooth is damaged).
inline constexpr double least_w_Npmm = 100;

struct Running {
    double w_Npmm;  ///< K_A F_t / b
    double n_1_rpm;
    double f_pb_um;  ///< base pitch deviation, before running in
    double f_f_um;   ///< profile form deviation, before running in
    double tip_relief_um;
};

/// Dynamic factor K_v, method B.
///
///     N = n_1 / n_E1      B_p = 14 f_pb,eff/w      B_f = 14 f_f,eff/w      B_k = |1 - 14 C_a/w|
///     N <= 0.85           1 + N (C_v1 B_p + C_v2 B_f + C_v3 B_k)
///     0.85 < N <= 1.15    1 + C_v1 B_p + C_v2 B_f + C_v4 B_k
///     N >= 1.5            C_v5 B_p + C_v6 B_f + C_v7
///     between             straight line
///
/// Range    n_1 >= 0, w >= 0; eps_alpha from 1 to 2.5.
/// Note     K_v steps up at N = 0.85; the step is in the standard. It sets B_k = 1 for grades 6 and
///          coarser, from memory: that is C_a = 0. Above N = 1.5 it is not taken below 1.
/// Source   iso-6336-1, dynamic-factor
[[nodiscard]] double dynamic_factor(const iso_21771::Pair& pair, const Rims& rims,
                                    const Running& running);

struct Misaligned {
    double F_betay_um;  ///< equivalent misalignment of the flanks, after running in
    double w_m_Npmm;    ///< K_A K_v F_t / b
};

/// Stiffness of the mesh across the face, c_gamma_beta of method C.
inline constexpr double c_gamma_beta_Npmmum = 20;
/// Above it the load carries a corner of the face only and the formula ends (judgement).
inline constexpr double largest_K_Hbeta = 3;

/// Uneven load over the face as it acts on the flanks, method C.
///
///     x = F_by c_gb / (2 w_m)      K_Hb = 1 + x, x <= 1      sqrt(4 x) above, at most 3
///
/// Range    F_by >= 0, w_m >= 0.
/// Note     both branches are 2 at x = 1. w_m of 0: 3, or 1 for a mesh without misalignment.
/// Source   iso-6336-1, face-factor
[[nodiscard]] double face_factor(const Misaligned& mesh);

struct Transverse {
    double w_H_Npmm;       ///< K_A K_v K_Hbeta F_t / b
    double deviation_um;   ///< of the base pitch, before running in
    double Z_eps_squared;  ///< contact ratio factor of ISO 6336-2, squared
};

/// Uneven load between the pairs of teeth in contact: K_Halpha of flanks, K_Falpha of roots.
struct TransverseFactors {
    double K_Halpha;
    double K_Falpha;
};

/// Transverse load factors, method B.
///
///     K = eps_g/2 (0.9 + 0.4 c_g f_eff/w_H)                          eps_g <= 2
///     K = 0.9 + 0.4 sqrt(2 (eps_g - 1)/eps_g) c_g f_eff/w_H          above
///     1 <= K_Ha <= eps_g/(eps_a Z_eps^2)      1 <= K_Fa <= eps_g/(0.25 eps_a + 0.75)
///
/// Given    c_g = 14 (0.75 eps_a + 0.25) N/(mm um), f_eff = f - min(0.075 f, 3 um).
/// Range    w_H >= 0, at 0 the caps; eps_alpha from 1 to 2.5; Z_eps^2 > 0.
/// Note     both branches are equal at eps_g = 2.
/// Source   iso-6336-1, transverse-factors
[[nodiscard]] TransverseFactors transverse_factors(const iso_21771::Pair& pair,
                                                   const Transverse& mesh);

struct Face {
    double K_Hbeta;
    double face_width_mm;
    double module_mm;
};

/// Uneven load over the face as it acts on the roots.
///
///     K_Fb = K_Hb^NF      NF = (b/h)^2 / (1 + b/h + (b/h)^2)      h = 2.25 m
///
/// Range    K_Hbeta from 1 to 10.
/// Source   iso-6336-1, root-face-factor
[[nodiscard]] double root_face_factor(const Face& face);

}  // namespace caseload::iso_6336_1
