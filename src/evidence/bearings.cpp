// SPDX-License-Identifier: MIT
#include "caseload/evidence.hpp"
#include "caseload/formulas/iso_15312.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/iso_281_system.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"
#include "evidence/bearing_textbooks.hpp"
#include "evidence/fleet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <vector>

namespace caseload {
namespace {

using BK = BearingKind;

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
        worst = std::max(worst, std::fabs(ours - printed));
    }
    return worst;
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

double worst_f_0() {
    // Point contact at 4200 MPa, groove radii 0.52 and 0.53 D_w, 2.07e5 MPa, gamma 0 to 0.40.
    constexpr std::array<double, 41> hertz{
        14.73, 14.93, 15.13, 15.33, 15.53, 15.73, 15.93, 16.13, 16.33, 16.54, 16.40,
        16.15, 15.90, 15.65, 15.41, 15.16, 14.92, 14.68, 14.43, 14.19, 13.95, 13.72,
        13.48, 13.24, 13.01, 12.77, 12.54, 12.31, 12.07, 11.84, 11.62, 11.39, 11.16,
        10.94, 10.71, 10.49, 10.27, 10.04, 9.83,  9.61,  9.39};
    double worst = 0;
    for (std::size_t i = 0; i < hertz.size(); ++i)
        worst = std::max(worst, std::fabs(iso_76::f_0(static_cast<double>(i) / 100) - hertz[i]));
    return worst;
}

double worst_nu_1() {
    constexpr std::array<std::array<double, 3>, 6> rows{{{100, 140, 83.205},
                                                         {500, 140, 21.878},
                                                         {1000, 140, 12.027},
                                                         {3000, 140, 6.944},
                                                         {6000, 140, 4.910},
                                                         {3000, 85, 8.911}}};
    double worst = 0;
    for (const auto& row : rows)
        worst = std::max(
            worst,
            std::fabs(iso_281::reference_viscosity_mm2ps({.n_rpm = row[0], .D_pw_mm = row[1]}) -
                      row[2]));
    return worst;
}

double worst_survival() {
    constexpr std::array<std::array<double, 2>, 6> rows{
        {{0.1, 0.99873}, {0.25, 0.98987}, {0.5, 0.96623}, {1, 0.9}, {2, 0.73356}, {5, 0.28561}}};
    double worst = 0;
    for (const auto& row : rows)
        worst = std::max(worst, std::fabs(iso_281::survival(row[0]) - row[1]));
    return worst;
}

/// Loads over one period, as the mean of many blocks of equal length.
double worst_mean() {
    struct Row {
        double (*load)(double);
        double ball;
        double roller;
    };
    const std::array<Row, 3> rows{
        {{[](double t) { return t; }, 0.6300, 0.6441},
         {[](double t) { return (1 - std::cos(2 * pi * t)) / 2; }, 0.6786, 0.6952},
         {[](double t) { return std::sin(pi * t); }, 0.7515, 0.7630}}};
    constexpr int steps = 4000;
    double worst = 0;
    for (const Row& row : rows) {
        std::vector<iso_281::LoadBlock> blocks;
        blocks.reserve(steps);
        for (int i = 0; i < steps; ++i)
            blocks.push_back({.P_N = row.load((i + 0.5) / steps), .revolutions = 1});
        worst = std::max({worst, std::fabs(iso_281::mean_load_N(blocks, 3) - row.ball),
                          std::fabs(iso_281::mean_load_N(blocks, 10.0 / 3) - row.roller)});
    }
    return worst;
}

double system_h(double slope) {
    constexpr std::array<double, 2> lives{10000, 20000};
    return slope > 0 ? iso_281::system_life(lives, slope)
                     : iso_281::system_life_three_parameter(lives);
}

// The whole chain on one bearing: 110 x 170 x 28, 5000 and 2500 N, 2500 r/min, 12 mm2/s, oil
// through an in-line filter, -/17/14.
struct Chain {
    double C_N = iso_281::ball_rating_N(
        {.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13, .b_m = 1.3});
    double C_0_N =
        iso_76::ball_rating_N({.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13});
    double P_N = iso_281::equivalent_load_N({.kind = BK::deep_groove_ball,
                                             .contact_angle_deg = 0,
                                             .f_0 = iso_76::f_0(18.15 / 140),
                                             .C_0_N = C_0_N},
                                            {.F_r_N = 5000, .F_a_N = 2500});
    double kappa = 12 / iso_281::reference_viscosity_mm2ps({.n_rpm = 2500, .D_pw_mm = 140});
    double e_C = iso_281::contamination_factor({iso_281::FilterGroup::in_line, 14},
                                               {.kappa = kappa, .D_pw_mm = 140});
    double C_u_N = iso_281::fatigue_limit_N(BK::deep_groove_ball, {C_0_N, 140});
    double a_ISO = iso_281::life_factor(BK::deep_groove_ball,
                                        {.kappa = kappa, .e_C = e_C, .C_u_N = C_u_N, .P_N = P_N});
    double L10_Mrev = iso_281::basic_life_Mrev({.C_N = C_N, .P_N = P_N, .exponent = 3});
};

// Two tapered bearings, Y 1.4, 4000 and 3000 N radial, 1500 N external towards the first: without
// preload the second sets 1071.4 N up and the first carries 2571.4 N.
constexpr double cot_pair = 1.4 / 0.4;

double induced_N(double F_r_N) {
    return iso_281::induced_axial_N({.kind = BK::tapered_roller,
                                     .contact_angle_deg = deg_from_rad(std::atan(1 / cot_pair)),
                                     .f_0 = 0,
                                     .C_0_N = 1},
                                    F_r_N);
}

double pair_life_Mrev(double C_N, const iso_281::Load& load) {
    const double P_N =
        iso_281::equivalent_load_N({.kind = BK::tapered_roller,
                                    .contact_angle_deg = deg_from_rad(std::atan(1 / cot_pair)),
                                    .f_0 = 0,
                                    .C_0_N = 1},
                                   load);
    return iso_281::basic_life_Mrev({.C_N = C_N, .P_N = P_N, .exponent = 10.0 / 3});
}

double palmgren_Nmm() {
    return palmgren::idle_torque_Nmm({.f0 = 2.2, .nu_mm2ps = 10, .n_rpm = 3000, .d_m_mm = 85}) +
           palmgren::load_torque_Nmm({.f1 = 0.0003, .P_1_N = 5000, .d_m_mm = 85});
}

double idle_140_Nmm() {
    return palmgren::idle_torque_Nmm({.f0 = 2, .nu_mm2ps = 10, .n_rpm = 3000, .d_m_mm = 140});
}

constexpr std::array<BK, 6> kinds{BK::deep_groove_ball, BK::angular_contact_ball,
                                  BK::four_point_ball,  BK::cylindrical_roller,
                                  BK::tapered_roller,   BK::spherical_roller};

double worst_of_kinds(const std::array<double, 6>& printed, double (*ours)(BK)) {
    double worst = 0;
    for (std::size_t i = 0; i < kinds.size(); ++i)
        worst = std::max(worst, std::fabs(ours(kinds[i]) / printed[i] - 1));
    return worst;
}

constexpr iso_15312::Boundary rated_boundary{.bore_mm = 110, .outside_mm = 170, .width_mm = 28};

constexpr Calculation standards[] = {
    {"iso-281-a1-table", worst_a1},
    {"iso-281-f-c-ball-table", [] { return worst_f_c(true); }},
    {"iso-281-f-c-roller-table", [] { return worst_f_c(false); }},
    {"iso-281-a-iso-table", worst_a_ISO},
    {"iso-281-e-c-table", worst_e_C},
    {"iso-281-nu-1", worst_nu_1},
    {"iso-281-survival", worst_survival},
    {"iso-281-median", [] { return iso_281::reliability_factor(0.5); }},
    {"iso-281-mean-loads", worst_mean},
    {"iso-281-system-a1", [] { return system_h(iso_281::slope_a1); }},
    {"iso-281-system-point", [] { return system_h(iso_281::slope_point); }},
    {"iso-281-system-line", [] { return system_h(iso_281::slope_line); }},
    {"iso-281-system-exact", [] { return system_h(0); }},
    {"iso-281-fatigue-limit-small",
     [] { return iso_281::fatigue_limit_N(BK::deep_groove_ball, {50000, 85}); }},
    {"iso-281-fatigue-limit-ball",
     [] { return iso_281::fatigue_limit_N(BK::deep_groove_ball, {50000, 140}); }},
    {"iso-281-fatigue-limit-roller",
     [] { return iso_281::fatigue_limit_N(BK::cylindrical_roller, {200000, 155}); }},
    {"iso-76-f-0-hertz", worst_f_0},
    {"iso-281-chain-rating", [] { return Chain{}.C_N; }},
    {"iso-281-chain-static", [] { return Chain{}.C_0_N; }},
    {"iso-281-chain-load", [] { return Chain{}.P_N; }},
    {"iso-281-chain-basic", [] { return iso_281::hours_h({Chain{}.L10_Mrev, 2500}); }},
    {"iso-281-chain-kappa", [] { return Chain{}.kappa; }},
    {"iso-281-chain-e-c", [] { return Chain{}.e_C; }},
    {"iso-281-chain-a-iso", [] { return Chain{}.a_ISO; }},
    {"iso-281-whole-chain",
     [] {
         const Chain chain;
         return iso_281::hours_h({chain.a_ISO * chain.L10_Mrev, 2500});
     }},
    {"bearing-pair-induced", [] { return induced_N(3000); }},
    {"bearing-pair-life-a",
     [] { return pair_life_Mrev(150000, {.F_r_N = 4000, .F_a_N = 1500 + induced_N(3000)}); }},
    {"bearing-pair-life-b",
     [] { return pair_life_Mrev(120000, {.F_r_N = 3000, .F_a_N = induced_N(3000)}); }},
    {"harris-45-mm-ball",
     [] {
         return iso_281::ball_rating_N(
             {.D_w_mm = 12.7, .D_pw_mm = 65, .cos_alpha = 1, .Z = 9, .b_m = 1.3});
     }},
    {"harris-45-mm-roller",
     [] {
         return iso_281::roller_rating_N({.D_we_mm = 10,
                                          .L_we_mm = 9.6,
                                          .D_pw_mm = 65,
                                          .cos_alpha = 1,
                                          .Z = 14,
                                          .b_m = 1.0}) /
                1000;
     }},
    {"palmgren-torque", palmgren_Nmm},
    {"palmgren-power", [] { return Nm_from_Nmm(palmgren_Nmm()) * radps_from_rpm(3000); }},
    {"palmgren-idle-140", idle_140_Nmm},
    {"palmgren-idle-140-power", [] { return Nm_from_Nmm(idle_140_Nmm()) * radps_from_rpm(3000); }},
    {"palmgren-f1-ball", [] { return palmgren::f1(BK::deep_groove_ball, 0.05); }},
    {"friction-f0-bath",
     [] {
         return worst_of_kinds({2, 3.3, 6, 3, 6, 6}, [](BK kind) {
             return palmgren::f0_default(kind, palmgren::Supply::splash);
         });
     }},
    {"friction-f1-tenth",
     [] {
         return worst_of_kinds({0.00022, 0.00046, 0.00046, 0.0003, 0.0004, 0.0006},
                               [](BK kind) { return palmgren::f1(kind, 0.1); });
     }},
    {"iso-15312-heat",
     [] { return iso_15312::reference_heat_W(iso_15312::reference_surface_mm2(rated_boundary)); }},
    {"iso-15312-speed",
     [] {
         return iso_15312::thermal_speed_rpm({.boundary = rated_boundary, .C_0_N = 66900},
                                             {.f_0r = 1.7, .f_1r = 0.00015});
     }},
};

}  // namespace

std::span<const Calculation> bearing_calculations() {
    static const std::vector<Calculation> all = [] {
        std::vector<Calculation> both(std::begin(standards), std::end(standards));
        const auto textbooks = bearing_textbook_calculations();
        both.insert(both.end(), textbooks.begin(), textbooks.end());
        const auto lives = fleet_calculations();
        both.insert(both.end(), lives.begin(), lives.end());
        return both;
    }();
    return all;
}

}  // namespace caseload
