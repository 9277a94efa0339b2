// SPDX-License-Identifier: MIT
// Coming events in the order they are run, over one setup: which action falls after which event.
#pragma once

#include "caseload/ask/band.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// A named event of the list: what it changes in the setup.
struct ComingEvent {
    std::string name;
    std::string date;  ///< as written; "" if none
    std::vector<Change> changes;
    std::vector<Where> places;  ///< of each change, with its line
    Where where;                ///< of its name in `run`
};

/// More are not planned ahead: other things open the case first. Judgement.
inline constexpr std::size_t most_season_events = 20;

/// Reads a list of events in TOML: `run` with names in order, and a heading [event.NAME] each with
/// `date` and any key of a setup; those of [event] without "event.". Throws Error{input}.
std::vector<ComingEvent> read_events(std::string_view text, const std::string& name);

struct SeasonAction {
    std::string name;  ///< change_oil | look | open_case; before an event also do_not_run
    std::string reason;
};

/// One event of the season, in order.
struct SeasonEvent {
    std::string name;
    std::string date;
    std::string verdict;  ///< of the event alone
    double oil_likely_degC = 0;
    double oil_high_degC = 0;
    Wear wear;               ///< of this event
    double reliability = 1;  ///< since the last opening, its end included
    std::string decided_by;  ///< bearing that has used most since then
    double used_share = 0;   ///< of its 10 % failing life, since then
    double oil_dose = 0;     ///< since the last change
    double hours = 0;        ///< driven since the last opening
    /// Bearings whose missing play when hot puts this event's case on watch, with what to do.
    std::vector<std::string> without_play{};
    std::vector<PairState> pairs;       ///< facing pairs of the case
    std::vector<SeasonAction> before;   ///< due before this event although none was driven
    std::vector<SeasonAction> actions;  ///< due after it; none where its verdict is stop
};

struct Season {
    std::vector<SeasonEvent> events;
    std::string decision;
    /// Facing pairs whose setting does not suit every event, in words.
    std::vector<std::string> pairs;
};

/// From a new case with new oil. An opening renews what fatigue has used, and the oil. An event
/// whose verdict is stop is taken as not run.
Season season(const Document& document, const std::vector<ComingEvent>& coming,
              const BandOptions& options);

}  // namespace caseload
