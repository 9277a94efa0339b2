// SPDX-License-Identifier: MIT
// Life, reliability, lubrication and cleanliness; loads are in iso_281_loads_test.cpp.
#include "caseload/formulas/iso_281.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <array>
#include <cmath>

namespace caseload::iso_281 {
using BK = BearingKind;

namespace {

double a_ISO(BK kind, double kappa, double x) {
    return life_factor(kind, {.kappa = kappa, .e_C = 1, .C_u_N = x, .P_N = 1});
}

double ep(BK kind, double kappa, double e_C, double x) {
    return life_factor_ep(kind, {.kappa = kappa, .e_C = e_C, .C_u_N = x / e_C, .P_N = 1});
}

constexpr auto line = FilterGroup::in_line;
constexpr auto bath = FilterGroup::off_line_or_bath;

double e_C(FilterGroup group, int code, double kappa, double D_pw_mm = 140) {
    return contamination_factor({group, code}, {.kappa = kappa, .D_pw_mm = D_pw_mm});
}

}  // namespace

TEST_CASE("iso-281-2007 5-8 life exponent") {
    for (const BK kind : {BK::deep_groove_ball, BK::angular_contact_ball, BK::four_point_ball})
        CHECK(life_exponent(kind) == 3);
    for (const BK kind : {BK::cylindrical_roller, BK::tapered_roller, BK::spherical_roller})
        CHECK(life_exponent(kind) == rel(10.0 / 3, 1e-15));
}

TEST_CASE("iso-281-2007 5.3 doubling the load cuts the life by 8 and by 10.08") {
    const auto loss = [](double p) {
        return basic_life_Mrev({.C_N = 40000, .P_N = 3000, .exponent = p}) /
               basic_life_Mrev({.C_N = 40000, .P_N = 6000, .exponent = p});
    };
    CHECK(loss(life_exponent(BK::deep_groove_ball)) == rel(8, 1e-12));
    CHECK(within(loss(life_exponent(BK::tapered_roller)), 10.08, 0.005));
    CHECK(basic_life_Mrev({.C_N = 40000, .P_N = 40000, .exponent = 3}) == 1);
    CHECK_THROWS_WITH_AS((void)basic_life_Mrev({.C_N = 0, .P_N = 1, .exponent = 3}),
                         "C_N = 0 N: must be > 0", Error);
    CHECK_THROWS_AS((void)basic_life_Mrev({.C_N = 1, .P_N = 0, .exponent = 3}), Error);
    CHECK_THROWS_AS((void)basic_life_Mrev({.C_N = 1, .P_N = 1, .exponent = 0}), Error);
}

TEST_CASE("iso-281-2007 5.3h hours") {
    CHECK(hours_h({.life_Mrev = 90, .n_rpm = 500}) == rel(3000, 1e-15));
    CHECK(hours_h({.life_Mrev = 0, .n_rpm = 500}) == 0);
    CHECK_THROWS_AS((void)hours_h({.life_Mrev = 1, .n_rpm = 0}), Error);
}

TEST_CASE("iso-281-2007 9.2inv survival inverts the reliability factor") {
    for (const double R : {0.5, 0.9, 0.95, 0.99, 0.9995})
        CHECK(survival(0.05 + 0.95 * std::pow(std::log(R) / std::log(0.9), 2.0 / 3)) ==
              rel(R, 1e-12));
    CHECK(survival(0) == 1);
    CHECK(survival(0.05) == 1);
    CHECK(survival(0.0501) < 1);
    // Recomputed: tests/reference/bearing_values.py.
    CHECK(within(survival(0.25), 0.98987, 5e-6));
    CHECK(within(survival(2), 0.73356, 5e-6));
    double before = 1;
    for (double D = 0; D < 6; D += 0.1) {
        CHECK(survival(D) <= before);
        before = survival(D);
    }
    CHECK_THROWS_AS((void)survival(-0.1), Error);
}

TEST_CASE("iso-281-2007 9.3.3.2 reference viscosity") {
    const auto nu_1 = [](double n, double D_pw) {
        return reference_viscosity_mm2ps({.n_rpm = n, .D_pw_mm = D_pw});
    };
    // No published example found; recomputed, tolerance half a unit of the last digit.
    CHECK(within(nu_1(100, 140), 83.205, 0.0005));
    CHECK(within(nu_1(500, 140), 21.878, 0.0005));
    CHECK(within(nu_1(1000, 140), 12.027, 0.0005));
    CHECK(within(nu_1(3000, 140), 6.944, 0.0005));
    CHECK(within(nu_1(6000, 140), 4.910, 0.0005));
    CHECK(within(nu_1(3000, 85), 8.911, 0.0005));
    // The standard's step at 1000 r/min is kept: 12.307 below.
    CHECK(within(nu_1(std::nextafter(1000, 0), 140), 12.307, 0.0005));
    for (const double n : {20.0, 999.0, 1000.0, 9000.0}) {
        CHECK(nu_1(n, 4 * 90) == rel(nu_1(n, 90) / 2, 1e-12));
        CHECK(nu_1(1.1 * n, 90) < nu_1(n, 90));
    }
    CHECK_THROWS_WITH_AS((void)nu_1(0, 90), "n_rpm = 0 r/min: must be > 0", Error);
    CHECK_THROWS_AS((void)nu_1(100, 0), Error);
}

TEST_CASE("iso-281-2007 9.3.3.4 life factor: the branches of kappa meet") {
    for (const double x : {0.01, 0.1, 0.4}) {
        // A wrong digit in any constant opens these joints; they are closed to 1e-4 in t.
        CHECK(a_ISO(BK::deep_groove_ball, std::nextafter(0.4, 0), x) ==
              rel(a_ISO(BK::deep_groove_ball, 0.4, x), 2e-3));
        CHECK(a_ISO(BK::tapered_roller, std::nextafter(0.4, 0), x) ==
              rel(a_ISO(BK::tapered_roller, 0.4, x), 1e-4));
        for (const BK kind : {BK::deep_groove_ball, BK::tapered_roller}) {
            CHECK(a_ISO(kind, std::nextafter(1, 0), x) == rel(a_ISO(kind, 1, x), 1e-12));
            // Nothing is left of the film's help at kappa 0.1.
            CHECK(a_ISO(kind, 0.1, x) == rel(0.1, 3e-3));
            CHECK(a_ISO(kind, std::nextafter(0.1, 0), x) == 0.1);
        }
    }
    // Which branch holds just beside a joint: tests/reference/bearing_values.py, x = 0.2.
    CHECK(within(a_ISO(BK::deep_groove_ball, 0.397, 0.2), 0.4267, 5e-5));
    CHECK(within(a_ISO(BK::deep_groove_ball, 0.402, 0.2), 0.4364, 5e-5));
    CHECK(within(a_ISO(BK::deep_groove_ball, 0.998, 0.2), 6.8769, 5e-5));
    CHECK(within(a_ISO(BK::deep_groove_ball, 1.005, 0.2), 6.9570, 5e-5));
    CHECK(within(a_ISO(BK::tapered_roller, 0.402, 0.2), 0.1786, 5e-5));
    CHECK(within(a_ISO(BK::tapered_roller, 0.998, 0.2), 0.6487, 5e-5));
    CHECK(within(a_ISO(BK::tapered_roller, 1.005, 0.2), 0.6522, 5e-5));
    CHECK(a_ISO(BK::tapered_roller, 0.1, 1) >= 0.1);  // t_r(0.1) is just below zero: held at 0
}

TEST_CASE("iso-281-2007 9.3.3.4 life factor: independent evaluation") {
    // tests/reference/bearing_values.py, four decimals. Columns x = 0.01 to 1.
    constexpr std::array<double, 6> x{0.01, 0.05, 0.1, 0.2, 0.5, 1};
    struct Row {
        BK kind;
        double kappa;
        std::array<double, 6> a;
    };
    const Row rows[] = {
        {BK::deep_groove_ball, 0.2, {0.1334, 0.1647, 0.1884, 0.2237, 0.3035, 0.4146}},
        {BK::angular_contact_ball, 0.7, {0.2848, 0.6478, 1.1272, 2.3829, 10.2436, 50}},
        {BK::four_point_ball, 4, {0.5728, 2.5008, 7.2018, 33.2847, 50, 50}},
        {BK::cylindrical_roller, 0.2, {0.1089, 0.1178, 0.1242, 0.1333, 0.1518, 0.1742}},
        {BK::tapered_roller, 0.7, {0.1481, 0.2144, 0.2774, 0.3943, 0.7779, 1.6723}},
        {BK::spherical_roller, 4, {0.2030, 0.4048, 0.6644, 1.3350, 5.5869, 32.9195}}};
    for (const Row& row : rows)
        for (std::size_t i = 0; i < x.size(); ++i) {
            CAPTURE(row.kappa);
            CAPTURE(x[i]);
            CHECK(within(a_ISO(row.kind, row.kappa, x[i]), row.a[i], 5e-5));
        }
}

TEST_CASE("iso-281-2007 9.3.3.4 life factor: limits and directions") {
    CHECK(a_ISO(BK::deep_groove_ball, 4, 0) == rel(0.1, 1e-12));
    // The limit 50 is reached at these x.
    const double ball[][2] = {{0.7, 0.9602}, {1, 0.4726}, {2, 0.3193}, {4, 0.2311}};
    for (const auto& row : ball) {
        CHECK(a_ISO(BK::deep_groove_ball, row[0], row[1] - 0.0001) < 50);
        CHECK(a_ISO(BK::deep_groove_ball, row[0], row[1] + 0.0001) == 50);
    }
    const double roller[][2] = {{0.7, 4.728}, {1, 2.3205}, {2, 1.5652}, {4, 1.1313}};
    for (const auto& row : roller) {
        CHECK(a_ISO(BK::tapered_roller, row[0], row[1] - 0.001) < 50);
        CHECK(a_ISO(BK::tapered_roller, row[0], row[1] + 0.001) == 50);
    }
    // x is cut at 5, kappa at 4; a bracket below zero is the limit.
    CHECK(a_ISO(BK::tapered_roller, 0.3, 40) == a_ISO(BK::tapered_roller, 0.3, 5));
    CHECK(a_ISO(BK::tapered_roller, 0.3, 4.9) < a_ISO(BK::tapered_roller, 0.3, 5));
    CHECK(a_ISO(BK::tapered_roller, 30, 0.2) == a_ISO(BK::tapered_roller, 4, 0.2));
    CHECK(a_ISO(BK::tapered_roller, 3.9, 0.2) < a_ISO(BK::tapered_roller, 4, 0.2));
    CHECK(a_ISO(BK::deep_groove_ball, 4, 5) == 50);
    // More viscosity never lowers it, more load never raises it.
    for (const BK kind : {BK::deep_groove_ball, BK::cylindrical_roller})
        for (const double at : {0.02, 0.2, 1.0}) {
            double before = 0;
            for (double kappa = 0.05; kappa < 5; kappa *= 1.02) {
                // 2e-3: the joint at 0.4 of the ball's curve is open by 7e-5 in t.
                CHECK(a_ISO(kind, kappa, at) >= before * (1 - 2e-3));
                before = a_ISO(kind, kappa, at);
            }
            before = 1e9;
            for (double P_N = 0.1; P_N < 20; P_N *= 1.1) {
                const double now =
                    life_factor(kind, {.kappa = 0.8, .e_C = 0.5, .C_u_N = at, .P_N = P_N});
                CHECK(now <= before);
                before = now;
            }
        }
    CHECK_THROWS_AS((void)a_ISO(BK::deep_groove_ball, std::nan(""), 1), Error);
    CHECK_THROWS_AS((void)a_ISO(BK::deep_groove_ball, 1, -1), Error);
    CHECK_THROWS_AS(
        (void)life_factor(BK::deep_groove_ball, {.kappa = 1, .e_C = 1.1, .C_u_N = 1, .P_N = 1}),
        Error);
    CHECK_THROWS_AS(
        (void)life_factor(BK::deep_groove_ball, {.kappa = 1, .e_C = 1, .C_u_N = 1, .P_N = 0}),
        Error);
}

TEST_CASE("iso-281-2007 9.3.3.5 additives of proven effect") {
    const BK ball = BK::deep_groove_ball;
    // a(0.5) = 0.63, a(1) = 2.43: the value at kappa 1, unless it passes 3.
    CHECK(ep(ball, 0.5, 0.5, 0.1) == a_ISO(ball, 1, 0.1));
    CHECK(a_ISO(ball, 1, 0.2) > 3);
    CHECK(a_ISO(ball, 0.5, 0.2) < 3);
    CHECK(ep(ball, 0.5, 0.5, 0.2) == 3);
    // The true value where it is the larger.
    CHECK(a_ISO(ball, 0.9, 0.45) > 3);
    CHECK(ep(ball, 0.9, 0.5, 0.45) == a_ISO(ball, 0.9, 0.45));
    // Not with dirty oil, not from kappa 1, not below 0.1.
    CHECK(ep(ball, 0.5, 0.199, 0.1) == rel(a_ISO(ball, 0.5, 0.1), 1e-12));
    CHECK(ep(ball, 0.5, 0.2, 0.1) == rel(a_ISO(ball, 1, 0.1), 1e-12));
    CHECK(ep(ball, 1, 0.5, 0.3) == a_ISO(ball, 1, 0.3));
    CHECK(ep(ball, 0.099, 0.5, 0.3) == 0.1);
    CHECK(ep(ball, 0.1, 0.5, 0.3) == 3);
}

TEST_CASE("iso-281-2007 A.3 row of the cleanliness table") {
    // An odd number takes the class one below.
    for (const auto& [code, row] : {std::array<int, 2>{13, 12},
                                    {15, 14},
                                    {17, 16},
                                    {12, 12},
                                    {14, 14},
                                    {16, 16},
                                    {10, 10},
                                    {11, 10},
                                    {8, 10}}) {
        CHECK(table_code_14um({line, code}) == row);
        CHECK(table_code_14um({bath, code}) == row);
    }
    CHECK(table_code_14um({line, 18}) == 16);
    CHECK(table_code_14um({line, 24}) == 16);
    CHECK(table_code_14um({bath, 19}) == 18);
    CHECK(table_code_14um({bath, 24}) == 18);
}

TEST_CASE("iso-281-2007 A.4 contamination factor") {
    // From memory of annex A without independent test; recomputed, four decimals, D_pw 140 mm.
    struct Row {
        double kappa;
        std::array<double, 4> line;
        std::array<double, 5> bath;
    };
    const Row rows[] = {
        {0.3, {0.5143, 0.2331, 0.1319, 0.0794}, {0.5017, 0.1501, 0.0603, 0.0297, 0.0068}},
        {1, {0.8909, 0.5285, 0.2991, 0.1800}, {0.8691, 0.3404, 0.1367, 0.0675, 0.0155}},
        {4, {0.8909, 0.8077, 0.6855, 0.4620}, {0.8691, 0.7803, 0.3508, 0.1731, 0.0399}}};
    for (const Row& row : rows) {
        for (int i = 0; i < 4; ++i)
            CHECK(within(e_C(line, 10 + 2 * i, row.kappa), row.line[std::size_t(i)], 5e-5));
        for (int i = 0; i < 5; ++i)
            CHECK(within(e_C(bath, 10 + 2 * i, row.kappa), row.bath[std::size_t(i)], 5e-5));
    }
    CHECK(e_C(bath, 14, 9) == e_C(bath, 14, 4));
    CHECK(e_C(bath, 18, 1, 30) == 0);  // 3.8974 > 30^(1/3): held at 0
    CHECK(e_C(bath, 18, 1, 70) > 0);
    for (const FilterGroup group : {line, bath})
        for (double kappa = 0.1; kappa < 4; kappa *= 1.1) {
            CHECK(e_C(group, 14, 1.1 * kappa) >= e_C(group, 14, kappa));
            for (int code = 10; code < 18; code += 2)
                CHECK(e_C(group, code + 2, kappa) <= e_C(group, code, kappa));
        }
    CHECK_THROWS_AS((void)e_C(line, 14, 0), Error);
    CHECK_THROWS_AS((void)e_C(line, 14, 1, 0), Error);
}

TEST_CASE("iso-281-2007 B.3.3 fatigue limit") {
    const auto limit = [](BK kind, double C_0_N, double D_pw_mm) {
        return fatigue_limit_N(kind, {.C_0_N = C_0_N, .D_pw_mm = D_pw_mm});
    };
    // Recomputed.
    CHECK(within(limit(BK::deep_groove_ball, 50000, 85), 2272.7, 0.05));
    CHECK(within(limit(BK::deep_groove_ball, 50000, 140), 1920.8, 0.05));
    CHECK(within(limit(BK::tapered_roller, 200000, 85), 24390, 0.5));
    CHECK(within(limit(BK::tapered_roller, 200000, 155), 21385, 0.5));
    for (const BK kind : {BK::deep_groove_ball, BK::tapered_roller})
        CHECK(limit(kind, 1000, std::nextafter(100, 200)) == rel(limit(kind, 1000, 100), 1e-12));
    CHECK(limit(BK::deep_groove_ball, 1000, 100.5) ==
          rel(1000 / 22.0 * std::sqrt(100 / 100.5), 1e-12));
    // The load at which the contact reaches 1500 MPa, when C0 is that at 4200: (4200/1500)^3 = 22.
    CHECK(50000 / limit(BK::deep_groove_ball, 50000, 85) == rel(std::pow(4200.0 / 1500, 3), 0.003));
    CHECK_THROWS_AS((void)limit(BK::deep_groove_ball, 0, 85), Error);
    CHECK_THROWS_AS((void)limit(BK::deep_groove_ball, 1, 0), Error);
}

TEST_CASE("bearing-practice dirtier oil than the table has less e_C with every code") {
    // Printed for a pitch diameter of 115 mm, kappa 1, a ball bearing at C_u / P = 3: 18 is
    // MEMORY of the standard, the straight line to 21 judgement.
    const double printed[][3] = {
        {18, 0.01109, 0.809}, {19, 0.00740, 0.604}, {20, 0.00370, 0.405}, {21, 0, 0.100}};
    for (const auto& row : printed) {
        const double e_C =
            contamination_factor({FilterGroup::off_line_or_bath, static_cast<int>(row[0])},
                                 {.kappa = 1, .D_pw_mm = 115});
        CAPTURE(row[0]);
        CHECK(within(e_C, row[1], 5.1e-6));
        CHECK(within(life_factor(BearingKind::deep_groove_ball,
                                 {.kappa = 1, .e_C = e_C, .C_u_N = 3, .P_N = 1}),
                     row[2], 6e-4));
    }
    CHECK(dirtier_share(18) == 1);
    CHECK(dirtier_share(21) == 0);
    CHECK(dirtier_share(28) == 0);
    for (const FilterGroup group : {FilterGroup::in_line, FilterGroup::off_line_or_bath}) {
        double last = 1;
        for (int code = 10; code <= 28; ++code) {
            const double e_C = contamination_factor({group, code}, {.kappa = 0.7, .D_pw_mm = 140});
            CHECK(e_C <= last);
            last = e_C;
        }
        CHECK(last == 0);
    }
}

TEST_CASE("iso-281-2007 9.3.3.5-end: the rule steps where e_C or kappa ends it") {
    const BearingKind kind = BearingKind::deep_groove_ball;
    for (const int code : {10, 12, 14}) {
        const Cleanliness oil{FilterGroup::in_line, code};
        const double end = ep_end_kappa(oil, 140).value();
        CAPTURE(code);
        const auto at = [&](double kappa) {
            return LifeFactorState{kappa, contamination_factor(oil, {kappa, 140}), 500, 1000};
        };
        CHECK(end < 1);
        const LifeFactorState above = at(end * (1 + 1e-9));
        const LifeFactorState below = at(end * (1 - 1e-9));
        CHECK(life_factor_ep(kind, above) == life_factor_helped(kind, above));
        CHECK(life_factor_ep(kind, below) == life_factor(kind, below));
        CHECK(life_factor_helped(kind, above) > 1.2 * life_factor(kind, below));
    }
    // e_C of 10 is still above 0.2 where kappa ends the rule.
    CHECK(ep_end_kappa({FilterGroup::in_line, 10}, 140).value() == 0.1);
    // a = 0.2 / (1 - 1.6329 / 140^(1/3)) = 0.29160; kappa = (a / (0.0288 140^0.55))^(1/0.68).
    CHECK(ep_end_kappa({FilterGroup::in_line, 14}, 140).value() ==
          rel(std::pow(0.2 / (1 - 1.6329 / std::cbrt(140.0)) / (0.0288 * std::pow(140, 0.55)),
                       1 / 0.68),
              1e-12));
    // Never clean enough at kappa 1.
    CHECK(!ep_end_kappa({FilterGroup::in_line, 16}, 140));
    CHECK(!ep_end_kappa({FilterGroup::off_line_or_bath, 16}, 140));
    CHECK(!ep_end_kappa({FilterGroup::off_line_or_bath, 24}, 140));
}

TEST_CASE("iso-281-2007 9.3.3.5-helped: as with kappa 1, at most 3, whatever e_C is") {
    const BearingKind kind = BearingKind::deep_groove_ball;
    const auto plain = [&](double kappa, double e_C) {
        return life_factor(kind, {kappa, e_C, 500, 1000});
    };
    const auto helped = [&](double kappa, double e_C) {
        return life_factor_helped(kind, {kappa, e_C, 500, 1000});
    };
    // From kappa 1 on additives change nothing.
    CHECK(helped(1.2, 0.3) == plain(1.2, 0.3));
    CHECK(helped(0.5, 0.05) == plain(1, 0.05));
    REQUIRE(plain(1, 0.4) > 3);
    CHECK(helped(0.5, 0.4) == 3);
    CHECK(helped(0.99, 0.8) == plain(0.99, 0.8));  // the true one is more than 3
    CHECK(plain(0.99, 0.8) > 3);
}

}  // namespace caseload::iso_281
