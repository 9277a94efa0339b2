// SPDX-License-Identifier: MIT
// Rotary lip seals. From memory. ISO/TR 14179-2 and Linke, from memory too, make 1.5 and 1.7 times
// as much of a lip of 75 mm at 5727 r/min.
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
