// SPDX-License-Identifier: MIT
#include "caseload/heat_curves.hpp"
#include "heat/basis.hpp"
#include "heat/integrate.hpp"
#include "heat/leg_drives.hpp"

#include <algorithm>
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
    EventRun(CaseCurves& curves, const EventBasis& from)
        : curves_(curves),
          from_(from),
          prepared_(whole(from.common)),
          setup_(from.common.setup),
          nodes_(from.start.nodes),
          walk_(setup_, from.allowed, bolted_to(prepared_), {0, from.start.exhaust_W, 0, {}}) {}

    EventHeat run() {
        const double start_degC = nodes_.oil_degC;
        result_.peak_oil_degC = start_degC;
        result_.peak_housing_degC = nodes_.housing_degC;
        result_.samples.push_back({0, 0, nodes_});
        if (start_degC > setup_.limits.oil_watch_degC) result_.watch_after_s = 0;
        if (start_degC > setup_.limits.oil_stop_degC) result_.stop_after_s = 0;
        return run_from(0);
    }

    EventHeat run_as(const KeptEvent& like) {
        if (!begins_as(like)) return run();
        std::size_t run = 0;
        while (run < like.begun.size() && runs_as(like, run)) ++run;
        if (run == like.begun.size()) return like.heat;
        const KeptEvent::Begun& begun = like.begun[run];
        nodes_ = begun.nodes;
        walk_.now = begun.at;
        result_ = begun.so_far;
        const auto& samples = like.heat.samples;
        result_.samples.assign(samples.begin(),
                               samples.begin() + static_cast<std::ptrdiff_t>(begun.samples));
        result_.runs.assign(like.heat.runs.begin(),
                            like.heat.runs.begin() + static_cast<std::ptrdiff_t>(run));
        return run_from(run);
    }

    [[nodiscard]] std::vector<KeptEvent::Begun> begun() { return std::move(begun_); }

private:
    [[nodiscard]] bool begins_as(const KeptEvent& like) const {
        return from_.common == like.from.common && from_.allowed == like.from.allowed &&
               from_.start == like.from.start;
    }

    /// A leg of the run that begins as in the other event is taken over from it.
    bool runs_as(const KeptEvent& like, std::size_t run) {
        const auto leg = static_cast<std::size_t>(setup_.event.run[run]);
        const auto& states = like.begun[run].states;
        return from_.legs[leg] == like.from.legs[leg] &&
               std::all_of(states.begin(), states.end(), [&](const StateCurves& state) {
                   return curves_.at(leg, state.switches).are(state.curves);
               });
    }

    EventHeat run_from(std::size_t run) {
        for (; run < setup_.event.run.size(); ++run) run_leg(static_cast<int>(run));
        return std::move(result_);
    }

    /// What is known, without samples and runs.
    [[nodiscard]] EventHeat so_far() const {
        EventHeat known;
        known.peak_oil_degC = result_.peak_oil_degC;
        known.peak_housing_degC = result_.peak_housing_degC;
        known.peak_at_s = result_.peak_at_s;
        known.watch_after_s = result_.watch_after_s;
        known.stop_after_s = result_.stop_after_s;
        return known;
    }

    void run_leg(int run) {
        const auto leg = static_cast<std::size_t>(setup_.event.run[static_cast<std::size_t>(run)]);
        const LegInput& input = from_.legs[leg].input;
        begun_.push_back({nodes_, walk_.now, so_far(), result_.samples.size(), {}});
        RunPeak peak{static_cast<int>(leg), walk_.now.t_s, walk_.now.t_s + input.duration_s,
                     nodes_.oil_degC, 0};
        const auto see = [&](double t_s, const Nodes& nodes) {
            look_at(t_s, nodes, run);
            peak.peak_oil_degC = std::max(peak.peak_oil_degC, nodes.oil_degC);
        };
        const auto step = [&](const LegStretch& stretch) {
            const LegCurves& curves = curves_.at(leg, stretch.on);
            begun_.back().states.push_back({stretch.on, curves});
            LegDrives by_curves(prepared_, curves);
            const Conductances paths = stretch.stop ? in_stop(prepared_) : prepared_.driving;
            const auto drives = [&](double t_s, const Nodes& nodes) {
                return by_curves.at({nodes, stretch.beside(t_s), paths});
            };
            return integrate_by(prepared_.capacities, nodes_,
                                {walk_.now.t_s, stretch.end_s, sample_every_s}, drives, see,
                                walk_.may_move(),
                                [this](const Nodes& nodes) { return walk_.moves(nodes.oil_degC); });
        };
        walk_.leg(
            input, from_.legs[leg].exhaust_driving_W, [this] { return nodes_.oil_degC; }, step);
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
    const EventBasis& from_;
    const Prepared prepared_;
    const Setup& setup_;
    EventHeat result_;
    std::vector<KeptEvent::Begun> begun_;
    Nodes nodes_;
    EventWalk walk_;
};

EventStart whole_case_at(double degC) {
    return {{degC, degC, degC}, 0};
}

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
    const EventBasis from = event_basis(curves.prepared(), allowed, start);
    return EventRun(curves, from).run();
}

EventHeat event_heat(CaseCurves& curves, const Switches& allowed) {
    return event_heat(curves, allowed, whole_case_at(curves.prepared().start_degC));
}

KeptEvent keep_event(CaseCurves& curves, const Switches& allowed) {
    KeptEvent kept;
    kept.from =
        event_basis(curves.prepared(), allowed, whole_case_at(curves.prepared().start_degC));
    EventRun run(curves, kept.from);
    kept.heat = run.run();
    kept.begun = run.begun();
    return kept;
}

EventHeat event_like(CaseCurves& curves, const KeptEvent& like) {
    const EventBasis from = event_basis(curves.prepared(), like.from.allowed,
                                        whole_case_at(curves.prepared().start_degC));
    return EventRun(curves, from).run_as(like);
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
    network.neighbour_degC = prepared.neighbour_degC;
    network.ambient_degC = prepared.ambient_degC;
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        const LegInput& input = setup.event.legs[leg];
        const bool stop = input.kind == LegKind::stop;
        LegNetwork one;
        one.paths = stop ? direct_in_stop(prepared.direct) : prepared.direct;
        one.films = film_groups(stop ? bearing_paths_in_stop(prepared.bearing_paths)
                                     : prepared.bearing_paths);
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
