// SPDX-License-Identifier: MIT
// State of each case and part by its records, and what is due next.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/book/record.hpp"
#include "caseload/formulas/weibull_fit.hpp"
#include "caseload/input.hpp"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace caseload::book {

/// What a part has used up, over all cases it was in.
struct PartLife {
    std::string id;
    std::string position;  ///< the last one
    std::string serial;    ///< case it is in; "" on the shelf
    std::string set;       ///< drop set a gear belongs to
    std::map<std::string, double>
        used;  ///< "share" of a bearing, "flank" and "root" of a gear: of the reference life
    double events = 0;
    double driving_h = 0;
    double over_heat_code_h = 0;  ///< of a bearing: its rings hotter than they are stabilised to
    double last_good_share = 0;   ///< share at the last opening that found it good
    bool failed = false;          ///< found with fatigue
    bool found_bad = false;       ///< taken out or to be taken out for another reason
};

struct OpenFinding {
    std::string date;
    std::string position;  ///< "case" for a symptom
    std::string part;
    std::string word;
    std::string words;
    Weight weight = Weight::good;
};

struct CaseState {
    std::string serial;
    std::map<std::string, std::string> parts;  ///< position to part id
    std::vector<OpenFinding> findings;         ///< not yet answered by a new part or an opening
    double events = 0;
    double driving_h = 0;
    double peak_oil_degC = 0;
    double events_since_oil = 0;
    double oil_dose = 0;
    double events_since_look = 0;
    double events_since_opening = 0;
    Record last_event;  ///< empty before the first
};

struct State {
    std::map<std::string, CaseState> cases;
    std::map<std::string, PartLife> parts;
};

State state_of(std::span<const Record> records);

/// Damage of one event of a setup as fields of a record.
std::vector<std::pair<std::string, std::string>> event_damage_fields(const Setup& setup);

/// The setup text behind a hash. Throws Error{input} if it is not in the book.
std::string setup_text(std::span<const Record> records, const std::string& setup);

/// Readings of a case that `caseload calibrate` takes.
struct Readings {
    std::string setup;  ///< a setup file: the case's last setup and its readings
    int taken = 0;
    int left_out = 0;  ///< recorded under another setup
};
/// Throws Error{input} if the case has no event or no such reading.
Readings readings_of(std::span<const Record> records, const std::string& serial);
/// Fields of a reading that are keys of [reading.NAME] by the same name.
std::span<const std::string_view> reading_keys();
/// True if it is at a place that calibrate knows and has any field of how it was taken; without
/// these a reading is a note.
bool is_whole(const Record& reading);
/// Throws Error{input} when calibrate could not take the reading, in the words of its keys.
void require_usable(std::span<const Record> records, const Record& reading);

struct Replayed {
    int events = 0;
    std::vector<std::string> differences;  ///< damage that this program calculates differently
};
/// Every event calculated again from the setup text in the book.
Replayed recalculate(std::span<const Record> records);

struct Due {
    double after_events = 0;  ///< 0: now, before the next event
    std::string action;       ///< do_not_run | change_oil | look | open_case
    std::string part;         ///< or several, with commas
    std::string reason;       ///< or several, with semicolons
};

/// Whole further events that fatigue allows.
struct EventsLeft {
    double low = 0;
    double likely = 0;
    double high = 0;
    double looked_ahead = 0;  ///< no number is printed beyond
    double reliability = 0;
};

struct DueOfCase {
    std::string serial;
    std::vector<Due> actions;  ///< the next first, each action once
    std::string fatigue;       ///< what the numbers alone would allow, in words
    std::optional<EventsLeft> fatigue_events;
    std::vector<std::string> watch;  ///< checks of the last event's setup
    std::vector<std::string> look;   ///< when opened
};
/// Life multiplier of the bearings of all cases: prior updated by what was found.
weibull_fit::Multiplier fleet_multiplier(const State& state);
/// Lives of the bearings at a position ("" all), in shares of the reference life.
std::vector<weibull_fit::LifeRecord> fleet_lives(const State& state, const std::string& position);

/// What the bearings of all cases say, in shares of the calculated life at which 10 % fail.
struct Fleet {
    std::string position;  ///< "": all
    double shape = 0;      ///< slope as given
    double bearings = 0;   ///< with hours
    double failures = 0;   ///< found with fatigue
    double low = 0;        ///< true life over calculated life, 10 of 100
    double likely = 0;
    double high = 0;
    std::optional<double> ten_percent;        ///< by the given slope; from enough failures on
    std::optional<double> ten_percent_above;  ///< before: from here on, 9 in 10
    std::optional<double> slope;              ///< fitted
    weibull_fit::Interval slope_range{};      ///< 95 % likelihood interval
    std::string no_slope;                     ///< why it could not be fitted
};
Fleet fleet_of(const State& state, const std::string& position, double shape);

/// What is due next on each case. Setups of their last events are calculated by `for_each`.
std::vector<DueOfCase> due(std::span<const Record> records, const ForEach& for_each = one_by_one);

std::string due_screen(std::span<const DueOfCase> due);
std::string case_screen(const State& state, const std::string& serial);
std::string fleet_screen(const Fleet& fleet);

}  // namespace caseload::book
