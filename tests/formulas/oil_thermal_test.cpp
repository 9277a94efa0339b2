// SPDX-License-Identifier: MIT
#include "caseload/formulas/oil_thermal.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::oil_thermal {

TEST_CASE("oil-heat-data fit specific heat against the data it was fitted to") {
    // Mineral: engine oil of Incropera 6e at 79.85 degC; heat-transfer oil at 0, 40, 100, 150 degC.
    // 3 % is the stated band; the oils themselves differ by as much, 6 % at 0 degC.
    CHECK(specific_heat_JpkgK(BaseOil::mineral, 79.85) == rel(2131, 0.03));
    CHECK(specific_heat_JpkgK(BaseOil::mineral, 40) == rel(2007, 0.03));
    CHECK(specific_heat_JpkgK(BaseOil::mineral, 100) == rel(2254, 0.03));
    CHECK(specific_heat_JpkgK(BaseOil::mineral, 150) == rel(2459, 0.03));
    // Synthetic: polyalphaolefin of Sleiti at -0.6, 42, 95, 148 degC: 5 %.
    CHECK(specific_heat_JpkgK(BaseOil::synthetic, -0.6) == rel(2103, 0.05));
    CHECK(specific_heat_JpkgK(BaseOil::synthetic, 42) == rel(2280, 0.05));
    CHECK(specific_heat_JpkgK(BaseOil::synthetic, 95) == rel(2466, 0.05));
    CHECK(specific_heat_JpkgK(BaseOil::synthetic, 148) == rel(2648, 0.05));
    // The lines themselves.
    CHECK(specific_heat_JpkgK(BaseOil::mineral, 100) == rel(2230, 1e-12));
    CHECK(specific_heat_JpkgK(BaseOil::mineral, 0) == rel(1810, 1e-12));
    CHECK(specific_heat_JpkgK(BaseOil::synthetic, 100) == rel(2380, 1e-12));
    CHECK(specific_heat_JpkgK(BaseOil::synthetic, 0) == rel(2050, 1e-12));
    CHECK_THROWS_AS((void)specific_heat_JpkgK(BaseOil::mineral, 401), Error);
    CHECK_THROWS_AS((void)specific_heat_JpkgK(BaseOil::mineral, -60.5), Error);
}

TEST_CASE("oil-heat-data conductivity against the data it was fitted to") {
    // Mineral: engine oil 0.138 at 80 degC (Incropera 6e, Cengel 3e), 10 %; the heat-transfer oil
    // is higher, 0.151 at 100 degC.
    CHECK(conductivity_WpmK(BaseOil::mineral, 80) == rel(0.138, 0.10));
    CHECK(conductivity_WpmK(BaseOil::mineral, 100) == rel(0.151, 0.11));
    // Synthetic: Sleiti, 60, 102, 161 degC, 8 %.
    CHECK(conductivity_WpmK(BaseOil::synthetic, 60) == rel(0.1444, 0.08));
    CHECK(conductivity_WpmK(BaseOil::synthetic, 102) == rel(0.1387, 0.08));
    CHECK(conductivity_WpmK(BaseOil::synthetic, 161) == rel(0.1313, 0.08));
    // The lines themselves, four digits.
    CHECK(conductivity_WpmK(BaseOil::mineral, 60) == rel(0.1405, 1e-12));
    CHECK(conductivity_WpmK(BaseOil::mineral, 160) == rel(0.1295, 1e-12));
    CHECK(within(conductivity_WpmK(BaseOil::synthetic, 40), 0.1498, 5e-5));
    CHECK(within(conductivity_WpmK(BaseOil::synthetic, 100), 0.1414, 5e-5));
    CHECK_THROWS_AS((void)conductivity_WpmK(BaseOil::synthetic, 401), Error);
}

}  // namespace caseload::oil_thermal
