// SPDX-License-Identifier: MIT
#include "caseload/ask/compare.hpp"

#include "caseload/ask/verdict.hpp"
#include "caseload/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

// Smaller changes are not shown: below what the draws and a thermometer tell apart. Judgement.
constexpr double least_moved_share = 0.01;
constexpr double least_moved_K = 0.5;

std::string after_words(int events) {
    return events == 0 ? "before the first event" : fmt::format("after event {}", events);
}

struct Actions {
    const Action& before;
    const Action& after;
};

void add_action(Comparison& into, const std::string& what, const Actions& actions,
                const std::string& why) {
    if (actions.before.after_events == actions.after.after_events) return;
    into.differences.push_back(fmt::format(
        "{} {} instead of {}: {}.", what, after_words(actions.after.after_events),
        actions.before.after_events == 0 ? after_words(0)
                                         : fmt::format("{}", actions.before.after_events),
        why));
}

std::string times_words(double times) {
    return times >= 1 ? fmt::format("{} times as much", figures(times, 2))
                      : fmt::format("{} of what it used before", figures(times, 2));
}

/// What the part that decides uses, against before.
std::string life_words(const Calculated& before, const Calculated& after) {
    const auto& now = after.likely.fitted.damage.bearings;
    const auto& then = before.likely.fitted.damage.bearings;
    const auto most = std::max_element(now.begin(), now.end(), [](const auto& a, const auto& b) {
        return a.life_share < b.life_share;
    });
    if (most == now.end()) return {};
    for (const BearingDamage& one : then)
        if (one.name == most->name && one.life_share > 0)
            return fmt::format("; bearing {} uses {}", one.name,
                               times_words(most->life_share / one.life_share));
    return {};
}

void verdicts(const Calculated& before, const Calculated& after, Comparison& into) {
    if (before.sure.verdict == after.sure.verdict) return;
    const std::string reason = verdict_reason(after);
    const std::string head = after.sure.verdict == "stop"    ? "Do not run it like this"
                             : after.sure.verdict == "fine"  ? "It is fine now"
                             : before.sure.verdict == "stop" ? "It can run now, watched"
                                                             : "Watch it now";
    into.differences.push_back(
        fmt::format("{} ({} before): {}.", head, before.sure.verdict, reason));
}

void coolers(const Calculated& before, const Calculated& after, Comparison& into) {
    const LimitsInput& limits = after.read.setup.limits;
    if (before.likely.has_cooler != after.likely.has_cooler) return;
    if (!after.likely.has_cooler) return;
    const bool then = before.sure.without.holds_share >= holding_share;
    const bool now = after.sure.without.holds_share >= holding_share;
    if (then == now) return;
    into.differences.push_back(
        now ? "The cooler is no longer needed: without it the oil stays below its limit."
            : fmt::format("The cooler is needed now: without it the oil may pass {:.4g} degC.",
                          limits.oil_watch_degC));
}

const Check* same_check(const std::vector<Check>& checks, const Check& like) {
    for (const Check& check : checks)
        if (check.id == like.id && check.about == like.about) return &check;
    return nullptr;
}

void checks(const Calculated& before, const Calculated& after, Comparison& into) {
    for (const Check& now : worst_first(after.likely.fitted.checked.checks)) {
        const Check* then = same_check(before.likely.fitted.checked.checks, now);
        if (then == nullptr || then->verdict == now.verdict || now.verdict == "shown") continue;
        into.differences.push_back(now.verdict == "fine"
                                       ? fmt::format("{}: {} is fine now ({} before).", now.about,
                                                     now.words, then->verdict)
                                       : fmt::format("{}: {} goes from {} to {}: {}.", now.about,
                                                     now.words, then->verdict, now.verdict,
                                                     now.consequence));
    }
}

void add_moved(Comparison& into, const Moved& moved) {
    const double change = std::fabs(moved.after - moved.before);
    const bool seen = moved.unit == "degC"
                          ? change >= least_moved_K
                          : change > least_moved_share *
                                         std::max(std::fabs(moved.before), std::fabs(moved.after));
    if (seen) into.moved.push_back(moved);
}

double heat_made_W(const Side& side) {
    double most_W = 0;
    for (const LegAnswer& leg : side.legs) most_W = std::max(most_W, heat_in_W(leg.at_rest));
    return most_W;
}

void temperatures(const Calculated& before, const Calculated& after, Comparison& into) {
    const auto add = [&](const std::string& words, const Percentiles& then,
                         const Percentiles& now) {
        add_moved(into, {words + ", low", then.p10, now.p10, "degC"});
        add_moved(into, {words + ", likely", then.p50, now.p50, "degC"});
        add_moved(into, {words + ", high", then.p90, now.p90, "degC"});
    };
    add("oil peak", before.sure.fitted.peak_oil_degC, after.sure.fitted.peak_oil_degC);
    if (before.likely.has_cooler || after.likely.has_cooler)
        add("oil peak without cooler", before.sure.without.peak_oil_degC,
            after.sure.without.peak_oil_degC);
    add_moved(into, {"heat made on the leg that makes most", heat_made_W(before.likely.fitted),
                     heat_made_W(after.likely.fitted), "W"});
}

void lives(const Calculated& before, const Calculated& after, Comparison& into) {
    const Side& then = before.likely.fitted;
    const Side& now = after.likely.fitted;
    for (std::size_t a = 0; a < then.damage.bearings.size(); ++a)
        for (std::size_t b = 0; b < now.damage.bearings.size(); ++b)
            if (then.damage.bearings[a].name == now.damage.bearings[b].name)
                add_moved(into, {"life used an event, bearing " + now.damage.bearings[b].name,
                                 100 * before.sure.fitted.life_share[a].p50,
                                 100 * after.sure.fitted.life_share[b].p50, "%"});
    const std::size_t gears = std::min(then.checked.gears.size(), now.checked.gears.size());
    for (std::size_t g = 0; g < gears; ++g) {
        const std::string gear = now.checked.gears[g].shaft;
        add_moved(into, {"life used an event, tooth flank " + gear,
                         100 * before.sure.fitted.flank_share[g].p50,
                         100 * after.sure.fitted.flank_share[g].p50, "%"});
        add_moved(into, {"life used an event, tooth root " + gear,
                         100 * before.sure.fitted.root_share[g].p50,
                         100 * after.sure.fitted.root_share[g].p50, "%"});
    }
    add_moved(into, {"oil life used an event", 100 * before.sure.fitted.oil_dose.p50,
                     100 * after.sure.fitted.oil_dose.p50, "%"});
    add_moved(into, {"driving", before.likely.driving_h, after.likely.driving_h, "h"});
    if (!then.intervals.fatigue_beyond && !now.intervals.fatigue_beyond)
        add_moved(into, {"events that fatigue allows", then.intervals.fatigue_events,
                         now.intervals.fatigue_events, "events"});
}

}  // namespace

Calculated calculated(ReadSetup read, const BandOptions& options) {
    Assessment likely = assess(read.setup);
    Band sure = band(read.setup, likely, options);
    return {std::move(read), std::move(likely), std::move(sure)};
}

std::string verdict_reason(const Calculated& answer) {
    return verdict_reason(answer.read.setup, answer.likely, answer.sure);
}

EngineLimited engine_limited(const Setup& setup, const Assessment& likely) {
    EngineLimited result;
    const auto& damage = likely.fitted.damage.bearings;
    std::size_t worst = 0;
    for (std::size_t b = 1; b < damage.size(); ++b)
        if (damage[b].life_share > damage[worst].life_share) worst = b;
    if (damage.empty()) return result;
    result.bearing = damage[worst].name;
    // A slice is at the engine's limit when an engine without one would drive it harder.
    Setup boundless = setup;
    boundless.vehicle.engine_power_W *= 1000;
    boundless.vehicle.engine_torque.clear();
    const Loads free = calculate_loads(boundless);
    const Prepared prepared = prepare(setup);
    double all = 0;
    double limited = 0;
    for (const LegAnswer& leg : likely.fitted.legs) {
        const auto index = static_cast<std::size_t>(leg.leg);
        const auto times = static_cast<double>(
            std::count(setup.event.run.begin(), setup.event.run.end(), leg.leg));
        if (setup.event.legs[index].course_lines.empty() && times > 0) result.entered_bins = true;
        const auto& bins = prepared.loads.legs[index].bins;
        const double oil_degC = std::min(leg.at_rest.nodes.oil_degC, oil_ceiling_degC);
        for (std::size_t bin = 0; bin < bins.size(); ++bin) {
            const double part =
                times * setup.event.legs[index].duration_s * bins[bin].bin.share *
                bearing_condition(prepared, {index, bin, worst}, oil_degC, nullptr).rate_per_h;
            all += part;
            const double held_Nm = bins[bin].bin.torque_Nm;
            if (held_Nm > 0 && free.legs[index].bins[bin].bin.torque_Nm > held_Nm * (1 + 1e-9))
                limited += part;
        }
    }
    if (all > 0) result.share = limited / all;
    return result;
}

Comparison compare(const Calculated& before, const Calculated& after) {
    Comparison result;
    const Intervals& then = before.likely.fitted.intervals;
    const Intervals& now = after.likely.fitted.intervals;
    verdicts(before, after, result);
    const std::string life = life_words(before, after);
    add_action(result, "Open the case", {then.open_case, now.open_case},
               now.open_case.reason + life);
    add_action(result, "Change the oil", {then.change_oil, now.change_oil}, now.change_oil.reason);
    add_action(result, "Drain and read the magnet", {then.look, now.look}, now.look.reason);
    coolers(before, after, result);
    checks(before, after, result);
    if (result.differences.empty()) {
        result.decision = "Nothing changes in what you would do.";
    } else {
        result.decision = result.differences.front();
        result.differences.erase(result.differences.begin());
    }
    temperatures(before, after, result);
    lives(before, after, result);
    result.engine = engine_limited(before.read.setup, before.likely);
    return result;
}

}  // namespace caseload
