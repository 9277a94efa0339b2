// SPDX-License-Identifier: MIT
#include "caseload/show/season.hpp"

#include "caseload/figures.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

using json_value::list;
using json_value::number;
using json_value::temp;
using json_value::text;

std::string_view words_of(const SeasonAction& action) {
    if (action.name == "open_case") return "open the case";
    if (action.name == "change_oil") return "change the oil";
    if (action.name == "do_not_run") return "do not run this event";
    return "drain, read the magnet, end play";
}

std::string season_action_json(const SeasonAction& action) {
    return fmt::format(R"({{"name":{},"reason":{}}})", text(action.name), text(action.reason));
}

std::string event_json(const SeasonEvent& event) {
    return fmt::format(
        R"({{"name":{},"date":{},"verdict":{},"oil_likely_degC":{},"oil_high_degC":{},"driving_h":{},"driving_since_opening_h":{},"bearing":{},"bearing_life_share":{},"oil_dose":{},"reliability":{},"without_play":{},"before":{},"after":{}}})",
        text(event.name), text(event.date), text(event.verdict), temp(event.oil_likely_degC),
        temp(event.oil_high_degC), number(event.wear.driving_h), number(event.hours),
        text(event.decided_by), number(event.used_share), number(event.oil_dose),
        number(event.reliability), list(event.without_play, text),
        list(event.before, season_action_json), list(event.actions, season_action_json));
}

}  // namespace

std::string season_screen(const Setup& setup, const Season& season) {
    const Units units(setup.imperial);
    std::string out = wrapped("", units.text(season.decision)) + "\n";
    out += fmt::format("  {:<24} {:<12} {:<7} {:>9} {:>9}  {}\n", "event", "date", "verdict",
                       "oil " + std::string(units.degree()), "high", "bearing life used, the most");
    for (std::size_t i = 0; i < season.events.size(); ++i) {
        const SeasonEvent& event = season.events[i];
        const auto lines = [&](std::string_view when, const std::vector<SeasonAction>& actions) {
            for (const SeasonAction& action : actions)
                out += wrapped(fmt::format("       {:<8}", when),
                               fmt::format("{} ({})", words_of(action), units.text(action.reason)));
        };
        lines("before", event.before);
        out += fmt::format("  {:>2} {:<21} {:<12} {:<7} {:>9} {:>9}  {} % {}\n", i + 1,
                           event.name.substr(0, 21), event.date.substr(0, 12), event.verdict,
                           units.temp(event.oil_likely_degC), units.temp(event.oil_high_degC),
                           percent_figures(event.used_share), event.decided_by);
        for (const std::string& words : event.without_play)
            out += wrapped(fmt::format("       {:<8}", "play"), words);
        lines("after", event.actions);
    }
    for (const std::string& words : season.pairs) out += "\n" + wrapped("", units.text(words));
    return out + "\n" +
           wrapped("",
                   "From a new case with new oil. An opening renews bearings, gears and oil; "
                   "symptoms, your eyes and the rule book come first.");
}

std::string season_json(const Setup& setup, const Season& season) {
    return json_value::document(
        "season", fmt::format(R"("setup":{},"decision":{},"pairs":{},"events":{})",
                              text(setup.name), text(season.decision), list(season.pairs, text),
                              list(season.events, event_json)));
}

}  // namespace caseload
