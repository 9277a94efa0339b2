// SPDX-License-Identifier: MIT
// Rotary lip seals. From memory; the three methods differ by a factor of 1.7 at 75 mm and 5727
// r/min.
#pragma once

namespace caseload::iso_tr_14179_1 {

enum class LipMaterial { nitrile, other };

struct Lip {
    double diameter_mm;
    double n_rpm;
};

/// Torque of one lip: 3.737e-3 d N m (fluoro-elastomer, taken for all but nitrile), 2.429e-3 d
/// (nitrile); d in mm.
/// Source   iso-tr-14179-1, seals-torque
[[nodiscard]] double lip_torque_Nm(LipMaterial material, double diameter_mm);

/// Power of one lip: torque times speed.
/// Source   iso-tr-14179-1, seals
[[nodiscard]] double lip_power_W(LipMaterial material, const Lip& lip);

/// Power of a seal over that of one lip: each further lip rubs with half the force of the first.
/// Judgement between 1.3 and 2 for two lips.
///
/// Range    1 to 4 lips.
/// Source   gear-practice, lips
[[nodiscard]] double lips_factor(int lips);

/// Speed of the shaft under the lip.
/// Source   gear-practice, lip-speed
[[nodiscard]] double lip_speed_mps(const Lip& lip);

}  // namespace caseload::iso_tr_14179_1

namespace caseload::iso_tr_14179_2 {

/// Power of one lip by the second part: 7.69e-6 d^2 n W. For comparison.
/// Source   iso-tr-14179-2, seals
[[nodiscard]] double lip_power_W(const iso_tr_14179_1::Lip& lip);

}  // namespace caseload::iso_tr_14179_2

namespace caseload::linke {

struct OilAtSeal {
    double oil_temp_degC;
    double nu_40C_mm2ps;
};

/// Power of one lip with oil temperature and viscosity. For comparison.
///
///     P = (145 - 1.6 T_oil + 350 log10 log10(nu_40 + 0.8)) 1e-7 d^2 n   W
///
/// Note     the bracket is not taken below 40: it would turn negative in very hot oil.
/// Source   linke-gears, seals
[[nodiscard]] double lip_power_W(const iso_tr_14179_1::Lip& lip, const OilAtSeal& oil);

}  // namespace caseload::linke
