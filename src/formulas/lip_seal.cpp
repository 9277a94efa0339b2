// SPDX-License-Identifier: MIT
#include "caseload/formulas/lip_seal.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

namespace caseload {
namespace {

void check(const iso_tr_14179_1::Lip& lip) {
    require_positive(lip.diameter_mm, "diameter_mm");
    require_not_negative(lip.n_rpm, "n_rpm");
}

}  // namespace

namespace iso_tr_14179_1 {

double lip_torque_Nm(LipMaterial material, double diameter_mm) {
    require_positive(diameter_mm, "diameter_mm");
    return (material == LipMaterial::nitrile ? 2.429e-3 : 3.737e-3) * diameter_mm;
}

double lip_power_W(LipMaterial material, const Lip& lip) {
    check(lip);
    return lip_torque_Nm(material, lip.diameter_mm) * radps_from_rpm(lip.n_rpm);
}

double lips_factor(int lips) {
    require_within(lips, {1, 4}, "lips");
    constexpr double further_lip = 0.5;
    return 1 + further_lip * (lips - 1);
}

double lip_speed_mps(const Lip& lip) {
    check(lip);
    return radps_from_rpm(lip.n_rpm) * m_from_mm(lip.diameter_mm / 2);
}

}  // namespace iso_tr_14179_1

}  // namespace caseload
