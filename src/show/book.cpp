// SPDX-License-Identifier: MIT
#include "caseload/show/book.hpp"

#include "show/json_value.hpp"

#include <fmt/format.h>

#include <optional>

namespace caseload {
namespace {

using json_value::document;
using json_value::list;
using json_value::number;
using json_value::number_or_null;
using json_value::text;

std::string weight_word(book::Weight weight) {
    if (weight == book::Weight::open_now) return "open_now";
    return weight == book::Weight::watch ? "watch" : "good";
}

std::string part_json(const book::PartLife& part) {
    const std::string used = joined(part.used, ",", [](const auto& one) {
        return fmt::format("{}:{}", text(one.first), number(one.second));
    });
    return fmt::format(
        R"({{"id":{},"position":{},"set":{},"used":{{{}}},"events":{},"driving_h":{},"failed":{},"found_bad":{}}})",
        text(part.id), text(part.position), text(part.set), used, number(part.events),
        number(part.driving_h), part.failed, part.found_bad);
}

std::string finding_json(const book::OpenFinding& finding) {
    return fmt::format(
        R"({{"date":{},"position":{},"part":{},"found":{},"words":{},"weight":"{}"}})",
        text(finding.date), text(finding.position), text(finding.part), text(finding.word),
        text(finding.words), weight_word(finding.weight));
}

std::string case_json(const book::State& state, const book::CaseState& one) {
    const auto part_of = [&](const auto& place) {
        const auto part = state.parts.find(place.second);
        return part == state.parts.end() ? std::string() : part_json(part->second);
    };
    return fmt::format(R"({{"case":{},"events":{},"driving_h":{},"peak_oil_degC":{},"oil_dose":{},)"
                       R"("events_since_oil":{},"events_since_look":{},"events_since_opening":{},)"
                       R"("parts":{},"findings":{}}})",
                       text(one.serial), number(one.events), number(one.driving_h),
                       number(one.peak_oil_degC), number(one.oil_dose),
                       number(one.events_since_oil), number(one.events_since_look),
                       number(one.events_since_opening), list(one.parts, part_of),
                       list(one.findings, finding_json));
}

std::string action_json(const book::Due& action) {
    return fmt::format(R"({{"after_events":{},"action":{},"part":{},"reason":{}}})",
                       number(action.after_events), text(action.action), text(action.part),
                       text(action.reason));
}

std::string due_of_case_json(const book::DueOfCase& one) {
    const std::optional<book::EventsLeft>& left = one.fatigue_events;
    return fmt::format(
        R"({{"case":{},"actions":{},"watch":{},"look":{},"fatigue":{},"fatigue_events":{}}})",
        text(one.serial), list(one.actions, action_json), list(one.watch, text),
        list(one.look, text), text(one.fatigue),
        left ? fmt::format(
                   R"({{"low":{},"likely":{},"high":{},"looked_ahead":{},"reliability":{}}})",
                   number(left->low), number(left->likely), number(left->high),
                   number(left->looked_ahead), number(left->reliability))
             : "null");
}

}  // namespace

std::string book_json(const book::State& state, const std::string& serial) {
    const auto wanted_case = [&](const auto& one) {
        const bool wanted = !one.first.empty() && (serial.empty() || one.first == serial);
        return wanted ? case_json(state, one.second) : std::string();
    };
    const auto shelved = [&](const auto& one) {
        const bool wanted = one.second.serial.empty() && serial.empty();
        return wanted ? part_json(one.second) : std::string();
    };
    return document("book show",
                    fmt::format(R"("cases":{},"shelf":{})", list(state.cases, wanted_case),
                                list(state.parts, shelved)));
}

std::string due_json(std::span<const book::DueOfCase> due) {
    return document("book due", fmt::format(R"("cases":{})", list(due, due_of_case_json)));
}

std::string fleet_json(const book::Fleet& fleet) {
    return document(
        "book fleet",
        fmt::format(
            R"("position":{},"bearings":{},"failures":{},"life_over_calculated":{{"p10":{},"p50":{},"p90":{}}},)"
            R"("given_slope":{},"ten_percent_at":{},"ten_percent_above":{},)"
            R"("own_slope":{},"own_slope_range":{},"no_slope":{})",
            text(fleet.position), number(fleet.bearings), number(fleet.failures), number(fleet.low),
            number(fleet.likely), number(fleet.high), number(fleet.shape),
            number_or_null(fleet.ten_percent), number_or_null(fleet.ten_percent_above),
            number_or_null(fleet.slope),
            fleet.slope ? fmt::format("[{},{}]", number(fleet.slope_range.low),
                                      number(fleet.slope_range.high))
                        : "null",
            text(fleet.no_slope)));
}

}  // namespace caseload
