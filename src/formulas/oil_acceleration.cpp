// SPDX-License-Identifier: MIT
#include "caseload/formulas/oil_acceleration.hpp"

#include <algorithm>

namespace caseload::oil_acceleration {

double power_W(const Thrown& oil) {
    return oil.mass_flow_kgps * oil.v_mps * std::max(oil.v_mps - oil.jet_speed_mps, 0.0) *
           oil.rehit;
}

}  // namespace caseload::oil_acceleration
