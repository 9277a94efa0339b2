// SPDX-License-Identifier: MIT
#include "caseload/formulas/exchanger.hpp"

#include "caseload/error.hpp"

#include <boost/math/special_functions/bessel.hpp>
#include <boost/math/tools/toms748_solve.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::exchanger {
namespace {

constexpr double largest_NTU = 30;

void check(const Duty& duty) {
    require_within(duty.NTU, {0, 1e6}, "NTU");
    require_within(duty.C_ratio, {0, 1}, "C_ratio");
}

}  // namespace

double effectiveness_crossflow_unmixed(const Duty& duty) {
    check(duty);
    const double NTU = std::min(duty.NTU, largest_NTU);
    const double C = duty.C_ratio;
    if (NTU == 0) return 0;
    if (C < 1e-6) return -std::expm1(-NTU);  // the next term is of the order C
    const double x = 2 * NTU * std::sqrt(C);
    // Downward recurrence (Miller) gives all I_n at once but for a factor; I_0 of the library fixes
    // that factor.
    const int start = 20 + static_cast<int>(1.5 * x);
    double next = 0;
    double here = 1e-280;
    double weighted = 0;  // sum_{n>=2} C^(n/2) I_n
    double I_1 = 0;
    const double root_C = std::sqrt(C);
    double power = std::pow(root_C, start);
    for (int n = start; n >= 1; --n) {
        if (here > 1e250) {  // rescale long before overflow
            here *= 1e-250;
            next *= 1e-250;
            weighted *= 1e-250;
        }
        if (n >= 2) weighted += power * here;
        if (n == 1) I_1 = here;
        power /= root_C;
        const double before = next + 2.0 * n / x * here;
        next = here;
        here = before;
    }
    const double I_0 = here;
    const double scale = boost::math::cyl_bessel_i(0, x) / I_0;
    return 1 - std::exp(-NTU * (1 + C)) * scale *
                   (I_0 + root_C * I_1 - (1 - C) / C * weighted);
}

double effectiveness_counterflow(const Duty& duty) {
    check(duty);
    if (1 - duty.C_ratio < 1e-9) return duty.NTU / (1 + duty.NTU);
    const double left = std::exp(-duty.NTU * (1 - duty.C_ratio));
    return (1 - left) / (1 - duty.C_ratio * left);
}

double effectiveness_max_mixed(const Duty& duty) {
    check(duty);
    if (duty.C_ratio == 0) return -std::expm1(-duty.NTU);
    return -std::expm1(-duty.C_ratio * -std::expm1(-duty.NTU)) / duty.C_ratio;
}

double effectiveness_min_mixed(const Duty& duty) {
    check(duty);
    if (duty.C_ratio == 0) return -std::expm1(-duty.NTU);
    return -std::expm1(std::expm1(-duty.C_ratio * duty.NTU) / duty.C_ratio);
}

double ntu_crossflow_unmixed(const Asked& asked) {
    const auto over = [&](double NTU) {
        return effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = asked.C_ratio}) -
               asked.effectiveness;
    };
    require_within(asked.effectiveness, {0, 1}, "effectiveness");
    if (asked.effectiveness == 0) return 0;
    if (over(largest_NTU) < 0)
        throw Error(Error::Kind::domain,
                    fmt::format("effectiveness = {:.3f}: no cross-flow core reaches it at a "
                                "capacity ratio of {:.2f}",
                                asked.effectiveness, asked.C_ratio));
    std::uintmax_t iterations = 200;
    const auto bracket = boost::math::tools::toms748_solve(
        over, 0.0, largest_NTU, boost::math::tools::eps_tolerance<double>(50), iterations);
    return (bracket.first + bracket.second) / 2;
}

double conductance_WpK(const RatingPoint& rating) {
    require_positive(rating.heat_W, "heat_W");
    require_positive(rating.difference_K, "difference_K");
    const double least_WpK = std::min(rating.oil_capacity_WpK, rating.air_capacity_WpK);
    const double effectiveness = rating.heat_W / (least_WpK * rating.difference_K);
    if (!(effectiveness < 1))
        throw Error(
            Error::Kind::domain,
            fmt::format("cooler.rating: {:.0f} W at {:.0f} K asks for more than its weaker stream "
                        "can carry ({:.0f} W)",
                        rating.heat_W, rating.difference_K, least_WpK * rating.difference_K));
    const double ratio =
        least_WpK / std::max(rating.oil_capacity_WpK, rating.air_capacity_WpK);
    return ntu_crossflow_unmixed({.effectiveness = effectiveness, .C_ratio = ratio}) * least_WpK;
}

double conductance_scaled_WpK(const Scaling& scaling) {
    const double air =
        (1 - scaling.oil_side_share) / std::pow(scaling.air_mass_ratio, 0.6);
    const double oil = scaling.oil_side_share / std::cbrt(scaling.oil_mass_ratio);
    return scaling.conductance_rating_WpK / (air + oil);
}

}  // namespace caseload::exchanger
