// SPDX-License-Identifier: MIT
#include "caseload/formulas/willans_fuel.hpp"

#include "caseload/error.hpp"

namespace caseload::willans_fuel {

double fuel_power_W(const Engine& engine, double power_W) {
    require_positive(engine.rated_W, "rated_W");
    require_within(engine.drag_share, {0, 0.3}, "drag_share");
    require_within(engine.efficiency, {0.1, 0.6}, "efficiency");
    require_not_negative(power_W, "power_W");
    return (power_W + engine.drag_share * engine.rated_W) / engine.efficiency;
}

}  // namespace caseload::willans_fuel
