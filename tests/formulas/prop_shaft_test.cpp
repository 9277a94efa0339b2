// SPDX-License-Identifier: MIT
#include "caseload/formulas/prop_shaft.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::prop_shaft {
using prop_shaft::critical_speed_rpm;

TEST_CASE("beam-theory pinned-tube recomputed apart from the code") {
    // n_c = 1.207e8 sqrt(D^2 + d^2) / L^2 for steel, D, d, L in mm.
    CHECK(within(critical_speed_rpm({.length_mm = 1200, .outside_mm = 76.2, .wall_mm = 3.0}), 8684,
                 0.5));
    CHECK(within(critical_speed_rpm({.length_mm = 1500, .outside_mm = 101.6, .wall_mm = 3.05}),
                 7480, 0.5));
    CHECK(within(critical_speed_rpm({.length_mm = 1350, .outside_mm = 88.9, .wall_mm = 3.05}), 8046,
                 0.5));
}

TEST_CASE("beam-theory pinned-tube against the text-book first frequency of a solid bar") {
    // omega_1 = pi^2 sqrt(E I / (m L^4)), I = pi D^4 / 64, m = rho pi D^2 / 4: for D 50, L 1000 mm,
    // omega_1 = 9.8696 x 5122.7 x 0.0125 = 632.0 rad/s = 6035 r/min.
    CHECK(
        within(critical_speed_rpm({.length_mm = 1000, .outside_mm = 50, .wall_mm = 25}), 6035, 1));
}

TEST_CASE("beam-theory pinned-tube scaling and range") {
    const double n = critical_speed_rpm({.length_mm = 1000, .outside_mm = 80, .wall_mm = 3});
    CHECK(critical_speed_rpm({.length_mm = 2000, .outside_mm = 80, .wall_mm = 3}) ==
          rel(n / 4, 1e-12));
    CHECK(critical_speed_rpm({.length_mm = 2000, .outside_mm = 160, .wall_mm = 6}) ==
          rel(n / 2, 1e-12));
    CHECK(critical_speed_rpm({.length_mm = 1000, .outside_mm = 80, .wall_mm = 2}) > n);
    CHECK_THROWS_AS((void)critical_speed_rpm({.length_mm = 1000, .outside_mm = 80, .wall_mm = 41}),
                    Error);
    CHECK_THROWS_AS((void)critical_speed_rpm({.length_mm = 1000, .outside_mm = 80, .wall_mm = 0}),
                    Error);
    CHECK_THROWS_AS((void)critical_speed_rpm({.length_mm = 0, .outside_mm = 80, .wall_mm = 3}),
                    Error);
    CHECK(prop_shaft::ends_share == 0.9);  // judgement: nothing to test it against
}

}  // namespace caseload::prop_shaft
