// SPDX-License-Identifier: MIT
#include "caseload/formulas/pump.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

namespace caseload::pump {

TEST_CASE("esposito-fluid-power 5.8 shaft power: size of the product, by hand") {
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

TEST_CASE("esposito-fluid-power 5.2 displacement of a gear pump") {
    // 75/50/25 mm, 1000 r/min, volumetric 0.9: printed 55.3 L/min with the displacement rounded up
    // to 0.0000614 m3; exactly pi/4 (75^2 - 50^2) 25 mm3 = 61.36 cm3 and 55.22 L/min.
    const double flow =
        theoretical_flow_Lpmin({.outside_mm = 75, .inside_mm = 50, .width_mm = 25, .n_rpm = 1000});
    CHECK(within(0.9 * flow, 55.22, 0.005));
    CHECK_THROWS_AS((void)theoretical_flow_Lpmin(
                        {.outside_mm = 75, .inside_mm = 76, .width_mm = 25, .n_rpm = 1000}),
                    Error);
}

}  // namespace caseload::pump
