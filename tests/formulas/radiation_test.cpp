// SPDX-License-Identifier: MIT
#include "caseload/formulas/radiation.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::radiation {

TEST_CASE("incropera-6e 1.9 radiative coefficient") {
    // Independent evaluation of sigma (T_s^4 - T_r^4)/(T_s - T_r), emissivity 0.9.
    CHECK(within(coefficient_Wpm2K(0.9, {60, 20}), 6.29418, 6e-6));
    CHECK(within(coefficient_Wpm2K(0.9, {100, 20}), 7.65684, 6e-6));
    CHECK(within(coefficient_Wpm2K(0.9, {120, 40}), 9.10601, 6e-6));
    // Pipe of Cengel 9.1: 6 m, 8 cm diameter, 70/20 degC, emissivity 1: 553 W (from memory; the
    // source takes 343 and 293 K, 0.2 % less).
    CHECK(within(coefficient_Wpm2K(1, {70, 20}) * 3.14159 * 0.08 * 6 * 50, 553, 1.5));
    CHECK(coefficient_Wpm2K(0, {70, 20}) == 0);
    CHECK(coefficient_Wpm2K(0.5, {70, 20}) == rel(coefficient_Wpm2K(0.5, {20, 70}), 1e-15));
    CHECK_THROWS_AS((void)coefficient_Wpm2K(1.01, {70, 20}), Error);
    CHECK_THROWS_AS((void)coefficient_Wpm2K(-0.01, {70, 20}), Error);
    for (const double outside_degC : {-100.5, 1000.5}) {
        CHECK_THROWS_AS((void)coefficient_Wpm2K(0.9, {outside_degC, 20}), Error);
        CHECK_THROWS_AS((void)coefficient_Wpm2K(0.9, {20, outside_degC}), Error);
    }
}

}  // namespace caseload::radiation
