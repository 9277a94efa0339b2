// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_76.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::iso_76 {
using BK = BearingKind;

TEST_CASE("iso-76-2006 table1 f_0 is Hertz contact at 4200 MPa") {
    // tests/reference/bearing_values.py: groove radii 0.52 and 0.53 D_w, 2.07e5 MPa, Stribeck
    // factor
    // 5. Tolerance: half a unit of the standard's one decimal and of these two.
    const double hertz[] = {14.73, 14.93, 15.13, 15.33, 15.53, 15.73, 15.93, 16.13, 16.33,
                            16.54, 16.40, 16.15, 15.90, 15.65, 15.41, 15.16, 14.92, 14.68,
                            14.43, 14.19, 13.95, 13.72, 13.48, 13.24, 13.01, 12.77, 12.54,
                            12.31, 12.07, 11.84, 11.62, 11.39, 11.16, 10.94, 10.71, 10.49,
                            10.27, 10.04, 9.83,  9.61,  9.39};
    for (int i = 0; i <= 40; ++i) CHECK(within(iso_76::f_0(i / 100.0), hertz[i], 0.055));
    CHECK(iso_76::f_0(0.125) == rel(15.75, 1e-9));
    CHECK(iso_76::f_0(0.40) == rel(9.4, 1e-9));
    CHECK_THROWS_AS((void)iso_76::f_0(-0.01), Error);
    CHECK_THROWS_AS((void)iso_76::f_0(0.41), Error);
}

TEST_CASE("iso-76-2006 5.1 rating of ball bearings") {
    // Recomputed: 110 x 170 x 28.
    CHECK(within(iso_76::ball_rating_N({.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13}),
                 66852.8, 0.05));
    const auto C_0 = [](double cos_alpha, int Z) {
        return iso_76::ball_rating_N(
            {.D_w_mm = 10, .D_pw_mm = 100, .cos_alpha = cos_alpha, .Z = Z});
    };
    CHECK(C_0(1, 10) == rel(16.4 * 10 * 100, 1e-12));
    CHECK(C_0(0.8, 20) == rel(16.3 * 20 * 100 * 0.8, 1e-12));
    CHECK_THROWS_AS((void)C_0(1, 0), Error);
    CHECK_THROWS_AS((void)C_0(0.1, 9), Error);
}

TEST_CASE("iso-76-2006 7.1 rating of roller bearings") {
    const auto C_0 = [](double cos_alpha, double L_we_mm = 15) {
        return iso_76::roller_rating_N(
            {.D_we_mm = 15, .L_we_mm = L_we_mm, .D_pw_mm = 150, .cos_alpha = cos_alpha, .Z = 20});
    };
    CHECK(C_0(1) == rel(44 * 0.9 * 20 * 225, 1e-12));
    CHECK(C_0(0.9) == rel(44 * 0.91 * 20 * 225 * 0.9, 1e-12));
    // Line contact at 4000 MPa, steel of 2.07e5 MPa and 0.3, at the heaviest of Z rollers under
    // F_r = Q Z / 5: Q = pi L p^2 D (1 - g) / (2 E / (1 - nu^2) / 2) gives 44.19, the standard 44.
    const double hertz = std::acos(-1.0) * 4000.0 * 4000.0 / (2.07e5 / (1 - 0.09)) / 5;
    CHECK(within(hertz, 44.19, 0.005));
    CHECK(C_0(1) == rel(hertz * 0.9 * 20 * 225, 0.005));
    CHECK_THROWS_AS((void)C_0(1, 0), Error);
    CHECK_THROWS_AS((void)C_0(0), Error);
}

TEST_CASE("iso-76-2006 table3 static equivalent load") {
    // Factors from memory, no independent test; how they stand to each other and to the load is.
    const auto P_0 = [](BK kind, double angle, double F_r, double F_a) {
        return iso_76::static_equivalent_N(kind, angle, {.F_r_N = F_r, .F_a_N = F_a});
    };
    CHECK(P_0(BK::deep_groove_ball, 0, 1000, 3000) == rel(600 + 1500, 1e-12));
    CHECK(P_0(BK::deep_groove_ball, 0, 1000, 700) == 1000);
    double last = 1;
    for (double angle = 15; angle <= 45; angle += 5) {
        const double Y_0 = (P_0(BK::angular_contact_ball, angle, 1000, 9000) - 500) / 9000;
        CHECK(Y_0 < last);  // steeper contact carries more along
        last = Y_0;
        // The standard prints two decimals, each less than that of a ring without load (0.22 times
        // the cotangent, as of rollers): the load makes the contact steeper.
        CHECK(within(100 * Y_0, std::round(100 * Y_0), 1e-9));
        CHECK(Y_0 <= 0.22 / std::tan(std::acos(-1.0) * angle / 180) + 1e-9);
        CHECK(P_0(BK::angular_contact_ball, angle, 1000, 18000) == rel(500 + Y_0 * 18000, 1e-12));
        // Four points are two rows: both factors twice those of one.
        CHECK(P_0(BK::four_point_ball, angle, 1000, 9000) == rel(2 * (500 + Y_0 * 9000), 1e-12));
        CHECK(P_0(BK::angular_contact_ball, angle, 1000, 10) == 1000);
    }
    CHECK(P_0(BK::angular_contact_ball, 37.5, 1000, 9000) ==
          rel((P_0(BK::angular_contact_ball, 35, 1000, 9000) +
               P_0(BK::angular_contact_ball, 40, 1000, 9000)) /
                  2,
              1e-12));
    CHECK(P_0(BK::cylindrical_roller, 0, 1000, 900) == 1000);
    const double cot_16 = 1 / std::tan(std::acos(-1.0) * 16 / 180);
    CHECK(P_0(BK::tapered_roller, 16, 1000, 9000) == rel(500 + 0.22 * cot_16 * 9000, 1e-12));
    CHECK(P_0(BK::tapered_roller, 16, 1000, 10) == 1000);
    CHECK(P_0(BK::spherical_roller, 16, 1000, 9000) == rel(1000 + 0.44 * cot_16 * 9000, 1e-12));
    CHECK_THROWS_AS((void)P_0(BK::tapered_roller, 0, 1, 1), Error);
    CHECK_THROWS_AS((void)P_0(BK::angular_contact_ball, 10, 1, 1), Error);
    CHECK_THROWS_AS((void)P_0(BK::deep_groove_ball, 0, -1, 1), Error);
    CHECK_THROWS_AS((void)P_0(BK::deep_groove_ball, 0, 1, -1), Error);
}

}  // namespace caseload::iso_76
