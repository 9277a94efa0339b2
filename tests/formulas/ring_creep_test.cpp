// SPDX-License-Identifier: MIT
// Closed forms, worked by hand; friction, wear and walk are judgement.
#include "caseload/formulas/ring_creep.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::ring_creep {

TEST_CASE("ring-creep slip-margin: gravity alone mostly still holds a ring") {
    // Derived: 100 N on a ring of 140 mm against 0.26 N m.
    CHECK(slip_margin({100, 0}, 140, 260) == rel(2.7, 0.01));
    CHECK(slip_margin({100, 0}, 140, 260) == rel(0.10 * 100 * 70 / 260, 1e-12));
    CHECK(slip_margin({100, 40}, 140, 260) == rel(0.10 * 60 * 70 / 260, 1e-12));
    CHECK(slip_margin({100, 100}, 140, 260) == 0);
    CHECK(slip_margin({100, 250}, 140, 260) == 0);
    CHECK_THROWS_AS((void)slip_margin({100, 0}, 140, 0), Error);
    CHECK_THROWS_AS((void)slip_margin({100, 0}, 0, 260), Error);
}

TEST_CASE("ring-creep swing: to either side, until the load goes round") {
    // Derived: 1600 N that stands, 400 N that turns.
    CHECK(swing_deg({1600, 400}) == rel(14.4775, 1e-5));
    CHECK(swing_deg({1600, 0}) == 0);
    CHECK(swing_deg({0, 0}) == 0);
    CHECK(swing_deg({1600, 1599.999}) < 90);
    CHECK(swing_deg({1600, 1600}) == 180);
    CHECK(swing_deg({0, 10}) == 180);
    for (double F_rot_N = 0; F_rot_N < 2000; F_rot_N += 50)
        CHECK(swing_deg({1600, F_rot_N + 50}) >= swing_deg({1600, F_rot_N}));
}

TEST_CASE("ring-creep rolling: a load that goes round twice a turn, and none that swings") {
    // Derived: 0.08 mm of gap, 0.503 mm a turn of the shaft; 543 m in 6 h at 3000 r/min.
    const double turn_mm = rolling_mm({100, 100}, 0.08);
    CHECK(turn_mm == rel(0.503, 1e-3));
    CHECK(turn_mm / 1000 * 3000 * 60 * 6 == rel(543, 1e-3));
    CHECK(rolling_mm({1600, 400}, 0.08) == 0);
    CHECK(rolling_mm({0, 0}, 0.08) == 0);
    CHECK(rolling_mm({100, 100}, 0) == 0);
    CHECK(goes_round({100, 100}));
    CHECK(goes_round({0, 1}));
    CHECK_FALSE(goes_round({100, 99.999}));
    CHECK_FALSE(goes_round({0, 0}));
}

TEST_CASE("ring-creep walk: half a metre in six hours, more than a kilometre where it slips") {
    const double turns = 3000.0 * 60 * 6;
    CHECK(walking_mm(2, 140) / 1000 * turns == rel(0.475, 1e-3));
    CHECK(walking_mm(1, 140) == walking_mm(2, 140));
    CHECK(walking_mm(0.999, 140) / walking_mm(1, 140) == rel(0.3 / 1e-6, 1e-12));
}

TEST_CASE("ring-creep wear: depth off the bore") {
    // Derived: 5 kN on 140 x 24 over 543 m.
    CHECK(wear_um({140, 24}, 5000, 543) == rel(0.808, 1e-3));
    CHECK(wear_um({140, 24}, 10000, 543) == rel(2 * wear_um({140, 24}, 5000, 543), 1e-12));
    CHECK(wear_um({140, 24}, 5000, 0) == 0);
    CHECK_THROWS_AS((void)wear_um({0, 24}, 5000, 543), Error);
}

TEST_CASE("ring-creep effective-fit: roughness, load and warmth each take their part") {
    // Derived: the loosening of three rings, and what is left of 25 and 11 um on 90 mm.
    const auto loosening_um = [](double d_mm, double F_r_N, double B_mm) {
        return -1000 * effective_fit_mm({d_mm, B_mm, 0, 1e9, 0}, F_r_N);
    };
    CHECK(loosening_um(90, 5000, 24) == doctest::Approx(11.0).epsilon(0.005));
    CHECK(loosening_um(90, 10000, 24) == doctest::Approx(15.5).epsilon(0.005));
    CHECK(loosening_um(60, 3000, 18) == doctest::Approx(8.0).epsilon(0.005));
    const auto left_um = [](double delta_mm, double F_r_N, double warmer_K) {
        return 1000 * effective_fit_mm({90, 24, delta_mm, 100e3, warmer_K}, F_r_N);
    };
    CHECK(std::fabs(left_um(0.025, 5000, 5) - 8.1) < 0.06);
    CHECK(std::fabs(left_um(0.011, 5000, 5) + 5.6) < 0.06);
    CHECK(std::fabs(left_um(0.025, 12000, 15) + 8.7) < 0.06);
    CHECK(left_um(0.025, 0, 0) == rel(25.0 * 90 / 92, 1e-12));
    // A clearance is not roughened away.
    CHECK(left_um(-0.02, 0, 0) == rel(-20, 1e-12));
}

TEST_CASE("ring-creep effective-fit: a load above a fifth of the static rating") {
    // 16 d B = 34560 N is where both forms meet.
    const auto loosening_mm = [](double F_r_N, double C_0_N) {
        return -effective_fit_mm({90, 24, 0, C_0_N, 0}, F_r_N);
    };
    CHECK(loosening_mm(60e3, 100e3) == rel(0.02e-3 * 60e3 / 24, 1e-12));
    CHECK(loosening_mm(60e3, 299e3) == rel(0.02e-3 * 60e3 / 24, 1e-12));
    CHECK(loosening_mm(60e3, 301e3) == rel(0.08e-3 * std::sqrt(90 * 60e3 / 24), 1e-12));
    CHECK(loosening_mm(30e3, 100e3) == rel(0.08e-3 * std::sqrt(90 * 30e3 / 24), 1e-12));
    for (double F_r_N = 0; F_r_N < 100e3; F_r_N += 1000)
        CHECK(loosening_mm(F_r_N + 1000, 100e3) > loosening_mm(F_r_N, 100e3));
    CHECK_THROWS_AS((void)loosening_mm(-1, 100e3), Error);
    CHECK_THROWS_AS((void)loosening_mm(1, 0), Error);
}

TEST_CASE("ring-creep loosening: by a landing on a ring of 110x28 mm") {
    // Derived: 14 kN 18.8 um, 43 kN 32.9 um; printed to 0.1 um. 43 kN is above a fifth of the
    // rating and the root form still the larger.
    const InnerRing ring{110, 28, 0.03, 80e3, 5};
    CHECK(within(1000 * loosening_mm(ring, 14e3), 18.8, 0.05));
    CHECK(within(1000 * loosening_mm(ring, 43e3), 32.9, 0.05));
    CHECK(loosening_mm(ring, 0) == 0);
    // The linear form, above 16 d B = 49 280 N.
    CHECK(loosening_mm(ring, 80e3) == rel(0.02e-3 * 80e3 / 28, 1e-12));
    CHECK(effective_fit_mm(ring, 43e3) - effective_fit_mm(ring, 0) ==
          rel(-loosening_mm(ring, 43e3), 1e-12));
    CHECK_THROWS_AS((void)loosening_mm({110, 0, 0.03, 80e3, 5}, 1), Error);
    CHECK_THROWS_AS((void)loosening_mm({0, 28, 0.03, 80e3, 5}, 1), Error);
}

TEST_CASE("ring-creep inner-rolling: an inner ring lags by pi g a turn, a tight one by nothing") {
    CHECK(inner_rolling_mm(-0.08) == rel(0.2513, 1e-3));
    CHECK(inner_rolling_mm(0) == 0);
    CHECK(inner_rolling_mm(0.01) == 0);
}

}  // namespace caseload::ring_creep
