// SPDX-License-Identifier: MIT
#include "caseload/formulas/weibull_fit.hpp"

#include "caseload/error.hpp"

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/special_functions/gamma.hpp>
#include <boost/math/special_functions/trigamma.hpp>
#include <boost/math/tools/minima.hpp>
#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <utility>

namespace caseload::weibull_fit {
namespace {

bool seen(const LifeRecord& one) {
    return one.from == one.to;
}
bool running(const LifeRecord& one) {
    return std::isinf(one.to);
}

void check(std::span<const LifeRecord> records) {
    if (records.empty()) throw Error(Error::Kind::domain, "no life records");
    for (const LifeRecord& one : records) {
        require_not_negative(one.from, "from");
        require_positive(one.count, "count");
        if (!(one.to >= one.from) || one.to <= 0 || (running(one) && one.from <= 0))
            throw Error(Error::Kind::domain, "a life record must end after it begins");
    }
}

double failures(std::span<const LifeRecord> records) {
    double sum = 0;
    for (const LifeRecord& one : records)
        if (!running(one)) sum += one.count;
    return sum;
}

/// Lives over the largest, so that no power overflows.
std::vector<LifeRecord> scaled(std::span<const LifeRecord> records, double largest) {
    std::vector<LifeRecord> all(records.begin(), records.end());
    for (LifeRecord& one : all) {
        one.from /= largest;
        one.to /= largest;
    }
    return all;
}

double largest_life(std::span<const LifeRecord> records) {
    double largest = 0;
    for (const LifeRecord& one : records)
        largest = std::max({largest, one.from, running(one) ? 0 : one.to});
    return largest;
}

/// Highest point of a function with one summit.
template <class F>
std::pair<double, double> summit(F f, const Interval& range) {
    const auto found = boost::math::tools::brent_find_minima([&](double x) { return -f(x); },
                                                             range.low, range.high, 52);
    return {found.first, -found.second};
}

/// Where a falling distance passes zero.
template <class F>
double crossing(F f, const Interval& range) {
    std::uintmax_t steps = 200;
    const auto found = boost::math::tools::toms748_solve(
        f, range.low, range.high, boost::math::tools::eps_tolerance<double>(40), steps);
    return (found.first + found.second) / 2;
}

// Slopes of life in the field stand far inside; a fit at an end of this range has no summit.
constexpr Interval ln_shape{-3, 5};
constexpr Interval ln_scale{-14, 60};

Fit at_shape(std::span<const LifeRecord> records, double shape) {
    const auto [x, best] = summit(
        [&](double ln) { return log_likelihood(records, {.shape = shape, .scale = std::exp(ln)}); },
        ln_scale);
    return {.shape = shape,
            .scale = std::exp(x),
            .log_likelihood = best,
            .failures = failures(records)};
}

Fit best_of(std::span<const LifeRecord> records) {
    const auto [x, best] =
        summit([&](double ln) { return at_shape(records, std::exp(ln)).log_likelihood; }, ln_shape);
    if (x < ln_shape.low + 0.1 || x > ln_shape.high - 0.1)
        throw Error(Error::Kind::domain,
                    "these records have no best shape: give the shape, for example 1.5");
    return at_shape(records, std::exp(x));
}

void require_failures(std::span<const LifeRecord> records) {
    const double seen_failures = failures(records);
    if (seen_failures < least_failures)
        throw Error(Error::Kind::domain,
                    "too few failures to find the shape: at least 5 are needed; give the shape");
}

template <class Profile>
Interval around(Profile profile, double ln_best, double level) {
    double low = ln_best;
    double high = ln_best;
    for (int k = 0; k < 60 && profile(low) > level; ++k) low -= 0.25;
    for (int k = 0; k < 60 && profile(high) > level; ++k) high += 0.25;
    if (profile(low) > level || profile(high) > level)
        throw Error(Error::Kind::domain, "the records leave one end of the interval open");
    const auto distance = [&](double x) { return profile(x) - level; };
    return {.low = std::exp(crossing(distance, {low, ln_best})),
            .high = std::exp(crossing(distance, {ln_best, high}))};
}

double level_below(double best, double confidence) {
    require_within(confidence, {0.01, 0.9999}, "confidence");
    return best - boost::math::quantile(boost::math::chi_squared(1), confidence) / 2;
}

}  // namespace

double log_likelihood(std::span<const LifeRecord> records, const Parameters& parameters) {
    check(records);
    require_positive(parameters.shape, "shape");
    require_positive(parameters.scale, "scale");
    const double b = parameters.shape;
    double sum = 0;
    for (const LifeRecord& one : records) {
        const double z = std::log(one.from / parameters.scale);
        double ln = 0;
        if (seen(one)) {
            ln = std::log(b) - std::log(one.from) + b * z - std::exp(b * z);
        } else {
            const double H_from = one.from > 0 ? std::exp(b * z) : 0;
            ln = -H_from;
            if (!running(one)) {
                const double H_to = std::pow(one.to / parameters.scale, b);
                ln += std::log(std::max(-std::expm1(H_from - H_to), 1e-300));
            }
        }
        sum += one.count * ln;
    }
    return sum;
}

Fit free_fit(std::span<const LifeRecord> records) {
    check(records);
    require_failures(records);
    const double largest = largest_life(records);
    Fit fit = best_of(scaled(records, largest));
    fit.scale *= largest;
    fit.log_likelihood = log_likelihood(records, {fit.shape, fit.scale});
    return fit;
}

Fit fit_of_shape(std::span<const LifeRecord> records, double shape) {
    check(records);
    require_positive(shape, "shape");
    if (failures(records) <= 0)
        throw Error(Error::Kind::domain, "no failure yet: only a lower bound can be calculated");
    const double largest = largest_life(records);
    Fit fit = at_shape(scaled(records, largest), shape);
    fit.scale *= largest;
    fit.log_likelihood = log_likelihood(records, {fit.shape, fit.scale});
    return fit;
}

double life_at(const Parameters& parameters, double failing_share) {
    require_positive(parameters.shape, "shape");
    require_positive(parameters.scale, "scale");
    require_within(failing_share, {1e-9, 1 - 1e-9}, "failing_share");
    return parameters.scale * std::pow(-std::log1p(-failing_share), 1 / parameters.shape);
}

Interval shape_interval(std::span<const LifeRecord> records, double confidence) {
    check(records);
    require_failures(records);
    const std::vector<LifeRecord> all = scaled(records, largest_life(records));
    const Fit fit = best_of(all);
    return around([&](double ln) { return at_shape(all, std::exp(ln)).log_likelihood; },
                  std::log(fit.shape), level_below(fit.log_likelihood, confidence));
}

double lower_scale(std::span<const LifeRecord> records, const Parameters& shape_of,
                   double confidence) {
    check(records);
    require_positive(shape_of.shape, "shape");
    require_within(confidence, {0.01, 0.9999}, "confidence");
    const double largest = largest_life(records);
    double sum = 0;
    for (const LifeRecord& one : records)
        sum += one.count * std::pow((running(one) ? one.from : one.to) / largest, shape_of.shape);
    const double chi2 =
        boost::math::quantile(boost::math::chi_squared(2 * failures(records) + 2), confidence);
    return largest * std::pow(2 * sum / chi2, 1 / shape_of.shape);
}

namespace {

/// Logarithm of the density of ln x, x = k^-shape, up to a constant.
double ln_density(const Multiplier& multiplier, double ln_x) {
    const double x = std::exp(ln_x);
    double sum = multiplier.a * ln_x - multiplier.b * x;
    for (const LifeRecord& one : multiplier.found) {
        const double from = std::pow(one.from, multiplier.shape);
        const double to = std::pow(one.to, multiplier.shape);
        sum += one.count * (std::log(-std::expm1(-(to - from) * x)) - from * x);
    }
    return sum;
}

/// x below which it lies with this probability. The density is smooth and falls off on both sides:
/// equal steps from end to end are as good as any rule.
double below(const Multiplier& multiplier, double probability) {
    constexpr int steps = 4000;
    constexpr double low = -12;
    constexpr double high = 8;
    constexpr double step = (high - low) / steps;
    std::vector<double> density(steps + 1);
    double most = -std::numeric_limits<double>::infinity();
    for (int i = 0; i <= steps; ++i)
        most = std::max(
            most, density.at(static_cast<std::size_t>(i)) = ln_density(multiplier, low + step * i));
    double total = 0;
    for (double& one : density) total += one = std::exp(one - most);
    double sum = 0;
    for (int i = 0; i <= steps; ++i) {
        const double here = density.at(static_cast<std::size_t>(i));
        // Each value stands for half a step on both sides of it.
        if (sum + here >= probability * total) {
            const double share = (probability * total - sum) / here - 0.5;
            return std::exp(low + step * (i + share));
        }
        sum += here;
    }
    return std::exp(high);
}

}  // namespace

Multiplier prior(double shape, const Interval& half_to_double) {
    require_positive(shape, "shape");
    require_positive(half_to_double.low, "low");
    require_positive(half_to_double.high - half_to_double.low, "high - low");
    // 90 % of a normal distribution lie within 1.6449 standard deviations of its middle.
    const double ln_sd = std::log(half_to_double.high / half_to_double.low) / (2 * 1.6448536);
    const double wanted = shape * ln_sd * shape * ln_sd;
    const double a = std::exp(crossing(
        [&](double ln) { return boost::math::trigamma(std::exp(ln)) - wanted; }, {-5, 15}));
    return {.shape = shape, .a = a, .b = boost::math::gamma_p_inv(a, 0.5)};
}

Multiplier updated(const Multiplier& before, std::span<const LifeRecord> records) {
    Multiplier after = before;
    if (records.empty()) return after;
    check(records);
    for (const LifeRecord& one : records) {
        if (!running(one) && !seen(one)) {
            after.found.push_back(one);
            continue;
        }
        after.b += one.count * std::pow(one.from, before.shape);
        if (seen(one)) after.a += one.count;
    }
    return after;
}

double quantile(const Multiplier& multiplier, double probability) {
    require_positive(multiplier.a, "a");
    require_positive(multiplier.b, "b");
    require_within(probability, {1e-6, 1 - 1e-6}, "probability");
    const double x = multiplier.found.empty()
                         ? boost::math::gamma_p_inv(multiplier.a, 1 - probability) / multiplier.b
                         : below(multiplier, 1 - probability);
    return std::pow(x, -1 / multiplier.shape);
}

}  // namespace caseload::weibull_fit
