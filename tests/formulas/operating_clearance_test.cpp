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

TEST_CASE("bearing-practice outer-reduction is the pressed-ring result for one material") {
    CHECK(within(outer_reduction_mm({0.010, 158, 170, 210}) / 0.010, 0.7382451, 5e-8));
    const auto pressed = thick_ring::joint({.inside_mm = 158,
                                            .joint_mm = 170,
                                            .outside_mm = 210,
                                            .inner = thick_ring::steel,
                                            .outer = thick_ring::steel,
                                            .interference_mm = 0.025},
                                           {20, 20});
    CHECK(
        outer_reduction_mm({0.025, 158, 170, 210}) ==
        rel(-thick_ring::inside_growth_mm({158, 170, thick_ring::steel}, {0, pressed.pressure_MPa}),
            1e-10));
    CHECK(outer_reduction_mm({-0.010, 158, 170, 210}) == 0);
    CHECK_THROWS_AS((void)outer_reduction_mm({0.01, 0, 170, 210}), Error);
    CHECK_THROWS_AS((void)outer_reduction_mm({0.01, 170, 170, 210}), Error);
    CHECK_THROWS_AS((void)outer_reduction_mm({0.01, 158, 170, 170}), Error);
    CHECK_THROWS_AS((void)outer_reduction_mm({5.04, 158, 170, 210}), Error);
    CHECK_NOTHROW((void)outer_reduction_mm({5, 158, 170, 210}));
    CHECK_NOTHROW((void)outer_reduction_mm({-5, 158, 170, 210}));
    CHECK_THROWS_AS((void)outer_reduction_mm({-5.04, 158, 170, 210}), Error);
}

TEST_CASE("bearing-practice thermal-reduction of a warmer inner ring") {
    CHECK(within(1000 * thermal_reduction_mm({140, 12e-6, 110, 100}), 16.8, 1e-9));
    CHECK(thermal_reduction_mm({140, 12e-6, 100, 100}) == 0);
    CHECK(thermal_reduction_mm({140, 12e-6, 90, 100}) < 0);
    // The rings themselves: outer raceway grows less than inner raceway and two elements.
    const double E = 158 * (1 + 12e-6 * 80);
    const double F = 122 * (1 + 12e-6 * 90);
    const double elements = 36 * (1 + 12e-6 * 85);
    CHECK(thermal_reduction_mm({140, 12e-6, 110, 100}) == rel(-(E - F - elements), 1e-9));
    CHECK_THROWS_AS((void)thermal_reduction_mm({0, 12e-6, 110, 100}), Error);
    CHECK_THROWS_AS((void)thermal_reduction_mm({140, 1.005e-3, 110, 100}), Error);
    CHECK_NOTHROW((void)thermal_reduction_mm({140, 1e-3, 300, -100}));
    CHECK_NOTHROW((void)thermal_reduction_mm({140, 1e-3, -100, 300}));
    CHECK_THROWS_AS((void)thermal_reduction_mm({140, 12e-6, 302, 100}), Error);
    CHECK_THROWS_AS((void)thermal_reduction_mm({140, 12e-6, -100.5, 100}), Error);
    CHECK_THROWS_AS((void)thermal_reduction_mm({140, 12e-6, 100, 302}), Error);
    CHECK_THROWS_AS((void)thermal_reduction_mm({140, 12e-6, 100, -100.5}), Error);
}

TEST_CASE("bearing-practice operating-clearance is what is left") {
    CHECK(clearance_mm({0.018, 0.019, 0.017}, 0.051) == rel(-0.003, 1e-9));
    CHECK(clearance_mm({0, 0, 0}, 0.051) == 0.051);
    CHECK_THROWS_AS((void)clearance_mm({0, 0, 0}, 5.04), Error);
    CHECK_NOTHROW((void)clearance_mm({0, 0, 0}, 5));
    CHECK_NOTHROW((void)clearance_mm({0, 0, 0}, -5));
    CHECK_THROWS_AS((void)clearance_mm({0, 0, 0}, -5.04), Error);
}

TEST_CASE("harris-4e 2-free-angle of a ball bearing") {
    // Ball bearing of 45 mm bore, balls 12.7, grooves 0.52, clearance 0.015: 9 deg 52' (from
    // memory).
    const Grooves grooves{12.7, 0.52, 0.52};
    CHECK(within(free_contact_angle_deg(grooves, 0.015), 9 + 52.0 / 60, 0.5 / 60 + 0.001));
    CHECK(within(free_contact_angle_deg(grooves, 0.015), 9.8576224, 5e-8));
    CHECK(free_contact_angle_deg(grooves, 0) == 0);
    CHECK(free_contact_angle_deg(grooves, 2 * 0.04 * 12.7) == rel(90, 1e-6));
    CHECK_THROWS_AS((void)free_contact_angle_deg(grooves, 2.02 * 0.04 * 12.7), Error);
    CHECK_THROWS_AS((void)free_contact_angle_deg(grooves, -0.001), Error);
    CHECK_THROWS_AS((void)free_contact_angle_deg({0, 0.52, 0.52}, 0.01), Error);
    CHECK_THROWS_AS((void)free_contact_angle_deg({12.7, 0.5, 0.5}, 0), Error);
    CHECK_NOTHROW((void)free_contact_angle_deg({12.7, 0.5025, 0.5025}, 0));
    // Looser groove, smaller angle.
    CHECK(free_contact_angle_deg({12.7, 0.52, 0.53}, 0.015) <
          free_contact_angle_deg(grooves, 0.015));
}

TEST_CASE("harris-4e 2-end-play of a ball bearing") {
    const Grooves grooves{12.7, 0.52, 0.52};
    CHECK(within(ball_end_play_mm(grooves, 0.015), 0.174, 0.0005));
    CHECK(within(ball_end_play_mm(grooves, 0.015), 0.1739396, 5e-8));
    // Small clearance: sqrt(4 A P_d).
    CHECK(ball_end_play_mm(grooves, 1e-6) == rel(std::sqrt(4 * 0.508 * 1e-6), 1e-6));
    CHECK(ball_end_play_mm(grooves, 0) == 0);
}

}  // namespace caseload::operating_clearance
