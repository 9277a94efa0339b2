// SPDX-License-Identifier: MIT
#include "caseload/formulas/pump.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

namespace caseload::pump {

double shaft_power_W(const Pump& pump) {
    require_within(pump.efficiency, {0.01, 1}, "efficiency");
    return pump.pressure_Pa * m3ps_from_Lpmin(pump.flow_Lpmin) / pump.efficiency;
}

double theoretical_flow_Lpmin(const GearPump& pump) {
    const double turn_mm3 = pi / 4 *
                            (pump.outside_mm * pump.outside_mm - pump.inside_mm * pump.inside_mm) *
                            pump.width_mm;
    return turn_mm3 * 1e-6 * pump.n_rpm;  // mm3 to L
}

}  // namespace caseload::pump
