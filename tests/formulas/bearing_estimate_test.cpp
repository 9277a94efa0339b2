// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_estimate.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/tables.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <cmath>
#include <cstdlib>
#include <string>

namespace caseload::bearing_estimate {
using BK = BearingKind;

namespace {
Estimate of(BK kind, const Size& size, std::optional<double> angle = {}) {
    return estimate(kind, size, angle);
}
}  // namespace

TEST_CASE("bearing-proportions fit: deep groove, second evaluation") {
    // tests/reference/bearing_values.py. Columns: size, D_w, Z, C in kN, C0, f_0 and C_u rounded as
    // shown (C0, f_0, C_u from another evaluation of the same rule).
    struct Row {
        Size size;
        const char* series;
        double D_w;
        int Z;
        double C;
        double C_0;
        double f_0;
        double C_u;
    };
    const Row rows[] = {{{110, 140, 16}, "thin", 7.95, 27, 20.694, 27.3, 15.97, 1.11},
                        {{110, 150, 20}, "thin", 10.6, 21, 31.274, 38.5, 16.33, 1.54},
                        {{110, 170, 19}, "160", 12.92, 19, 45.512, 52.3, 16.48, 2.01},
                        {{110, 170, 28}, "10", 18.15, 13, 77.165, 66.9, 15.61, 2.57},
                        {{110, 200, 38}, "02", 28.575, 10, 144.166, 116.9, 14.31, 4.27},
                        {{110, 240, 50}, "03", 41.275, 8, 204.981, 178.3, 13.08, 6.13},
                        {{60, 110, 22}, "02", 15.875, 9, 48.907, 32.4, 14.26, 1.47},
                        {{50, 110, 27}, "03", 19.05, 8, 61.809, 37.9, 13.04, 1.72},
                        {{70, 110, 20}, "10", 12.1, 13, 37.385, 29.5, 15.51, 1.34},
                        {{70, 110, 13}, "160", 8.84, 18, 22.473, 23.1, 16.42, 1.05},
                        {{80, 110, 16}, "thin", 7.95, 21, 18.748, 21.7, 16.37, 0.99}};
    for (const Row& row : rows) {
        const Estimate e = of(BK::deep_groove_ball, row.size);
        CAPTURE(row.size.outside_mm);
        CAPTURE(row.size.width_mm);
        CHECK(e.series == row.series);
        CHECK(e.D_w_mm == rel(row.D_w, 1e-9));
        CHECK(e.Z == row.Z);
        CHECK(e.L_we_mm == 0);
        CHECK(e.contact_angle_deg == 0);
        CHECK(e.D_pw_mm == (row.size.bore_mm + row.size.outside_mm) / 2);
        CHECK(within(e.C_N / 1000, row.C, 0.0005));
        CHECK(within(e.C_0_N / 1000, row.C_0, 0.05));
        CHECK(within(e.f_0, row.f_0, 0.005));
        CHECK(within(e.C_u_N / 1000, row.C_u, 0.005));
        CHECK(e.within_tested);
    }
}

TEST_CASE("bearing-proportions fit: friction series of sizes in the boundary tables") {
    // Boundary dimensions of ISO 15 at 50 mm bore, series 03, 23, 02, 22; from memory.
    CHECK(friction_series({50, 110, 27}) == "03");
    CHECK(friction_series({50, 110, 40}) == "23");
    CHECK(friction_series({50, 90, 20}) == "02");
    CHECK(friction_series({50, 90, 23}) == "22");
    CHECK(friction_series({90, 140, 24}) == "10");
    // From 0.55 of the height on, which lies between both.
    CHECK(friction_series({50, 110, 32.9}) == "03");
    CHECK(friction_series({50, 110, 33.1}) == "23");
}

TEST_CASE("bearing-proportions fit: rating tables of textbooks") {
    // The rule was fitted to these rows (textbook tables, partly from memory): this pins how well,
    // not that it holds elsewhere. Columns d, D, B, C in kN.
    const double ball[][4] = {
        {15, 32, 9, 5.59},   {30, 62, 16, 19.5},  {35, 72, 17, 25.5},  {40, 90, 23, 41.0},
        {45, 85, 19, 33.2},  {50, 90, 20, 35.1},  {55, 100, 21, 43.6}, {60, 110, 22, 47.5},
        {65, 120, 23, 55.9}, {70, 125, 24, 61.8}, {75, 130, 25, 66.3}, {80, 140, 26, 70.2},
        {85, 150, 28, 83.2}, {90, 160, 30, 95.6}, {95, 170, 32, 108},  {50, 80, 16, 20.8},
        {55, 90, 18, 28.1},  {60, 95, 18, 29.6},  {65, 100, 18, 30.7}, {70, 110, 20, 37.7},
        {75, 115, 20, 39.7}, {50, 110, 27, 61.8}, {55, 120, 29, 71.5}, {60, 130, 31, 81.9},
        {65, 140, 33, 92.3}, {70, 150, 35, 104},  {75, 160, 37, 112}};
    int close = 0;
    for (const auto& [d, D, B, C] : ball) {
        const double error = of(BK::deep_groove_ball, {d, D, B}).C_N / (1000 * C) - 1;
        CAPTURE(error);
        CHECK(std::fabs(error) < 0.08);
        close += std::fabs(error) < 0.04 ? 1 : 0;
    }
    CHECK(close >= 25);
    const double angular[][4] = {{45, 85, 19, 35.8},  {50, 90, 20, 37.7},  {55, 100, 21, 46.2},
                                 {60, 110, 22, 55.9}, {65, 120, 23, 63.7}, {70, 125, 24, 68.9},
                                 {75, 130, 25, 71.5}, {80, 140, 26, 80.6}, {85, 150, 28, 90.4},
                                 {90, 160, 30, 106},  {95, 170, 32, 121}};
    for (const auto& [d, D, B, C] : angular)
        CHECK(of(BK::angular_contact_ball, {d, D, B}).C_N == rel(1000 * C, 0.045));
}

TEST_CASE("bearing-proportions fit: small bores, between the branches") {
    const auto D_w = [](const Size& size) { return of(BK::deep_groove_ball, size).D_w_mm; };
    CHECK(D_w({45, 85, 19}) == rel(0.3175 * 40, 1e-12));
    CHECK(D_w({44.9, 84.9, 19}) == rel(0.30 * 40, 1e-12));
    CHECK(D_w({20.1, 37.1, 12}) == rel(0.30 * 17, 1e-12));
    CHECK(D_w({20, 37, 12}) == rel(0.28 * 17, 1e-12));
    // Series 10: 0.28 to 20 mm, 0.3025 from 50 mm, linear between.
    CHECK(D_w({20, 33, 8}) == rel(0.28 * 13, 1e-12));
    CHECK(D_w({35, 55, 12}) == rel((0.28 + 0.3025) / 2 * 20, 1e-12));
    CHECK(D_w({50, 80, 16}) == rel(0.3025 * 30, 1e-12));
    CHECK(D_w({50.2, 80.2, 16}) == rel(0.3025 * 30, 1e-12));
    CHECK(D_w({20.1, 33.1, 8}) == rel((0.28 + 0.0225 * 0.1 / 30) * 13, 1e-12));
    // 160: the width limits the ball.
    CHECK(D_w({25, 47, 8}) == rel(0.68 * 8, 1e-12));
    CHECK(D_w({100, 150, 19.9}) == rel(0.68 * 19.9, 1e-12));
    CHECK(of(BK::deep_groove_ball, {100, 150, 20}).series == "10");
    CHECK(of(BK::deep_groove_ball, {100, 150, 19.9}).series == "160");
    CHECK(!of(BK::deep_groove_ball, {44.9, 85, 19}).within_tested);
    CHECK(of(BK::deep_groove_ball, {45, 85, 19}).within_tested);
    // Limits of the series.
    CHECK(of(BK::deep_groove_ball, {100, 149.9, 24}).series == "thin");
    CHECK(of(BK::deep_groove_ball, {100, 150, 24}).series == "10");
    CHECK(of(BK::deep_groove_ball, {100, 167.9, 34}).series == "10");
    CHECK(of(BK::deep_groove_ball, {100, 168.1, 34}).series == "02");
    CHECK(of(BK::deep_groove_ball, {100, 180, 40}).series == "02");
    CHECK(of(BK::deep_groove_ball, {100, 180, 40.1}).series == "22");
    CHECK(of(BK::deep_groove_ball, {100, 197.9, 47}).series == "02");
    CHECK(of(BK::deep_groove_ball, {100, 198, 47}).series == "03");
    CHECK(of(BK::deep_groove_ball, {110, 240, 50}).series == "03");  // B / (D - d) = 0.385
}

TEST_CASE("bearing-proportions fit: roller bearings, second evaluation") {
    struct Row {
        Size size;
        double D_w;
        double L_we;
        int Z;
        double C;
        double C_0;
    };
    // tests/reference/bearing_values.py, N.
    const Row cylindrical[] = {{{110, 170, 28}, 15, 14.84, 20, 132232.55, 174900},
                               {{110, 200, 38}, 22.5, 20.14, 15, 216052.75, 255664.31},
                               {{110, 240, 50}, 32.5, 31.0, 12, 382982.05, 433167.43},
                               {{60, 110, 22}, 12.5, 11.66, 14, 71402.03, 76578.76},
                               {{50, 110, 27}, 15, 16.74, 11, 96829.34, 98745.07},
                               {{70, 110, 20}, 10, 10.6, 19, 63681.46, 78769.78},
                               {{110, 200, 53}, 22.5, 31.8, 15, 308209.3, 403680.48}};
    for (const Row& row : cylindrical) {
        const Estimate e = of(BK::cylindrical_roller, row.size);
        CHECK(e.D_w_mm == rel(row.D_w, 1e-12));
        CHECK(e.L_we_mm == rel(row.L_we, 1e-12));
        CHECK(e.Z == row.Z);
        CHECK(within(e.C_N, row.C, 0.0051));
        CHECK(within(e.C_0_N, row.C_0, 0.0051));
        CHECK(e.contact_angle_deg == 0);
        CHECK(e.f_0 == 0);
    }
    // C_u of the first: 174.9 kN / 8.2 and (100/140)^0.3, 19.3 kN.
    CHECK(within(of(BK::cylindrical_roller, {110, 170, 28}).C_u_N, 19300, 50));
    const Row tapered[] = {{{110, 170, 38}, 15, 22.63, 27, 221694.18, 347666.72},
                           {{70, 110, 25}, 10, 14.82, 26, 100870.71, 145608.35},
                           {{110, 180, 40}, 17.5, 24.03, 24, 255107.67, 377362.87}};  // 0.77 T
    for (const Row& row : tapered) {
        const Estimate e = of(BK::tapered_roller, row.size);
        CHECK(e.contact_angle_deg == 16);
        CHECK(e.D_w_mm == rel(row.D_w, 1e-12));
        CHECK(within(e.L_we_mm, row.L_we, 0.005));
        CHECK(e.Z == row.Z);
        CHECK(within(e.C_N, row.C, 0.0051));
        CHECK(within(e.C_0_N, row.C_0, 0.0051));
    }
    CHECK(within(of(BK::tapered_roller, {110, 200, 41}, 15.6).C_N, 306318.44, 0.0051));
    // Sizes where 0.891 or 0.909 of a full row would count another roller.
    CHECK(of(BK::tapered_roller, {80, 125, 29}).Z == 26);
    CHECK(of(BK::tapered_roller, {85, 150, 30.5}).Z == 21);
}

TEST_CASE("bearing-proportions fit: angular contact and four-point") {
    const Estimate angular = of(BK::angular_contact_ball, {110, 200, 38});
    CHECK(angular.contact_angle_deg == 40);
    CHECK(angular.Z == 15);
    CHECK(within(angular.D_w_mm, 28.575, 1e-9));
    CHECK(within(angular.C_N, 154000, 500));  // another evaluation of the same rule
    CHECK(within(angular.C_0_N, 144000, 500));
    const Estimate four_point = of(BK::four_point_ball, {110, 200, 38});
    CHECK(four_point.contact_angle_deg == 35);
    CHECK(four_point.Z == angular.Z);
    CHECK(four_point.C_N == of(BK::angular_contact_ball, {110, 200, 38}, 35).C_N);
    CHECK(four_point.C_N > angular.C_N);
    // Sizes where 0.891 or 0.909 of a full row would count another ball.
    CHECK(of(BK::angular_contact_ball, {60, 110, 22}).Z == 15);
    CHECK(of(BK::angular_contact_ball, {65, 120, 23}).Z == 14);
    CHECK_THROWS_AS((void)of(BK::angular_contact_ball, {110, 200, 38}, 70), Error);
}

TEST_CASE(
    "bearing-proportions fit: angular contact and four-point balls outside series 02 and 03") {
    // The ball of a deep groove bearing of that size, its reductions of C, more balls in the row.
    for (const Size& size : {Size{110, 170, 28}, Size{110, 170, 19}, Size{110, 150, 20},
                             Size{110, 200, 53}, Size{40, 80, 18}}) {
        const Estimate ball = of(BK::deep_groove_ball, size);
        for (const BK kind : {BK::angular_contact_ball, BK::four_point_ball}) {
            const Estimate e = of(kind, size);
            CAPTURE(e.series);
            CHECK(e.D_w_mm == ball.D_w_mm);
            CHECK(e.Z > ball.Z);
            CHECK(e.spread == (e.series == "02" || e.series == "03" ? 0.25 : 0.40));
        }
    }
    // k (D - d): series 10 0.3025, thin 0.265, 160 0.68 B; it was 0.3175 for all.
    CHECK(of(BK::angular_contact_ball, {110, 170, 28}).D_w_mm == rel(18.15, 1e-12));
    CHECK(of(BK::angular_contact_ball, {110, 150, 20}).D_w_mm == rel(10.6, 1e-12));
    CHECK(of(BK::angular_contact_ball, {110, 170, 19}).D_w_mm == rel(12.92, 1e-12));
    // C of the thin ones by 0.85 and 0.90, C0 whole.
    const auto whole_N = [](const Estimate& e) {
        return iso_281::ball_rating_N({.D_w_mm = e.D_w_mm,
                                       .D_pw_mm = e.D_pw_mm,
                                       .cos_alpha = std::cos(rad_from_deg(e.contact_angle_deg)),
                                       .Z = e.Z},
                                      1.3);
    };
    for (const BK kind : {BK::angular_contact_ball, BK::four_point_ball}) {
        const Estimate thin = of(kind, {110, 150, 20});
        const Estimate flat = of(kind, {110, 170, 19});
        const Estimate light = of(kind, {110, 170, 28});
        CHECK(thin.C_N == rel(0.85 * whole_N(thin), 1e-12));
        CHECK(flat.C_N == rel(0.90 * whole_N(flat), 1e-12));
        CHECK(light.C_N == rel(whole_N(light), 1e-12));
    }
    CHECK(of(BK::angular_contact_ball, {110, 200, 38}).spread == 0.25);
    CHECK(of(BK::four_point_ball, {110, 240, 50}).spread == 0.25);
}

TEST_CASE("bearing-proportions fit: spherical, from the inside of one bearing") {
    // Harris, 85x180x60: rollers 25 x 20.762 mm, 14 a row, pitch 135.077 mm, 12 deg; from memory.
    const Estimate e = of(BK::spherical_roller, {85, 180, 60}, 12);
    CHECK(within(e.D_w_mm, 25, 0.05));
    CHECK(within(e.L_we_mm, 20.762, 0.05));
    CHECK(e.Z == 14);
    CHECK(of(BK::spherical_roller, {85, 180, 60}).contact_angle_deg == 10);
    // The standards' formulas with that inside, worked in Python: C 418.38 kN, C0 512.26 kN; the
    // pitch diameter taken as the mean of bore and outside makes up the rest.
    CHECK(e.C_N == rel(418380, 0.002));
    CHECK(e.C_0_N == rel(512259, 0.006));
    // Two rows, worked by hand from the ratings of one: C 2^(7/9) and b_m 1.15, C0 2.
    CHECK(e.C_N == rel(418092.867, 1e-8));
    CHECK(e.C_0_N == rel(509770.661, 1e-8));
    CHECK(e.f_0 == 0);
}

TEST_CASE("bearing-proportions fit: how far off each kind may be") {
    // As the header says of the textbook tables; tests above hold each kind to it.
    CHECK(of(BK::deep_groove_ball, {110, 170, 28}).spread == 0.08);
    CHECK(of(BK::deep_groove_ball, {110, 150, 20}).spread == 0.25);
    CHECK(of(BK::angular_contact_ball, {110, 200, 38}).spread == 0.25);
    CHECK(of(BK::four_point_ball, {110, 170, 28}).spread == 0.40);
    CHECK(of(BK::cylindrical_roller, {110, 170, 28}).spread == 0.15);
    CHECK(of(BK::tapered_roller, {110, 170, 38}).spread == 0.20);
    CHECK(of(BK::spherical_roller, {85, 180, 60}).spread == 0.30);
}

TEST_CASE("bearing-proportions fit: refused") {
    CHECK_THROWS_AS((void)of(BK::deep_groove_ball, {110, 110, 20}), Error);
    CHECK_THROWS_AS((void)of(BK::deep_groove_ball, {0, 110, 20}), Error);
    CHECK_THROWS_AS((void)of(BK::deep_groove_ball, {50, 110, 0}), Error);
}

TEST_CASE("iso-355 boundary cup width of tapered bearings") {
    // Golden: d, D, T, C from memory of the standard, as in tables/bearing_sizes.toml.
    const double rows[][4] = {
        {50, 80, 20, 15.5},   {55, 90, 23, 17.5},   {60, 95, 23, 17.5},   {65, 100, 23, 17.5},
        {70, 110, 25, 19},    {75, 115, 25, 19},    {80, 125, 29, 22},    {85, 130, 29, 22},
        {90, 140, 32, 24},    {95, 145, 32, 24},    {100, 150, 32, 24},   {105, 160, 35, 26},
        {110, 170, 38, 29},   {120, 180, 38, 29},   {50, 90, 21.75, 17},  {55, 100, 22.75, 18},
        {60, 110, 23.75, 19}, {65, 120, 24.75, 20}, {70, 125, 26.25, 21}, {75, 130, 27.25, 22},
        {80, 140, 28.25, 22}, {85, 150, 30.5, 24},  {90, 160, 32.5, 26},  {95, 170, 34.5, 27},
        {100, 180, 37, 29},   {105, 190, 39, 30},   {110, 200, 41, 32},   {120, 215, 43.5, 34}};
    for (const auto& [d, D, T, C] : rows) {
        const double bore_mm = d;
        CAPTURE(bore_mm);
        CHECK(tapered_cup_width_mm({d, D, T}) == C);
        // The cups of these series take 0.74 to 0.81 of the overall width; 0.77 stands for the
        // rest.
        CHECK(C / T > 0.74);
        CHECK(C / T < 0.81);
    }
    CHECK(!tapered_cup_width_mm({110, 170, 37}).has_value());
    CHECK(!tapered_cup_width_mm({110, 170.1, 38}).has_value());
    CHECK(!tapered_cup_width_mm({111, 170, 38}).has_value());
}

TEST_CASE("iso-15 boundary dimensions follow the plan of the standard") {
    CHECK(is_standard_size(BK::deep_groove_ball, {110, 170, 28}));
    CHECK(is_standard_size(BK::cylindrical_roller, {110, 200, 53}));
    CHECK(is_standard_size(BK::tapered_roller, {110, 170, 38}));
    CHECK(!is_standard_size(BK::deep_groove_ball, {110, 170, 38}));
    CHECK(!is_standard_size(BK::tapered_roller, {110, 170, 28}));
    CHECK(!is_standard_size(BK::deep_groove_ball, {110, 170, 27}));
    CHECK(!is_standard_size(BK::deep_groove_ball, {110, 171, 28}));
    CHECK(!is_standard_size(BK::deep_groove_ball, {111, 170, 28}));
    // The status stands in the file.
    CHECK(embedded_table("bearing_sizes.toml").find("from memory") != std::string_view::npos);
    // Every size of every series falls into the series the size rule takes it for.
    const struct {
        const char* series;
        double sizes[3][3];
    } plan[] = {{"160", {{50, 80, 10}, {85, 130, 14}, {120, 180, 19}}},
                {"10", {{50, 80, 16}, {85, 130, 22}, {120, 180, 28}}},
                {"02", {{50, 90, 20}, {85, 150, 28}, {120, 215, 40}}},
                {"03", {{50, 110, 27}, {85, 180, 41}, {120, 260, 55}}},
                {"22", {{50, 90, 23}, {85, 150, 36}, {120, 215, 58}}},
                {"thin", {{50, 65, 7}, {85, 120, 18}, {120, 165, 22}}}};
    for (const auto& row : plan)
        for (const auto& [d, D, B] : row.sizes) {
            CAPTURE(row.series);
            const double bore_mm = d;
            CAPTURE(bore_mm);
            CHECK(is_standard_size(BK::deep_groove_ball, {d, D, B}));
            CHECK(of(BK::cylindrical_roller, {d, D, B}).series == row.series);
        }
}

TEST_CASE("iso-15 boundary dimensions have the recorded count and sum") {
    // Golden regression: count and sum of all sizes, so that no figure changes unseen.
    const std::string text(embedded_table("bearing_sizes.toml"));
    double sum = 0;
    int count = 0;
    for (std::size_t at = text.find("[["); at < text.size(); ++at) {
        if (text[at] != '[' && text[at] != ' ') continue;
        char* end = nullptr;
        const double number = std::strtod(text.c_str() + at + 1, &end);
        if (end == text.c_str() + at + 1 || text[at + 1] == ' ') continue;
        sum += number;
        ++count;
    }
    CHECK(count == 7 * 14 * 3 + 2 * 14 * 5);
    CHECK(sum == doctest::Approx(32313.75).epsilon(1e-12));
}

}  // namespace caseload::bearing_estimate
