// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_d1250.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::astm_d1250 {

TEST_CASE("astm-d1250-80 54D density: independent evaluation, no published example found") {
    // tests/reference/heat_values.py.
    CHECK(within(density_kgpm3({.density_15C_kgpm3 = 890, .temp_degC = 60}), 861.4980, 5e-5));
    CHECK(within(density_kgpm3({.density_15C_kgpm3 = 890, .temp_degC = 100}), 835.7981, 5e-5));
    CHECK(within(density_kgpm3({.density_15C_kgpm3 = 890, .temp_degC = 120}), 822.8439, 5e-5));
    CHECK(within(density_kgpm3({.density_15C_kgpm3 = 860, .temp_degC = 40}), 844.2224, 5e-5));
    CHECK(within(density_kgpm3({.density_15C_kgpm3 = 860, .temp_degC = 100}), 805.7731, 5e-5));
    CHECK(density_kgpm3({.density_15C_kgpm3 = 868, .temp_degC = 15}) == 868);
}

TEST_CASE("astm-d1250-80 54D slope against measured oils") {
    // Engine oil 876 kg/m3 at 40 and 852 at 80 degC (Cengel 3e, table A-13): 0.60 per kelvin;
    // polyalphaolefin 0.638 (Sleiti 2007). One slope for all oils: 6 %.
    const double slope = (density_kgpm3({.density_15C_kgpm3 = 891, .temp_degC = 40}) -
                          density_kgpm3({.density_15C_kgpm3 = 891, .temp_degC = 80})) /
                         40;
    CHECK(slope == rel(0.60, 0.07));
    CHECK(slope == rel(0.638, 0.07));
    CHECK_THROWS_AS((void)density_kgpm3({.density_15C_kgpm3 = 740, .temp_degC = 15}), Error);
    CHECK_THROWS_AS((void)density_kgpm3({.density_15C_kgpm3 = 1201, .temp_degC = 15}), Error);
    CHECK_THROWS_AS((void)density_kgpm3({.density_15C_kgpm3 = 870, .temp_degC = -61}), Error);
    CHECK_THROWS_AS((void)density_kgpm3({.density_15C_kgpm3 = 870, .temp_degC = 401}), Error);
}

}  // namespace caseload::astm_d1250
