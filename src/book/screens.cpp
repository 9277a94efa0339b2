// SPDX-License-Identifier: MIT
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload::book {
namespace {

std::string when(double after) {
    if (after <= 0) return "NOW, before the next event";
    return after == 1 ? "after the next event" : fmt::format("after {:.0f} more events", after);
}

std::string action_words(const std::string& action) {
    if (action == "open_case") return "open the case";
    return action == "change_oil" ? "change the oil" : "drain and look";
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
            out += fmt::format("{:<10}{}: {}: {}\n", first ? one.serial : "",
                               when(action.after_events), action_words(action.action), action.part);
            out += fmt::format("{:<10}  why: {}\n", "", action.reason);
            first = false;
        }
        out += fmt::format("{:<10}{}\n\n", first ? one.serial : "", one.fatigue);
    }
    return out + std::string(caution);
}

std::string case_screen(const State& state, const std::string& serial) {
    std::string out;
    for (const auto& [name, one] : state.cases) {
        if (name.empty() || (!serial.empty() && name != serial)) continue;
        out += fmt::format("{}: {:.0f} events, {:.1f} h driven, oil at most {:.0f} degC\n", name,
                           one.events, one.driving_h, one.peak_oil_degC);
        out += fmt::format("  since oil {:.0f}, since a look {:.0f}, since opening {:.0f} events\n",
                           one.events_since_oil, one.events_since_look, one.events_since_opening);
        for (const auto& [position, id] : one.parts) {
            const auto part = state.parts.find(id);
            if (part == state.parts.end()) continue;
            out += fmt::format("  {:<24}{:<36} ", position, id);
            for (const auto& [measure, used] : part->second.used)
                out += fmt::format("{} {:.3g} % ", measure, 100 * used);
            if (!part->second.set.empty()) out += fmt::format("set {}", part->second.set);
            out += '\n';
        }
        for (const OpenFinding& finding : one.findings)
            out += fmt::format("  open: {} {} {} {}\n", finding.date, finding.position,
                               finding.word, finding.words);
    }
    std::string shelf;
    for (const auto& [id, part] : state.parts)
        if (part.serial.empty()) shelf += fmt::format("  {:<24}{}\n", part.position, id);
    if (!shelf.empty() && serial.empty()) out += "on the shelf or scrapped:\n" + shelf;
    return out + "share: of the life at which 10 % fail; flank, root: 1 % fail.\n";
}

std::string fleet_screen(const State& state, const std::string& position, double shape) {
    const auto lives = fleet_lives(state, position);
    double failures = 0;
    for (const auto& one : lives)
        if (std::isfinite(one.to)) failures += one.count;
    std::string out =
        fmt::format("{} bearings with hours, {:.0f} found with fatigue{}\n", lives.size(), failures,
                    position.empty() ? "" : " at " + position);
    const weibull_fit::Multiplier k = fleet_multiplier(state);
    out += fmt::format(
        "true life over calculated life: {:.2f} .. {:.2f} .. {:.2f} (low .. likely .. high)\n"
        "  starts from half to double (judgement) and is moved by every record here\n",
        weibull_fit::quantile(k, 0.1), weibull_fit::quantile(k, 0.5),
        weibull_fit::quantile(k, 0.9));
    if (failures >= weibull_fit::least_failures) {
        const auto fixed = weibull_fit::fit_of_shape(lives, shape);
        out += fmt::format("slope given as {:.2f}: 10 % fail at {:.3g} of the calculated life\n",
                           shape, weibull_fit::life_at({fixed.shape, fixed.scale}, 0.1));
    } else if (!lives.empty()) {
        // For a bound from below a failure counts from when the part was last good.
        std::vector<weibull_fit::LifeRecord> early = lives;
        constexpr double at_once = 1e-9;
        for (auto& one : early)
            if (std::isfinite(one.to)) one.from = one.to = std::max(one.from, at_once);
        const double low = weibull_fit::lower_scale(early, {shape, 1}, 0.9);
        out += fmt::format(
            "{} failure{}, slope given as {:.2f}: 10 % fail above {:.3g} of the calculated life, 9 "
            "in 10;\n  no point from fewer than {:.0f} failures\n",
            failures > 0 ? fmt::format("{:.0f}", failures) : "no", failures > 1 ? "s" : "", shape,
            weibull_fit::life_at({shape, low}, 0.1), weibull_fit::least_failures);
    }
    if (failures < weibull_fit::least_failures)
        return out + fmt::format("own slope: not told from fewer than {:.0f} failures\n",
                                 weibull_fit::least_failures);
    try {
        const auto fit = weibull_fit::free_fit(lives);
        const auto range = weibull_fit::shape_interval(lives, 0.95);
        out += fmt::format("own slope: {:.2f}, 95 % interval {:.2f} to {:.2f}\n", fit.shape,
                           range.low, range.high);
    } catch (const Error& error) {
        out += fmt::format("own slope: {}\n", error.problems().front().text);
    }
    return out;
}

}  // namespace caseload::book
