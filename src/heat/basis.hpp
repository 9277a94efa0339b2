// SPDX-License-Identifier: MIT
// What a part of an answer is calculated from, so that cases that differ elsewhere can share it.
#pragma once

#include "caseload/heat_curves.hpp"
#include "heat/event_walk.hpp"

#include <cstddef>
#include <vector>

namespace caseload {

/// A case reduced to what one part of its answer is calculated from; all else is as in an empty
/// case. The part is calculated from its basis and from nothing else, so an input missing here is
/// missing in every answer, and equal bases give the same to the last bit. Headings are copied
/// whole, less what assumptions move without moving the part: a new key comes along by itself.
struct Basis {
    Setup setup;
    Prepared prepared;  ///< points to no setup, as a basis is copied: whole() does

    bool operator==(const Basis&) const = default;
};

/// The basis as a case to calculate with; it must outlive the result.
Prepared whole(const Basis& basis);

/// Of one leg, which is leg 0 of the basis: its losses, heat to the outside, heat through the
/// cooler.
Basis losses_basis(const Prepared& prepared, std::size_t leg);
Basis outside_basis(const Prepared& prepared, std::size_t leg);
Basis cooler_basis(const Prepared& prepared, std::size_t leg);
/// Of one speed of the air along the housing, of one flow of air and oil through the core: the same
/// without legs.
Basis outside_basis(const Prepared& prepared);
Basis cooler_basis(const Prepared& prepared);

/// What every bearing's film and life are calculated from, beside the bearing and its loads.
Basis film_basis(const Prepared& prepared);

/// Of an event beside the curves of its legs.
struct EventBasis {
    struct Leg {
        LegInput input;  ///< without what its curves are of
        double exhaust_driving_W = 0;

        bool operator==(const Leg&) const = default;
    };
    Basis common;
    std::vector<Leg> legs;
    Switches allowed;
    EventStart start;

    bool operator==(const EventBasis&) const = default;
};
EventBasis event_basis(const Prepared& prepared, const Switches& allowed, const EventStart& start);

/// An event with what it was calculated from, for similar ones.
struct KeptEvent {
    /// A leg of the run: how it began, what was known by then, and what it then ran on.
    struct Begun {
        Nodes nodes{};
        EventMoment at;
        EventHeat so_far;  ///< without its samples and runs
        std::size_t samples = 0;
        std::vector<StateCurves> states;
    };
    EventBasis from;
    std::vector<Begun> begun;
    EventHeat heat;
};
KeptEvent keep_event(CaseCurves& curves, const Switches& allowed);

/// The same as event_heat. Legs of the run are taken over up to the first that differs.
EventHeat event_like(CaseCurves& curves, const KeptEvent& like);

}  // namespace caseload
