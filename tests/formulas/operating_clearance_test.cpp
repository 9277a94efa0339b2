// SPDX-License-Identifier: MIT
// Recomputed values: tests/reference/seat_values.py.
#include "caseload/formulas/operating_clearance.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/thick_ring.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::operating_clearance {

TEST_CASE("bearing-practice outer-raceway diameter") {
    CHECK(outer_raceway_mm({140, 18, 0}) == rel(158, 1e-12));
    CHECK(outer_raceway_mm({140, 18, 60}) == rel(149, 1e-12));
    // 110x170x28 from its size: 158.15 mm.
    const auto size = bearing_estimate::estimate(BearingKind::deep_groove_ball, {110, 170, 28}, {});
    CHECK(within(outer_raceway_mm({size.D_pw_mm, size.D_w_mm, 0}), 158.15, 0.005));
    CHECK_THROWS_AS((void)outer_raceway_mm({140, 0, 0}), Error);
    CHECK_THROWS_AS((void)outer_raceway_mm({140, 140, 0}), Error);
    CHECK_THROWS_AS((void)outer_raceway_mm({140, 18, 60.5}), Error);
}

TEST_CASE("bearing-practice inner-raceway diameter") {
    CHECK(inner_raceway_mm({140, 18, 0}) == rel(122, 1e-12));
    CHECK(inner_raceway_mm({140, 18, 60}) == rel(131, 1e-12));
    CHECK(outer_raceway_mm({140, 18, 30}) - inner_raceway_mm({140, 18, 30}) ==
          rel(36 * std::cos(0.5235987755982988), 1e-12));
    CHECK_THROWS_AS((void)inner_raceway_mm({140, 18, -1}), Error);
}

TEST_CASE("bearing-practice inner-reduction is the pressed-ring result for one material") {
    CHECK(within(inner_reduction_mm({0.010, 0, 110, 122}) / 0.010, 0.9016393, 5e-8));
    CHECK(within(inner_reduction_mm({0.010, 70, 110, 122}) / 0.010, 0.7998252, 5e-8));
    const auto pressed = thick_ring::joint({.inside_mm = 70,
                                            .joint_mm = 110,
                                            .outside_mm = 122,
                                            .inner = thick_ring::steel,
                                            .outer = thick_ring::steel,
                                            .interference_mm = 0.025},
                                           {20, 20});
    CHECK(
        inner_reduction_mm({0.025, 70, 110, 122}) ==
        rel(thick_ring::outside_growth_mm({110, 122, thick_ring::steel}, {pressed.pressure_MPa, 0}),
            1e-10));
    CHECK(inner_reduction_mm({-0.010, 0, 110, 122}) == 0);
    CHECK_THROWS_AS((void)inner_reduction_mm({0.01, -1, 110, 122}), Error);
    CHECK_THROWS_AS((void)inner_reduction_mm({0.01, 110, 110, 122}), Error);
    CHECK_THROWS_AS((void)inner_reduction_mm({0.01, 0, 110, 110}), Error);
    CHECK_THROWS_AS((void)inner_reduction_mm({5.04, 0, 110, 122}), Error);
    CHECK_NOTHROW((void)inner_reduction_mm({5, 0, 110, 122}));
    CHECK_NOTHROW((void)inner_reduction_mm({-5, 0, 110, 122}));
    CHECK_THROWS_AS((void)inner_reduction_mm({-5.04, 0, 110, 122}), Error);
}

TEST_CASE("bearing-practice operating-clearance is delivered clearance less both reductions") {
    CHECK(clearance_mm({0.018, 0.019, 0.017}, 0.051) == rel(-0.003, 1e-9));
    CHECK(clearance_mm({0, 0, 0}, 0.051) == 0.051);
    CHECK_THROWS_AS((void)clearance_mm({0, 0, 0}, 5.04), Error);
    CHECK_NOTHROW((void)clearance_mm({0, 0, 0}, 5));
    CHECK_NOTHROW((void)clearance_mm({0, 0, 0}, -5));
    CHECK_THROWS_AS((void)clearance_mm({0, 0, 0}, -5.04), Error);
}

}  // namespace caseload::operating_clearance
