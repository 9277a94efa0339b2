// SPDX-License-Identifier: MIT
#include "caseload/formulas/pump.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

namespace caseload::pump {

double shaft_power_W(const Pump& pump) {
    require_not_negative(pump.flow_Lpmin, "flow_Lpmin");
    require_not_negative(pump.pressure_Pa, "pressure_Pa");
    require_within(pump.efficiency, {0.01, 1}, "efficiency");
    return pump.pressure_Pa * m3ps_from_Lpmin(pump.flow_Lpmin) / pump.efficiency;
}

}  // namespace caseload::pump
