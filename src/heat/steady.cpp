// SPDX-License-Identifier: MIT
#include "caseload/error.hpp"
#include "heat/at_oil.hpp"
#include "heat/leg_drives.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <array>
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
// Steel settles by rounds, as what bearings lose hangs a little on it: each leaves about a
// hundredth of the rest.
constexpr double steel_settled_K = 1e-11;
constexpr double steel_near_K = 1e-3;
constexpr int most_steel_rounds = 16;
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

class LegBalance {
public:
    LegBalance(const Prepared& prepared, std::size_t leg, const Switches& switches)
        : prepared_(prepared),
          leg_(leg),
          switches_(switches),
          exhaust_W_(exhaust_driving_W(prepared_, leg)),
          coldest_degC_(coldest_beside_degC(prepared_)) {}

    [[nodiscard]] LossesAt losses(const Nodes& nodes) const {
        return losses_at(
            *prepared_.setup, prepared_.loads, prepared_.oil, prepared_.losses[leg_],
            {.temp_degC = std::min(nodes.oil_degC, oil_ceiling_degC), .pump_runs = switches_.pump},
            bearing_runs(prepared_.oil, prepared_.losses[leg_], prepared_.bearing_paths, nodes));
    }

    [[nodiscard]] AtOil at(double oil_degC) const {
        const Nodes alike{oil_degC, oil_degC, oil_degC};
        Drives drives = exact(alike);
        const HeatSplit others = split(losses(alike).ledger);
        return at(
            oil_degC, drives,
            [&](const Nodes& nodes) {
                return sum(others,
                           split(mean_losses_W(prepared_.losses[leg_],
                                               bearing_runs(prepared_.oil, prepared_.losses[leg_],
                                                            prepared_.bearing_paths, nodes)),
                                 prepared_.bearing_paths));
            },
            [this](double housing_degC) { return outside_W(housing_degC); }, steel_settled_K);
    }

    /// Nothing where the oil does not settle below its ceiling.
    [[nodiscard]] std::optional<Nodes> at_rest(const LegCurves& curves) const {
        LegDrives by_curves(prepared_, curves);
        const auto on_curves = lowest_stable_root(
            coldest_degC_, [&](double oil_degC) { return at(oil_degC, by_curves).net_W; });
        if (on_curves) {
            const auto mended = at_rest_near(at(*on_curves, by_curves).nodes, by_curves);
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

    static HeatSplit sum(const HeatSplit& a, const HeatSplit& b) {
        return {a.oil_W + b.oil_W, a.steel_W + b.steel_W, a.housing_W + b.housing_W};
    }

    /// By the formulas.
    [[nodiscard]] Drives exact(const Nodes& nodes) const {
        const LossesAt lost = losses(nodes);
        return {sum(split(lost.ledger), split(lost.bearing_W, prepared_.bearing_paths)),
                outside_W(nodes.housing_degC),
                cooler_heat_W(prepared_, leg_, nodes.oil_degC, switches_),
                exhaust_W_,
                prepared_.driving,
                prepared_.neighbour_degC};
    }

    [[nodiscard]] Drives on_curves(LegDrives& by_curves, const Nodes& nodes) const {
        return by_curves.at({nodes, {exhaust_W_, prepared_.neighbour_degC}, prepared_.driving});
    }

    [[nodiscard]] AtOil at(double oil_degC, LegDrives& by_curves) const {
        return at(
            oil_degC, on_curves(by_curves, {oil_degC, oil_degC, oil_degC}),
            [&](const Nodes& nodes) { return on_curves(by_curves, nodes).made; },
            [&](double housing_degC) {
                return on_curves(by_curves, {oil_degC, housing_degC, oil_degC}).outside_W;
            },
            steel_near_K);
    }

    /// Settled housing and steel, with what is made by all three temperatures, and the heat that
    /// leaves the housing by its own.
    template <class Made, class Outside>
    [[nodiscard]] AtOil at(double oil_degC, Drives drives, const Made& made,
                           const Outside& outside_W, double steel_to_K) const {
        Nodes nodes{oil_degC, oil_degC, oil_degC};
        const auto settle_steel = [&] {
            nodes.steel_degC = oil_degC;
            for (int round = 0; round < most_steel_rounds; ++round) {
                drives.made = made(nodes);
                const double before_degC = nodes.steel_degC;
                nodes.steel_degC = steel_at_rest_degC(drives, nodes);
                if (std::fabs(nodes.steel_degC - before_degC) < steel_to_K) break;
            }
        };
        nodes.housing_degC = housing_at_rest_degC(prepared_, oil_degC, [&](double housing_degC) {
            nodes.housing_degC = housing_degC;
            settle_steel();
            drives.outside_W = outside_W(housing_degC);
            return net_heat(nodes, drives).housing_W;
        });
        settle_steel();
        return {nodes, net_heat(nodes, drives).oil_W};
    }

    /// Newton's steps with the slopes of the curves; nothing where they do not converge.
    [[nodiscard]] std::optional<Nodes> at_rest_near(const Nodes& guess,
                                                    LegDrives& by_curves) const {
        const std::array<double Nodes::*, 3> each{&Nodes::oil_degC, &Nodes::housing_degC,
                                                  &Nodes::steel_degC};
        std::array<std::array<double, 3>, 3> slopes{};
        for (std::size_t j = 0; j < each.size(); ++j) {
            Nodes above = guess;
            Nodes below = guess;
            above.*each[j] += slope_over_K;
            below.*each[j] -= slope_over_K;
            const NetHeat more = net_heat(above, on_curves(by_curves, above));
            const NetHeat less = net_heat(below, on_curves(by_curves, below));
            slopes[0][j] = (more.oil_W - less.oil_W) / (2 * slope_over_K);
            slopes[1][j] = (more.housing_W - less.housing_W) / (2 * slope_over_K);
            slopes[2][j] = (more.steel_W - less.steel_W) / (2 * slope_over_K);
        }
        Nodes nodes = guess;
        for (int step = 0; step < most_steps; ++step) {
            const NetHeat net = net_heat(nodes, exact(nodes));
            const auto by_K = solved(slopes, {-net.oil_W, -net.housing_W, -net.steel_W});
            double moved_K = 0;
            for (std::size_t j = 0; j < each.size(); ++j) {
                nodes.*each[j] += by_K[j];
                moved_K += std::fabs(by_K[j]);
            }
            // Also false where a step is not a number.
            if (!(std::fabs(nodes.oil_degC - guess.oil_degC) < curves_within_K) ||
                nodes.oil_degC > oil_ceiling_degC)
                return std::nullopt;
            if (moved_K < last_step_K) return nodes;
        }
        return std::nullopt;
    }

    /// Three equations by Cramer's rule.
    static std::array<double, 3> solved(const std::array<std::array<double, 3>, 3>& m,
                                        const std::array<double, 3>& right) {
        const auto determinant = [](const std::array<std::array<double, 3>, 3>& of) {
            return of[0][0] * (of[1][1] * of[2][2] - of[1][2] * of[2][1]) -
                   of[0][1] * (of[1][0] * of[2][2] - of[1][2] * of[2][0]) +
                   of[0][2] * (of[1][0] * of[2][1] - of[1][1] * of[2][0]);
        };
        const double all = determinant(m);
        std::array<double, 3> x{};
        for (std::size_t j = 0; j < x.size(); ++j) {
            auto with = m;
            for (std::size_t i = 0; i < right.size(); ++i) with[i][j] = right[i];
            x[j] = determinant(with) / all;
        }
        return x;
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
    into.losses = balance.losses(nodes);
    for (std::size_t b = 0; b < prepared.bearing_paths.size(); ++b)
        into.bearing_heat.push_back(
            bearing_heat_at(prepared.bearing_paths[b], nodes, into.losses.bearing_W[b]));
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
