// SPDX-License-Identifier: MIT
// Rotary lip seals after ISO/TR 14179-1. From memory.
#pragma once

namespace caseload::iso_tr_14179_1 {

enum class LipMaterial { nitrile, other };

struct Lip {
    double diameter_mm;
    double n_rpm;
};

/// Power of one lip: T = 3.737e-3 d N m (fluoro-elastomer, taken for all but nitrile), 2.429e-3 d
/// (nitrile); d in mm.
/// Source   iso-tr-14179-1, seals
[[nodiscard]] double lip_power_W(LipMaterial material, const Lip& lip);

}  // namespace caseload::iso_tr_14179_1
