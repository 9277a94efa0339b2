// SPDX-License-Identifier: MIT
#include "caseload/formulas/element_stiffness.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::element_stiffness {

namespace {

constexpr Contact ball = Contact::ball;
constexpr Contact roller = Contact::roller;

}  // namespace

TEST_CASE("harris-4e ch7-exponent of point and line contact") {
    CHECK(exponent(ball) == 1.5);
    CHECK(exponent(roller) == rel(1.1111111111, 1e-10));
    for (const BearingUse& use : bearing_uses)
        CHECK((contact_of(use.kind) == ball) == is_ball(use.kind));
}

TEST_CASE("iso-ts-16281 stiffness of a ball beside Palmgren's point contact") {
    CHECK(K_n({ball, 1, 0}) == rel(97190, 1e-12));
    CHECK(K_n({ball, 16, 0}) == rel(4 * 97190.0, 1e-12));
    CHECK(K_n({ball, 15.125, 0}) == rel(97190 * 3.8890873, 1e-7));
    for (const double Q_N : {100.0, 1000.0}) {
        const double delta_mm = std::pow(Q_N / K_n({ball, 15.125, 0}), 1 / exponent(ball));
        const double palmgren_mm = 4.36e-4 * std::cbrt(Q_N * Q_N / 15.125);
        CHECK(delta_mm / palmgren_mm == rel(1.085, 0.001));
    }
    CHECK_THROWS_AS((void)K_n({ball, 0, 10}), Error);
}

TEST_CASE("iso-ts-16281 stiffness of a roller beside Palmgren's line contact") {
    CHECK(K_n({roller, 0, 1}) == rel(35948, 1e-12));
    CHECK(K_n({roller, 0, 512}) == rel(256 * 35948.0, 1e-12));
    // 90x140x24 with cylindrical rollers, 80x125x29 with tapered ones.
    CHECK(K_n({roller, 12.5, 12.72}) == rel(344700, 2e-4));
    CHECK(K_n({roller, 11.25, 17.16}) == rel(449919, 3e-4));
    // Palmgren's approach, from memory: 3.8 % more stiffness.
    const double delta_mm = 2 * 3.84e-5 * std::pow(1000, 0.9) / std::pow(17.16, 0.8);
    CHECK(1000 / std::pow(delta_mm, exponent(roller)) / K_n({roller, 0, 17.16}) ==
          rel(1.038, 0.001));
    CHECK_THROWS_AS((void)K_n({roller, 10, 0}), Error);
    CHECK_THROWS_AS((void)K_n({roller, 10, -1}), Error);
}

}  // namespace caseload::element_stiffness
