// SPDX-License-Identifier: MIT
// Each leg's network as curves over temperature, made once and used many times.
#pragma once

#include "caseload/heat.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <tuple>
#include <utility>
#include <vector>

namespace caseload {

/// Curves one leg's network is integrated with; exported for checks by another integrator. The
/// first three, of what its losses beside bearings make, lie on the same points.
struct LegCurves {
    Curve oil_W;
    Curve steel_W;
    Curve housing_W;
    Curve outside_W;
    Curve cooler_W;
    /// Loss of the bearings of each group of `Prepared::films`, over the temperature of their films
    /// without loss; none in a stop.
    std::vector<Curve> films_W;

    /// Whether both share every curve.
    [[nodiscard]] bool are(const LegCurves& other) const {
        return oil_W.is(other.oil_W) && steel_W.is(other.steel_W) &&
               housing_W.is(other.housing_W) && outside_W.is(other.outside_W) &&
               cooler_W.is(other.cooler_W) &&
               std::equal(films_W.begin(), films_W.end(), other.films_W.begin(),
                          other.films_W.end(),
                          [](const Curve& a, const Curve& b) { return a.is(b); });
    }
};
LegCurves leg_curves(const Prepared& prepared, std::size_t leg, const Switches& switches);

/// The curves of a case, made at first use and kept. `prepared` must outlive them.
class CaseCurves {
public:
    explicit CaseCurves(const Prepared& prepared);
    explicit CaseCurves(const Prepared&& prepared) = delete;
    /// For a case that differs little from another: takes over the curves the other has made from
    /// the same inputs. The other must outlive this.
    CaseCurves(const Prepared& prepared, const CaseCurves& like);
    const LegCurves& at(std::size_t leg, const Switches& switches);
    [[nodiscard]] const Prepared& prepared() const { return prepared_; }

private:
    using LegState = std::tuple<std::size_t, bool, bool, bool>;
    // With what they are calculated from.
    struct Made;
    struct Path;
    const Made& made_at(std::size_t leg, bool pump_runs);
    const Path& outside(std::size_t leg);
    const Path& cooler(std::size_t leg, const Switches& switches);

    const Prepared& prepared_;
    double coldest_degC_;
    const CaseCurves* like_ = nullptr;
    std::map<std::pair<std::size_t, bool>, std::shared_ptr<const Made>> made_;
    std::map<std::size_t, std::shared_ptr<const Path>> outside_;
    std::map<LegState, std::shared_ptr<const Path>> cooler_;
    std::map<LegState, LegCurves> legs_;
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
    Conductances paths;  ///< beside those through bearings
    std::vector<FilmGroup> films;
    double exhaust_driving_W = 0;  ///< 0 in a stop: there the last drive leg's decays
    std::vector<StateCurves> states;
};

/// The event as another integrator needs it, and what came out here.
struct EventNetwork {
    Capacities capacities;
    Nodes start;
    std::vector<LegNetwork> legs;  ///< each leg of the setup once
    double neighbour_degC = 0;     ///< while driving
    double ambient_degC = 0;
    EventHeat event;
};
EventNetwork event_network(const Prepared& prepared, const Switches& allowed);

}  // namespace caseload
