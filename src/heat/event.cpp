// SPDX-License-Identifier: MIT
#include "caseload/heat.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <utility>

namespace caseload {
namespace {

// Points of the curves. Halving them moves no temperature of the examples by more than 2e-3 K; the
// cooler's takes more, as its pressure bypass bends it at an unknown place in each bin.
constexpr double curve_step_K = 8;
constexpr double cooler_step_K = 4;
// Paths beyond what anything stands are followed in longer steps.
constexpr double hot_degC = 200;
constexpr double hot_step_K = 20;
constexpr double sample_every_s = 30;

std::vector<double> grid(const Limits& range, double step_K, const std::vector<double>& kinks) {
    const auto& [low, high] = range;
    std::vector<double> x;
    double at = std::floor(low);
    while (at < high) {
        x.push_back(at);
        at += at < hot_degC ? step_K : hot_step_K;
    }
    x.push_back(high);
    for (const double kink : kinks)
        if (kink > low && kink < high) x.push_back(kink);
    std::sort(x.begin(), x.end());
    x.erase(std::unique(x.begin(), x.end(),
                        [](double a, double b) { return b - a < 1e-6; }),  // K: the same point
            x.end());
    return x;
}

template <class F>
Curve tabulated(const std::vector<double>& x, const F& f) {
    std::vector<double> y;
    y.reserve(x.size());
    for (const double at : x) y.push_back(f(at));
    return {x, y};
}

std::optional<double> pump_on_above(const Setup& setup) {
    return setup.lubrication.pump ? setup.lubrication.pump->on_above_degC : std::nullopt;
}

std::optional<double> fan_on_above(const Setup& setup) {
    return setup.cooler.fan_on_above_degC;
}

/// A path's heat; beyond the hottest point tabulated in proportion to the difference to its air.
struct PathEnds {
    double temp_degC;
    double air_degC;
};

double path_W(const Curve& curve, const PathEnds& ends) {
    const auto& [temp_degC, air_degC] = ends;
    if (temp_degC <= hottest_path_degC) return curve(temp_degC);
    return curve(hottest_path_degC) * (temp_degC - air_degC) / (hottest_path_degC - air_degC);
}

class EventRun {
public:
    EventRun(const Prepared& prepared, const Switches& allowed)
        : prepared_(prepared), setup_(*prepared.setup), allowed_(allowed) {}

    EventHeat run(const EventStart& start) {
        nodes_ = start.nodes;
        exhaust_W_ = start.exhaust_W;
        const double start_degC = nodes_.oil_degC;
        result_.peak_oil_degC = start_degC;
        result_.peak_housing_degC = nodes_.housing_degC;
        result_.samples.push_back({0, 0, nodes_});
        if (start_degC > setup_.limits.oil_watch_degC) result_.watch_after_s = 0;
        if (start_degC > setup_.limits.oil_stop_degC) result_.stop_after_s = 0;
        for (std::size_t i = 0; i < setup_.event.run.size(); ++i) run_leg(static_cast<int>(i));
        return std::move(result_);
    }

private:
    void run_leg(int run) {
        const auto leg = static_cast<std::size_t>(setup_.event.run[static_cast<std::size_t>(run)]);
        const LegInput& input = setup_.event.legs[leg];
        const double end_s = t_s_ + input.duration_s;
        RunPeak peak{static_cast<int>(leg), t_s_, end_s, nodes_.oil_degC, 0};
        const bool stop = input.kind == LegKind::stop;
        if (!stop) {
            exhaust_W_ = exhaust_driving_W(prepared_, leg);
            stopped_at_s_ = end_s;
        }
        const Conductances paths = stop ? in_stop(prepared_.driving) : prepared_.driving;
        const auto exhaust_W = [&](double t_s) {
            if (!stop) return exhaust_W_;
            const double left = std::exp(-(t_s - stopped_at_s_) / exhaust_decay_s);
            return exhaust_W_ * (input.engine == Engine::idle
                                     ? exhaust_idle_share + (1 - exhaust_idle_share) * left
                                     : left);
        };
        const auto see = [&](double t_s, const Nodes& nodes) {
            look_at(t_s, nodes, run);
            peak.peak_oil_degC = std::max(peak.peak_oil_degC, nodes.oil_degC);
        };
        while (t_s_ < end_s) {
            latches_ = latches_at(setup_, latches_, nodes_.oil_degC);
            const Switches now = in_leg(setup_, input, allowed_, latches_);
            const LegCurves& curves = curves_for(leg, now);
            const auto drives = [&](double t_s, const Nodes& nodes) {
                return Drives{
                    {curves.oil_W(nodes.oil_degC), curves.steel_W(nodes.oil_degC),
                     curves.housing_W(nodes.oil_degC)},
                    path_W(curves.outside_W, {nodes.housing_degC, prepared_.case_air_degC}),
                    path_W(curves.cooler_W, {nodes.oil_degC, prepared_.cooler_air_degC}),
                    exhaust_W(t_s),
                    paths};
            };
            t_s_ = integrate(
                prepared_.capacities, nodes_, {t_s_, end_s, sample_every_s}, drives, see,
                may_switch(setup_)
                    ? [this](
                          const Nodes&
                              n) { return !(latches_at(setup_, latches_, n.oil_degC) == latches_); }
                    : std::function<bool(const Nodes&)>{});
        }
        peak.end_oil_degC = nodes_.oil_degC;
        result_.runs.push_back(peak);
    }

    void look_at(double t_s, const Nodes& nodes, int run) {
        if (nodes.oil_degC > result_.peak_oil_degC) {
            result_.peak_oil_degC = nodes.oil_degC;
            result_.peak_at_s = t_s;
        }
        result_.peak_housing_degC = std::max(result_.peak_housing_degC, nodes.housing_degC);
        const Sample now{t_s, run, nodes};
        cross(now, setup_.limits.oil_watch_degC, result_.watch_after_s);
        cross(now, setup_.limits.oil_stop_degC, result_.stop_after_s);
        result_.samples.push_back(now);
    }

    /// Time a limit is first passed, linear between samples.
    void cross(const Sample& now, double limit_degC, double& after_s) const {
        const double t_s = now.t_s;
        const double oil_degC = now.nodes.oil_degC;
        if (after_s >= 0 || oil_degC <= limit_degC) return;
        const Sample& before = result_.samples.back();
        const double rise_K = oil_degC - before.nodes.oil_degC;
        after_s = rise_K > 0
                      ? before.t_s +
                            (t_s - before.t_s) *
                                std::clamp((limit_degC - before.nodes.oil_degC) / rise_K, 0.0, 1.0)
                      : t_s;
    }

    const LegCurves& curves_for(std::size_t leg, const Switches& now) {
        const auto key = std::make_tuple(leg, now.pump, now.fan);
        const auto found = curves_.find(key);
        if (found != curves_.end()) return found->second;
        return curves_.emplace(key, leg_curves(prepared_, leg, now)).first->second;
    }

    const Prepared& prepared_;
    const Setup& setup_;
    Switches allowed_;
    EventHeat result_;
    Nodes nodes_{};
    double t_s_ = 0;
    double exhaust_W_ = 0;
    double stopped_at_s_ = 0;
    Latches latches_;
    std::map<std::tuple<std::size_t, bool, bool>, LegCurves> curves_;
};

bool latched(bool was, double above_on_K) {
    return above_on_K > (was ? -switch_hysteresis_K : 0);
}

}  // namespace

Latches latches_at(const Setup& setup, const Latches& before, double oil_degC) {
    Latches now;
    if (const auto on_degC = pump_on_above(setup))
        now.pump = latched(before.pump, oil_degC - *on_degC);
    if (const auto on_degC = fan_on_above(setup))
        now.fan = latched(before.fan, oil_degC - *on_degC);
    return now;
}

bool may_switch(const Setup& setup) {
    return pump_on_above(setup) || fan_on_above(setup);
}

Switches in_leg(const Setup& setup, const LegInput& leg, const Switches& allowed,
                const Latches& latches) {
    Switches now = allowed;
    const bool stop = leg.kind == LegKind::stop;
    now.pump = now.pump && (!stop || leg.pump_on) && (!pump_on_above(setup) || latches.pump);
    now.fan = now.fan && (!stop || leg.fan_on) && (!fan_on_above(setup) || latches.fan);
    return now;
}

LegCurves leg_curves(const Prepared& prepared, std::size_t leg, const Switches& switches) {
    const Setup& setup = *prepared.setup;
    const double coldest =
        std::min({prepared.ambient_degC, prepared.case_air_degC, prepared.start_degC}) - 1;
    const std::vector<double> loss_grid = grid({coldest, oil_ceiling_degC}, curve_step_K, {});
    std::vector<double> oil_W;
    std::vector<double> steel_W;
    std::vector<double> housing_W;
    for (const double oil_degC : loss_grid) {
        const LossesAt losses = losses_at(setup, prepared.loads, prepared.oil, prepared.losses[leg],
                                          {.temp_degC = oil_degC, .pump_runs = switches.pump});
        const HeatSplit made = split(losses.ledger);
        oil_W.push_back(made.oil_W);
        steel_W.push_back(made.steel_W);
        housing_W.push_back(made.housing_W);
    }
    std::vector<double> kinks = {oil_ceiling_degC};
    // The thermostat bends the cooler's curve at both ends of its range: points close around the
    // bends keep the smooth curve through them within 0.01 K of the balance.
    if (setup.cooler.thermostat_opens_degC) {
        const double opens_degC = *setup.cooler.thermostat_opens_degC;
        for (int step = 0; step <= 20; ++step)
            kinks.push_back(opens_degC + step * thermostat_range_K / 20);
        for (const double bend_degC : {opens_degC, opens_degC + thermostat_range_K})
            for (int step = -5; step <= 5; ++step) kinks.push_back(bend_degC + 0.1 * step);
    }
    LegCurves curves;
    curves.oil_W = {loss_grid, oil_W};
    curves.steel_W = {loss_grid, steel_W};
    curves.housing_W = {loss_grid, housing_W};
    curves.outside_W =
        tabulated(grid({coldest, hottest_path_degC}, curve_step_K, {prepared.case_air_degC}),
                  [&](double housing_degC) {
                      const OutsideParts out = outside_parts(prepared, leg, housing_degC);
                      return out.convection_W + out.radiation_W;
                  });
    curves.cooler_W = tabulated(
        grid({coldest, hottest_path_degC}, cooler_step_K, kinks),
        [&](double oil_degC) { return cooler_heat_W(prepared, leg, oil_degC, switches); });
    return curves;
}

EventHeat event_heat(const Prepared& prepared, const Switches& allowed) {
    const double start_degC = prepared.start_degC;
    return event_heat(prepared, allowed, {{start_degC, start_degC, start_degC}, 0});
}

EventHeat event_heat(const Prepared& prepared, const Switches& allowed, const EventStart& start) {
    return EventRun(prepared, allowed).run(start);
}

EventNetwork event_network(const Prepared& prepared, const Switches& allowed) {
    const Setup& setup = *prepared.setup;
    EventNetwork network;
    network.capacities = prepared.capacities;
    network.start = {prepared.start_degC, prepared.start_degC, prepared.start_degC};
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        const LegInput& input = setup.event.legs[leg];
        const bool stop = input.kind == LegKind::stop;
        LegNetwork one;
        one.paths = stop ? in_stop(prepared.driving) : prepared.driving;
        if (!stop) one.exhaust_driving_W = exhaust_driving_W(prepared, leg);
        for (const Latches latches : {Latches{false, false}, Latches{true, false},
                                      Latches{false, true}, Latches{true, true}}) {
            const Switches now = in_leg(setup, input, allowed, latches);
            const bool known =
                std::any_of(one.states.begin(), one.states.end(), [&](const StateCurves& state) {
                    return state.switches.pump == now.pump && state.switches.fan == now.fan;
                });
            if (!known) one.states.push_back({now, leg_curves(prepared, leg, now)});
        }
        network.legs.push_back(std::move(one));
    }
    network.event = event_heat(prepared, allowed);
    return network;
}

}  // namespace caseload
