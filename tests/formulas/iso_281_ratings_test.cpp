// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_281_ratings.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::iso_281 {

// The tables themselves: iso-281-f-c-ball-table and -roller-table of the published figures.
TEST_CASE("iso-281-2007 table2 f_c of ball bearings rises to 0.19 and falls") {
    for (double gamma = 0.01; gamma < 0.40; gamma += 0.01)
        CHECK((f_c_ball(gamma + 0.01) > f_c_ball(gamma)) == (gamma < 0.185));
    CHECK_THROWS_AS((void)f_c_ball(0.001), Error);
    CHECK_THROWS_AS((void)f_c_ball(0.46), Error);
}

TEST_CASE("iso-281-2007 table7 f_c of roller bearings rises to 0.18 and falls") {
    for (double gamma = 0.01; gamma < 0.30; gamma += 0.01)
        CHECK((f_c_roller(gamma + 0.01) > f_c_roller(gamma)) == (gamma < 0.175));
    CHECK_THROWS_AS((void)f_c_roller(0.001), Error);
    CHECK_THROWS_AS((void)f_c_roller(0.46), Error);
}

TEST_CASE("iso-281-2007 5.1 rating of ball bearings") {
    const auto C = [](double D_w_mm, double cos_alpha = 1, int Z = 10) {
        return ball_rating_N(
            {.D_w_mm = D_w_mm, .D_pw_mm = 5 * D_w_mm, .cos_alpha = cos_alpha, .Z = Z}, 1.3);
    };
    // Recomputed: 110 x 170 x 28, tests/reference/bearing_values.py.
    CHECK(within(ball_rating_N({.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13}, 1.3),
                 77165.3, 0.05));
    // Large balls: the branches meet to the rounding of 3.647, 25.4^0.4 = 3.64700.
    CHECK(C(std::nextafter(25.4, 26)) == rel(C(25.4), 1e-5));
    CHECK(C(25.5) / C(30) == rel(std::pow(25.5 / 30, 1.4), 1e-12));
    CHECK(C(50) / C(30) == rel(std::pow(50.0 / 30, 1.4), 1e-12));
    CHECK(C(20) / C(10) == rel(std::pow(2, 1.8), 1e-12));
    CHECK(C(12, 1, 16) / C(12, 1, 2) == rel(4, 1e-12));
    CHECK(C(12, 0.8) == rel(std::pow(0.8, 0.7) * f_c_ball(0.16) / f_c_ball(0.2) * C(12), 1e-12));
    CHECK_THROWS_AS((void)C(0), Error);
    CHECK_THROWS_AS((void)C(12, 0), Error);
    CHECK_THROWS_AS((void)C(12, 1, 0), Error);
}

TEST_CASE("iso-281-2007 7.1 rating of roller bearings") {
    const auto C = [](double L_we_mm, double cos_alpha = 1, int Z = 14) {
        return roller_rating_N(
            {.D_we_mm = 10, .L_we_mm = L_we_mm, .D_pw_mm = 65, .cos_alpha = cos_alpha, .Z = Z},
            1.0);
    };
    // A textbook's geometry and rating, 44.0 kN (from memory), printed to three digits.
    CHECK(within(C(9.6), 44000, 50));
    CHECK(within(C(9.6), 44041.2, 0.05));  // recomputed
    CHECK(C(2 * 9.6) / C(9.6) == rel(std::pow(2, 7.0 / 9), 1e-12));
    CHECK(C(9.6, 1, 32) / C(9.6, 1, 2) == rel(8, 1e-12));
    CHECK(
        C(9.6, 0.9) ==
        rel(std::pow(0.9, 7.0 / 9) * f_c_roller(9 / 65.0) / f_c_roller(10 / 65.0) * C(9.6), 1e-12));
    const auto scaled = [](double s) {
        return roller_rating_N(
            {.D_we_mm = 10 * s, .L_we_mm = 10, .D_pw_mm = 65 * s, .cos_alpha = 1, .Z = 14}, 1.1);
    };
    CHECK(scaled(2) / scaled(1) == rel(std::pow(2, 29.0 / 27), 1e-12));
    CHECK_THROWS_AS((void)C(0), Error);
    CHECK_THROWS_AS((void)C(9.6, 1.1), Error);
    CHECK_THROWS_AS((void)C(9.6, 1, 0), Error);
}

}  // namespace caseload::iso_281
