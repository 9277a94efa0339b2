// SPDX-License-Identifier: MIT
#include "caseload/formulas/pump.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::pump {

TEST_CASE("esposito-fluid-power 5.8 shaft power by hand") {
    // 10 L/min at 2 bar and 0.5: 67 W; 8 L/min at 5 bar and 0.6: 111 W.
    CHECK(
        within(shaft_power_W({.flow_Lpmin = 10, .pressure_Pa = 2e5, .efficiency = 0.5}), 67, 0.5));
    CHECK(
        within(shaft_power_W({.flow_Lpmin = 8, .pressure_Pa = 5e5, .efficiency = 0.6}), 111, 0.5));
    CHECK(shaft_power_W({.flow_Lpmin = 60, .pressure_Pa = 1e5, .efficiency = 1}) ==
          rel(100, 1e-12));
    CHECK(shaft_power_W({.flow_Lpmin = 0, .pressure_Pa = 1e5, .efficiency = 1}) == 0);
    CHECK_THROWS_AS((void)shaft_power_W({.flow_Lpmin = 1, .pressure_Pa = 1e5, .efficiency = 0.009}),
                    Error);
    CHECK_THROWS_AS((void)shaft_power_W({.flow_Lpmin = 1, .pressure_Pa = 1e5, .efficiency = 1.01}),
                    Error);
    CHECK_THROWS_AS((void)shaft_power_W({.flow_Lpmin = -1, .pressure_Pa = 1e5, .efficiency = 0.5}),
                    Error);
}

}  // namespace caseload::pump
