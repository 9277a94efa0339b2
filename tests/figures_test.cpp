// SPDX-License-Identifier: MIT
#include "caseload/figures.hpp"

#include "support.hpp"

#include <cmath>
#include <limits>
#include <string>

namespace caseload::figures_tests {

TEST_CASE("figures: numbers have no exponent, no sign of zero and no rounding left of the point") {
    CHECK(figures(100, 2) == "100");
    CHECK(figures(99.96, 3) == "100");
    CHECK(figures(123456, 2) == "123456");
    CHECK(figures(0.0499, 2) == "0.05");
    CHECK(figures(0.000045, 2) == "0.000045");
    CHECK(figures(31.4, 2) == "31");
    CHECK(figures(2.50, 3) == "2.5");
    CHECK(figures(-6.558e-15, 4) == "0");
    CHECK(figures(-0.0, 4) == "0");
    CHECK(figures(-2.04, 2) == "-2");
    CHECK(figures(std::numeric_limits<double>::quiet_NaN(), 4) == "none");
    CHECK(figures(std::numeric_limits<double>::infinity(), 4) == "none");
    CHECK(signed_figures(0.3, 2) == "+0.3");
    CHECK(signed_figures(-0.3, 2) == "-0.3");
    CHECK(signed_figures(1e-12, 2) == "0");
    CHECK(percent_figures(0.0000045) == "0.00045");
    CHECK(percent_figures(1.2) == "120");
    CHECK(percent_figures(1e-9) == "below 0.0001");
    CHECK(percent_figures(0) == "0");
    // The number written is the value to its figures, at any magnitude.
    for (int power = -8; power <= 9; ++power)
        for (const double mantissa : {1.0, 1.2345, 4.9999, 9.9949, 9.9951, -3.25}) {
            const double value = mantissa * std::pow(10, power);
            for (const int significant : {1, 2, 3, 4}) {
                const std::string text = figures(value, significant);
                CAPTURE(text);
                CHECK(text.find_first_not_of("-.0123456789") == std::string::npos);
                CHECK(std::stod(text) == rel(value, 0.5001 * std::pow(10, 1 - significant)));
            }
        }
}

}  // namespace caseload::figures_tests
