// SPDX-License-Identifier: MIT
// Fifth step: actions, each after whole events, with the reason that governs.
#pragma once

#include "caseload/damage.hpp"
#include "caseload/quantity.hpp"

#include <string>

namespace caseload {

struct Action {
    std::string name;      ///< change_oil | look | open_case
    int after_events = 0;  ///< 0: not one event
    std::string reason;
};

template <>
struct Members<Action> {
    static constexpr std::string_view owner = "action";
    static constexpr auto all = std::make_tuple(member("name", &Action::name),
                                                member("after_events", &Action::after_events),
                                                member("reason", &Action::reason));
};

struct Intervals {
    Action change_oil;
    Action look;
    Action open_case;
    double fatigue_events = 0;    ///< last event that keeps the aim; unrounded reasoning below
    bool fatigue_beyond = false;  ///< more than 20 events or 200 driving hours: not a number
};

template <>
struct Members<Intervals> {
    static constexpr std::string_view owner = "intervals";
    static constexpr auto all = std::make_tuple(
        member("change_oil", &Intervals::change_oil), member("look", &Intervals::look),
        member("open_case", &Intervals::open_case),
        member("fatigue_events", &Intervals::fatigue_events),
        member("fatigue_beyond", &Intervals::fatigue_beyond));
};

/// Chance that no bearing fails in this many events, calculated modes only.
double reliability(const Damage& damage, double events);

Intervals intervals(const Setup& setup, const EventHeat& heat, const Damage& damage);

}  // namespace caseload
