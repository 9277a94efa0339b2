// SPDX-License-Identifier: MIT
#include "caseload/evidence.hpp"
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

namespace caseload {
namespace {

using BK = BearingKind;

double life_Mrev(double C, double P, double p = 3) {
    return iso_281::basic_life_Mrev({.C_N = C, .P_N = P, .exponent = p});
}

/// Rating that gives a life in million revolutions: C = P L^(1/p), through our own life.
double rating_for(double P, double wanted_Mrev, double p = 3) {
    return P * std::pow(wanted_Mrev / life_Mrev(P, P, p), 1 / p);
}

double mean(std::initializer_list<iso_281::LoadBlock> blocks, double p = 3) {
    return iso_281::mean_load_N({blocks.begin(), blocks.size()}, p);
}

double worst_a1() {
    constexpr std::array<std::array<double, 2>, 14> table{{{0.90, 1},
                                                           {0.95, 0.64},
                                                           {0.96, 0.55},
                                                           {0.97, 0.47},
                                                           {0.98, 0.37},
                                                           {0.99, 0.25},
                                                           {0.992, 0.22},
                                                           {0.994, 0.19},
                                                           {0.996, 0.16},
                                                           {0.998, 0.12},
                                                           {0.999, 0.093},
                                                           {0.9992, 0.087},
                                                           {0.9994, 0.080},
                                                           {0.9995, 0.077}}};
    double worst = 0;
    for (const auto& row : table)
        worst = std::max(worst, std::fabs(iso_281::reliability_factor(row[0]) - row[1]));
    return worst;
}

double worst_f_c(bool ball) {
    constexpr std::array<double, 25> gamma{.01, .02, .03, .04, .05, .06, .07, .08, .09,
                                           .10, .12, .14, .16, .18, .20, .22, .24, .26,
                                           .28, .30, .32, .34, .36, .38, .40};
    constexpr std::array<double, 25> balls{29.1, 35.8, 40.3, 43.8, 46.7, 49.1, 51.1, 52.8, 54.3,
                                           55.5, 57.5, 58.8, 59.6, 59.9, 59.9, 59.6, 59.0, 58.2,
                                           57.1, 56.0, 54.6, 53.2, 51.7, 50.0, 48.4};
    constexpr std::array<double, 20> rollers{52.1, 60.8, 66.5, 70.7, 74.1, 76.9, 79.2,
                                             81.2, 82.8, 84.2, 86.4, 87.7, 88.5, 88.8,
                                             88.7, 88.2, 87.5, 86.4, 85.2, 83.8};
    double worst = 0;
    for (std::size_t i = 0; i < (ball ? balls.size() : rollers.size()); ++i) {
        const double printed = ball ? balls[i] : rollers[i];
        const double ours = ball ? iso_281::f_c_ball(gamma[i]) : iso_281::f_c_roller(gamma[i]);
        worst = std::max(worst, std::fabs(ours / printed - 1));
    }
    return 100 * worst;
}

double worst_a_ISO() {
    constexpr std::array<double, 6> x{0.01, 0.05, 0.1, 0.2, 0.5, 1};
    struct Row {
        BK kind;
        double kappa;
        std::array<double, 6> a;
    };
    const std::array<Row, 10> rows{
        {{BK::deep_groove_ball, 0.2, {0.1334, 0.1647, 0.1884, 0.2237, 0.3035, 0.4146}},
         {BK::deep_groove_ball, 0.4, {0.1666, 0.2438, 0.3119, 0.4295, 0.7681, 1.4168}},
         {BK::deep_groove_ball, 0.7, {0.2848, 0.6478, 1.1272, 2.3829, 10.2436, 50}},
         {BK::deep_groove_ball, 1, {0.3844, 1.1437, 2.4305, 6.9181, 50, 50}},
         {BK::deep_groove_ball, 4, {0.5728, 2.5008, 7.2018, 33.2847, 50, 50}},
         {BK::cylindrical_roller, 0.2, {0.1089, 0.1178, 0.1242, 0.1333, 0.1518, 0.1742}},
         {BK::cylindrical_roller, 0.4, {0.1184, 0.1384, 0.1539, 0.1773, 0.2313, 0.3075}},
         {BK::cylindrical_roller, 0.7, {0.1481, 0.2144, 0.2774, 0.3943, 0.7779, 1.6723}},
         {BK::cylindrical_roller, 1, {0.1692, 0.2797, 0.3986, 0.6505, 1.7141, 5.3106}},
         {BK::cylindrical_roller, 4, {0.2030, 0.4048, 0.6644, 1.3350, 5.5869, 32.9195}}}};
    double worst = 0;
    for (const Row& row : rows)
        for (std::size_t i = 0; i < x.size(); ++i)
            worst = std::max(
                worst,
                std::fabs(iso_281::life_factor(
                              row.kind, {.kappa = row.kappa, .e_C = 1, .C_u_N = x[i], .P_N = 1}) -
                          row.a[i]));
    return worst;
}

double worst_e_C() {
    constexpr std::array<double, 5> kappa{0.3, 0.5, 1, 2, 4};
    constexpr std::array<std::array<double, 9>, 5> printed{
        {{0.5143, 0.2331, 0.1319, 0.0794, 0.5017, 0.1501, 0.0603, 0.0297, 0.0068},
         {0.7278, 0.3299, 0.1867, 0.1123, 0.7100, 0.2125, 0.0853, 0.0421, 0.0097},
         {0.8909, 0.5285, 0.2991, 0.1800, 0.8691, 0.3404, 0.1367, 0.0675, 0.0155},
         {0.8909, 0.8077, 0.4792, 0.2884, 0.8691, 0.5454, 0.2190, 0.1081, 0.0249},
         {0.8909, 0.8077, 0.6855, 0.4620, 0.8691, 0.7803, 0.3508, 0.1731, 0.0399}}};
    double worst = 0;
    for (std::size_t k = 0; k < kappa.size(); ++k)
        for (std::size_t c = 0; c < 9; ++c) {
            const bool line = c < 4;
            const int code = 10 + 2 * static_cast<int>(line ? c : c - 4);
            const double ours = iso_281::contamination_factor(
                {line ? iso_281::FilterGroup::in_line : iso_281::FilterGroup::off_line_or_bath,
                 code},
                {.kappa = kappa[k], .D_pw_mm = 140});
            worst = std::max(worst, std::fabs(ours - printed[k][c]));
        }
    return worst;
}

double estimated_C_kN(double d, double D, double B) {
    return bearing_estimate::estimate(BK::deep_groove_ball,
                                      {.bore_mm = d, .outside_mm = D, .width_mm = B}, {})
               .C_N /
           1000;
}

double modified_life_h() {
    // The whole chain on one bearing: 110 x 170 x 28, 5000 and 2500 N, 2500 r/min, 12 mm2/s.
    const double C_N = iso_281::ball_rating_N(
        {.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13, .b_m = 1.3});
    const double C_0_N =
        iso_76::ball_rating_N({.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13});
    const double P_N = iso_281::equivalent_load_N(
        {BK::deep_groove_ball, 0, iso_76::f_0(18.15 / 140), C_0_N}, {5000, 2500});
    const double kappa = 12 / iso_281::reference_viscosity_mm2ps({.n_rpm = 2500, .D_pw_mm = 140});
    const double e_C = iso_281::contamination_factor({iso_281::FilterGroup::in_line, 14},
                                                     {.kappa = kappa, .D_pw_mm = 140});
    const double a_ISO = iso_281::life_factor(
        BK::deep_groove_ball,
        {kappa, e_C, iso_281::fatigue_limit_N(BK::deep_groove_ball, {C_0_N, 140}), P_N});
    return iso_281::hours_h({a_ISO * life_Mrev(C_N, P_N), 2500});
}

double palmgren_W() {
    const double torque_Nmm =
        palmgren::idle_torque_Nmm({.f0 = 2.2, .nu_mm2ps = 10, .n_rpm = 3000, .d_m_mm = 85}) +
        palmgren::load_torque_Nmm({.f1 = 0.0003, .P_1_N = 5000, .d_m_mm = 85});
    return Nm_from_Nmm(torque_Nmm) * radps_from_rpm(3000);
}

constexpr Calculation own[] = {
    {"iso-281-a1-table", worst_a1},
    {"iso-281-f-c-ball-table", [] { return worst_f_c(true); }},
    {"iso-281-f-c-roller-table", [] { return worst_f_c(false); }},
    {"iso-281-a-iso-table", worst_a_ISO},
    {"iso-281-e-c-table", worst_e_C},
    {"iso-281-nu-1-low",
     [] { return iso_281::reference_viscosity_mm2ps({.n_rpm = 500, .D_pw_mm = 140}); }},
    {"iso-281-nu-1-high",
     [] { return iso_281::reference_viscosity_mm2ps({.n_rpm = 3000, .D_pw_mm = 85}); }},
    {"iso-281-whole-chain", modified_life_h},
    {"palmgren-power", palmgren_W},
    {"jindal-18-2-v1", [] { return life_Mrev(5590, 0.56 * 1250 + 1.2 * 625); }},
    {"jindal-18-4", [] { return iso_281::hours_h({life_Mrev(41000, 20000), 720}); }},
    {"jindal-18-9",
     [] {
         const double P = mean({{3000, 0.25 * 1440}, {4000, 0.5 * 1080}, {5000, 0.25 * 720}});
         return rating_for(P, 10000 * 60 * 1080 / 1e6);
     }},
    {"wentzell-20-1", [] { return iso_281::hours_h({life_Mrev(5050, 2400), 1750}); }},
    {"wentzell-20-2", [] { return rating_for(2400, 21); }},
    {"mott-14-6-mean", [] { return mean({{650, 30}, {750, 10}, {250, 20}}); }},
    {"mott-14-2-rating", [] { return rating_for(650, 30000.0 * 60 * 600 / 1e6); }},
    {"bhandari-15-3-hours", [] { return iso_281::hours_h({life_Mrev(7350, 3000), 720}); }},
    {"shigley-8e-11-7", [] { return rating_for(12, 4000.0 * 60 * 750 / 1e6, 10.0 / 3); }},
    {"shigley-8e-11-1-xd", [] { return 30000.0 / iso_281::hours_h({1, 300}); }},
    {"rating-15x32x9", [] { return estimated_C_kN(15, 32, 9); }},
    {"rating-30x62x16", [] { return estimated_C_kN(30, 62, 16); }},
    {"rating-40x90x23", [] { return estimated_C_kN(40, 90, 23); }},
    {"rating-60x110x22", [] { return estimated_C_kN(60, 110, 22); }},
    {"rating-70x125x24", [] { return estimated_C_kN(70, 125, 24); }},
    {"rating-80x140x26", [] { return estimated_C_kN(80, 140, 26); }},
    {"rating-90x160x30", [] { return estimated_C_kN(90, 160, 30); }},
    {"rating-55x90x18", [] { return estimated_C_kN(55, 90, 18); }},
};

}  // namespace

std::span<const Calculation> bearing_calculations() {
    return own;
}

}  // namespace caseload
