// SPDX-License-Identifier: MIT
// Where each case and part stands by its records, and what is due next.
#pragma once

#include "caseload/book/record.hpp"
#include "caseload/formulas/weibull_fit.hpp"
#include "caseload/input.hpp"

#include <map>
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
    double last_good_share = 0;  ///< share at the last opening that found it good
    bool failed = false;         ///< found with fatigue
    bool found_bad = false;      ///< taken out or to be taken out for another reason
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

/// The setup text behind a hash. Throws Error{input} if the book does not hold it.
std::string setup_text(std::span<const Record> records, const std::string& setup);

struct Replayed {
    int events = 0;
    std::vector<std::string> differences;  ///< damage that this program calculates differently
};
/// Every event calculated again from the setup text in the book.
Replayed recalculate(std::span<const Record> records);

struct Due {
    double after_events = 0;  ///< 0: now, before the next event
    std::string action;       ///< change_oil | look | open_case
    std::string part;
    std::string reason;
};

struct DueOfCase {
    std::string serial;
    std::vector<Due> actions;  ///< the next first
    std::string fatigue;       ///< what the numbers alone would allow, in words
};
/// Life multiplier of the bearings of all cases: prior updated by what was found.
weibull_fit::Multiplier fleet_multiplier(const State& state);
/// Lives of the bearings at a position ("" all), in shares of the reference life.
std::vector<weibull_fit::LifeRecord> fleet_lives(const State& state, const std::string& position);

std::vector<DueOfCase> due(std::span<const Record> records);

std::string due_screen(std::span<const DueOfCase> due);
std::string case_screen(const State& state, const std::string& serial);
std::string fleet_screen(const State& state, const std::string& position, double shape);

}  // namespace caseload::book
