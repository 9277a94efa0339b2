// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_281_system.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "support.hpp"

#include <vector>

namespace caseload::iso_281 {

TEST_CASE("bearing-practice system-life of two and four bearings") {
    // Recomputed: tests/reference/bearing_values.py.
    const std::vector<double> two{10000, 20000};
    CHECK(within(system_life(two, slope_a1), 8172.4, 0.05));
    CHECK(within(system_life(two, slope_point), 7100.6, 0.05));
    CHECK(within(system_life(two, slope_line), 7150.0, 0.05));
    const std::vector<double> four(4, 1);
    CHECK(within(system_life(four, slope_a1), 0.3969, 5e-5));
    CHECK(within(system_life(four, slope_point), 0.2872, 5e-5));
    CHECK(within(system_life(four, slope_line), 0.2916, 5e-5));
    CHECK(system_life(std::vector<double>{700}, 1.5) == rel(700, 1e-12));
    // A bearing that never fails changes nothing; the order does not matter.
    CHECK(system_life(std::vector<double>{10000, 1e15}, 1.5) == rel(10000, 1e-9));
    CHECK(system_life(std::vector<double>{20000, 10000}, 1.5) == system_life(two, 1.5));
    CHECK_THROWS_AS((void)system_life(std::vector<double>{}, 1.5), Error);
    CHECK_THROWS_AS((void)system_life(std::vector<double>{1, 0}, 1.5), Error);
    CHECK_THROWS_AS((void)system_life(two, 0), Error);
}

TEST_CASE("iso-281-2007 9.2-system with the failure-free share") {
    const std::vector<double> two{10000, 20000};
    const double life = system_life_three_parameter(two);
    CHECK(within(life, 8392.8, 0.05));
    CHECK(survival(life / 10000) * survival(life / 20000) == rel(0.9, 1e-10));
    CHECK(life > system_life(two, slope_a1));
    CHECK(system_life_three_parameter(std::vector<double>{700}) == 700);
    // Many bearings cannot undercut the failure-free share.
    CHECK(system_life_three_parameter(std::vector<double>(1000, 1)) > 0.05);
    CHECK_THROWS_AS((void)system_life_three_parameter(std::vector<double>{}), Error);
    CHECK_THROWS_AS((void)system_life_three_parameter(std::vector<double>{1, -1}), Error);
}

}  // namespace caseload::iso_281
