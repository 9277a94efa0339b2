// SPDX-License-Identifier: MIT
#include "caseload/evidence.hpp"
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/weibull.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <initializer_list>

namespace caseload {
namespace {

using BK = BearingKind;

constexpr double p_ball = 3;
constexpr double p_roller = 10.0 / 3;
/// Static factor behind textbook load factor tables: C0 of before 1987 is 12.3 Z D_w^2.
constexpr double textbook_f_0 = 12.3;
/// Life some makers and books rate at, million revolutions.
constexpr double rated_90_Mrev = 90;

double life_Mrev(double C, double P, double p = p_ball) {
    return iso_281::basic_life_Mrev({.C_N = C, .P_N = P, .exponent = p});
}

/// Where a rising function of a load or rating passes zero.
template <class F>
double root(const F& over) {
    std::uintmax_t steps = 200;
    return boost::math::tools::toms748_solve(over, 1e-6, 1e9,
                                             boost::math::tools::eps_tolerance<double>(48), steps)
        .first;
}

/// Rating with which the load leaves the life.
double rating(double P, double life, double p = p_ball) {
    return root([&](double C) { return life_Mrev(C, P, p) - life; });
}

/// Load a rating carries for a life.
double load(double C, double life, double p = p_ball) {
    return root([&](double P) { return life - life_Mrev(C, P, p); });
}

double Mrev(double hours, double n_rpm) {
    return hours / iso_281::hours_h({.life_Mrev = 1, .n_rpm = n_rpm});
}

double hours(double life, double n_rpm) {
    return iso_281::hours_h({.life_Mrev = life, .n_rpm = n_rpm});
}

struct Block {
    double P;
    double revolutions;
};
/// Load under which any bearing lives as long as under all of them in turn.
double mean(std::initializer_list<Block> blocks) {
    constexpr double C = 1;
    double revolutions = 0;
    double used = 0;
    for (const Block& block : blocks) {
        revolutions += block.revolutions;
        if (block.P > 0) used += block.revolutions / life_Mrev(C, block.P);
    }
    return load(C, revolutions / used);
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

/// Life at a reliability in rating lives, two-parameter distribution.
double life_share(double slope, double reliability) {
    return weibull::characteristic_life(slope) * std::pow(-std::log(reliability), 1 / slope);
}

/// Share that survives a life in rating lives, the same distribution.
double surviving(double slope, double share) {
    return std::exp(-std::pow(share / weibull::characteristic_life(slope), slope));
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

/// The textbook's roller ratings are based on b_m = 1.0, the standard has 1.1.
double roller_kN(const bearing_estimate::Size& bearing) {
    const auto own = size(BK::cylindrical_roller, bearing);
    return iso_281::roller_rating_N({.D_we_mm = own.D_w_mm,
                                     .L_we_mm = own.L_we_mm,
                                     .D_pw_mm = own.D_pw_mm,
                                     .cos_alpha = 1,
                                     .Z = own.Z},
                                    1.0) /
           1000;
}

/// K = 1.95 = 0.389 cot a; rated at 90 million revolutions.
double tapered_25_kN() {
    const double angle_deg = deg_from_rad(std::atan(0.389 / 1.95));
    const double C_kN = size(BK::tapered_roller, {25, 62, 25.25}, angle_deg).C_N / 1000;
    return load(C_kN, rated_90_Mrev, p_roller);
}

constexpr Calculation own[] = {
    {"shigley-8e-11-1-xd", [] { return Mrev(30000, 300); }},
    {"shigley-8e-11-6-load-first", [] { return deep_groove_load(8, 4, 37.5); }},
    {"shigley-8e-11-6-rating-first", [] { return rating(10.32, Mrev(5000, 900)); }},
    {"shigley-8e-11-6-load-second", [] { return deep_groove_load(8, 4, 45); }},
    {"shigley-8e-11-6-rating-second", [] { return rating(10.60, Mrev(5000, 900)); }},
    {"shigley-8e-11-7-y", [] { return Y_at(4, 62); }},
    {"shigley-8e-11-7-load", [] { return deep_groove_load(8, 4, 62); }},
    {"shigley-8e-11-8-rating", [] { return rating(12, Mrev(4000, 750), p_roller); }},
    {"shigley-9e-11-1", [] { return rating(400, Mrev(5000, 1725)); }},
    {"shigley-9e-11-4", [] { return deep_groove_load(500, 400, 4450); }},
    {"shigley-9e-11-6",
     [] { return mean({{873, 0.077}, {795, 0.115}, {966, 0.346}, {835, 0.462}}); }},
    {"shigley-9e-11-8-induced", [] { return book_induced(2654, 1.5); }},
    {"shigley-9e-11-8-load", [] { return combined(0.4, 2170, 1.5, 832 + 1690); }},
    {"shigley-8e-11-7-column", worst_book_Y},
    {"mott-14-2-rating", [] { return rating(650, Mrev(30000, 600)); }},
    {"mott-14-6-mean", [] { return mean({{650, 30}, {750, 10}, {250, 20}}); }},
    {"faires-601-load", [] { return combined(0.56, 1500, 1.93, 1000); }},
    {"faires-601-rating", [] { return rating(2770, Mrev(15000, 1500)); }},
    {"faires-601-life", [] { return life_Mrev(29900, 2770); }},
    {"faires-601-reliability",
     [] { return surviving(1.34, Mrev(15000, 1500) / life_Mrev(29900, 2770)); }},
    {"faires-601-hours", [] { return hours(life_Mrev(29900, 2770), 1500); }},
    {"wentzell-20-4-y", [] { return Y_at(300, 2320); }},
    {"bhandari-15-1", [] { return rating(5000, Mrev(8000, 1450)); }},
    {"bhandari-15-2", [] { return load(26000, Mrev(8000, 300), p_roller); }},
    {"khurmi-27-variable",
     [] {
         return rating(mean({{3, 0.1}, {2, 0.2}, {1, 0.3}, {0, 0.4}}), 20 / life_share(1.17, 0.95));
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
