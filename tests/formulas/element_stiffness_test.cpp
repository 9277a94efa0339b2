// SPDX-License-Identifier: MIT
#include "caseload/formulas/element_stiffness.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::element_stiffness {

using BK = BearingKind;

TEST_CASE("bearing-practice element-exponent: point and line contact") {
    CHECK(exponent(BK::deep_groove_ball) == 1.5);
    CHECK(exponent(BK::angular_contact_ball) == 1.5);
    CHECK(exponent(BK::four_point_ball) == 1.5);
    CHECK(exponent(BK::cylindrical_roller) == rel(10.0 / 9, 1e-15));
    CHECK(exponent(BK::tapered_roller) == rel(10.0 / 9, 1e-15));
    CHECK(exponent(BK::spherical_roller) == rel(10.0 / 9, 1e-15));
}

TEST_CASE("bearing-practice element-stiffness: rollers by length, balls by diameter") {
    // Derived: a tapered 80x125x29 (cup 22 mm wide, 16 deg) and a cylindrical 90x140x24.
    CHECK(K_n({BK::tapered_roller, 11.25, 0.75 * 22 / std::cos(16 * 3.14159265358979 / 180)}) ==
          rel(449919, 1e-5));
    CHECK(K_n({BK::cylindrical_roller, 12.5, 12.72}) == rel(344700, 1e-4));
    CHECK(K_n({BK::angular_contact_ball, 16, 0}) == rel(4 * 97190.0, 1e-12));
    CHECK(K_n({BK::deep_groove_ball, 1, 0}) == rel(97190, 1e-12));
    // Palmgren's line contact twice, 2 x 3.84e-5 Q^0.9/L^0.8, is 3.8 % stiffer at 1 kN; from
    // memory.
    const double Q_N = 1000;
    const double L_mm = 17.16;
    const double palmgren_mm = 2 * 3.84e-5 * std::pow(Q_N, 0.9) / std::pow(L_mm, 0.8);
    const double here_mm = std::pow(Q_N / K_n({BK::tapered_roller, 11.25, L_mm}), 0.9);
    CHECK(here_mm / palmgren_mm == rel(1.038, 0.01));
    CHECK_THROWS_AS((void)K_n({BK::tapered_roller, 11.25, 0}), Error);
    CHECK_THROWS_AS((void)K_n({BK::deep_groove_ball, 0, 10}), Error);
}

}  // namespace caseload::element_stiffness
