// SPDX-License-Identifier: MIT
#include "caseload/formulas/weibull.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::weibull {

TEST_CASE("weibull-1951 two-parameter life") {
    for (const double slope : {1.17, 1.34, 1.5}) {
        const Distribution d = two_parameter(slope);
        CHECK(life_ratio(d, Failing::logarithm, 0.9) == rel(1, 1e-12));
        CHECK(reliability(d, 1) == rel(0.9, 1e-12));
        CHECK(reliability(d, d.theta) == rel(std::exp(-1), 1e-12));
    }
    // Life at 95 to 99 %: slope 1.5 as in ISO 281:1990 and slope 1.17 of Indian textbooks,
    // recomputed.
    const double R[] = {0.95, 0.96, 0.97, 0.98, 0.99};
    const double iso_1990[] = {0.619, 0.531, 0.437, 0.333, 0.209};
    const double indian[] = {0.541, 0.445, 0.346, 0.244, 0.134};
    for (int i = 0; i < 5; ++i) {
        CHECK(within(life_ratio(two_parameter(1.5), Failing::logarithm, R[i]), iso_1990[i], 5e-4));
        CHECK(within(life_ratio(two_parameter(1.17), Failing::logarithm, R[i]), indian[i], 5e-4));
    }
    CHECK_THROWS_AS((void)two_parameter(0), Error);
}

TEST_CASE("shigley-8e-solutions 11-life at a reliability") {
    // Recomputed, over the life 0.9933 at 90 %.
    const double R[] = {0.95, 0.96, 0.97, 0.98, 0.99};
    const double ratio[] = {0.6232, 0.5371, 0.4445, 0.3419, 0.2211};
    const double at_90 = life_ratio(shigley, Failing::logarithm, 0.9);
    CHECK(within(at_90, 0.9933, 5e-5));
    for (int i = 0; i < 5; ++i)
        CHECK(within(life_ratio(shigley, Failing::logarithm, R[i]) / at_90, ratio[i], 5e-5));
    // 1 - R for ln(1/R) is up to 5 % of the failing share at 0.9, less above.
    for (const double r : {0.9, 0.99, 0.999}) {
        const double exact = life_ratio(shigley, Failing::logarithm, r);
        const double short_form = life_ratio(shigley, Failing::difference, r);
        CHECK(short_form < exact);
        CHECK(short_form == rel(exact, 0.6 * (1 - r)));
    }
    CHECK(life_ratio(shigley_tapered, Failing::difference, 0.9) ==
          rel(4.48 * std::pow(0.1, 2.0 / 3), 1e-12));
    CHECK_THROWS_AS((void)life_ratio(shigley, Failing::logarithm, 1), Error);
    CHECK_THROWS_AS((void)life_ratio({.x_0 = 2, .theta = 1, .slope = 1}, Failing::logarithm, 0.9),
                    Error);
}

TEST_CASE("shigley-8e-solutions 11-reliability inverts the life") {
    for (const double R : {0.5, 0.9, 0.99})
        CHECK(reliability(shigley, life_ratio(shigley, Failing::logarithm, R)) == rel(R, 1e-12));
    CHECK(reliability(shigley, 0.02) == 1);
    CHECK(reliability(shigley, 0.021) < 1);
    CHECK_THROWS_AS((void)reliability(shigley, -1), Error);
    CHECK_THROWS_AS((void)reliability({.x_0 = 0, .theta = 1, .slope = 0}, 1), Error);
}

TEST_CASE("shigley-8e-solutions 11-rating of printed solutions") {
    // P11-1: 1.2 x 1.898 kN, 540 million revolutions: 18.59 kN. P11-5: 11 315 lbf at 0.95.
    const auto C = [](const Duty& duty, double R) {
        return rating_N(duty, life_ratio(shigley, Failing::logarithm, R));
    };
    CHECK(within(C({1.2 * 1.898, 540, 3}, 0.9), 18.59, 0.005));
    CHECK(within(C({1.4 * 610, 1440, 3}, 0.95), 11315, 0.5));
    // P11-12: tapered, 90 million revolutions, 0.856 for temperature and viscosity: 11.40 kN.
    CHECK(within(rating_N({1.4 * 3.29, 960.0 / 90, 10.0 / 3},
                          0.856 * life_ratio(shigley_tapered, Failing::difference, 0.95)),
                 11.40, 0.005));
    CHECK_THROWS_AS((void)rating_N({1, 1, 3}, 0), Error);
}

TEST_CASE("shigley-8e-solutions 11-check reliability of a chosen bearing") {
    // P11-1: 19.5 kN, 0.919; P11-3: roller, 102 kN, 0.942.
    CHECK(within(reliability_on_duty(shigley, {1.2 * 1.898, 540, 3}, 19.5), 0.919, 0.0005));
    CHECK(within(reliability_on_duty(shigley, {10.279, 1440, 10.0 / 3}, 102), 0.942, 0.0005));
    // With ISO 281's own parameters it is the survival of that standard.
    const Distribution iso{
        .x_0 = 0.05, .theta = 0.05 + 0.95 * std::pow(std::log(1 / 0.9), -1 / 1.5), .slope = 1.5};
    CHECK(reliability_on_duty(iso, {10, 500, 3}, 100) == rel(iso_281::survival(0.5), 1e-12));
    CHECK_THROWS_AS((void)reliability_on_duty(shigley, {1, 0, 3}, 10), Error);
}

}  // namespace caseload::weibull
