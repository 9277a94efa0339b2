// SPDX-License-Identifier: MIT
#include "caseload/formulas/replacement.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_281.hpp"

#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/tools/minima.hpp>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>
#include <vector>

namespace caseload::replacement {
namespace {

// Survival below which a life has ended.
constexpr double ended = 1e-12;
constexpr int ages_per_decade = 16;
constexpr int decades = 6;
// Savings below the accuracy of the integrals are none.
constexpr double least_saving = 1e-7;

double checked(const Survival& survival, double age) {
    const double R = survival(age);
    require_within(R, {0, 1}, "survival");
    return R;
}

struct Ages {
    double from;
    double to;
};
/// Integral of R, over shares of the way: Boost 1.74 compares an error per unit of length with a
/// tolerance for the whole.
double survived(const Survival& survival, const Ages& ages) {
    constexpr unsigned depth = 10;
    constexpr double accuracy = 1e-9;
    const double way = ages.to - ages.from;
    return way * boost::math::quadrature::gauss_kronrod<double, 31>::integrate(
                     [&](double share) { return checked(survival, ages.from + way * share); }, 0.0,
                     1.0, depth, accuracy);
}

double rate(const Costs& costs, const std::pair<double, double>& R_and_survived) {
    const auto& [R, lived] = R_and_survived;
    return (costs.planned * R + costs.failure * (1 - R)) / lived;
}

/// An age at which hardly anything lives, within a factor of two.
double last_age(const Survival& survival) {
    constexpr int most_doublings = 100;
    double age = 1;
    for (int i = 0; i < most_doublings && checked(survival, age) > ended; ++i) age *= 2;
    if (checked(survival, age) > ended)
        throw Error(Error::Kind::convergence, "survival does not fall to 0");
    for (int i = 0; i < most_doublings && checked(survival, age / 2) <= ended; ++i) age /= 2;
    return age;
}

/// Ages from a millionth of the longest life to its end, with the integral of R up to each.
class Grid {
public:
    explicit Grid(const Survival& survival) : survival_(survival) {
        const double last = last_age(survival);
        double before = 0;
        double lived = 0;
        for (int i = -ages_per_decade * decades; i <= 0; ++i) {
            const double age = last * std::pow(10.0, static_cast<double>(i) / ages_per_decade);
            lived += survived(survival, {before, age});
            ages_.push_back(age);
            lived_.push_back(lived);
            before = age;
        }
    }
    [[nodiscard]] const std::vector<double>& ages() const { return ages_; }
    [[nodiscard]] double mean_life() const { return lived_.back(); }
    /// Ages from the first of the grid on.
    [[nodiscard]] double cost_rate(const Costs& costs, double age) const {
        const auto above = std::upper_bound(ages_.begin() + 1, ages_.end(), age);
        const auto at = static_cast<std::size_t>(above - ages_.begin()) - 1;
        return rate(costs,
                    {checked(survival_, age), lived_[at] + survived(survival_, {ages_[at], age})});
    }

private:
    const Survival& survival_;
    std::vector<double> ages_;
    std::vector<double> lived_;
};

double reliability(const Wear& wear, double damage) {
    return wear.part == Part::bearing ? iso_281::survival(damage) : tooth_survival(damage);
}

}  // namespace

double tooth_survival(double damage) {
    require_not_negative(damage, "damage");
    return std::pow(0.99, std::pow(damage, 2.5));
}

double case_survival(std::span<const Wear> parts, double events) {
    require_not_negative(events, "events");
    double all = 1;
    for (const Wear& wear : parts) {
        require_not_negative(wear.per_event, "per_event");
        const double now = reliability(wear, wear.used);
        if (now <= 0) return 0;
        all *= reliability(wear, wear.used + events * wear.per_event) / now;
    }
    return all;
}

double cost_rate(const Survival& survival, const Costs& costs, double age) {
    require_positive(costs.planned, "planned");
    require_positive(costs.failure, "failure");
    require_positive(age, "age");
    return rate(costs, {checked(survival, age), survived(survival, {0, age})});
}

double mean_life(const Survival& survival) {
    return Grid(survival).mean_life();
}

std::optional<Optimum> optimum(const Survival& survival, const Costs& costs) {
    require_positive(costs.planned, "planned");
    require_positive(costs.failure, "failure");
    if (costs.failure <= costs.planned) return std::nullopt;
    const Grid grid(survival);
    const std::vector<double>& ages = grid.ages();
    const auto cost = [&](double age) { return grid.cost_rate(costs, age); };
    std::vector<double> rates(ages.size());
    std::transform(ages.begin(), ages.end(), rates.begin(), cost);
    const auto cheapest =
        static_cast<std::size_t>(std::min_element(rates.begin(), rates.end()) - rates.begin());
    if (cheapest == 0)
        throw Error(Error::Kind::convergence,
                    "the age of least cost is below a millionth of the longest life");
    if (cheapest + 1 == ages.size()) return std::nullopt;
    constexpr int bits = 26;  // a minimum is known to half the digits of its value
    const auto [age, least] =
        boost::math::tools::brent_find_minima(cost, ages[cheapest - 1], ages[cheapest + 1], bits);
    const double to_failure = costs.failure / grid.mean_life();
    if (least > to_failure * (1 - least_saving)) return std::nullopt;
    return Optimum{.age = age,
                   .cost_rate = least,
                   .cost_ratio = least / to_failure,
                   .survival = checked(survival, age)};
}

std::optional<int> cheapest_events(const Survival& survival, const Costs& costs) {
    const auto best = optimum(survival, costs);
    if (!best) return std::nullopt;
    const double below = std::max(std::floor(best->age), 1.0);
    const bool lower = cost_rate(survival, costs, below) <= cost_rate(survival, costs, below + 1);
    return static_cast<int>(lower ? below : below + 1);
}

}  // namespace caseload::replacement
