// SPDX-License-Identifier: MIT
#include "caseload/formulas/oil_acceleration.hpp"

#include "caseload/error.hpp"

#include <algorithm>

namespace caseload::oil_acceleration {

double power_W(const Thrown& oil) {
    require_not_negative(oil.mass_flow_kgps, "mass_flow_kgps");
    require_not_negative(oil.v_mps, "v_mps");
    require_not_negative(oil.jet_speed_mps, "jet_speed_mps");
    require_not_negative(oil.rehit, "rehit");
    return oil.mass_flow_kgps * oil.v_mps * std::max(oil.v_mps - oil.jet_speed_mps, 0.0) *
           oil.rehit;
}

}  // namespace caseload::oil_acceleration
