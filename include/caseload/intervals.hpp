// SPDX-License-Identifier: MIT
// Fifth step: actions, each after whole events, with the reason that governs.
#pragma once

#include "caseload/checks.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

struct Action {
    std::string name;      ///< change_oil | look | open_case
    int after_events = 0;  ///< 0: not one event
    std::string reason;
};
CASELOAD_MEMBERS(Action, "action", name, after_events, reason);

/// Why a look is due where a ring does not keep its fit on the shaft.
inline constexpr std::string_view ring_on_shaft_words = "an inner ring turns on its shaft";

/// What one event uses up, and what was found: all that the actions depend on.
struct Wear {
    std::vector<double> bearing_share;  ///< of the 10 % failing life
    std::vector<ToothSide> teeth;       ///< of each gear, worst flank and worst root, 1 % failing
    std::vector<std::string> gears;     ///< their addresses: "gear.output"
    std::vector<double> spline_share;   ///< of the wear life of each spline
    double oil_dose = 0;
    double peak_oil_degC = 0;
    double driving_h = 0;
    bool seat_loose_hot = false;   ///< a ring walks or turns in its seat when hot
    bool ring_on_shaft = false;    ///< an inner ring turns on its shaft
    bool seal_over_limit = false;  ///< watched: new after the event
    bool seal_to_look_at = false;  ///< up to 10 K above the limit of its sump
};
/// Wear of the spline that uses most of its own; 0 without one.
double most_worn_spline(const Wear& wear);
Wear wear_of(const Setup& setup, const EventHeat& heat, const Damage& damage,
             const Checked& checked);

struct Intervals {
    Action change_oil;
    Action look;
    Action open_case;
    double fatigue_events = 0;          ///< last whole event that keeps the aim
    bool fatigue_beyond = false;        ///< more than 20 events or 200 driving hours: not a number
    double reliability_at_opening = 0;  ///< of reaching the opening, calculated modes, at most 0.99
    double remaining_events = 0;  ///< whole events beyond it that keep the aim, given that it was
                                  ///< reached; at most 20
    double next_event = 0;        ///< of finishing the event after that, given that it was reached
    double cheapest_events = 0;   ///< replacement of least cost; 0: no costs given, or never
    std::string decided_by;       ///< part with the least reliability: "bearing.x", "gear.y root";
                                  ///< "" where fatigue is beyond
};
CASELOAD_MEMBERS(Intervals, "intervals", change_oil, look, open_case, fatigue_events,
                 fatigue_beyond, reliability_at_opening, remaining_events, next_event,
                 cheapest_events, decided_by);

/// Chance that no bearing and no tooth fails in this many events, calculated modes only; unrounded.
double reliability(const Wear& wear, double events);

/// Largest reliability that is printed: what is not calculated is never that sure. Judgement.
inline constexpr double most_reliability = 0.99;

Intervals intervals(const Setup& setup, const Wear& wear);

}  // namespace caseload
