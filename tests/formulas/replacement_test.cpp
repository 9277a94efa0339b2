// SPDX-License-Identifier: MIT
// Recomputed values: tests/reference/seat_values.py, from the condition on the hazard and the
// incomplete gamma function.
#include "caseload/formulas/replacement.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "support.hpp"

#include <boost/math/special_functions/gamma.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace caseload::replacement {

namespace {

Survival weibull(double slope, double characteristic = 1) {
    return [=](double age) { return std::exp(-std::pow(age / characteristic, slope)); };
}
double uniform(double age) {
    return std::max(0.0, 1 - age / 40000);
}

}  // namespace

TEST_CASE("coy-townsend-zaretsky-1976 slope of tooth reliability") {
    CHECK(tooth_survival(0) == 1);
    CHECK(tooth_survival(1) == rel(0.99, 1e-12));
    // Life at 10 % over life at 1 % failing: 2.56 at slope 2.5, recomputed.
    CHECK(within(tooth_survival(2.56), 0.9, 0.0005));
    CHECK(tooth_survival(4) == rel(std::pow(0.99, 32), 1e-12));
    CHECK_THROWS_AS((void)tooth_survival(-0.1), Error);
}

TEST_CASE("bearing-practice case-survival is the product of what can fail") {
    const std::array parts{Wear{Part::bearing, 0, 0.05}, Wear{Part::bearing, 0, 0.10},
                           Wear{Part::tooth, 0, 0.20}};
    CHECK(within(case_survival(parts, 10), 0.82154992, 5e-9));
    CHECK(case_survival(parts, 0) == 1);
    CHECK(case_survival({}, 5) == 1);
    // Alive after use: the same way in two steps.
    std::array used = parts;
    for (Wear& wear : used) wear.used = 4 * wear.per_event;
    CHECK(case_survival(parts, 4) * case_survival(used, 6) == rel(case_survival(parts, 10), 1e-12));
    const std::array one{Wear{Part::bearing, 0.5, 0.05}, Wear{Part::tooth, 1, 0.1}};
    CHECK(within(case_survival(one, 10), 0.88886075, 5e-9));
    // A part worn beyond any reliability stays at 0, not at 0/0.
    const std::array worn{Wear{Part::tooth, 1e4, 0.1}};
    CHECK(case_survival(worn, 1) == 0);
    CHECK_THROWS_AS((void)case_survival(parts, -1), Error);
    const std::array healing{Wear{Part::bearing, 0.5, -0.05}};
    CHECK_THROWS_AS((void)case_survival(healing, 1), Error);
}

TEST_CASE("barlow-hunter-1960 age-replacement cost of a uniform life") {
    // Jardine and Tsang, chapter 2, problem 2: 0.0143 0.01 0.0093 0.01 per km.
    const double table[][2] = {{10000, 0.0143}, {20000, 0.01}, {30000, 0.0093}, {40000, 0.01}};
    for (const auto& row : table)
        CHECK(within(cost_rate(uniform, {100, 200}, row[0]), row[1], 5e-5));
    CHECK(cost_rate(uniform, {100, 200}, 30000) == rel(0.28 / 30, 1e-9));
    CHECK_THROWS_AS((void)cost_rate(uniform, {0, 200}, 10000), Error);
    CHECK_THROWS_AS((void)cost_rate(uniform, {100, 0}, 10000), Error);
    CHECK_THROWS_AS((void)cost_rate(uniform, {100, 200}, 0), Error);
    CHECK_THROWS_AS((void)cost_rate([](double) { return 1.005; }, {100, 200}, 1), Error);
}

TEST_CASE("barlow-hunter-1960 mean-life is the integral of survival") {
    for (const double slope : {0.8, 1.0, 1.5, 3.5})
        for (const double scale : {1e-6, 1.0, 4e5})
            CHECK(mean_life(weibull(slope, scale)) ==
                  rel(scale * boost::math::tgamma(1 + 1 / slope), 1e-8));
    CHECK(mean_life(uniform) == rel(20000, 1e-9));
    CHECK_THROWS_AS((void)mean_life([](double) { return 0.5; }), Error);
}

TEST_CASE("barlow-hunter-1960 optimum of a Weibull life, recomputed") {
    struct Row {
        double slope;
        double failure;
        double age;
        double cost_ratio;
        double survival;
    };
    const Row table[] = {
        {1.5, 3, 1.157077, 0.971061, 0.288045},  {1.5, 5, 0.675492, 0.890341, 0.573972},
        {1.5, 10, 0.378144, 0.749425, 0.792523}, {1.5, 20, 0.226120, 0.611715, 0.898054},
        {2.0, 3, 0.737914, 0.871946, 0.580122},  {2.0, 5, 0.510655, 0.724090, 0.770459},
        {2.0, 10, 0.336451, 0.536710, 0.892973}, {2.0, 20, 0.230427, 0.388000, 0.948288},
        {2.5, 3, 0.656856, 0.787239, 0.704911},  {2.5, 5, 0.493047, 0.614349, 0.843079},
        {2.5, 10, 0.354574, 0.421499, 0.927870}, {2.5, 20, 0.262382, 0.283215, 0.965350},
        {3.5, 3, 0.635388, 0.675609, 0.815076},  {3.5, 5, 0.519591, 0.490266, 0.903829},
        {3.5, 10, 0.411410, 0.307692, 0.956319}, {3.5, 20, 0.332074, 0.190107, 0.979119}};
    for (const Row& row : table) {
        CAPTURE(row.slope);
        CAPTURE(row.failure);
        // A minimum is known to half the digits of its value.
        const auto best = optimum(weibull(row.slope), {1, row.failure});
        REQUIRE(best.has_value());
        CHECK(within(best->age, row.age, 2e-6));
        CHECK(within(best->cost_ratio, row.cost_ratio, 5e-7));
        CHECK(within(best->survival, row.survival, 2e-6));
        // The condition the optimum must meet: h(T) integral R - F(T) = C_p/(C_f - C_p).
        const double T = best->age;
        const double survived =
            boost::math::tgamma_lower(1 / row.slope, std::pow(T, row.slope)) / row.slope;
        CHECK(row.slope * std::pow(T, row.slope - 1) * survived - 1 + best->survival ==
              rel(1 / (row.failure - 1), 1e-5));
    }
}

TEST_CASE("barlow-hunter-1960 optimum scales with cost and age, and exists only where it pays") {
    const auto plain = optimum(weibull(2.5), {1, 5}).value();
    const auto scaled = optimum(weibull(2.5, 1000), {20, 100}).value();
    CHECK(scaled.age == rel(1000 * plain.age, 1e-6));
    CHECK(scaled.cost_rate == rel(20 * plain.cost_rate / 1000, 1e-9));
    CHECK(scaled.cost_ratio == rel(plain.cost_ratio, 1e-9));
    // Weibull 10, 3; failure 2, 3, 6, 10, 11 times planned, recomputed.
    const double table[][3] = {{2, 8.1034, 0.19700},
                               {3, 6.3655, 0.24312},
                               {6, 4.6610, 0.32587},
                               {10, 3.8246, 0.39494},
                               {11, 3.6917, 0.40886}};
    for (const auto& row : table) {
        const auto best = optimum(weibull(3, 10), {1, row[0]}).value();
        CHECK(within(best.age, row[1], 6e-5));
        CHECK(within(best.cost_rate, row[2], 5e-6));
    }
    CHECK(within(optimum(uniform, {100, 200})->age, 29282.03, 0.5));
    // No saving: failure not dearer; failure rate constant or falling; next to nothing left.
    CHECK(!optimum(weibull(2.5), {5, 5}).has_value());
    CHECK(!optimum(weibull(2.5), {5, 4}).has_value());
    CHECK(!optimum(weibull(1.0), {1, 20}).has_value());
    CHECK(!optimum(weibull(0.8), {1, 20}).has_value());
    // A minimum that saves 1e-8 is none, one that saves more is.
    CHECK(!optimum(weibull(1.5), {1, 1.4}).has_value());
    CHECK(optimum(weibull(1.5), {1, 1.5}).has_value());
    CHECK_THROWS_AS((void)optimum(weibull(2), {1, 1e14}), Error);
    CHECK_THROWS_AS((void)optimum(weibull(2), {0, 5}), Error);
    CHECK_THROWS_AS((void)optimum(weibull(2), {1, 0}), Error);
}

TEST_CASE("barlow-hunter-1960 whole-events of least cost") {
    // Best of all whole numbers, by trying them.
    const Costs costs{2500, 18000};
    for (const double per_event : {0.02, 0.1, 0.3, 2.0}) {
        const std::vector<Wear> parts{{Part::bearing, 0, per_event},
                                      {Part::bearing, 0, 0.5 * per_event},
                                      {Part::tooth, 0, 0.2 * per_event}};
        const Survival survival = [&](double events) { return case_survival(parts, events); };
        int best = 1;
        for (int events = 2; events < 200; ++events)
            if (cost_rate(survival, costs, events) < cost_rate(survival, costs, best))
                best = events;
        CHECK(cheapest_events(survival, costs) == best);
    }
    CHECK(!cheapest_events(weibull(1), costs).has_value());
}

}  // namespace caseload::replacement
