// SPDX-License-Identifier: MIT
#include "caseload/formulas/exchanger.hpp"

#include "caseload/error.hpp"

#include <fmt/format.h>
#include <boost/math/tools/toms748_solve.hpp>

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
    const double NTU = duty.NTU;
    const double C = duty.C_ratio;
    // The next terms are of the order of C and of NTU.
    if (C < 1e-12 || NTU < 1e-12) return -std::expm1(-NTU);
    const double root_C = std::sqrt(C);
    const double x = 2 * NTU * root_C;
    // Downward recurrence (Miller) gives all I_n(x) but for one factor, stable and without
    // overflow; e^x = I_0 + 2 (I_1 + I_2 + ..) then gives I_n e^-x itself. I_n falls as
    // e^(-n^2/2x): the start lies beyond the 1e-17 of I_0.
    const int start = 12 + static_cast<int>(9 * std::sqrt(x));
    double next = 0;
    double here = 1e-280;
    double sum = 0;       // I_1 + I_2 + ..
    double weighted = 0;  // sum_{n>=2} C^(n/2) I_n
    double I_1 = 0;
    double power = std::pow(root_C, start);
    for (int n = start; n >= 1; --n) {
        sum += here;
        if (n >= 2)
            weighted += power * here;
        else
            I_1 = here;
        power /= root_C;
        const double before = next + 2.0 * n / x * here;
        next = here;
        here = before;
        if (here > 1e200) {
            here *= 1e-200;
            next *= 1e-200;
            sum *= 1e-200;
            weighted *= 1e-200;
            I_1 *= 1e-200;
        }
    }
    const double I_0 = here;
    const double bracket = (I_0 + root_C * I_1 - (1 - C) / C * weighted) / (I_0 + 2 * sum);
    return 1 - std::exp(-NTU * (1 - root_C) * (1 - root_C)) * bracket;
}

double ntu_crossflow_unmixed(const Asked& asked) {
    require_within(asked.effectiveness, {0, 1}, "effectiveness");
    require_within(asked.C_ratio, {0, 1}, "C_ratio");
    if (asked.effectiveness == 0) return 0;
    const auto over = [&](double NTU) {
        return effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = asked.C_ratio}) -
               asked.effectiveness;
    };
    if (over(largest_NTU) < 0)
        throw Error(Error::Kind::domain,
                    fmt::format("effectiveness = {:.3f}: no cross-flow core reaches it at a "
                                "capacity ratio of {:.2f}",
                                asked.effectiveness, asked.C_ratio));
    std::uintmax_t iterations = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        over, 0.0, largest_NTU, boost::math::tools::eps_tolerance<double>(46), iterations);
    if (iterations >= 200)
        throw Error(Error::Kind::convergence, "transfer units not found in 200 steps");
    return (low + high) / 2;
}

double conductance_WpK(const RatingPoint& rating) {
    require_positive(rating.heat_W, "heat_W");
    require_positive(rating.difference_K, "difference_K");
    require_positive(rating.oil_capacity_WpK, "oil_capacity_WpK");
    require_positive(rating.air_capacity_WpK, "air_capacity_WpK");
    const double least_WpK = std::min(rating.oil_capacity_WpK, rating.air_capacity_WpK);
    const double effectiveness = rating.heat_W / (least_WpK * rating.difference_K);
    if (!(effectiveness < 1))
        throw Error(
            Error::Kind::domain,
            fmt::format("cooler.rating: {:.0f} W at {:.0f} K asks for more than its weaker stream "
                        "can carry ({:.0f} W)",
                        rating.heat_W, rating.difference_K, least_WpK * rating.difference_K));
    const double ratio = least_WpK / std::max(rating.oil_capacity_WpK, rating.air_capacity_WpK);
    return ntu_crossflow_unmixed({.effectiveness = effectiveness, .C_ratio = ratio}) * least_WpK;
}

double heat_W(const RatedCore& core) {
    require_positive(core.conductance_WpK, "conductance_WpK");
    require_positive(core.difference_K, "difference_K");
    require_positive(core.oil_capacity_WpK, "oil_capacity_WpK");
    require_positive(core.air_capacity_WpK, "air_capacity_WpK");
    const double least_WpK = std::min(core.oil_capacity_WpK, core.air_capacity_WpK);
    const double ratio = least_WpK / std::max(core.oil_capacity_WpK, core.air_capacity_WpK);
    return effectiveness_crossflow_unmixed(
               {.NTU = core.conductance_WpK / least_WpK, .C_ratio = ratio}) *
           least_WpK * core.difference_K;
}

double conductance_scaled_WpK(const Scaling& scaling) {
    require_positive(scaling.conductance_rating_WpK, "conductance_rating_WpK");
    require_within(scaling.oil_side_share, {0, 1}, "oil_side_share");
    require_positive(scaling.air_mass_ratio, "air_mass_ratio");
    require_positive(scaling.oil_mass_ratio, "oil_mass_ratio");
    const double air = (1 - scaling.oil_side_share) / std::pow(scaling.air_mass_ratio, 0.6);
    const double oil = scaling.oil_side_share / std::cbrt(scaling.oil_mass_ratio);
    return scaling.conductance_rating_WpK / (air + oil);
}

double core_drop_Pa(const CoreFlow& flow) {
    require_not_negative(flow.drop_rating_Pa, "drop_rating_Pa");
    require_not_negative(flow.viscosity_ratio, "viscosity_ratio");
    require_not_negative(flow.flow_ratio, "flow_ratio");
    return flow.drop_rating_Pa * flow.viscosity_ratio * flow.flow_ratio;
}

}  // namespace caseload::exchanger
