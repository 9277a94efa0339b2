// SPDX-License-Identifier: MIT
// Equivalent and induced loads. Tables from memory of the standard; e = (1 - X) / Y holds for
// each of their entries to rounding.
#include "caseload/formulas/iso_281.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <array>
#include <cmath>

namespace caseload::iso_281 {
using BK = BearingKind;

namespace {

double P(BK kind, double angle_deg, const Load& load, double f_0 = 14, double C_0_N = 50000) {
    return equivalent_load_N(
        {.kind = kind, .contact_angle_deg = angle_deg, .f_0 = f_0, .C_0_N = C_0_N}, load);
}

double induced(BK kind, double angle_deg, double F_r_N) {
    return induced_axial_N(
        {.kind = kind, .contact_angle_deg = angle_deg, .f_0 = 14, .C_0_N = 50000}, F_r_N);
}

double cot(double angle_deg) {
    return 1 / std::tan(angle_deg * std::acos(-1.0) / 180);
}

}  // namespace

TEST_CASE("iso-281-2007 table3 deep groove factors") {
    const double table[][3] = {{0.172, 0.19, 2.30}, {0.345, 0.22, 1.99}, {0.689, 0.26, 1.71},
                               {1.03, 0.28, 1.55},  {1.38, 0.30, 1.45},  {2.07, 0.34, 1.31},
                               {3.45, 0.38, 1.15},  {5.17, 0.42, 1.04},  {6.89, 0.44, 1.00}};
    for (std::size_t i = 0; i < 9; ++i) {
        const auto [e, Y] = deep_groove_factors(table[i][0]);
        CHECK(e == rel(table[i][1], 1e-12));
        CHECK(Y == rel(table[i][2], 1e-12));
        // P is continuous at F_a = e F_r; both factors are printed to two decimals.
        CHECK(within(e * Y, 1 - 0.56, 0.005 * (Y + e) + 1e-4));
        if (i == 8) continue;
        const auto between = deep_groove_factors((table[i][0] + table[i + 1][0]) / 2);
        CHECK(between.e == rel((table[i][1] + table[i + 1][1]) / 2, 1e-12));
        CHECK(between.Y == rel((table[i][2] + table[i + 1][2]) / 2, 1e-12));
    }
    CHECK(deep_groove_factors(0).Y == 2.30);
    CHECK(deep_groove_factors(0).e == 0.19);
    CHECK(deep_groove_factors(40).Y == 1.00);
    CHECK(deep_groove_factors(40).e == 0.44);
    CHECK_THROWS_AS((void)deep_groove_factors(-1), Error);
}

TEST_CASE("iso-281-2007 5.2 load of factors given by hand") {
    CHECK(combined_load_N({.X = 0.56, .Y = 1.6}, {.F_r_N = 2500, .F_a_N = 1000}) ==
          rel(3000, 1e-12));
    CHECK(combined_load_N({.X = 0.56, .Y = 1.6}, {.F_r_N = 2500, .F_a_N = 100}) == 2500);
    CHECK_THROWS_AS((void)combined_load_N({.X = 1, .Y = 0}, {.F_r_N = -1, .F_a_N = 0}), Error);
    CHECK_THROWS_AS((void)combined_load_N({.X = -1, .Y = 0}, {.F_r_N = 1, .F_a_N = 0}), Error);
}

TEST_CASE("iso-281-2007 table8 deep groove") {
    // f_0 F_a / C0 = 1.03: e 0.28, Y 1.55.
    const double F_a = 1.03 * 50000 / 14;
    CHECK(P(BK::deep_groove_ball, 0, {F_a / 0.29, F_a}) ==
          rel(0.56 * F_a / 0.29 + 1.55 * F_a, 1e-12));
    CHECK(P(BK::deep_groove_ball, 0, {F_a / 0.27, F_a}) == rel(F_a / 0.27, 1e-12));
    CHECK(P(BK::deep_groove_ball, 0, {0, F_a}) == rel(1.55 * F_a, 1e-12));
    CHECK(P(BK::deep_groove_ball, 0, {700, 0}) == 700);
    CHECK_THROWS_AS((void)P(BK::deep_groove_ball, 0, {700, 1}, 0), Error);
    CHECK_THROWS_AS((void)P(BK::deep_groove_ball, 0, {700, 1}, 14, 0), Error);
    CHECK_THROWS_AS((void)P(BK::deep_groove_ball, 0, {700, -1}), Error);
}

TEST_CASE("iso-281-2007 table8 angular contact and four-point") {
    const double rows[][7] = {
        {20, 0.57, 0.43, 1.00, 1.09, 0.70, 1.63}, {25, 0.68, 0.41, 0.87, 0.92, 0.67, 1.41},
        {30, 0.80, 0.39, 0.76, 0.78, 0.63, 1.24}, {35, 0.95, 0.37, 0.66, 0.66, 0.60, 1.07},
        {40, 1.14, 0.35, 0.57, 0.55, 0.57, 0.93}, {45, 1.34, 0.33, 0.50, 0.47, 0.54, 0.81}};
    for (const auto& [angle, e, X, Y, Y1, X2, Y2] : rows) {
        const Load below{1000, 0.999 * e * 1000};
        const Load above{1000, 1.001 * e * 1000};
        CHECK(P(BK::angular_contact_ball, angle, below) == 1000);
        // P steps at e by the rounding of the factors only.
        CHECK(P(BK::angular_contact_ball, angle, above) ==
              rel(std::max(X * 1000 + Y * above.F_a_N, 1000.0), 1e-12));
        CHECK(within(X + Y * e, 1, 0.005 * (2 + Y + e)));
        CHECK(P(BK::angular_contact_ball, angle, {1000, 5000}) == rel(X * 1000 + Y * 5000, 1e-12));
        CHECK(P(BK::four_point_ball, angle, below) == rel(1000 + Y1 * below.F_a_N, 1e-12));
        CHECK(P(BK::four_point_ball, angle, above) == rel(X2 * 1000 + Y2 * above.F_a_N, 1e-12));
        CHECK(within(1 + Y1 * e, X2 + Y2 * e, 0.005 * (2 + 2 * e + Y1 + Y2)));
        CHECK(induced(BK::angular_contact_ball, angle, 1000) == rel(e * 1000, 1e-12));
    }
    // Half way between 35 and 40 deg.
    CHECK(P(BK::angular_contact_ball, 37.5, {1000, 5000}) == rel(360 + 0.615 * 5000, 1e-12));
    CHECK(P(BK::four_point_ball, 37.5, {1000, 5000}) == rel(585 + 1.00 * 5000, 1e-12));
    CHECK(P(BK::four_point_ball, 37.5, {1000, 500}) == rel(1000 + 0.605 * 500, 1e-12));
    CHECK_THROWS_AS((void)P(BK::angular_contact_ball, 14.9, {1000, 500}), Error);
    CHECK_THROWS_AS((void)P(BK::angular_contact_ball, 46, {1000, 500}), Error);
    CHECK_THROWS_AS((void)P(BK::four_point_ball, 19.9, {1000, 500}), Error);
}

TEST_CASE("iso-281-2007 table8 angular contact at 15 to 20 deg depends on the axial load") {
    const double table[][3] = {{0.178, 0.38, 1.47}, {0.357, 0.40, 1.40}, {0.714, 0.43, 1.30},
                               {1.07, 0.46, 1.23},  {1.43, 0.47, 1.19},  {2.14, 0.50, 1.12},
                               {3.57, 0.55, 1.02},  {5.35, 0.56, 1.00},  {7.14, 0.56, 1.00}};
    for (const auto& [u, e, Y] : table) {
        const double F_a = u * 50000 / 14;
        CHECK(P(BK::angular_contact_ball, 15, {0, F_a}) == rel(Y * F_a, 1e-12));
        CHECK(P(BK::angular_contact_ball, 15, {F_a, F_a}) == rel(0.44 * F_a + Y * F_a, 1e-12));
        CHECK(P(BK::angular_contact_ball, 15, {F_a / (0.999 * e), F_a}) ==
              rel(F_a / (0.999 * e), 1e-12));
        CHECK(within(0.44 + Y * e, 1, 0.005 * (2 + Y + e)));
        // Just above e the factors count: 0.44 + Y e > 1 there.
        CHECK(P(BK::angular_contact_ball, 15, {F_a / (1.009 * e), F_a}) ==
              rel(0.44 * F_a / (1.009 * e) + Y * F_a, 1e-12));
        // Between 15 and 20 deg linear: a fifth of the way.
        CHECK(P(BK::angular_contact_ball, 16, {0, F_a}) == rel((Y + (1.00 - Y) / 5) * F_a, 1e-12));
    }
    // Half way between the first two rows; at 20 deg the axial load no longer matters.
    const double half = (0.178 + 0.357) / 2 * 50000 / 14;
    CHECK(P(BK::angular_contact_ball, 15, {0, half}) == rel(1.435 * half, 1e-12));
    CHECK(P(BK::angular_contact_ball, 20, {0, 1000}, 0) == 1000);
    CHECK(P(BK::angular_contact_ball, std::nextafter(20, 0), {1000, 3000}) ==
          rel(P(BK::angular_contact_ball, 20, {1000, 3000}), 1e-9));
    CHECK_THROWS_AS((void)P(BK::angular_contact_ball, 15, {1000, 500}, 0), Error);
}

TEST_CASE("iso-281-2007 table8 roller bearings") {
    CHECK(P(BK::cylindrical_roller, 0, {800, 300}) == 800);
    for (const double angle : {10.0, 16.0, 28.0}) {
        const double e = 1.5 / cot(angle);
        const double F_r = 1000;
        const Load below{F_r, 0.999 * e * F_r};
        const Load above{F_r, 2 * e * F_r};
        CHECK(P(BK::tapered_roller, angle, below) == F_r);
        const Load just_above{F_r, 1.009 * e * F_r};
        CHECK(P(BK::tapered_roller, angle, just_above) == rel((0.4 + 0.6 * 1.009) * F_r, 1e-12));
        CHECK(P(BK::spherical_roller, angle, just_above) ==
              rel((0.67 + 0.67 * 1.5 * 1.009) * F_r, 1e-12));
        CHECK(P(BK::tapered_roller, angle, above) ==
              rel(0.4 * F_r + 0.4 * cot(angle) * above.F_a_N, 1e-12));
        CHECK(0.4 + 0.4 * cot(angle) * e == rel(1, 1e-12));
        CHECK(P(BK::spherical_roller, angle, below) ==
              rel(F_r + 0.45 * cot(angle) * below.F_a_N, 1e-12));
        CHECK(P(BK::spherical_roller, angle, above) ==
              rel(0.67 * F_r + 0.67 * cot(angle) * above.F_a_N, 1e-12));
        CHECK(P(BK::spherical_roller, angle, {F_r, std::nextafter(e * F_r, 0)}) ==
              rel(P(BK::spherical_roller, angle, {F_r, 1.0000001 * e * F_r}), 1e-6));
    }
    CHECK_THROWS_AS((void)P(BK::tapered_roller, 0, {1, 1}), Error);
    CHECK_THROWS_AS((void)P(BK::spherical_roller, 0, {1, 0}), Error);
    CHECK_THROWS_AS((void)P(BK::tapered_roller, 46, {1, 1}), Error);
}

TEST_CASE("iso-281-2007 table8 any kind: scaling, never below F_r, rising with each force") {
    const std::array<std::array<double, 2>, 6> kinds{
        {{0, 0}, {1, 40}, {2, 35}, {3, 0}, {4, 16}, {5, 10}}};
    for (const auto& [index, angle] : kinds) {
        const BK kind = static_cast<BK>(static_cast<int>(index));
        for (const double F_r : {1.0, 3000.0, 20000.0}) {
            double before = 0;
            for (double F_a = 0; F_a < 30000; F_a += 500) {
                const double now = P(kind, angle, {F_r, F_a});
                CHECK(now >= F_r);
                // 2.5 %: the tables' factors are rounded, so P may step down at e.
                CHECK(now >= before * 0.975);
                before = now;
                CHECK(P(kind, angle, {2 * F_r, 2 * F_a}, 14, 2 * 50000) == rel(2 * now, 1e-12));
            }
        }
        CHECK(P(kind, angle, {0, 0}) == 0);
    }
}

TEST_CASE("bearing-practice induced-axial force") {
    // 3000 N, Y 1.4: 0.5 x 3000 / 1.4. Recomputed.
    const double angle = std::atan(0.4 / 1.4) * 180 / std::acos(-1.0);
    CHECK(within(induced(BK::tapered_roller, angle, 3000), 1071.4, 0.05));
    // Half the raceway loaded: 1.2580 tan a F_r by the load integrals of line contact.
    CHECK(induced(BK::tapered_roller, 16, 1000) == rel(1.2580 * 1000 / cot(16), 0.007));
    CHECK(induced(BK::deep_groove_ball, 0, 1000) == 0);
    CHECK(induced(BK::cylindrical_roller, 0, 1000) == 0);
    CHECK(induced(BK::four_point_ball, 35, 1000) == 0);
    CHECK(induced(BK::spherical_roller, 10, 1000) == 0);
    CHECK(induced(BK::angular_contact_ball, 40, 0) == 0);
    // Below 20 deg the force is in balance with the e it sets: Fi = e(Fi) F_r, where P leaves F_r.
    for (const double angle_deg : {15.0, 17.0, 19.5})
        for (const double F_r : {100.0, 4000.0, 30000.0}) {
            const double F_i = induced(BK::angular_contact_ball, angle_deg, F_r);
            CHECK(F_i > 0.37 * F_r);
            CHECK(F_i < 0.57 * F_r);
            const double more = 1.05 * F_i;
            CHECK(P(BK::angular_contact_ball, angle_deg, {F_r, 0.95 * F_i}) == F_r);
            CHECK(P(BK::angular_contact_ball, angle_deg, {F_r, more}) > F_r);
        }
    CHECK_THROWS_AS((void)induced(BK::tapered_roller, 16, -1), Error);
}

}  // namespace caseload::iso_281
