// SPDX-License-Identifier: MIT
// Each leg's network as curves over temperature: made once, asked many times.
#pragma once

#include "caseload/heat.hpp"

#include <map>
#include <tuple>
#include <utility>
#include <vector>

namespace caseload {

/// Curves one leg's network is integrated with; exported for checks by another integrator.
struct LegCurves {
    Curve oil_W;
    Curve steel_W;
    Curve housing_W;
    Curve outside_W;
    Curve cooler_W;
};
LegCurves leg_curves(const Prepared& prepared, std::size_t leg, const Switches& switches);

/// The curves of a case, made when first asked for and kept. `prepared` must outlive them.
class CaseCurves {
public:
    explicit CaseCurves(const Prepared& prepared);
    explicit CaseCurves(const Prepared&& prepared) = delete;
    const LegCurves& at(std::size_t leg, const Switches& switches);
    [[nodiscard]] const Prepared& prepared() const { return prepared_; }

private:
    struct Made {
        Curve oil_W;
        Curve steel_W;
        Curve housing_W;
    };
    const Made& made_at(std::size_t leg, bool pump_runs);
    const Curve& outside(std::size_t leg);
    [[nodiscard]] Curve cooler(std::size_t leg, const Switches& switches) const;

    const Prepared& prepared_;
    double coldest_degC_;
    std::map<std::pair<std::size_t, bool>, Made> made_;
    std::map<std::size_t, Curve> outside_;
    std::map<std::tuple<std::size_t, bool, bool, bool>, LegCurves> legs_;
};

Steady steady(CaseCurves& curves, std::size_t leg, const Switches& allowed);
EventHeat event_heat(CaseCurves& curves, const Switches& allowed);
EventHeat event_heat(CaseCurves& curves, const Switches& allowed, const EventStart& start);

/// A leg's network for one state of its switches.
struct StateCurves {
    Switches switches;
    LegCurves curves;
};

/// A leg as another integrator needs it: every state of the switches it can be in.
struct LegNetwork {
    Conductances paths;
    double exhaust_driving_W = 0;  ///< 0 in a stop: there the last drive leg's decays
    std::vector<StateCurves> states;
};

/// The event as another integrator needs it, and what came out here.
struct EventNetwork {
    Capacities capacities;
    Nodes start;
    std::vector<LegNetwork> legs;  ///< each leg of the setup once
    EventHeat event;
};
EventNetwork event_network(const Prepared& prepared, const Switches& allowed);

}  // namespace caseload
