// SPDX-License-Identifier: MIT
#include "caseload/heat_curves.hpp"
#include "heat/at_oil.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

namespace caseload {
namespace {

constexpr double sample_every_s = 30;

std::optional<double> pump_on_above(const Setup& setup) {
    return setup.lubrication.pump ? setup.lubrication.pump->on_above_degC : std::nullopt;
}

std::optional<double> fan_on_above(const Setup& setup) {
    return setup.cooler.fan_on_above_degC;
}

class EventRun {
public:
    EventRun(CaseCurves& curves, const Switches& allowed)
        : curves_(curves),
          prepared_(curves.prepared()),
          setup_(*prepared_.setup),
          allowed_(allowed) {}

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
            return stop ? exhaust_left_W(exhaust_W_, input.engine, t_s - stopped_at_s_)
                        : exhaust_W_;
        };
        const auto see = [&](double t_s, const Nodes& nodes) {
            look_at(t_s, nodes, run);
            peak.peak_oil_degC = std::max(peak.peak_oil_degC, nodes.oil_degC);
        };
        while (t_s_ < end_s) {
            latches_ = latches_at(setup_, latches_, nodes_.oil_degC);
            const Switches now = in_leg(setup_, input, allowed_, latches_);
            const LegCurves& curves = curves_.at(leg, now);
            const auto drives = [&](double t_s, const Nodes& nodes) {
                return drives_at(prepared_, curves, {nodes, exhaust_W(t_s), paths});
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

    CaseCurves& curves_;
    const Prepared& prepared_;
    const Setup& setup_;
    Switches allowed_;
    EventHeat result_;
    Nodes nodes_{};
    double t_s_ = 0;
    double exhaust_W_ = 0;
    double stopped_at_s_ = 0;
    Latches latches_;
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

EventHeat event_heat(CaseCurves& curves, const Switches& allowed, const EventStart& start) {
    return EventRun(curves, allowed).run(start);
}

EventHeat event_heat(CaseCurves& curves, const Switches& allowed) {
    const double start_degC = curves.prepared().start_degC;
    return event_heat(curves, allowed, {{start_degC, start_degC, start_degC}, 0});
}

EventHeat event_heat(const Prepared& prepared, const Switches& allowed) {
    CaseCurves curves(prepared);
    return event_heat(curves, allowed);
}

EventHeat event_heat(const Prepared& prepared, const Switches& allowed, const EventStart& start) {
    CaseCurves curves(prepared);
    return event_heat(curves, allowed, start);
}

EventNetwork event_network(const Prepared& prepared, const Switches& allowed) {
    const Setup& setup = *prepared.setup;
    CaseCurves curves(prepared);
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
            if (!known) one.states.push_back({now, curves.at(leg, now)});
        }
        network.legs.push_back(std::move(one));
    }
    network.event = event_heat(curves, allowed);
    return network;
}

}  // namespace caseload
