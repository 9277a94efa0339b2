// SPDX-License-Identifier: MIT
// ISO/TS 6336-20: risk of scuffing by the flash temperature. From memory; the flash agrees with a
// moving heat source within 2.5 %.
#pragma once

#include "caseload/formulas/iso_21771.hpp"

namespace caseload::iso_6336_20 {

struct Contact {
    double w_Npmm;  ///< K F_bt / b
    double n_1_rpm;
    double eta_mPas;  ///< at oil temperature
    double Ra_um;     ///< mean of both flanks
    double X_L;       ///< oil factor: mineral 1.0, polyalphaolefin 0.8
};

/// Mean friction near the scuffing limit: deliberately above that of heat.
///
///     mu = 0.060 (w / (v_sumC rho_redC))^0.2 X_L eta^-0.05 Ra^0.25
///
/// Range    n_1, eta, Ra, X_L > 0, w >= 0.
/// Note     w not taken below 150 N/mm, pitch-line speed not above 50 m/s, as for mesh loss.
/// Source   iso-ts-6336-20, friction
[[nodiscard]] double friction(const iso_21771::Pair& pair, const Contact& contact);

/// What the geometry of a pair gives to the flash along its path of contact.
struct FlashShape {
    double largest;
    double mean;
};

/// Geometry of the flash, by 400 steps on each stretch of the path of contact; the mean by the
/// trapezium rule.
///
///     X^0.75 |sqrt rho_1 - sqrt(rho_2/u)| / rho_red^0.25
///     X  from 1/3 to 2/3 along the first stretch of two pairs, 1 in single contact, back to 1/3
///
/// Given    u = z_2/z_1; rho in mm, rho_red in the normal section; unmodified profile.
/// Range    no interference (T1A and T2E > 0); eps_alpha from 1 to 2.5.
/// Note     above a contact ratio of 2, which the standard does not cover: the same ramps over one
///          base pitch each and 2/3 between them (judgement, the safe side).
/// Source   iso-ts-6336-20, sharing
/// Source   iso-ts-6336-20, largest-flash
/// Source   iso-ts-6336-20, mean-flash
[[nodiscard]] FlashShape flash_shape(const iso_21771::Pair& pair);

struct Rubbing {
    double mu;
    double w_Npmm;  ///< K F_bt / b, before sharing
    double n_1_rpm;
};

/// Flash, the rise of the contact temperature over that of the teeth: the largest of the path or
/// the mean, as the shape is.
///
///     fl = 2.52 mu w^0.75 sqrt(n_1/60) shape
///
/// Given    steel on steel, thermo-elastic factor 50 K N^-0.75 s^0.5 m^0.5 mm.
/// Range    all >= 0.
/// Source   iso-ts-6336-20, flash
[[nodiscard]] double flash_K(double shape, const Rubbing& rubbing);

/// How the oil reaches the teeth, X_S.
inline constexpr double X_S_dip = 1.0;
inline constexpr double X_S_jet = 1.2;
/// How many gears rub on one of the pair, X_mp: an idler has two.
inline constexpr double X_mp_one = 1.0;
inline constexpr double X_mp_idler = 1.5;

struct Bulk {
    double oil_degC;
    double mean_flash_K;
    double X_S;
    double X_mp;
};

/// Temperature of the teeth behind the contact.
///
///     T_M = T_oil + 0.47 X_S X_mp mean flash
///
/// Range    mean flash >= 0, X_S and X_mp > 0.
/// Source   iso-ts-6336-20, bulk
[[nodiscard]] double bulk_degC(const Bulk& teeth);

struct OilStage {
    double load_stage;  ///< passed in the gear-oil test ISO 14635-1 (A/8.3/90)
    double X_L;         ///< as in friction
};

/// Contact temperature at which case-carburised teeth scuff in this oil.
///
///     S = 80 + (0.85 + 1.4 X_W) X_L stage^2 degC,   X_W = 1
///
/// Range    stage from 1 to 16, X_L > 0.
/// Note     X_L here as in the friction of the mesh: test and gear then rub alike.
/// Source   iso-ts-6336-20, scuffing-temperature
[[nodiscard]] double scuffing_temp_degC(const OilStage& oil);

struct Temperatures {
    double scuffing_degC;
    double contact_degC;  ///< teeth + largest flash
    double oil_degC;
};

/// Safety against scuffing.
///
///     S_B = (scuffing - oil) / (contact - oil)
///
/// Returns  infinity where the contact is not hotter than the oil; 0 where the oil itself reaches
///          the scuffing temperature.
/// Source   iso-ts-6336-20, safety
[[nodiscard]] double safety(const Temperatures& temperatures);

}  // namespace caseload::iso_6336_20
