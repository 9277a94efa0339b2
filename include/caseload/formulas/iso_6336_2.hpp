// SPDX-License-Identifier: MIT
// ISO 6336-2: contact stress of tooth flanks and its limit without pitting. From
// memory; the numbers agree with a second write-up.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/iso_6336_1.hpp"
#include "caseload/formulas/iso_6336_6.hpp"

#include <array>

namespace caseload::iso_6336_2 {

/// Elasticity factor Z_E of steel on steel, 206 GPa and 0.3, sqrt(N/mm2).
inline constexpr double Z_E_steel = 189.8;

/// Zone factor.
///
///     Z_H = sqrt(2 cos b_b cos a_wt / (cos^2 a_t sin a_wt))
///
/// Source   iso-6336-2, zone
[[nodiscard]] double zone_factor(const iso_21771::Pair& pair);

/// Contact ratio factor.
///
///     Z_eps^2 = (4 - eps_a)/3 (1 - e) + e / eps_a,      e = min(eps_b, 1)
///
/// Range    eps_alpha from 1 to 2.5.
/// Source   iso-6336-2, contact-ratio
[[nodiscard]] double contact_ratio_factor(const iso_21771::Pair& pair);

/// Helix factor of the editions from 2006: 1 / sqrt(cos b).
///
/// Note     the 1996 edition had sqrt(cos b): 1.2 % less at 9 deg, 6 % at 20 deg.
/// Source   iso-6336-2, helix
[[nodiscard]] double helix_factor(const iso_21771::Pair& pair);

/// From the pitch point to the inner point of single contact of each gear, where its flank bends
/// most.
struct SingleContact {
    double Z_1;  ///< Z_B or Z_D, of gear 1
    double Z_2;
};

///     M_1 = tan a_wt / sqrt((sqrt(d_a1^2/d_b1^2 - 1) - 2 pi/z_1)
///                           (sqrt(d_a2^2/d_b2^2 - 1) - (eps_a - 1) 2 pi/z_2))
///     Z_1 = M - e (M - 1),  M = max(1, M_1),  e = min(eps_b, 1);   gear 2 with 1 and 2 exchanged
///
/// Range    eps_alpha from 1 to 2.5; throws Error{domain} where an inner point of single contact
///          falls outside the tangent points (interference).
/// Source   iso-6336-2, single-contact
[[nodiscard]] SingleContact single_contact(const iso_21771::Pair& pair);

/// Contact stress at the pitch point, without load factors.
///
///     sigma_H0 = Z_H Z_E Z_eps Z_beta sqrt(F_t/b (1/d_1 + 1/d_2))
///
/// Source   iso-6336-2, nominal-stress
[[nodiscard]] double nominal_stress_MPa(const iso_21771::Pair& pair,
                                        const iso_6336_1::ToothLoad& load);

struct FlankStress {
    double sigma_H1_MPa;
    double sigma_H2_MPa;
};

/// Contact stress of both gears.
///
///     sigma_H = Z sigma_H0 sqrt(K_A K_v K_Hb K_Ha)
///
/// Source   iso-6336-2, stress
[[nodiscard]] FlankStress stress(const iso_21771::Pair& pair, const iso_6336_1::ToothLoad& load,
                                 const iso_6336_1::LoadFactors& factors);

/// Oil factor for case-hardened flanks, sigma_Hlim from 1200 N/mm2.
///
///     Z_L = C + 4 (1 - C) / (1.2 + 134/nu_40)^2,   C = 0.91
///
/// Source   iso-6336-2, oil
[[nodiscard]] double oil_factor(double nu_40C_mm2ps);

/// Speed factor for case-hardened flanks, pitch-line speed > 0.
///
///     Z_v = C + 2 (1 - C) / sqrt(0.8 + 32/v),   C = 0.93
///
/// Source   iso-6336-2, speed
[[nodiscard]] double speed_factor(double v_mps);

/// Roughness factor for case-hardened flanks.
///
///     Z_R = (3 / Rz10)^0.08      Rz10 = Rz (10 / rho_red)^(1/3), rho_red transverse
///
/// Given    mean Rz of both flanks.
/// Source   iso-6336-2, roughness
[[nodiscard]] double roughness_factor(const iso_21771::Pair& pair, double Rz_um);

struct FlankLimit {
    double sigma_Hlim_MPa;
    double Z_L;
    double Z_v;
    double Z_R;
};

/// Contact stress the flanks endure at life factor 1, failure probability 1 %.
///
///     sigma_HG = sigma_Hlim Z_L Z_v Z_R
///
/// Range    sigma_Hlim from 1200 to 3000 N/mm2.
/// Note     work hardening and size factor 1. The standard lets Z_L, Z_v, Z_R fade to 1 towards
///          static load; here they stay.
/// Source   iso-6336-2, limit
[[nodiscard]] double limit_MPa(const FlankLimit& limit);

/// Life factor Z_NT of case-hardened steel, no pit allowed.
inline constexpr std::array<iso_6336_6::LifePoint, 3> no_pitting{
    {{1e5, 1.6}, {5e7, 1.0}, {1e10, 0.85}}};

}  // namespace caseload::iso_6336_2
