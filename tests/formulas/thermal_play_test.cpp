// SPDX-License-Identifier: MIT
// Recomputed values: tests/reference/seat_values.py.
#include "caseload/formulas/thermal_play.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::thermal_play {

namespace {

Expansion at(double housing_degC, double steel_degC) {
    return {.housing_pK = 23.4e-6,
            .steel_pK = 12.0e-6,
            .housing_degC = housing_degC,
            .steel_degC = steel_degC};
}

/// Backlash from the involute: base tangent play 2 a cos(alpha) (inv alpha' - inv alpha) at the
/// wider centres, brought to the new pitch circles.
double exact_mm(double centres_mm, double alpha_deg, double growth) {
    const double alpha = rad_from_deg(alpha_deg);
    const double wider = std::acos(std::cos(alpha) / (1 + growth));
    return 2 * centres_mm * std::cos(alpha) * (std::tan(wider) - wider - std::tan(alpha) + alpha) /
           std::cos(wider);
}

}  // namespace

TEST_CASE("linear-expansion difference of housing and steel") {
    CHECK(outgrowth(at(20, 20)) == 0);
    CHECK(outgrowth(at(110, 110)) == rel(90 * 11.4e-6, 1e-12));
    CHECK(outgrowth(at(100, 120)) == rel(80 * 23.4e-6 - 100 * 12.0e-6, 1e-12));
    CHECK(outgrowth(at(-20, -20)) < 0);
    CHECK_NOTHROW((void)outgrowth(at(300, -100)));
    CHECK_THROWS_AS((void)outgrowth(at(302, 20)), Error);
    CHECK_THROWS_AS((void)outgrowth(at(20, -100.5)), Error);
    CHECK_NOTHROW((void)outgrowth({1e-3, 0, 30, 30}));
    CHECK_THROWS_AS((void)outgrowth({1.005e-3, 0, 30, 30}), Error);
    CHECK_THROWS_AS((void)outgrowth({0, -1e-6, 30, 30}), Error);
}

TEST_CASE("linear-expansion axial way of a free bearing") {
    CHECK(axial_travel_mm(at(110, 110), 92) == rel(92 * 90 * 11.4e-6, 1e-12));
    CHECK(axial_travel_mm(at(110, 110), 0) == 0);
    CHECK_THROWS_AS((void)axial_travel_mm(at(110, 110), -1), Error);
}

TEST_CASE("linear-expansion pair end play by its arrangement") {
    const double travel_mm = axial_travel_mm(at(110, 110), 92);
    CHECK(end_play_change_mm(at(110, 110), Pair::thick_ends_in, 92) == travel_mm);
    CHECK(end_play_change_mm(at(110, 110), Pair::thick_ends_out, 92) == -travel_mm);
    CHECK(end_play_change_mm(at(-20, -20), Pair::thick_ends_in, 92) < 0);
}

TEST_CASE("linear-expansion backlash of wider centres against the involute itself") {
    const Mesh mesh{.centre_distance_mm = 185, .alpha_w_deg = 20};
    CHECK(within(backlash_change_mm(at(110, 110), mesh), 0.138170, 5e-7));
    CHECK(within(exact_mm(185, 20, 90 * 11.4e-6), 0.138846, 5e-7));
    for (const double temp_degC : {60.0, 110.0, 190.0})  // outgrowth up to 0.002
        for (const double alpha_deg : {20.0, 25.0})
            CHECK(backlash_change_mm(at(temp_degC, temp_degC), {185, alpha_deg}) ==
                  rel(exact_mm(185, alpha_deg, outgrowth(at(temp_degC, temp_degC))), 0.01));
    // To first order it is exact.
    CHECK(backlash_change_mm(at(20.1, 20.1), mesh) == rel(exact_mm(185, 20, 1.14e-6), 1e-4));
    CHECK(backlash_change_mm(at(-20, -20), mesh) < 0);
    CHECK_THROWS_AS((void)backlash_change_mm(at(20, 20), {0, 20}), Error);
    CHECK_THROWS_AS((void)backlash_change_mm(at(20, 20), {185, 45.2}), Error);
    CHECK_THROWS_AS((void)backlash_change_mm(at(20, 20), {185, 4.97}), Error);
    CHECK_NOTHROW((void)backlash_change_mm(at(20, 20), {185, 45}));
    CHECK_NOTHROW((void)backlash_change_mm(at(20, 20), {185, 5}));
}

}  // namespace caseload::thermal_play
