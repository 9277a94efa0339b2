// SPDX-License-Identifier: MIT
#include "caseload/formulas/booser.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::booser {

TEST_CASE("booser-oxidation life-law: independent evaluation, no published example found") {
    // tests/reference/heat_values.py.
    const double table[][2] = {{80, 13815.8},  {90, 5888.36},  {100, 2627.03},
                               {110, 1222.46}, {120, 591.429}, {130, 296.63},
                               {140, 153.828}, {150, 82.2875}, {163, 38.0845}};
    for (const auto& row : table)
        CHECK(oxidation_life_h({.k1 = k1_mineral, .temp_degC = row[0]}) == rel(row[1], 5e-6));
}

TEST_CASE("booser-oxidation life-law against what is known of gear oils") {
    // The thermal-oxidation test of gear oils runs 50 h at 163 degC: the same size as 38 h.
    const double life = oxidation_life_h({.k1 = k1_mineral, .temp_degC = 163});
    CHECK(life > 50.0 / 3);
    CHECK(life < 50.0 * 3);
    // Rule of practice: half the life per 10 K. Here 7.9 K at 80 degC and 9.8 K at 120 degC.
    for (const double t : {80.0, 100.0, 120.0}) {
        const double ratio = oxidation_life_h({.k1 = k1_mineral, .temp_degC = t}) /
                             oxidation_life_h({.k1 = k1_mineral, .temp_degC = t + 10});
        CHECK(ratio > 1.9);
        CHECK(ratio < 2.5);
    }
    // Synthetic: 10^0.51, about three times.
    CHECK(oxidation_life_h({.k1 = k1_synthetic, .temp_degC = 110}) ==
          rel(3.236 * oxidation_life_h({.k1 = k1_mineral, .temp_degC = 110}), 2e-4));
    CHECK_THROWS_AS((void)oxidation_life_h({.k1 = k1_mineral, .temp_degC = -101}), Error);
    CHECK_THROWS_AS((void)oxidation_life_h({.k1 = 0, .temp_degC = 80}), Error);
}

}  // namespace caseload::booser
