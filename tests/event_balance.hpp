// SPDX-License-Identifier: MIT
// Events and their heat balance, for tests of what acts in them.
#pragma once

#include "caseload/heat.hpp"
#include "examples.hpp"

#include <cmath>
#include <functional>
#include <vector>

namespace caseload::event_balance {

inline constexpr Bin cruise{1, 500, 4000, 25};

inline LegInput stop(double duration_s, Engine engine, bool pump, bool fan) {
    LegInput leg;
    leg.duration_s = duration_s;
    leg.engine = engine;
    leg.pump_on = pump;
    leg.fan_on = fan;
    return leg;
}

/// A case with a cooler, a fan and a thermostat, on one leg.
inline Setup cooled(const std::vector<Change>& changes = {}) {
    return examples::with_bins(examples::alone("light.toml", changes), {cruise});
}

/// The event's heat by its samples: made + exhaust - given off, less what the nodes store, over all
/// that passed. 0 when the states named are the ones the event ran with.
struct Event {
    const Prepared& prepared;
    const EventHeat& heat;
};
inline double gap(const Event& event, const std::function<Switches(const Sample&)>& state,
                  const std::function<double(double, const LegInput&)>& exhaust_W) {
    const Setup& setup = *event.prepared.setup;
    double left_J = 0;
    double passed_J = 0;
    for (std::size_t i = 1; i < event.heat.samples.size(); ++i) {
        const Sample& a = event.heat.samples[i - 1];
        const Sample& b = event.heat.samples[i];
        const auto leg = static_cast<std::size_t>(setup.event.run[static_cast<std::size_t>(b.run)]);
        const Switches now = state(a);
        const auto flow_W = [&](const Sample& at) {
            const double made_W =
                total_W(losses_at(setup, event.prepared.loads, event.prepared.oil,
                                  event.prepared.losses[leg], {at.nodes.oil_degC, now.pump},
                                  bearing_runs(event.prepared.oil, event.prepared.losses[leg],
                                               event.prepared.bearing_paths, at.nodes))
                            .ledger) +
                exhaust_W(at.t_s, setup.event.legs[leg]);
            const OutsideParts out = outside_parts(event.prepared, leg, at.nodes.housing_degC);
            return made_W - out.convection_W - out.radiation_W -
                   cooler_heat_W(event.prepared, leg, at.nodes.oil_degC, now);
        };
        const double dt_s = b.t_s - a.t_s;
        const double in_J = dt_s * (flow_W(a) + flow_W(b)) / 2;
        const Capacities& c = event.prepared.capacities;
        const double stored_J = c.oil_JpK * (b.nodes.oil_degC - a.nodes.oil_degC) +
                                c.housing_JpK * (b.nodes.housing_degC - a.nodes.housing_degC) +
                                c.steel_JpK * (b.nodes.steel_degC - a.nodes.steel_degC);
        left_J += in_J - stored_J;
        passed_J += std::fabs(in_J) + std::fabs(stored_J);
    }
    return left_J / passed_J;
}

inline double no_exhaust(double, const LegInput&) {
    return 0;
}

// Trapezoids over 30 s against modes of 20 s and more: below this everywhere here.
inline constexpr double closes = 0.006;

/// The samples of a run, alone.
inline EventHeat only_run(const EventHeat& heat, int run) {
    EventHeat part;
    for (std::size_t i = 0; i < heat.samples.size(); ++i)
        if (heat.samples[i].run == run) {
            if (part.samples.empty() && i > 0) {
                part.samples.push_back(heat.samples[i - 1]);  // where it began
                part.samples.back().run = run;
            }
            part.samples.push_back(heat.samples[i]);
        }
    return part;
}

}  // namespace caseload::event_balance
