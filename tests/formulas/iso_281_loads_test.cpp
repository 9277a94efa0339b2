// SPDX-License-Identifier: MIT
// Equivalent and induced loads. Tables from memory of the standard; what holds of them is that e =
// (1 - X) / Y to the rounding of each entry, and that they rise or fall.
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

TEST_CASE("iso-281-2007 table3 deep groove factors meet where they begin, straight between rows") {
    // The factors themselves: shigley-8e-11-7-column of the published figures.
    const double rows[] = {0.172, 0.345, 0.689, 1.03, 1.38, 2.07, 3.45, 5.17, 6.89};
    for (std::size_t i = 0; i < 9; ++i) {
        const auto [e, Y] = deep_groove_factors(rows[i]);
        // P is continuous at F_a = e F_r; both factors are printed to two decimals.
        CHECK(within(e * Y, 1 - 0.56, 0.005 * (Y + e) + 1e-4));
        if (i == 8) continue;
        const AxialFactors next = deep_groove_factors(rows[i + 1]);
        CHECK(next.e > e);
        CHECK(next.Y < Y);
        const AxialFactors between = deep_groove_factors((rows[i] + rows[i + 1]) / 2);
        CHECK(between.e == rel((e + next.e) / 2, 1e-12));
        CHECK(between.Y == rel((Y + next.Y) / 2, 1e-12));
    }
    CHECK(deep_groove_factors(0).Y == deep_groove_factors(rows[0]).Y);
    CHECK(deep_groove_factors(0).e == deep_groove_factors(rows[0]).e);
    CHECK(deep_groove_factors(40).Y == 1.00);
    CHECK(deep_groove_factors(40).e == deep_groove_factors(rows[8]).e);
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

TEST_CASE(
    "iso-281-2007 table8 angular contact and four-point: factors meet at e, straight between") {
    // e by the force a bearing sets up, X and Y by two loads beyond it.
    struct Factors {
        double e, X, Y, Y1, X2, Y2;
    };
    const auto factors = [](double angle) {
        const auto of = [&](BK kind, const Load& a, const Load& b) {
            const double Y = (P(kind, angle, b) - P(kind, angle, a)) / (b.F_a_N - a.F_a_N);
            return std::array{(P(kind, angle, a) - Y * a.F_a_N) / a.F_r_N, Y};
        };
        const auto [X, Y] = of(BK::angular_contact_ball, {1000, 5000}, {1000, 9000});
        const auto [one, Y1] = of(BK::four_point_ball, {1000, 100}, {1000, 200});
        const auto [X2, Y2] = of(BK::four_point_ball, {1000, 5000}, {1000, 9000});
        CHECK(one == rel(1, 1e-12));
        return Factors{induced(BK::angular_contact_ball, angle, 1000) / 1000, X, Y, Y1, X2, Y2};
    };
    for (const double angle : {20.0, 25.0, 30.0, 35.0, 40.0, 45.0}) {
        CAPTURE(angle);
        const auto [e, X, Y, Y1, X2, Y2] = factors(angle);
        const Load below{1000, 0.999 * e * 1000};
        const Load above{1000, 1.001 * e * 1000};
        CHECK(P(BK::angular_contact_ball, angle, below) == 1000);
        // P steps at e by the rounding of the factors only.
        CHECK(P(BK::angular_contact_ball, angle, above) ==
              rel(std::max(X * 1000 + Y * above.F_a_N, 1000.0), 1e-12));
        CHECK(within(X + Y * e, 1, 0.005 * (2 + Y + e)));
        CHECK(P(BK::four_point_ball, angle, below) == rel(1000 + Y1 * below.F_a_N, 1e-12));
        CHECK(P(BK::four_point_ball, angle, above) == rel(X2 * 1000 + Y2 * above.F_a_N, 1e-12));
        CHECK(within(1 + Y1 * e, X2 + Y2 * e, 0.005 * (2 + 2 * e + Y1 + Y2)));
        if (angle == 45) continue;
        const Factors next = factors(angle + 5);
        const Factors between = factors(angle + 2.5);
        CHECK(next.e > e);  // steeper contact carries more along
        CHECK(next.Y < Y);
        CHECK(next.Y2 < Y2);
        CHECK(between.e == rel((e + next.e) / 2, 1e-9));
        CHECK(between.X == rel((X + next.X) / 2, 1e-9));
        CHECK(between.Y == rel((Y + next.Y) / 2, 1e-9));
        CHECK(between.Y1 == rel((Y1 + next.Y1) / 2, 1e-9));
        CHECK(between.X2 == rel((X2 + next.X2) / 2, 1e-9));
        CHECK(between.Y2 == rel((Y2 + next.Y2) / 2, 1e-9));
    }
    CHECK_THROWS_AS((void)P(BK::angular_contact_ball, 14.9, {1000, 500}), Error);
    CHECK_THROWS_AS((void)P(BK::angular_contact_ball, 46, {1000, 500}), Error);
    CHECK_THROWS_AS((void)P(BK::four_point_ball, 19.9, {1000, 500}), Error);
}

TEST_CASE("iso-281-2007 table8 angular contact at 15 to 20 deg depends on the axial load") {
    const auto Y_at = [](double angle, double F_a) {
        return P(BK::angular_contact_ball, angle, {0, F_a}) / F_a;
    };
    double last = 2;
    for (const double u : {0.178, 0.357, 0.714, 1.07, 1.43, 2.14, 3.57, 5.35, 7.14}) {
        const double F_a = u * 50000 / 14;
        const double Y = Y_at(15, F_a);
        CHECK(Y <= last);
        last = Y;
        CHECK(P(BK::angular_contact_ball, 15, {F_a, F_a}) == rel(0.44 * F_a + Y * F_a, 1e-12));
        // P is continuous at e: (1 - 0.44) / Y, as far as both are printed to two decimals.
        const double e = (1 - 0.44) / Y;
        CHECK(P(BK::angular_contact_ball, 15, {F_a / (0.97 * e), F_a}) ==
              rel(F_a / (0.97 * e), 1e-12));
        CHECK(P(BK::angular_contact_ball, 15, {F_a / (1.03 * e), F_a}) > F_a / (1.03 * e));
        // Between 15 and 20 deg linear: a fifth of the way.
        CHECK(Y_at(16, F_a) == rel(Y + (Y_at(20, F_a) - Y) / 5, 1e-12));
    }
    // Half way between the first two rows; at 20 deg the axial load no longer matters.
    const auto at = [&](double u) { return Y_at(15, u * 50000 / 14); };
    CHECK(at((0.178 + 0.357) / 2) == rel((at(0.178) + at(0.357)) / 2, 1e-12));
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
