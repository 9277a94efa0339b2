// SPDX-License-Identifier: MIT
#include "caseload/pace.hpp"
#include "pace/road.hpp"

#include <math.h>  // before Boost's distributions

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <vector>

namespace caseload::pace {
namespace {

constexpr int points = 63;
constexpr double fuel_sd = 0.08;  // of ln; judgement
constexpr double tenth = 0.1;

/// Of Halton's sequence: the digits of a number behind the point, in reverse.
template <int base>
double halton(int number) {
    double at = 0;
    double digit = 1;
    for (; number > 0; number /= base) {
        digit /= base;
        at += digit * (number % base);
    }
    return at;
}

double normal_of(double rank) {
    return boost::math::quantile(boost::math::normal(), rank);
}

/// Triangular between -1 and 1, peak at 0.
double style_at(double rank) {
    return rank < 0.5 ? std::sqrt(2 * rank) - 1 : 1 - std::sqrt(2 * (1 - rank));
}

double at_share(const std::vector<double>& sorted, double share) {
    const double at = share * static_cast<double>(sorted.size() - 1);
    const auto below = static_cast<std::size_t>(at);
    const std::size_t above = std::min(below + 1, sorted.size() - 1);
    return sorted[below] + (sorted[above] - sorted[below]) * (at - static_cast<double>(below));
}

Spread spread_of(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return {at_share(values, tenth), at_share(values, 0.5), at_share(values, 1 - tenth)};
}

}  // namespace

Outlook outlook(const Car& car, const Ground& ground) {
    const Road road(car, ground, segments(ground));
    std::vector<double> pace;
    std::vector<double> fast;
    std::vector<double> crank;
    std::vector<double> fuel;
    std::vector<double> cube;
    std::vector<double> high;
    for (int number = 1; number <= points; ++number) {
        const Lap lap =
            road.lap({.style = style_at(halton<2>(number)),
                      .severity = std::exp(severity_sd * normal_of(halton<3>(number))),
                      .resistance_factor = std::exp(resistance_sd * normal_of(halton<5>(number)))});
        pace.push_back(lap.pace_mps);
        fast.push_back(lap.fast_mps);
        crank.push_back(lap.crank_W);
        fuel.push_back(lap.fuel_Lp100km * std::exp(fuel_sd * normal_of(halton<7>(number))));
        cube.push_back(lap.torque_cube_Nm);
        high.push_back(lap.torque_874_Nm);
    }
    return {spread_of(std::move(pace)), spread_of(std::move(fast)), spread_of(std::move(crank)),
            spread_of(std::move(fuel)), spread_of(std::move(cube)), spread_of(std::move(high))};
}

}  // namespace caseload::pace
