// SPDX-License-Identifier: MIT
#include "evidence/bearing_textbooks.hpp"

#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/formulas/weibull.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <initializer_list>

namespace caseload {
namespace {

using BK = BearingKind;
using weibull::Duty;
using weibull::Failing;
using weibull::shigley;

constexpr double p_ball = 3;
constexpr double p_roller = 10.0 / 3;
/// Static factor behind textbook load factor tables: C0 of before 1987 is 12.3 Z D_w^2.
constexpr double textbook_f_0 = 12.3;
/// Life some makers and books rate at, million revolutions.
constexpr double rated_90_Mrev = 90;

double life_Mrev(double C, double P, double p = p_ball) {
    return iso_281::basic_life_Mrev({.C_N = C, .P_N = P, .exponent = p});
}

double rating(double P, double life, double p = p_ball) {
    return iso_281::required_rating_N({.P_N = P, .life_Mrev = life, .exponent = p});
}

/// Load a rating carries for a life.
double load(double C, double life, double p = p_ball) {
    return C / rating(1, life, p);
}

double Mrev(double hours, double n_rpm) {
    return hours / iso_281::hours_h({.life_Mrev = 1, .n_rpm = n_rpm});
}

double hours(double life, double n_rpm) {
    return iso_281::hours_h({.life_Mrev = life, .n_rpm = n_rpm});
}

double mean(std::initializer_list<iso_281::LoadBlock> blocks) {
    return iso_281::mean_load_N({blocks.begin(), blocks.size()}, p_ball);
}

double combined(double X, double F_r, double Y, double F_a) {
    return iso_281::combined_load_N({.X = X, .Y = Y}, {.F_r_N = F_r, .F_a_N = F_a});
}

double Y_at(double F_a, double C_0) {
    return iso_281::deep_groove_factors(textbook_f_0 * F_a / C_0).Y;
}

double deep_groove_load(double F_r, double F_a, double C_0) {
    return iso_281::equivalent_load_N(
        {.kind = BK::deep_groove_ball, .contact_angle_deg = 0, .f_0 = textbook_f_0, .C_0_N = C_0},
        {.F_r_N = F_r, .F_a_N = F_a});
}

/// Tapered bearing of the book's K = 0.389 cot a.
double book_induced(double F_r, double K) {
    return iso_281::induced_axial_N({.kind = BK::tapered_roller,
                                     .contact_angle_deg = deg_from_rad(std::atan(0.389 / K)),
                                     .f_0 = 0,
                                     .C_0_N = 1},
                                    F_r);
}

/// Largest deviation from the book's column of Y.
double worst_book_Y() {
    constexpr std::array<std::array<double, 2>, 7> printed{{{0.028, 1.99},
                                                            {0.056, 1.71},
                                                            {0.070, 1.63},
                                                            {0.084, 1.55},
                                                            {0.11, 1.45},
                                                            {0.17, 1.31},
                                                            {0.28, 1.15}}};
    double worst = 0;
    for (const auto& [ratio, Y] : printed) worst = std::max(worst, std::fabs(Y_at(ratio, 1) - Y));
    return worst;
}

double kN_from_lbf(double force_lbf) {
    return N_from_lbf(force_lbf) / 1000;
}

// Shigley's duties: load times application factor, life in million revolutions. The rating comes in
// the unit of the load.
struct Sized {
    Duty duty;
    double reliability = 0.9;
};

double catalogue(const Sized& sized) {
    return weibull::rating_N(sized.duty,
                             weibull::life_ratio(shigley, Failing::logarithm, sized.reliability));
}

double reached(const Duty& duty, double C) {
    return weibull::reliability_on_duty(shigley, duty, C);
}

Duty duty_8e_1() {
    return {1.2 * 1.898, Mrev(30000, 300), p_ball};
}
Duty duty_8e_2_lbf() {
    return {1.4 * 610, Mrev(50000, 480), p_ball};
}
Duty duty_8e_2() {
    return {kN_from_lbf(1.4 * 610), Mrev(50000, 480), p_ball};
}
Duty duty_8e_3() {
    return {10.279, 1440, p_roller};
}
Duty duty_10e_1() {
    return {1.2 * 2.5, Mrev(25000, 350), p_ball};
}
Duty duty_10e_2_lbf() {
    return {1.4 * 725, Mrev(40000, 520), p_ball};
}
Duty duty_10e_2() {
    return {kN_from_lbf(1.4 * 725), Mrev(40000, 520), p_ball};
}
Duty duty_10e_3() {
    return {13.92, 1248, p_roller};
}
Duty duty_of(double P, double life) {
    return {P, life, p_ball};
}

/// Tapered bearings rated at 90 million revolutions, temperature and viscosity factors 0.856.
double tapered(double P, double reliability) {
    const double ratio =
        0.856 * weibull::life_ratio(weibull::shigley_tapered, Failing::difference, reliability);
    return weibull::rating_N({P, Mrev(40000, 400) / rated_90_Mrev, p_roller}, ratio);
}

/// Rating for a life at a reliability, two-parameter distribution.
double two_parameter_rating(double slope, double reliability, const Duty& duty) {
    return weibull::rating_N(
        duty, weibull::life_ratio(weibull::two_parameter(slope), Failing::logarithm, reliability));
}

double jindal_18_10_h() {
    const double other = combined(0.56, 300, 1.13, 120);
    const double n_rpm = 2.0 / 3 * 1440 + 1.0 / 3 * 720;
    return hours(life_Mrev(1430, mean({{600, 2.0 / 3 * 1440}, {other, 1.0 / 3 * 720}})), n_rpm);
}

double khurmi_cycle() {
    return mean({{11400, 0.1 * 400}, {4500, 0.1 * 500}, {6500, 0.2 * 600}, {4200, 0.6 * 800}});
}

bearing_estimate::Estimate size(BK kind, const bearing_estimate::Size& bearing,
                                std::optional<double> angle_deg = {}) {
    return bearing_estimate::estimate(kind, bearing, angle_deg);
}

double ball_kN(const bearing_estimate::Size& bearing) {
    return size(BK::deep_groove_ball, bearing).C_N / 1000;
}

double angular_kN(const bearing_estimate::Size& bearing) {
    return size(BK::angular_contact_ball, bearing).C_N / 1000;
}

/// The textbook's roller ratings stand on b_m = 1.0, the standard has 1.1.
double roller_kN(const bearing_estimate::Size& bearing) {
    const auto own = size(BK::cylindrical_roller, bearing);
    return iso_281::roller_rating_N({.D_we_mm = own.D_w_mm,
                                     .L_we_mm = own.L_we_mm,
                                     .D_pw_mm = own.D_pw_mm,
                                     .cos_alpha = 1,
                                     .Z = own.Z,
                                     .b_m = 1.0}) /
           1000;
}

/// K = 1.95 = 0.389 cot a; rated at 90 million revolutions.
double tapered_25_kN() {
    const double angle_deg = deg_from_rad(std::atan(0.389 / 1.95));
    const double C_kN = size(BK::tapered_roller, {25, 62, 25.25}, angle_deg).C_N / 1000;
    return load(C_kN, rated_90_Mrev, p_roller);
}

constexpr Calculation own[] = {
    {"shigley-8e-11-1-xd", [] { return duty_8e_1().life_Mrev; }},
    {"shigley-8e-11-1-rating", [] { return catalogue({duty_8e_1()}); }},
    {"shigley-8e-11-1-reliability", [] { return reached(duty_8e_1(), 19.5); }},
    {"shigley-8e-11-2-lbf", [] { return catalogue({duty_8e_2_lbf()}); }},
    {"shigley-8e-11-2-kn", [] { return catalogue({duty_8e_2()}); }},
    {"shigley-8e-11-2-reliability", [] { return reached(duty_8e_2(), 46.2); }},
    {"shigley-8e-11-3-rating", [] { return catalogue({duty_8e_3()}); }},
    {"shigley-8e-11-3-reliability", [] { return reached(duty_8e_3(), 102); }},
    {"shigley-8e-11-5-ball-rating", [] { return catalogue({duty_8e_2_lbf(), 0.95}); }},
    {"shigley-8e-11-5-ball-reliability", [] { return reached(duty_8e_2(), 55.9); }},
    {"shigley-8e-11-5-roller-rating", [] { return catalogue({duty_8e_3(), 0.95}); }},
    {"shigley-8e-11-5-roller-reliability", [] { return reached(duty_8e_3(), 123); }},
    {"shigley-8e-11-5-set", [] { return reached(duty_8e_2(), 55.9) * reached(duty_8e_3(), 123); }},
    {"shigley-8e-11-6-radial", [] { return catalogue({duty_of(8, Mrev(5000, 900))}); }},
    {"shigley-8e-11-6-load-first", [] { return deep_groove_load(8, 4, 37.5); }},
    {"shigley-8e-11-6-rating-first", [] { return rating(10.32, Mrev(5000, 900)); }},
    {"shigley-8e-11-6-load-second", [] { return deep_groove_load(8, 4, 45); }},
    {"shigley-8e-11-6-rating-second", [] { return rating(10.60, Mrev(5000, 900)); }},
    {"shigley-8e-11-7-first", [] { return catalogue({duty_of(10.60, Mrev(5000, 900)), 0.96}); }},
    {"shigley-8e-11-7-y", [] { return Y_at(4, 62); }},
    {"shigley-8e-11-7-load", [] { return deep_groove_load(8, 4, 62); }},
    {"shigley-8e-11-7-rating", [] { return catalogue({duty_of(11.12, Mrev(5000, 900)), 0.96}); }},
    {"shigley-8e-11-8-rating", [] { return rating(12, Mrev(4000, 750), p_roller); }},
    {"shigley-8e-11-12-first", [] { return tapered(1.4 * 3.29, 0.95); }},
    {"shigley-8e-11-12-second", [] { return tapered(1.4 * 4.873, 0.95); }},
    {"shigley-10e-11-1-rating", [] { return catalogue({duty_10e_1()}); }},
    {"shigley-10e-11-1-reliability", [] { return reached(duty_10e_1(), 25.5); }},
    {"shigley-10e-11-2-lbf", [] { return catalogue({duty_10e_2_lbf()}); }},
    {"shigley-10e-11-2-kn", [] { return catalogue({duty_10e_2()}); }},
    {"shigley-10e-11-2-reliability", [] { return reached(duty_10e_2(), 55.9); }},
    {"shigley-10e-11-3-rating", [] { return catalogue({duty_10e_3()}); }},
    {"shigley-10e-11-3-reliability", [] { return reached(duty_10e_3(), 123); }},
    {"shigley-10e-11-4-set",
     [] { return reached(duty_10e_2(), 55.9) * reached(duty_10e_3(), 123); }},
    {"shigley-10e-11-5-ball-lbf", [] { return catalogue({duty_10e_2_lbf(), 0.95}); }},
    {"shigley-10e-11-5-ball-kn", [] { return catalogue({duty_10e_2(), 0.95}); }},
    {"shigley-10e-11-5-ball-reliability", [] { return reached(duty_10e_2(), 63.7); }},
    {"shigley-10e-11-5-roller-rating", [] { return catalogue({duty_10e_3(), 0.95}); }},
    {"shigley-10e-11-5-roller-reliability", [] { return reached(duty_10e_3(), 138); }},
    {"shigley-10e-11-6-rating", [] { return catalogue({{20, Mrev(8000, 950), p_roller}, 0.95}); }},
    {"shigley-9e-11-1", [] { return rating(400, Mrev(5000, 1725)); }},
    {"shigley-9e-11-3",
     [] {
         return weibull::rating_N({1.2 * 413, Mrev(30000, 300), p_ball},
                                  weibull::life_ratio(shigley, Failing::difference, 0.99));
     }},
    {"shigley-9e-11-4", [] { return deep_groove_load(500, 400, 4450); }},
    {"shigley-9e-11-6",
     [] { return mean({{873, 0.077}, {795, 0.115}, {966, 0.346}, {835, 0.462}}); }},
    {"shigley-9e-11-8-induced", [] { return book_induced(2654, 1.5); }},
    {"shigley-9e-11-8-load", [] { return combined(0.4, 2170, 1.5, 832 + 1690); }},
    {"shigley-8e-11-7-column", worst_book_Y},

    {"mott-14-2-rating", [] { return rating(650, Mrev(30000, 600)); }},
    {"mott-14-6-mean", [] { return mean({{650, 30}, {750, 10}, {250, 20}}); }},
    {"mott-14-p1", [] { return life_Mrev(2350, 1675); }},
    {"mott-14-p2", [] { return rating(1250, Mrev(20000, 880)); }},
    {"mott-14-p3-light", [] { return life_Mrev(3150, 2200); }},
    {"mott-14-p3-heavy", [] { return life_Mrev(3150, 4500); }},
    {"mott-14-p4", [] { return rating(1450, 828); }},

    {"faires-601-load", [] { return combined(0.56, 1500, 1.93, 1000); }},
    {"faires-601-rating", [] { return rating(2770, Mrev(15000, 1500)); }},
    {"faires-601-life", [] { return life_Mrev(29900, 2770); }},
    {"faires-601-hours", [] { return hours(life_Mrev(29900, 2770), 1500); }},
    {"faires-601-reliability",
     [] {
         return weibull::reliability_on_duty(weibull::two_parameter(1.34),
                                             {2770, Mrev(15000, 1500), p_ball}, 29900);
     }},

    // Friction coefficient on the bore: M = mu P d / 2 is f1 P d with f1 = mu / 2.
    {"jindal-18-1",
     [] {
         return Nm_from_Nmm(
                    palmgren::load_torque_Nmm({.f1 = 0.0011 / 2, .P_1_N = 16000, .d_m_mm = 40})) *
                radps_from_rpm(1440);
     }},
    {"jindal-18-2-v1", [] { return life_Mrev(5590, combined(0.56, 1250, 1.2, 625)); }},
    {"jindal-18-2-v12", [] { return life_Mrev(5590, combined(0.56, 1.2 * 1250, 1.2, 625)); }},
    {"jindal-18-4", [] { return hours(life_Mrev(41000, 20000), 720); }},
    {"jindal-18-7",
     [] { return two_parameter_rating(1.17, 0.98, {3500, Mrev(6000, 1400), p_ball}); }},
    {"jindal-18-8", [] { return two_parameter_rating(1.17, std::cbrt(0.83), {3, 6, p_ball}); }},
    {"jindal-18-9",
     [] {
         return rating(mean({{3000, 0.25 * 1440}, {4000, 0.5 * 1080}, {5000, 0.25 * 720}}),
                       Mrev(10000, 1080));
     }},
    {"jindal-18-10", jindal_18_10_h},
    {"wentzell-20-1", [] { return hours(life_Mrev(5050, 2400), 1750); }},
    {"wentzell-20-2", [] { return rating(2400, 21); }},
    {"wentzell-20-4-y", [] { return Y_at(300, 2320); }},
    {"wentzell-20-4-life", [] { return life_Mrev(3350, 1095); }},
    {"bhandari-15-3-load", [] { return combined(0.56, 2500, 1.6, 1000); }},
    {"bhandari-15-3-hours", [] { return hours(life_Mrev(7350, 3000), 720); }},
    {"bhandari-15-1", [] { return rating(5000, Mrev(8000, 1450)); }},
    {"bhandari-15-2", [] { return load(26000, Mrev(8000, 300), p_roller); }},
    {"khurmi-27-variable",
     [] {
         return two_parameter_rating(1.17, 0.95,
                                     {mean({{3, 0.1}, {2, 0.2}, {1, 0.3}, {0, 0.4}}), 20, p_ball});
     }},
    {"khurmi-27-cycle-mean", khurmi_cycle},
    {"khurmi-27-cycle-rating", [] { return rating(khurmi_cycle(), Mrev(15000, 690)) / 1000; }},

    {"rating-15x32x9", [] { return ball_kN({15, 32, 9}); }},
    {"rating-25x37x7", [] { return ball_kN({25, 37, 7}); }},
    {"rating-25x47x8", [] { return ball_kN({25, 47, 8}); }},
    {"rating-30x62x16", [] { return ball_kN({30, 62, 16}); }},
    {"rating-35x72x17", [] { return ball_kN({35, 72, 17}); }},
    {"rating-40x90x23", [] { return ball_kN({40, 90, 23}); }},
    {"rating-50x80x16", [] { return ball_kN({50, 80, 16}); }},
    {"rating-55x90x18", [] { return ball_kN({55, 90, 18}); }},
    {"rating-60x95x18", [] { return ball_kN({60, 95, 18}); }},
    {"rating-60x110x22", [] { return ball_kN({60, 110, 22}); }},
    {"rating-65x100x18", [] { return ball_kN({65, 100, 18}); }},
    {"rating-65x120x23", [] { return ball_kN({65, 120, 23}); }},
    {"rating-70x110x20", [] { return ball_kN({70, 110, 20}); }},
    {"rating-70x125x24", [] { return ball_kN({70, 125, 24}); }},
    {"rating-75x115x20", [] { return ball_kN({75, 115, 20}); }},
    {"rating-80x140x26", [] { return ball_kN({80, 140, 26}); }},
    {"rating-90x160x30", [] { return ball_kN({90, 160, 30}); }},
    {"rating-angular-55x100x21", [] { return angular_kN({55, 100, 21}); }},
    {"rating-angular-60x110x22", [] { return angular_kN({60, 110, 22}); }},
    {"rating-angular-65x120x23", [] { return angular_kN({65, 120, 23}); }},
    {"rating-roller-55x120x29", [] { return roller_kN({55, 120, 29}); }},
    {"rating-roller-60x130x31", [] { return roller_kN({60, 130, 31}); }},
    {"rating-tapered-25x62x25", tapered_25_kN},
};

}  // namespace

std::span<const Calculation> bearing_textbook_calculations() {
    return own;
}

}  // namespace caseload
