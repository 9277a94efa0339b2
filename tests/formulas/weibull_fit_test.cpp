// SPDX-License-Identifier: MIT
#include "caseload/formulas/weibull_fit.hpp"

#include "caseload/error.hpp"
#include "evidence/life_sets.hpp"
#include "support.hpp"

#include <boost/math/special_functions/gamma.hpp>

#include <cmath>
#include <limits>
#include <vector>

namespace caseload::weibull_fit {

namespace {

constexpr double never = std::numeric_limits<double>::infinity();

}  // namespace

TEST_CASE("meeker-escobar-1998 7.2 likelihood of each kind of record") {
    // Shape 1: exponential, by hand.
    const auto at = [](const LifeRecord& one) {
        return log_likelihood(std::vector{one}, {.shape = 1, .scale = 2});
    };
    CHECK(at({1, 1}) == rel(-std::log(2) - 0.5, 1e-12));
    CHECK(at({3, never}) == rel(-1.5, 1e-12));
    CHECK(at({0, 3}) == rel(std::log(1 - std::exp(-1.5)), 1e-12));
    CHECK(at({1, 3, 4}) == rel(4 * std::log(std::exp(-0.5) - std::exp(-1.5)), 1e-12));
    CHECK_THROWS_AS((void)at({3, 1}), Error);
    CHECK_THROWS_AS((void)at({0, never}), Error);
    CHECK_THROWS_AS((void)at({-1, 1}), Error);
    CHECK_THROWS_AS((void)log_likelihood({}, {1, 1}), Error);
}

TEST_CASE("meeker-escobar-1998 8.2 published fits") {
    for (const LifeSet& set : life_sets()) {
        CAPTURE(set.name);
        const Fit fit = free_fit(set.records);
        // Figures printed or recomputed twice (R's survreg, own Python); half a last digit.
        CHECK(within(fit.shape, set.shape, 5e-6));
        CHECK(fit.scale == rel(set.scale, 6e-6));
        CHECK(within(fit.log_likelihood, set.log_likelihood, 6e-5));
        // A summit: a step to any side is lower.
        for (const double step : {0.99, 1.01}) {
            CHECK(log_likelihood(set.records, {fit.shape * step, fit.scale}) < fit.log_likelihood);
            CHECK(log_likelihood(set.records, {fit.shape, fit.scale * step}) < fit.log_likelihood);
        }
    }
}

TEST_CASE("meeker-escobar-1998 8.2 too few failures are refused") {
    std::vector<LifeRecord> records{{1, 1}, {2, 2}, {3, 3}, {4, 4}, {5, never, 10}};
    CHECK_THROWS_AS((void)free_fit(records), Error);
    CHECK_THROWS_AS((void)shape_interval(records, 0.95), Error);
    records.push_back({2, 3});
    CHECK(free_fit(records).failures == 5);
    // All failures at one life: the steeper the better, without end.
    CHECK_THROWS_AS((void)free_fit(std::vector<LifeRecord>{{2, 2, 6}, {1, never, 3}}), Error);
}

TEST_CASE("abernethy-2006 weibayes scale at a given shape") {
    // Bearing cages, recomputed: shape 1.5, 2, 3.
    const auto& cages = life_set("bearing_cage").records;
    const double expected[][2] = {{1.5, 28982}, {2, 12320.3}, {3, 5408.9}};
    for (const auto& [shape, scale] : expected)
        CHECK(fit_of_shape(cages, shape).scale == rel(scale, 1e-5));
    CHECK_THROWS_AS((void)fit_of_shape(std::vector<LifeRecord>{{1, never}}, 1.5), Error);
}

TEST_CASE("meeker-escobar-1998 4.8 life at a share") {
    CHECK(life_at({2, 100}, 1 - std::exp(-1)) == rel(100, 1e-12));
    CHECK(within(life_at({2.03532, 11792.2}, 0.1), 3903.1, 0.2));
    CHECK_THROWS_AS((void)life_at({2, 100}, 1), Error);
}

TEST_CASE("meeker-escobar-1998 8.3.2 interval of the shape") {
    const Interval balls = shape_interval(life_set("lieblein_zelen").records, 0.95);
    CHECK(within(balls.low, 1.504, 5e-4));
    CHECK(within(balls.high, 2.791, 5e-4));
    const Interval cages = shape_interval(life_set("bearing_cage").records, 0.95);
    CHECK(within(cages.low, 0.971, 5e-4));
    CHECK(within(cages.high, 3.580, 5e-4));
    CHECK(shape_interval(life_set("bearing_cage").records, 0.8).high < cages.high);
}

TEST_CASE("abernethy-2006 lower-bound of the scale") {
    const auto& cages = life_set("bearing_cage").records;
    // Bearing cages, recomputed: one-sided 95 % lower life at 10 %.
    const double expected[][2] = {{1.5, 4109}, {2, 2846.5}, {3, 2036.6}};
    for (const auto& [shape, life] : expected)
        CHECK(life_at({shape, lower_scale(cages, {shape, 1}, 0.95)}, 0.1) == rel(life, 1.3e-4));
    // No failure: (sum t^b/-ln(1 - C))^(1/b).
    const std::vector<LifeRecord> none{{3, never, 4}};
    CHECK(lower_scale(none, {2, 1}, 0.9) == rel(std::sqrt(36 / std::log(10)), 1e-10));
}

TEST_CASE("gelman-bda3 2.6-prior of a life multiplier") {
    const Multiplier before = prior(1.5, {0.5, 2});
    // Recomputed: a 2.9703, b 2.6445, quantiles 0.564 / 1.000 / 2.214 with ln sd 0.421.
    CHECK(before.a == rel(2.9703, 2e-3));
    CHECK(before.b == rel(2.6445, 2e-3));
    CHECK(within(quantile(before, 0.05), 0.564, 1e-3));
    CHECK(quantile(before, 0.5) == rel(1, 1e-9));
    CHECK(within(quantile(before, 0.95), 2.214, 4e-3));
    CHECK_THROWS_AS((void)prior(1.5, {2, 2}), Error);
}

TEST_CASE("gelman-bda3 2.6-update by two failures and six still running") {
    // Recomputed by an independent program: 0.672 0.736 1.054 1.630 1.877.
    const std::vector<LifeRecord> records{{0.35, 0.35}, {0.62, 0.62},    {0.2, never}, {0.3, never},
                                          {0.4, never}, {0.5, never, 2}, {0.6, never}};
    const Multiplier after = updated({.shape = 1.5, .a = 2.9703, .b = 2.6445}, records);
    CHECK(after.a == rel(4.9703, 1e-12));
    CHECK(after.b - 2.6445 == rel(2.37386, 3e-6));
    const double expected[][2] = {
        {0.05, 0.672}, {0.1, 0.736}, {0.5, 1.054}, {0.9, 1.630}, {0.95, 1.877}};
    for (const auto& [q, k] : expected) CHECK(within(quantile(after, q), k, 6e-4));
    // Failing early lowers, running on raises.
    CHECK(quantile(updated(after, std::vector<LifeRecord>{{0.01, 0.01}}), 0.5) <
          quantile(after, 0.5));
    CHECK(quantile(updated(after, std::vector<LifeRecord>{{2, never}}), 0.5) >
          quantile(after, 0.5));
    CHECK(updated(after, {}).b == after.b);
}

TEST_CASE("gelman-bda3 2.6-update by parts found failed between two lives") {
    const Multiplier before{.shape = 1.5, .a = 2.9703, .b = 2.6445};
    // One found failed at u, never looked at before: x^(a-1) exp(-b x) (1 - exp(-B x)), B =
    // u^shape, is a difference of two gamma densities.
    const double B = std::pow(0.62, 1.5);
    const Multiplier after = updated(before, std::vector<LifeRecord>{{0, 0.62}});
    const double weight = std::pow(before.b / (before.b + B), before.a);
    for (const double q : {0.05, 0.1, 0.5, 0.9, 0.95}) {
        CAPTURE(q);
        const double x = std::pow(quantile(after, q), -1.5);
        const double below = (boost::math::gamma_p(before.a, before.b * x) -
                              weight * boost::math::gamma_p(before.a, (before.b + B) * x)) /
                             (1 - weight);
        CHECK(1 - below == rel(q, 2e-4));
    }
    // A narrow interval is a failure seen; a wide one is worse news than a failure at its end.
    const auto middle = [&](double from) {
        return quantile(updated(before, std::vector<LifeRecord>{{from, 0.62}}), 0.5);
    };
    CHECK(middle(0.6199) == rel(middle(0.62), 1e-3));
    CHECK(middle(0) < middle(0.4));
    CHECK(middle(0.4) < middle(0.62));
}

TEST_CASE("gelman-bda3 2.6-update by thousands of parts comes to what they lived") {
    // All failed at life 1 but one, found failed before 2: x is nearly normal about 1, with a
    // standard deviation of 1 / sqrt(failures).
    const Multiplier after = updated({.shape = 1.5, .a = 2.9703, .b = 2.6445},
                                     std::vector<LifeRecord>{{1, 1, 4000}, {0, 2}});
    CHECK(quantile(after, 0.5) == rel(1, 1e-3));
    const double spread = 1.2816 / std::sqrt(4000.0) / 1.5;
    CHECK(within(quantile(after, 0.9), 1 + spread, 1e-3));
    CHECK(within(quantile(after, 0.1), 1 - spread, 1e-3));
}

TEST_CASE("gelman-bda3 2.6-quantile rises") {
    const Multiplier k{.shape = 1.5, .a = 3, .b = 2.6};
    double last = 0;
    for (const double q : {0.01, 0.1, 0.5, 0.9, 0.99}) {
        CHECK(quantile(k, q) > last);
        last = quantile(k, q);
    }
    CHECK_THROWS_AS((void)quantile(k, 1), Error);
}

}  // namespace caseload::weibull_fit
