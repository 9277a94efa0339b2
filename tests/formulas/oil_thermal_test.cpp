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

}  // namespace caseload::oil_thermal
