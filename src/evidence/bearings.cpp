// SPDX-License-Identifier: MIT
#include "caseload/evidence.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/palmgren.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>

namespace caseload {
namespace {

using BK = BearingKind;

/// Life over the rating life that a share of the bearings survives.
double reliability_factor(double share) {
    std::uintmax_t steps = 200;
    return boost::math::tools::toms748_solve(
               [&](double life) { return share - iso_281::survival(life); }, 0.0, 10.0,
               boost::math::tools::eps_tolerance<double>(40), steps)
        .first;
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
    for (const auto& [share, a1] : table)
        worst = std::max(worst, std::fabs(reliability_factor(share) - a1));
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

constexpr std::array<BK, 6> kinds{BK::deep_groove_ball, BK::angular_contact_ball,
                                  BK::four_point_ball,  BK::cylindrical_roller,
                                  BK::tapered_roller,   BK::spherical_roller};

double worst_of_kinds(const std::array<double, 6>& printed, double (*ours)(BK)) {
    double worst = 0;
    for (std::size_t i = 0; i < kinds.size(); ++i)
        worst = std::max(worst, std::fabs(ours(kinds[i]) / printed[i] - 1));
    return worst;
}

constexpr Calculation standards[] = {
    {"iso-281-a1-table", worst_a1},
    {"iso-281-f-c-ball-table", [] { return worst_f_c(true); }},
    {"iso-281-f-c-roller-table", [] { return worst_f_c(false); }},
    {"harris-45-mm-ball",
     [] {
         return iso_281::ball_rating_N({.D_w_mm = 12.7, .D_pw_mm = 65, .cos_alpha = 1, .Z = 9},
                                       1.3);
     }},
    {"harris-45-mm-roller",
     [] {
         return iso_281::roller_rating_N(
                    {.D_we_mm = 10, .L_we_mm = 9.6, .D_pw_mm = 65, .cos_alpha = 1, .Z = 14}, 1.0) /
                1000;
     }},
    {"friction-f0-bath",
     [] {
         return worst_of_kinds({2, 3.3, 6, 3, 6, 6}, [](BK kind) {
             return palmgren::f0_default(kind, "02", palmgren::Supply::splash);
         });
     }},
    {"friction-f1-tenth",
     [] {
         return worst_of_kinds({0.00022, 0.00046, 0.00046, 0.0003, 0.0004, 0.0006},
                               [](BK kind) { return palmgren::f1(kind, 0.1); });
     }},
};

}  // namespace

std::span<const Calculation> bearing_calculations() {
    return standards;
}

}  // namespace caseload
