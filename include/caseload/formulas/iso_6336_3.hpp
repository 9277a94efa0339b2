// SPDX-License-Identifier: MIT
// ISO 6336-3: bending stress at the tooth root, method B, and its limit. From memory;
// form and stress factors agree with a textbook table and a second write-up.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/iso_6336_1.hpp"
#include "caseload/formulas/iso_6336_6.hpp"

#include <array>

namespace caseload::iso_6336_3 {

enum class Gear { driver, driven };  ///< gear 1 and gear 2 of a pair

/// Where the whole load acts on the tooth.
enum class LoadAt {
    outer_single,  ///< outer point of single contact: method B
    tip,           ///< method C; only for comparison
};

/// The root where the tangent to the fillet is at 30 deg to the tooth's centre line.
struct RootForm {
    double s_Fn;   ///< chord, modules
    double h_Fe;   ///< lever of the load, modules
    double rho_F;  ///< fillet radius, modules
    double alpha_Fen_rad;
    double Y_F;  ///< form factor
    double Y_S;  ///< stress correction factor
};

/// Form and stress correction factor of a tooth cut by the basic rack, without grinding notch.
///
///     E = pi/4 - h tan a_n - (1 - sin a_n) r / cos a_n      G = r - h + x      (rack h, r;
///     modules) H = 2/z_n (pi/2 - E) - pi/3             theta = 2G/z_n tan theta - H s_Fn = z_n
///     sin(pi/3 - theta) + sqrt3 (G/cos theta - r) rho_F = r + 2 G^2 / (cos theta (z_n cos^2 theta
///     - 2 G)) Y_F = 6 h_Fe cos a_Fen / (s_Fn^2 cos a_n) Y_S = (1.2 + 0.13 L) q^(1/(1.21 + 2.3/L)),
///     L = s_Fn/h_Fe,  q = s_Fn/(2 rho_F)
///
/// Range    eps_alpha from 1 to 2.5; q from 1 to 8, otherwise throws Error{domain}.
/// Note     tip loading is without the contact ratio factor 0.25 + 0.75/eps_alpha. Thinning of the
///          teeth for backlash is left out.
/// Source   iso-6336-3, root-form
[[nodiscard]] RootForm root_form(const iso_21771::Pair& pair, Gear gear,
                                 LoadAt at = LoadAt::outer_single);

/// Helix factor of the 2006 edition.
///
///     Y_beta = 1 - min(eps_b, 1) min(b, 30 deg)/120 deg
///
/// Note     the 2019 edition divides by cos^3 b: 9 % more at 14 deg. Which edition is right for
///          this use is open.
/// Source   iso-6336-3, helix
[[nodiscard]] double helix_factor(const iso_21771::Pair& pair);

/// Root stress without load factors; rim at least 1.2 tooth heights thick.
///
///     sigma_F0 = F_t/(b m) Y_F Y_S Y_beta
///
/// Source   iso-6336-3, nominal-stress
[[nodiscard]] double nominal_stress_MPa(const iso_21771::Pair& pair, const RootForm& form,
                                        const iso_6336_1::ToothLoad& load);

/// Root stress.
///
///     sigma_F = sigma_F0 K_A K_v K_Fb K_Fa
///
/// Source   iso-6336-3, stress
[[nodiscard]] double stress_MPa(const iso_21771::Pair& pair, const RootForm& form,
                                const iso_6336_1::ToothLoad& load,
                                const iso_6336_1::LoadFactors& factors);

/// Relative surface factor of case-hardened roots.
///
///     Y_R = 1.12 below 1 um, 1.674 - 0.529 (Rz + 1)^0.1 from there
///
/// Range    Rz above 0 to 40 um.
/// Note     it steps down by 1.2 % at 1 um; the step is in the standard.
/// Source   iso-6336-3, surface
[[nodiscard]] double surface_factor(double Rz_um);

/// Size factor of case-hardened roots.
///
///     Y_X = 1 to 5 mm, 1.05 - 0.01 m to 25 mm, 0.8 above
///
/// Source   iso-6336-3, size
[[nodiscard]] double size_factor(double module_mm);

/// Stress correction factor of the test gears that sigma_Flim belongs to.
inline constexpr double Y_ST = 2.0;
/// Part of the root limit left when the tooth bends fully both ways, as an idler's does.
inline constexpr double full_reversal = 0.7;

struct RootLimit {
    double sigma_Flim_MPa;
    double Rz_um;
    double module_mm;
    bool reversed;  ///< idler
};

/// Root stress the teeth endure at life factor 1, failure probability 1 %.
///
///     sigma_FG = sigma_Flim 2.0 Y_R Y_X, times 0.7 for an idler
///
/// Note     relative notch sensitivity 1, right from q of about 1.5.
/// Source   iso-6336-3, limit
[[nodiscard]] double limit_MPa(const RootLimit& limit);

/// Life factor Y_NT of case-hardened steel.
inline constexpr std::array<iso_6336_6::LifePoint, 3> root_life{
    {{1e3, 2.5}, {3e6, 1.0}, {1e10, 0.85}}};

}  // namespace caseload::iso_6336_3
