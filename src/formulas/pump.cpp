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

double theoretical_flow_Lpmin(const GearPump& pump) {
    require_positive(pump.outside_mm, "outside_mm");
    require_within(pump.inside_mm, {0, pump.outside_mm}, "inside_mm");
    require_positive(pump.width_mm, "width_mm");
    require_not_negative(pump.n_rpm, "n_rpm");
    const double turn_mm3 = pi / 4 *
                            (pump.outside_mm * pump.outside_mm - pump.inside_mm * pump.inside_mm) *
                            pump.width_mm;
    return L_from_mm3(turn_mm3) * pump.n_rpm;
}

}  // namespace caseload::pump
