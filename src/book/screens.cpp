// SPDX-License-Identifier: MIT
#include "caseload/book/state.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

namespace caseload::book {
namespace {

using input::harmless;

std::string when(double after) {
    if (after <= 0) return "NOW, before the next event";
    return after == 1 ? "after the next event" : fmt::format("after {:.0f} more events", after);
}

std::string action_words(const std::string& action) {
    if (action == "do_not_run") return "do not run it again";
    if (action == "open_case") return "open the case";
    return action == "change_oil" ? "change the oil" : "drain and look";
}

/// Words in lines of a terminal's width, all but the first indented.
std::string in_lines(std::string_view text, std::size_t indent) {
    constexpr std::size_t width = 100;
    std::string out;
    while (indent + text.size() > width) {
        const std::size_t blank = text.rfind(' ', width - indent);
        if (blank == std::string_view::npos || blank == 0) break;
        out.append(text.substr(0, blank)).append("\n").append(indent, ' ');
        text.remove_prefix(blank + 1);
    }
    return out.append(text);
}

constexpr std::string_view caution =
    "Plan with this; symptoms, your eyes and the rule book come first.\n";

}  // namespace

std::string due_screen(std::span<const DueOfCase> due) {
    if (due.empty()) return "No case in this book. First: caseload book add case SERIAL\n";
    std::string out;
    for (const DueOfCase& one : due) {
        bool first = true;
        for (const Due& action : one.actions) {
            out += fmt::format("{:<10}{}: {}: {}\n", first ? harmless(one.serial) : "",
                               when(action.after_events), action_words(action.action),
                               harmless(action.part));
            out += fmt::format("{:<10}  why: {}\n", "", in_lines(harmless(action.reason), 17));
            first = false;
        }
        for (const std::string& check : one.watch)
            out += fmt::format("{:<10}watch: {}\n", "", in_lines(harmless(check), 17));
        for (const std::string& check : one.look)
            out +=
                fmt::format("{:<10}look at when opened: {}\n", "", in_lines(harmless(check), 31));
        out += fmt::format("{:<10}{}\n\n", first ? harmless(one.serial) : "", one.fatigue);
    }
    return out + std::string(caution);
}

std::string case_screen(const State& state, const std::string& serial) {
    std::string out;
    for (const auto& [name, one] : state.cases) {
        if (name.empty() || (!serial.empty() && name != serial)) continue;
        out += fmt::format("{}: {:.0f} event{}, {:.1f} h driven, oil at most {:.0f} degC\n",
                           harmless(name), one.events, one.events == 1 ? "" : "s", one.driving_h,
                           one.peak_oil_degC);
        out += fmt::format("  since oil {:.0f}, since a look {:.0f}, since opening {:.0f} events\n",
                           one.events_since_oil, one.events_since_look, one.events_since_opening);
        for (const auto& [position, id] : one.parts) {
            const auto part = state.parts.find(id);
            if (part == state.parts.end()) continue;
            out += fmt::format("  {:<24}{:<36} ", harmless(position), harmless(id));
            for (const auto& [measure, used] : part->second.used)
                out += fmt::format("{} {:.3g} % ", measure, 100 * used);
            if (!part->second.set.empty()) out += fmt::format("set {}", harmless(part->second.set));
            out += '\n';
        }
        for (const OpenFinding& finding : one.findings)
            out += fmt::format("  open: {} {} {} {}\n", finding.date, harmless(finding.position),
                               finding.word, harmless(finding.words));
    }
    std::string shelf;
    for (const auto& [id, part] : state.parts)
        if (part.serial.empty())
            shelf += fmt::format("  {:<24}{}\n", harmless(part.position), harmless(id));
    if (!shelf.empty() && serial.empty()) out += "on the shelf or scrapped:\n" + shelf;
    return fmt::format("{}share: of the life at which 10 % fail; flank, root: 1 % fail.\n{}", out,
                       caution);
}

std::string fleet_screen(const Fleet& fleet) {
    std::string out = fmt::format("{:.0f} bearings with hours, {:.0f} found with fatigue{}\n",
                                  fleet.bearings, fleet.failures,
                                  fleet.position.empty() ? "" : " at " + harmless(fleet.position));
    out += fmt::format(
        "true life over calculated life: {:.2f} .. {:.2f} .. {:.2f} (low .. likely .. high)\n"
        "  starts from half to double (judgement) and is moved by every record here\n",
        fleet.low, fleet.likely, fleet.high);
    if (fleet.ten_percent)
        out += fmt::format("slope given as {:.2f}: 10 % fail at {:.3g} of the calculated life\n",
                           fleet.shape, *fleet.ten_percent);
    if (fleet.ten_percent_above)
        out += fmt::format(
            "{} failure{}, slope given as {:.2f}: 10 % fail above {:.3g} of the calculated life, 9 "
            "in 10;\n  no point from fewer than {:.0f} failures\n",
            fleet.failures > 0 ? fmt::format("{:.0f}", fleet.failures) : "no",
            fleet.failures > 1 ? "s" : "", fleet.shape, *fleet.ten_percent_above,
            weibull_fit::least_failures);
    if (fleet.failures < weibull_fit::least_failures)
        out += fmt::format("own slope: not calculated from fewer than {:.0f} failures\n",
                           weibull_fit::least_failures);
    else if (fleet.slope)
        out += fmt::format("own slope: {:.2f}, 95 % interval {:.2f} to {:.2f}\n", *fleet.slope,
                           fleet.slope_range.low, fleet.slope_range.high);
    else
        out += fmt::format("own slope: {}\n", fleet.no_slope);
    return out.append(caution);
}

}  // namespace caseload::book
