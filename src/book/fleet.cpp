// SPDX-License-Identifier: MIT
// What the bearings of all cases say about their life.
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "caseload/formulas/weibull.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace caseload::book {
namespace {

// Slope of bearing life, ISO 281:2007 9.2; nine of ten calculated lives are believed to lie between
// half and double: judgement, after one published gearbox (field over calculated 1.2).
constexpr double life_slope = 1.5;
constexpr weibull_fit::Interval believed{.low = 0.5, .high = 2};
constexpr double lower_confidence = 0.9;
constexpr double slope_confidence = 0.95;

}  // namespace

std::vector<weibull_fit::LifeRecord> fleet_lives(const State& state, const std::string& position) {
    std::vector<weibull_fit::LifeRecord> lives;
    for (const auto& [id, part] : state.parts) {
        if (!part.position.starts_with("bearing.")) continue;
        if (!position.empty() && part.position != position) continue;
        const auto share = part.used.find("share");
        if (share == part.used.end() || share->second <= 0) continue;
        // Pitting is found at an opening; it began somewhere after it was last found good.
        if (part.failed)
            lives.push_back(
                {.from = std::min(part.last_good_share, share->second), .to = share->second});
        else
            lives.push_back({.from = share->second, .to = std::numeric_limits<double>::infinity()});
    }
    return lives;
}

weibull_fit::Multiplier fleet_multiplier(const State& state) {
    // Shares of the 10 % life to shares of the characteristic life.
    const double characteristic = weibull::characteristic_life(life_slope);
    std::vector<weibull_fit::LifeRecord> lives = fleet_lives(state, "");
    for (weibull_fit::LifeRecord& one : lives) {
        one.from /= characteristic;
        one.to /= characteristic;
    }
    return weibull_fit::updated(weibull_fit::prior(life_slope, believed), lives);
}

Fleet fleet_of(const State& state, const std::string& position, double shape) {
    Fleet fleet;
    fleet.position = position;
    fleet.shape = shape;
    const std::vector<weibull_fit::LifeRecord> lives = fleet_lives(state, position);
    for (const weibull_fit::LifeRecord& one : lives) {
        fleet.bearings += one.count;
        if (std::isfinite(one.to)) fleet.failures += one.count;
    }
    const weibull_fit::Multiplier k = fleet_multiplier(state);
    fleet.low = weibull_fit::quantile(k, 0.1);
    fleet.likely = weibull_fit::quantile(k, 0.5);
    fleet.high = weibull_fit::quantile(k, 0.9);
    if (fleet.failures >= weibull_fit::least_failures) {
        const auto fixed = weibull_fit::fit_of_shape(lives, shape);
        fleet.ten_percent = weibull_fit::life_at({fixed.shape, fixed.scale}, 0.1);
        try {
            const auto fit = weibull_fit::free_fit(lives);
            fleet.slope_range = weibull_fit::shape_interval(lives, slope_confidence);
            fleet.slope = fit.shape;
        } catch (const Error& error) {
            fleet.no_slope = error.problems().front().text;
        }
        return fleet;
    }
    if (lives.empty()) return fleet;
    // For a bound from below a failure counts from when the part was last good.
    std::vector<weibull_fit::LifeRecord> early = lives;
    constexpr double at_once = 1e-9;
    for (weibull_fit::LifeRecord& one : early)
        if (std::isfinite(one.to)) one.from = one.to = std::max(one.from, at_once);
    const double scale = weibull_fit::lower_scale(early, {shape, 1}, lower_confidence);
    fleet.ten_percent_above = weibull_fit::life_at({shape, scale}, 0.1);
    return fleet;
}

}  // namespace caseload::book
