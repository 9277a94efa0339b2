// SPDX-License-Identifier: MIT
// Fifth step: actions, each after whole events, with the reason that governs.
#pragma once

#include "caseload/damage.hpp"

#include <string>

namespace caseload {

struct Action {
    std::string name;      ///< change_oil | look | open_case
    int after_events = 0;  ///< 0: not one event
    std::string reason;
};

struct Intervals {
    Action change_oil;
    Action look;
    Action open_case;
    double fatigue_events = 0;    ///< last event that keeps the aim; unrounded reasoning below
    bool fatigue_beyond = false;  ///< more than 20 events or 200 driving hours: not a number
};

/// Chance that no bearing fails in this many events, calculated modes only.
double reliability(const Damage& damage, double events);

Intervals intervals(const Setup& setup, const EventHeat& heat, const Damage& damage);

}  // namespace caseload
