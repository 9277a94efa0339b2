// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "heat/at_oil.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <optional>

namespace caseload {
namespace {

constexpr double scan_step_K = 5;
// The housing cannot be hotter than its hottest neighbour plus what exhaust adds: a generous end
// of the bracket, widened until it holds.
constexpr double first_bracket_K = 50;

template <class F>
double root(const F& f, const Limits& bracket) {
    std::uintmax_t iterations = 200;
    const auto [low, high] = boost::math::tools::toms748_solve(
        f, bracket.low, bracket.high, boost::math::tools::eps_tolerance<double>(52), iterations);
    if (iterations >= 200)
        throw Error(Error::Kind::convergence, "heat balance: root not found in 200 steps");
    const double at_low = std::fabs(f(low));
    const double at_high = std::fabs(f(high));
    return at_low < at_high ? low : high;
}

/// Housing and steel at rest for a given oil temperature, and what is left for the oil.
struct AtOil {
    Nodes nodes;
    double net_W = 0;
};

class LegBalance {
public:
    LegBalance(const Prepared& prepared, std::size_t leg, const Switches& switches)
        : prepared_(prepared), leg_(leg), switches_(switches) {}

    [[nodiscard]] LossesAt losses(double oil_degC) const {
        return losses_at(
            *prepared_.setup, prepared_.loads, prepared_.oil, prepared_.losses[leg_],
            {.temp_degC = std::min(oil_degC, oil_ceiling_degC), .pump_runs = switches_.pump});
    }

    [[nodiscard]] AtOil at(double oil_degC) const {
        const Conductances& path = prepared_.driving;
        const HeatSplit made = split(losses(oil_degC).ledger);
        const double exhaust_W = exhaust_driving_W(prepared_, leg_);
        const auto steel_degC = [&](double housing_degC) {
            return (made.steel_W + path.oil_steel_WpK * oil_degC +
                    path.steel_housing_WpK * housing_degC) /
                   (path.oil_steel_WpK + path.steel_housing_WpK);
        };
        const auto housing_net_W = [&](double housing_degC) {
            const OutsideParts out = outside_parts(prepared_, leg_, housing_degC);
            return made.housing_W + exhaust_W + path.oil_housing_WpK * (oil_degC - housing_degC) +
                   path.steel_housing_WpK * (steel_degC(housing_degC) - housing_degC) -
                   out.convection_W - out.radiation_W;
        };
        double low = std::min(prepared_.case_air_degC, oil_degC) - 1;
        double high = std::max(prepared_.case_air_degC, oil_degC) + first_bracket_K;
        while (housing_net_W(high) > 0) high += first_bracket_K;
        while (housing_net_W(low) < 0) low -= first_bracket_K;
        const double housing_degC = root(housing_net_W, {low, high});
        const Nodes nodes{oil_degC, housing_degC, steel_degC(housing_degC)};
        const double net_W = made.oil_W - path.oil_housing_WpK * (oil_degC - housing_degC) -
                             path.oil_steel_WpK * (oil_degC - nodes.steel_degC) -
                             cooler_heat_W(prepared_, leg_, oil_degC, switches_);
        return {nodes, net_W};
    }

    [[nodiscard]] std::optional<double> lowest_stable_root() const {
        double below = std::min(prepared_.ambient_degC, prepared_.case_air_degC);
        double net_below_W = at(below).net_W;
        while (below < oil_ceiling_degC) {
            const double above = std::min(below + scan_step_K, oil_ceiling_degC);
            const double net_above_W = at(above).net_W;
            if (net_below_W > 0 && net_above_W <= 0)
                return root([this](double oil_degC) { return at(oil_degC).net_W; }, {below, above});
            below = above;
            net_below_W = net_above_W;
        }
        return std::nullopt;
    }

private:
    const Prepared& prepared_;
    std::size_t leg_;
    Switches switches_;
};

Steady solve(const Prepared& prepared, std::size_t leg, const Switches& switches) {
    const LegBalance balance(prepared, leg, switches);
    Steady result;
    result.switches = switches;
    result.exhaust_W = exhaust_driving_W(prepared, leg);
    const std::optional<double> oil_degC = balance.lowest_stable_root();
    result.found = oil_degC.has_value();
    const double at_degC = oil_degC.value_or(oil_ceiling_degC);
    const AtOil state = balance.at(at_degC);
    result.nodes = state.nodes;
    result.losses = balance.losses(at_degC);
    result.outside = outside_parts(prepared, leg, state.nodes.housing_degC);
    result.cooler_W = cooler_heat_W(prepared, leg, at_degC, switches);
    if (!result.found) {
        result.short_by_W = state.net_W;
        result.short_by_WpK = state.net_W / (oil_ceiling_degC - prepared.case_air_degC);
    }
    return result;
}

}  // namespace

Steady steady(const Prepared& prepared, std::size_t leg, const Switches& allowed) {
    // A temperature switch is on when the leg without it would settle above its lower end; the
    // pump is decided before the fan.
    Switches switches = allowed;
    const auto& pump = prepared.setup->lubrication.pump;
    const auto& cooler = prepared.setup->cooler;
    const auto settles_above = [&](const Switches& with, double on_degC) {
        const Steady without = solve(prepared, leg, with);
        return !without.found || without.nodes.oil_degC > on_degC - switch_hysteresis_K;
    };
    if (allowed.pump && pump && pump->on_above_degC) {
        Switches with = switches;
        with.pump = false;
        switches.pump = settles_above(with, *pump->on_above_degC);
    }
    if (allowed.fan && cooler.fit && cooler.fan_on_above_degC) {
        Switches with = switches;
        with.fan = false;
        switches.fan = settles_above(with, *cooler.fan_on_above_degC);
    }
    return solve(prepared, leg, switches);
}

double net_into_oil_W(const Prepared& prepared, std::size_t leg, double oil_degC) {
    return LegBalance(prepared, leg, {}).at(oil_degC).net_W;
}

double heat_in_W(const Steady& state) {
    return total_W(state.losses.ledger) + state.exhaust_W;
}

double heat_out_W(const Steady& state) {
    return state.outside.convection_W + state.outside.radiation_W + state.cooler_W;
}

}  // namespace caseload
