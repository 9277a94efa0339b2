// SPDX-License-Identifier: MIT
#include "caseload/show/book.hpp"

#include "show/json_value.hpp"

#include <fmt/format.h>

#include <optional>
#include <vector>

namespace caseload {
namespace {

using json_value::number;
using json_value::text;

std::string weight_word(book::Weight weight) {
    if (weight == book::Weight::open_now) return "open_now";
    return weight == book::Weight::watch ? "watch" : "good";
}

std::string number_or_null(const std::optional<double>& value) {
    return value ? number(*value) : "null";
}

std::string document(std::string_view command, const std::string& members) {
    return fmt::format("{{\"schema\":1,\"command\":\"{}\",{},{}}}\n", command,
                       json_value::caution(), members);
}

std::string part_json(const book::PartLife& part) {
    std::string used;
    for (const auto& [measure, share] : part.used)
        used += fmt::format("{}{}:{}", used.empty() ? "" : ",", text(measure), number(share));
    return fmt::format(
        R"({{"id":{},"position":{},"set":{},"used":{{{}}},"events":{},"driving_h":{},"failed":{},"found_bad":{}}})",
        text(part.id), text(part.position), text(part.set), used, number(part.events),
        number(part.driving_h), part.failed, part.found_bad);
}

std::string case_json(const book::State& state, const book::CaseState& one) {
    std::vector<std::string> parts;
    for (const auto& [position, id] : one.parts) {
        const auto part = state.parts.find(id);
        if (part != state.parts.end()) parts.push_back(part_json(part->second));
    }
    std::vector<std::string> findings;
    for (const book::OpenFinding& finding : one.findings)
        findings.push_back(fmt::format(
            R"({{"date":{},"position":{},"part":{},"found":{},"words":{},"weight":"{}"}})",
            text(finding.date), text(finding.position), text(finding.part), text(finding.word),
            text(finding.words), weight_word(finding.weight)));
    return fmt::format(
        R"({{"case":{},"events":{},"driving_h":{},"peak_oil_degC":{},"oil_dose":{},)"
        R"("events_since_oil":{},"events_since_look":{},"events_since_opening":{},)"
        R"("parts":[{}],"findings":[{}]}})",
        text(one.serial), number(one.events), number(one.driving_h), number(one.peak_oil_degC),
        number(one.oil_dose), number(one.events_since_oil), number(one.events_since_look),
        number(one.events_since_opening), fmt::join(parts, ","), fmt::join(findings, ","));
}

}  // namespace

std::string book_json(const book::State& state, const std::string& serial) {
    std::vector<std::string> cases;
    for (const auto& [name, one] : state.cases)
        if (!name.empty() && (serial.empty() || name == serial))
            cases.push_back(case_json(state, one));
    std::vector<std::string> shelf;
    for (const auto& [id, part] : state.parts)
        if (part.serial.empty() && serial.empty()) shelf.push_back(part_json(part));
    return document("book show", fmt::format(R"("cases":[{}],"shelf":[{}])", fmt::join(cases, ","),
                                             fmt::join(shelf, ",")));
}

std::string due_json(std::span<const book::DueOfCase> due) {
    std::vector<std::string> cases;
    for (const book::DueOfCase& one : due) {
        std::vector<std::string> actions;
        for (const book::Due& action : one.actions)
            actions.push_back(
                fmt::format(R"({{"after_events":{},"action":{},"part":{},"reason":{}}})",
                            number(action.after_events), text(action.action), text(action.part),
                            text(action.reason)));
        const std::optional<book::EventsLeft>& left = one.fatigue_events;
        cases.push_back(fmt::format(
            R"({{"case":{},"actions":[{}],"fatigue":{},"fatigue_events":{}}})", text(one.serial),
            fmt::join(actions, ","), text(one.fatigue),
            left ? fmt::format(
                       R"({{"low":{},"likely":{},"high":{},"looked_ahead":{},"reliability":{}}})",
                       number(left->low), number(left->likely), number(left->high),
                       number(left->looked_ahead), number(left->reliability))
                 : "null"));
    }
    return document("book due", fmt::format(R"("cases":[{}])", fmt::join(cases, ",")));
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
