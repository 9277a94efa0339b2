// SPDX-License-Identifier: MIT
#include "caseload/formulas/willans_fuel.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

namespace caseload::willans_fuel {

TEST_CASE("willans-line fuel of engines whose mean power is known from their litres") {
    // P_e = 0.325 V' LHV - 0.07 P_r, petrol 32 MJ/L; printed to 0.1 kW.
    const double cases[][3] = {
        {850, 80, 186.7e3}, {850, 70.8, 160.2e3}, {430, 75.7, 196.2e3}, {430, 63.1, 159.8e3}};
    for (const auto& [power_hp, fuel_Lph, mean_W] : cases)
        CHECK(fuel_power_W({W_from_hp(power_hp), 0.07, 0.325}, mean_W) ==
              rel(fuel_Lph * 32e6 / 3600, 5e-4));
    CHECK_THROWS_AS((void)fuel_power_W({0, 0.07, 0.3}, 1), Error);
    CHECK_THROWS_AS((void)fuel_power_W({1, 0.4, 0.3}, 1), Error);
    CHECK_THROWS_AS((void)fuel_power_W({1, 0.07, 0}, 1), Error);
    CHECK_THROWS_AS((void)fuel_power_W({1, 0.07, 0.3}, -1), Error);
}

}  // namespace caseload::willans_fuel
