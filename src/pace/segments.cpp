// SPDX-License-Identifier: MIT
// Segments of a ground from its statistics: each quantity takes evenly spread values of its own
// distribution, in an order unlike that of the others.
#include "caseload/error.hpp"
#include "caseload/pace.hpp"

#include <math.h>  // before Boost's distributions

#include <boost/math/distributions/normal.hpp>

#include <algorithm>
#include <cmath>

namespace caseload::pace {
namespace {

constexpr int segments_of_lap = 48;
// Judgement: no straight is longer than four times the mean and none shorter than 3 %.
constexpr double longest = 4;
constexpr double shortest = 0.03;
constexpr Limits roughness_ranks{0.001, 0.999};
constexpr Limits other_ranks{0.01, 0.99};

/// Evenly spread over 0 to 1, by the fraction of a root of a prime.
double rank(int k, double prime) {
    const double root = std::sqrt(prime);
    const double at = 0.5 + k * (root - std::floor(root));
    return at - std::floor(at);
}

double normal(double rank, const Limits& ranks) {
    return boost::math::quantile(boost::math::normal(), std::clamp(rank, ranks.low, ranks.high));
}

void check_statistics(const Ground& ground) {
    require_within(ground.roughness_m3, {1e-6, 1}, "roughness_m3");
    require_within(ground.roughness_spread, {0, 2}, "roughness_spread");
    require_within(ground.resistance_low, {0, 1}, "resistance_low");
    require_within(ground.resistance_high, {ground.resistance_low, 1}, "resistance_high");
    require_within(ground.grade, {0, 0.5}, "grade");
    require_within(ground.slow_spots_pkm, {0.05, 200}, "slow_spots_pkm");
    require_within(ground.slow_speed_mps, {0.1, 60}, "slow_speed_mps");
    require_within(ground.slow_spread, {0, 2}, "slow_spread");
}

}  // namespace

std::vector<Segment> segments(const Ground& ground) {
    check_statistics(ground);
    const double mean_m = 1000 / ground.slow_spots_pkm;
    std::vector<Segment> all;
    all.reserve(segments_of_lap);
    double way_m = 0;
    double rise_m = 0;
    for (int k = 0; k < segments_of_lap; ++k) {
        Segment one;
        one.length_m = mean_m * (std::min(-std::log(1 - rank(k, 2)), longest) + shortest);
        one.roughness_m3 = ground.roughness_m3 *
                           std::exp(ground.roughness_spread * normal(rank(k, 3), roughness_ranks));
        one.resistance =
            ground.resistance_low + (ground.resistance_high - ground.resistance_low) * rank(k, 5);
        one.grade = ground.grade * normal(rank(k, 7), other_ranks);
        one.slow_mps =
            ground.slow_speed_mps * std::exp(ground.slow_spread * normal(rank(k, 11), other_ranks));
        way_m += one.length_m;
        rise_m += one.length_m * one.grade;
        all.push_back(one);
    }
    for (Segment& one : all) one.grade -= rise_m / way_m;
    return all;
}

}  // namespace caseload::pace
