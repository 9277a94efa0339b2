// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_281_ratings.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::iso_281 {

double f_c_ball(double gamma) {
    require_within(gamma, {0.005, 0.45}, "gamma");
    constexpr double conformity = 2 * 0.52 / (2 * 0.52 - 1);  // 2 r / (2 r - D_w), r = 0.52 D_w
    const double races = 1.04 * std::pow((1 - gamma) / (1 + gamma), 1.72);
    return 0.41 * 98.0665 * 0.95 * std::pow(conformity, 0.41) * std::pow(gamma, 0.3) *
           std::pow(1 - gamma, 1.39) / std::cbrt(1 + gamma) *
           std::pow(1 + std::pow(races, 10.0 / 3), -0.3);
}

double f_c_roller(double gamma) {
    require_within(gamma, {0.005, 0.45}, "gamma");
    const double races = 1.04 * std::pow((1 - gamma) / (1 + gamma), 143.0 / 108);
    return 207.9 * 0.83 * std::pow(gamma, 2.0 / 9) * std::pow(1 - gamma, 29.0 / 27) /
           std::pow(1 + gamma, 0.25) * std::pow(1 + std::pow(races, 4.5), -2.0 / 9);
}

void require_possible(const BallSet& set) {
    require_positive(set.D_w_mm, "D_w_mm");
    require_positive(set.D_pw_mm, "D_pw_mm");
    require_within(set.cos_alpha, {0.5, 1}, "cos_alpha");
    require_positive(set.Z, "Z");
}

void require_possible(const RollerSet& set) {
    require_positive(set.D_we_mm, "D_we_mm");
    require_positive(set.L_we_mm, "L_we_mm");
    require_positive(set.D_pw_mm, "D_pw_mm");
    require_within(set.cos_alpha, {0.5, 1}, "cos_alpha");
    require_positive(set.Z, "Z");
}

double ball_rating_N(const BallSet& set, double b_m) {
    require_possible(set);
    require_positive(b_m, "b_m");
    const double gamma = set.D_w_mm * set.cos_alpha / set.D_pw_mm;
    const double size =
        set.D_w_mm <= 25.4 ? std::pow(set.D_w_mm, 1.8) : 3.647 * std::pow(set.D_w_mm, 1.4);
    return b_m * f_c_ball(gamma) * std::pow(set.cos_alpha, 0.7) * std::pow(set.Z, 2.0 / 3) * size;
}

double roller_rating_N(const RollerSet& set, double b_m) {
    require_possible(set);
    require_positive(b_m, "b_m");
    const double gamma = set.D_we_mm * set.cos_alpha / set.D_pw_mm;
    return b_m * f_c_roller(gamma) * std::pow(set.L_we_mm * set.cos_alpha, 7.0 / 9) *
           std::pow(set.Z, 0.75) * std::pow(set.D_we_mm, 29.0 / 27);
}

}  // namespace caseload::iso_281
