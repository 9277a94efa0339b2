// SPDX-License-Identifier: MIT
#include "caseload/formulas/lip_seal.hpp"

#include "caseload/units.hpp"

namespace caseload::iso_tr_14179_1 {

double lip_power_W(LipMaterial material, const Lip& lip) {
    const double torque_Nm =
        (material == LipMaterial::nitrile ? 2.429e-3 : 3.737e-3) * lip.diameter_mm;
    return torque_Nm * radps_from_rpm(lip.n_rpm);
}

}  // namespace caseload::iso_tr_14179_1
