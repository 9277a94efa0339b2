// SPDX-License-Identifier: MIT
// The draws' own exponential and cube root against long double and published values.
#include "ask/fast_exp.hpp"

#include "support.hpp"

#include <cmath>
#include <limits>

namespace caseload::fast_exp_tests {

namespace {

/// Distance in units of the last place of the true value.
double ulps(double got, long double expected) {
    const double near = static_cast<double>(expected);
    const double ulp = std::nextafter(near, std::numeric_limits<double>::infinity()) - near;
    return static_cast<double>(std::fabs(static_cast<long double>(got) - expected)) / ulp;
}

double exp_of(double x) {
    return fast_exp(Four(x))[0];
}

double cbrt_of(double x) {
    return fast_cbrt(Four(x))[0];
}

}  // namespace

TEST_CASE("fast exponential: within 1.1 units in the last place from -700 to 700") {
    double worst = 0;
    for (int i = -700000; i <= 700000; ++i) {
        const double x = 0.001 * i + 1e-4 * std::sin(i);
        if (std::fabs(x) > 700) continue;
        worst = std::max(worst, ulps(exp_of(x), std::exp(static_cast<long double>(x))));
    }
    MESSAGE("worst ", worst, " ulp");
    // Without a wider long double the reference is off by as much itself.
    CHECK(worst < (std::numeric_limits<long double>::digits > 60 ? 1.1 : 2));
    CHECK(exp_of(0) == 1);
    // OEIS A001113 and A068985: e and 1/e, rounded to double.
    CHECK(ulps(exp_of(1), 2.7182818284590452354L) <= 1);
    CHECK(ulps(exp_of(-1), 0.36787944117144232160L) <= 1);
    CHECK(exp_of(-1e300) == exp_of(-700));
    CHECK(exp_of(1e300) == exp_of(700));
}

TEST_CASE("fast cube root: within 3 units in the last place from 1e-300 to 1e300") {
    double worst = 0;
    for (int i = -30000; i <= 30000; ++i) {
        const double x = std::pow(10, 0.01 * i) * (1 + 1e-3 * std::sin(i));
        worst = std::max(worst, ulps(cbrt_of(x), std::cbrt(static_cast<long double>(x))));
    }
    MESSAGE("worst ", worst, " ulp");
    CHECK(worst < (std::numeric_limits<long double>::digits > 60 ? 3 : 4));
    CHECK(cbrt_of(27) == rel(3, 1e-15));
}

TEST_CASE("fast exponential and cube root: four at once are the bits of one at a time") {
    const Four x(-699.5, -1e-7, 0.3, 612);
    const Four size = magnitude(x);
    for (std::size_t k = 0; k < at_once; ++k) {
        CHECK(size[k] == std::fabs(x[k]));
        CHECK(fast_exp(x)[k] == exp_of(x[k]));
        CHECK(fast_cbrt(size)[k] == cbrt_of(std::fabs(x[k])));
    }
}

}  // namespace caseload::fast_exp_tests
