// SPDX-License-Identifier: MIT
#include "caseload/formulas/weibull.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"

#include <cmath>

namespace caseload::weibull {
namespace {

void check(const Distribution& distribution) {
    require_not_negative(distribution.x_0, "x_0");
    require_positive(distribution.theta - distribution.x_0, "theta - x_0");
    require_positive(distribution.slope, "slope");
}

}  // namespace

Distribution two_parameter(double slope) {
    require_positive(slope, "slope");
    return {.x_0 = 0, .theta = std::pow(std::log(1 / 0.9), -1 / slope), .slope = slope};
}

double life_ratio(const Distribution& distribution, Failing failing, double reliability) {
    check(distribution);
    require_within(reliability, {1e-9, 1 - 1e-9}, "reliability");
    const double share =
        failing == Failing::logarithm ? std::log(1 / reliability) : 1 - reliability;
    return distribution.x_0 +
           (distribution.theta - distribution.x_0) * std::pow(share, 1 / distribution.slope);
}

double reliability(const Distribution& distribution, double life_ratio) {
    check(distribution);
    require_not_negative(life_ratio, "life_ratio");
    if (life_ratio <= distribution.x_0) return 1;
    return std::exp(
        -std::pow((life_ratio - distribution.x_0) / (distribution.theta - distribution.x_0),
                  distribution.slope));
}

double rating_N(const Duty& duty, double life_ratio) {
    require_positive(life_ratio, "life_ratio");
    return iso_281::required_rating_N(
        {.P_N = duty.P_N, .life_Mrev = duty.life_Mrev / life_ratio, .exponent = duty.exponent});
}

double reliability_on_duty(const Distribution& distribution, const Duty& duty, double C_N) {
    require_positive(duty.life_Mrev, "life_Mrev");
    const double rated_Mrev =
        iso_281::basic_life_Mrev({.C_N = C_N, .P_N = duty.P_N, .exponent = duty.exponent});
    return reliability(distribution, duty.life_Mrev / rated_Mrev);
}

}  // namespace caseload::weibull
