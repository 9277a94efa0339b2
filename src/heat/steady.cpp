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
// of the bracket, widened until it contains the root.
constexpr double first_bracket_K = 50;
// Newton on the exact balance, from the curves' root, until a step is this short: the rest moves a
// ledger by less than its last printed digit. Usually five steps; where a loss has a step they
// would go to and fro.
constexpr double last_step_K = 1e-10;
constexpr int most_steps = 12;
// The curves are within some 0.01 K of the balance: further away it is another root.
constexpr double curves_within_K = 1;
// Half-width of the central difference: curves of some kW differ enough over it, and it is narrow
// beside their points 8 K apart.
constexpr double slope_over_K = 0.1;

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

/// Lowest oil temperature above which the net heat into the oil turns negative.
template <class F>
std::optional<double> lowest_stable_root(double coldest_degC, const F& net_W) {
    double below = coldest_degC;
    double net_below_W = net_W(below);
    while (below < oil_ceiling_degC) {
        const double above = std::min(below + scan_step_K, oil_ceiling_degC);
        const double net_above_W = net_W(above);
        if (net_below_W > 0 && net_above_W <= 0) return root(net_W, {below, above});
        below = above;
        net_below_W = net_above_W;
    }
    return std::nullopt;
}

/// Settled housing temperature: where its net heat, which falls with it, turns negative.
template <class F>
double housing_at_rest_degC(const Prepared& prepared, double oil_degC, const F& net_W) {
    double low = std::min(prepared.case_air_degC, oil_degC) - 1;
    double high = std::max(prepared.case_air_degC, oil_degC) + first_bracket_K;
    while (net_W(high) > 0) high += first_bracket_K;
    while (net_W(low) < 0) low -= first_bracket_K;
    return root(net_W, {low, high});
}

/// Settled housing and steel for a given oil temperature, and the net heat into the oil.
struct AtOil {
    Nodes nodes;
    double net_W = 0;
};

/// Where the net heat into steel is 0: it has no path outside.
double steel_at_rest_degC(const Drives& drives, const Nodes& nodes) {
    const Conductances& path = drives.paths;
    return (drives.made.steel_W + path.oil_steel_WpK * nodes.oil_degC +
            path.steel_housing_WpK * nodes.housing_degC) /
           (path.oil_steel_WpK + path.steel_housing_WpK);
}

/// Net heat of oil and housing at these temperatures, steel settled between them.
NetHeat steel_at_rest(Nodes nodes, const Drives& drives) {
    nodes.steel_degC = steel_at_rest_degC(drives, nodes);
    return net_heat(nodes, drives);
}

class LegBalance {
public:
    LegBalance(const Prepared& prepared, std::size_t leg, const Switches& switches)
        : prepared_(prepared),
          leg_(leg),
          switches_(switches),
          exhaust_W_(exhaust_driving_W(prepared_, leg)),
          coldest_degC_(coldest_beside_degC(prepared_)) {}

    [[nodiscard]] LossesAt losses(double oil_degC) const {
        return losses_at(
            *prepared_.setup, prepared_.loads, prepared_.oil, prepared_.losses[leg_],
            {.temp_degC = std::min(oil_degC, oil_ceiling_degC), .pump_runs = switches_.pump});
    }

    [[nodiscard]] AtOil at(double oil_degC) const {
        return at(oil_degC, of_oil(oil_degC),
                  [this](double housing_degC) { return outside_W(housing_degC); });
    }

    /// Nothing where the oil does not settle below its ceiling.
    [[nodiscard]] std::optional<Nodes> at_rest(const LegCurves& curves) const {
        const auto on_curves = lowest_stable_root(
            coldest_degC_, [&](double oil_degC) { return at(oil_degC, curves).net_W; });
        if (on_curves) {
            const auto mended = at_rest_near(at(*on_curves, curves).nodes, curves);
            if (mended) return mended;
        } else if (at(oil_ceiling_degC).net_W > 0) {
            return std::nullopt;
        }
        const auto oil_degC = lowest_stable_root(
            coldest_degC_, [this](double here_degC) { return at(here_degC).net_W; });
        if (!oil_degC) return std::nullopt;
        return at(*oil_degC).nodes;
    }

private:
    [[nodiscard]] double outside_W(double housing_degC) const {
        const OutsideParts out = outside_parts(prepared_, leg_, housing_degC);
        return out.convection_W + out.radiation_W;
    }

    /// By the formulas, but for what leaves the housing.
    [[nodiscard]] Drives of_oil(double oil_degC) const {
        return {split(losses(oil_degC).ledger),
                0,
                cooler_heat_W(prepared_, leg_, oil_degC, switches_),
                exhaust_W_,
                prepared_.driving,
                prepared_.neighbour_degC};
    }

    [[nodiscard]] Drives by_curves(const LegCurves& curves, const Nodes& nodes) const {
        return drives_at(prepared_, curves,
                         {nodes, {exhaust_W_, prepared_.neighbour_degC}, prepared_.driving});
    }

    [[nodiscard]] AtOil at(double oil_degC, const LegCurves& curves) const {
        return at(oil_degC, by_curves(curves, {oil_degC, oil_degC, 0}), [&](double housing_degC) {
            return by_curves(curves, {oil_degC, housing_degC, 0}).outside_W;
        });
    }

    /// Settled housing and steel, with the heat that leaves the housing by its temperature.
    template <class F>
    [[nodiscard]] AtOil at(double oil_degC, Drives drives, const F& outside_W) const {
        Nodes nodes{oil_degC, 0, 0};
        nodes.housing_degC = housing_at_rest_degC(prepared_, oil_degC, [&](double housing_degC) {
            drives.outside_W = outside_W(housing_degC);
            return steel_at_rest({oil_degC, housing_degC, 0}, drives).housing_W;
        });
        nodes.steel_degC = steel_at_rest_degC(drives, nodes);
        return {nodes, net_heat(nodes, drives).oil_W};
    }

    /// Newton's steps with the slopes of the curves; nothing where they do not converge.
    [[nodiscard]] std::optional<Nodes> at_rest_near(const Nodes& guess,
                                                    const LegCurves& curves) const {
        const auto slope = [&](double Nodes::* node) {
            Nodes above = guess;
            Nodes below = guess;
            above.*node += slope_over_K;
            below.*node -= slope_over_K;
            const NetHeat more = steel_at_rest(above, by_curves(curves, above));
            const NetHeat less = steel_at_rest(below, by_curves(curves, below));
            return NetHeat{(more.oil_W - less.oil_W) / (2 * slope_over_K),
                           (more.housing_W - less.housing_W) / (2 * slope_over_K), 0};
        };
        const NetHeat by_oil = slope(&Nodes::oil_degC);
        const NetHeat by_housing = slope(&Nodes::housing_degC);
        const double determinant =
            by_oil.oil_W * by_housing.housing_W - by_housing.oil_W * by_oil.housing_W;
        Nodes nodes = guess;
        for (int step = 0; step < most_steps; ++step) {
            Drives drives = of_oil(nodes.oil_degC);
            drives.outside_W = outside_W(nodes.housing_degC);
            const NetHeat net = steel_at_rest(nodes, drives);
            const double oil_K =
                (by_housing.oil_W * net.housing_W - by_housing.housing_W * net.oil_W) / determinant;
            const double housing_K =
                (by_oil.housing_W * net.oil_W - by_oil.oil_W * net.housing_W) / determinant;
            nodes.oil_degC += oil_K;
            nodes.housing_degC += housing_K;
            nodes.steel_degC = steel_at_rest_degC(drives, nodes);
            // Also false where a step is not a number.
            if (!(std::fabs(nodes.oil_degC - guess.oil_degC) < curves_within_K) ||
                nodes.oil_degC > oil_ceiling_degC)
                return std::nullopt;
            if (std::fabs(oil_K) + std::fabs(housing_K) < last_step_K) return nodes;
        }
        return std::nullopt;
    }

    const Prepared& prepared_;
    std::size_t leg_;
    Switches switches_;
    double exhaust_W_;
    double coldest_degC_;
};

/// What makes and carries heat at these temperatures.
void add_heat(const Prepared& prepared, std::size_t leg, const LegBalance& balance,
              const Nodes& nodes, Steady& into) {
    into.nodes = nodes;
    into.losses = balance.losses(nodes.oil_degC);
    into.outside = outside_parts(prepared, leg, nodes.housing_degC);
    into.cooler_W = cooler_heat_W(prepared, leg, nodes.oil_degC, into.switches);
    if (prepared.driving.neighbour_WpK > 0)
        into.neighbour_W =
            prepared.driving.neighbour_WpK * (prepared.neighbour_degC - nodes.housing_degC);
}

Steady solve(CaseCurves& curves, std::size_t leg, const Switches& switches) {
    const Prepared& prepared = curves.prepared();
    const LegBalance balance(prepared, leg, switches);
    Steady result;
    result.switches = switches;
    result.exhaust_W = exhaust_driving_W(prepared, leg);
    const std::optional<Nodes> rest = balance.at_rest(curves.at(leg, switches));
    result.found = rest.has_value();
    Nodes nodes;
    if (rest) {
        nodes = *rest;
    } else {
        const AtOil hottest = balance.at(oil_ceiling_degC);
        nodes = hottest.nodes;
        result.short_by_W = hottest.net_W;
        result.short_by_WpK = hottest.net_W / (oil_ceiling_degC - prepared.case_air_degC);
    }
    add_heat(prepared, leg, balance, nodes, result);
    return result;
}

}  // namespace

Steady steady(CaseCurves& curves, std::size_t leg, const Switches& allowed) {
    // A temperature switch is on when the leg without it would settle above its lower end; the
    // pump is decided before the fan.
    Switches switches = allowed;
    const auto& pump = curves.prepared().setup->lubrication.pump;
    const auto& cooler = curves.prepared().setup->cooler;
    const auto settles_above = [&](const Switches& with, double on_degC) {
        const Steady without = solve(curves, leg, with);
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
    return solve(curves, leg, switches);
}

Steady steady(const Prepared& prepared, std::size_t leg, const Switches& allowed) {
    CaseCurves curves(prepared);
    return steady(curves, leg, allowed);
}

Steady kept_at(const Prepared& prepared, std::size_t leg, double oil_degC) {
    const Setup& setup = *prepared.setup;
    Steady result;
    result.switches = in_leg(setup, setup.event.legs[leg], {}, latches_at(setup, {}, oil_degC));
    const LegBalance balance(prepared, leg, result.switches);
    const AtOil kept = balance.at(oil_degC);
    result.found = true;
    result.exhaust_W = exhaust_driving_W(prepared, leg);
    add_heat(prepared, leg, balance, kept.nodes, result);
    result.short_by_W = kept.net_W;
    return result;
}

double net_into_oil_W(const Prepared& prepared, std::size_t leg, double oil_degC) {
    return LegBalance(prepared, leg, {}).at(oil_degC).net_W;
}

Nodes held_at_oil(const Prepared& prepared, std::size_t leg, double oil_degC) {
    return LegBalance(prepared, leg, {}).at(oil_degC).nodes;
}

double heat_in_W(const Steady& state) {
    return total_W(state.losses.ledger) + state.exhaust_W +
           std::max(state.neighbour_W.value_or(0), 0.0);
}

double heat_out_W(const Steady& state) {
    return state.outside.convection_W + state.outside.radiation_W + state.cooler_W +
           std::max(-state.neighbour_W.value_or(0), 0.0);
}

}  // namespace caseload
