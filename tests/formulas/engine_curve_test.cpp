// SPDX-License-Identifier: MIT
#include "caseload/formulas/engine_curve.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::engine_curve {

TEST_CASE("engine-parabola shape of the textbook form and of a racing engine") {
    // x_t 0.5: T / T_r = 1 + x - x^2.
    const Parabola textbook = parabola(0.5);
    CHECK(textbook.a == rel(1, 1e-14));
    CHECK(textbook.b == rel(1, 1e-14));
    CHECK(textbook.c == rel(1, 1e-14));
    CHECK(torque_ratio(textbook, 0.5) == rel(1.25, 1e-14));
    CHECK_THROWS_AS((void)parabola(1), Error);
}

TEST_CASE("engine-parabola torque of a racing engine, printed figures") {
    const double printed[][2] = {{0.3, 0.82500},  {0.5, 1.05357}, {0.72, 1.14000},
                                 {0.85, 1.10982}, {1, 1.00000},   {1.08, 0.90857}};
    const Parabola racing = parabola(0.72);
    for (const auto& [x, ratio] : printed) CHECK(within(torque_ratio(racing, x), ratio, 0.0000051));
    CHECK(torque_ratio(racing, 3) == 0);
    CHECK_THROWS_AS((void)torque_ratio(racing, -0.1), Error);
}

}  // namespace caseload::engine_curve
