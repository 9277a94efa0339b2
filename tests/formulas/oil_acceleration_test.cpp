// SPDX-License-Identifier: MIT
#include "caseload/formulas/oil_acceleration.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

namespace caseload::oil_acceleration {
using oil_acceleration::power_W;

TEST_CASE("momentum thrown-oil by hand") {
    // 8 L/min of 830 kg/m3 at 66 m/s: 336 W with a 20 m/s jet, 482 W without; 12 L/min, 80 m/s: 797
    // W.
    const double eight = 830 * m3ps_from_Lpmin(8);
    CHECK(power_W({.mass_flow_kgps = eight, .v_mps = 66, .jet_speed_mps = 20, .rehit = 1}) ==
          rel(8.0 / 60000 * 830 * 66 * 46, 1e-12));
    CHECK(within(power_W({.mass_flow_kgps = eight, .v_mps = 66, .jet_speed_mps = 20, .rehit = 1}),
                 336, 0.5));
    CHECK(within(power_W({.mass_flow_kgps = eight, .v_mps = 66, .jet_speed_mps = 0, .rehit = 1}),
                 482, 0.5));
    CHECK(within(power_W({.mass_flow_kgps = 830 * m3ps_from_Lpmin(12),
                          .v_mps = 80,
                          .jet_speed_mps = 20,
                          .rehit = 1}),
                 797, 0.5));
    CHECK(power_W({.mass_flow_kgps = 0.1, .v_mps = 50, .jet_speed_mps = 20, .rehit = 3}) ==
          rel(3 * 0.1 * 50 * 30, 1e-12));
}

TEST_CASE("momentum thrown-oil is never negative") {
    CHECK(power_W({.mass_flow_kgps = 0.1, .v_mps = 19.9, .jet_speed_mps = 20, .rehit = 1.5}) == 0);
    CHECK(power_W({.mass_flow_kgps = 0.1, .v_mps = 20.1, .jet_speed_mps = 20, .rehit = 1.5}) > 0);
    CHECK(power_W({.mass_flow_kgps = 0, .v_mps = 50, .jet_speed_mps = 20, .rehit = 1.5}) == 0);
    CHECK_THROWS_AS(
        (void)power_W({.mass_flow_kgps = -1, .v_mps = 50, .jet_speed_mps = 20, .rehit = 1}), Error);
    CHECK_THROWS_AS(
        (void)power_W({.mass_flow_kgps = 1, .v_mps = -1, .jet_speed_mps = 20, .rehit = 1}), Error);
}

}  // namespace caseload::oil_acceleration
