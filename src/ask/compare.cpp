// SPDX-License-Identifier: MIT
#include "caseload/ask/compare.hpp"

#include "caseload/ask/pairs.hpp"
#include "caseload/ask/verdict.hpp"
#include "caseload/figures.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

// Smaller changes are not shown: below what the draws and a thermometer can resolve. Judgement.
constexpr double least_moved_share = 0.01;
constexpr double least_moved_K = 0.5;

std::string after_words(int events) {
    return events == 0 ? "before the first event" : fmt::format("after event {}", events);
}

/// A difference, and how much worse what one does becomes by it.
enum class Rank {
    verdict_worse,
    sooner,
    cooler_needed,
    check_worse,
    verdict_better,
    later,
    cooler_not_needed,
    check_better,  ///< changes nothing in what one does
};
struct Difference {
    Rank rank;
    std::string words;
};
using Differences = std::vector<Difference>;

struct Actions {
    const Action& before;
    const Action& after;
};

void add_action(Differences& into, const std::string& what, const Actions& actions,
                const std::string& why) {
    if (actions.before.after_events == actions.after.after_events) return;
    into.push_back(
        {actions.after.after_events < actions.before.after_events ? Rank::sooner : Rank::later,
         fmt::format("{} {} instead of {}: {}.", what, after_words(actions.after.after_events),
                     actions.before.after_events == 0
                         ? after_words(0)
                         : fmt::format("{}", actions.before.after_events),
                     why)});
}

std::string times_words(double times) {
    return times >= 1 ? fmt::format("{} times as much", figures(times, 2))
                      : fmt::format("{} of what it used before", figures(times, 2));
}

/// What the part that decides uses, against before.
std::string life_words(const Calculated& before, const Calculated& after) {
    const auto& now = after.likely.fitted.damage.bearings;
    const auto most = std::max_element(now.begin(), now.end(), [](const auto& a, const auto& b) {
        return a.life_share < b.life_share;
    });
    if (most == now.end()) return {};
    for (const BearingDamage& one : before.likely.fitted.damage.bearings)
        if (one.name == most->name && one.life_share > 0)
            return fmt::format("; bearing {} uses {}", one.name,
                               times_words(most->life_share / one.life_share));
    return {};
}

int severity(const std::string& verdict) {
    return verdict == "stop" ? 2 : verdict == "watch" ? 1 : 0;
}

std::string upper(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(), [](unsigned char c) {
        return static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    });
    return text;
}

/// How far the oil goes within one verdict.
int oil_rank(const std::string& decides) {
    return decides == "likely_too_hot" ? 3
           : decides == "likely_above" ? 2
           : decides == "may_pass"     ? 1
                                       : 0;
}

void verdicts(const Calculated& before, const Calculated& after, Differences& into) {
    const std::string& then = before.sure.verdict;
    const std::string& now = after.sure.verdict;
    if (then == now) {
        const int was = oil_rank(before.sure.decides);
        const int is = oil_rank(after.sure.decides);
        if (now == "watch" && was != is)
            into.push_back({is > was ? Rank::verdict_worse : Rank::verdict_better,
                            fmt::format("Still WATCH, now: {}; before: {}.", verdict_reason(after),
                                        verdict_reason(before))});
        return;
    }
    // That a setup may run comes before what service it needs.
    const bool first = severity(now) > severity(then) || then == "stop";
    into.push_back(
        {first ? Rank::verdict_worse : Rank::verdict_better,
         fmt::format("Was {}, now {}: {}.", upper(then), upper(now), verdict_reason(after))});
}

void actions(const Calculated& before, const Calculated& after, Differences& into) {
    // A setup that must not run has no service by events.
    if (before.sure.verdict == "stop" || after.sure.verdict == "stop") return;
    const Intervals& then = before.likely.fitted.intervals;
    const Intervals& now = after.likely.fitted.intervals;
    add_action(into, "Open the case", {then.open_case, now.open_case},
               now.open_case.reason + life_words(before, after));
    add_action(into, "Change the oil", {then.change_oil, now.change_oil}, now.change_oil.reason);
    add_action(into, "Drain and read the magnet", {then.look, now.look}, now.look.reason);
}

void coolers(const Calculated& before, const Calculated& after, Differences& into) {
    const LimitsInput& limits = after.read.setup.limits;
    if (before.likely.has_cooler != after.likely.has_cooler) return;
    if (!after.likely.has_cooler) return;
    const bool then = before.sure.without.holds_share >= holding_share;
    const bool now = after.sure.without.holds_share >= holding_share;
    if (then == now) return;
    if (now)
        into.push_back({Rank::cooler_not_needed,
                        "The cooler is no longer needed: without it the oil stays below its "
                        "limit."});
    else
        into.push_back(
            {Rank::cooler_needed,
             fmt::format("The cooler is needed now: without it the oil may exceed {:.4g} degC.",
                         limits.oil_watch_degC)});
}

const Check* same_check(const std::vector<Check>& checks, const Check& like) {
    for (const Check& check : checks)
        if (check.id == like.id && check.about == like.about) return &check;
    return nullptr;
}

void checks(const Calculated& before, const Calculated& after, Differences& into) {
    for (const Check& now : worst_first(after.likely.fitted.checked.checks)) {
        const Check* then = same_check(before.likely.fitted.checked.checks, now);
        // A check that was not made before had nothing to say.
        const std::string was(
            then == nullptr ? "fine" : severity_word(severity_over_range(before.sure, *then)));
        const std::string is(severity_word(severity_over_range(after.sure, now)));
        if (was == is || is == "shown") continue;
        const bool worse = severity_of(is) > severity_of(was);
        const std::string words = without_value(now.words);
        into.push_back(
            {worse ? Rank::check_worse : Rank::check_better,
             is == "fine" ? fmt::format("{}: {} is fine now ({} before).", now.about, words, was)
                          : fmt::format("{}: {} goes from {} to {}: {}.", now.about, words, was, is,
                                        check_row(now.id).consequence.empty()
                                            ? now.consequence
                                            : check_row(now.id).consequence)});
    }
}

/// Facing pairs that come under preload when hot, or no longer do.
void preloads(const Calculated& before, const Calculated& after, Differences& into) {
    for (const PairState& was : before.likely.fitted.checked.pairs)
        for (const PairState& is : after.likely.fitted.checked.pairs)
            if (was.shaft == is.shaft && (was.preload_N > 0) != (is.preload_N > 0))
                into.push_back({is.preload_N > 0 ? Rank::check_worse : Rank::check_better,
                                fmt::format("Facing pair of {}: {}; before: {}.", is.shaft,
                                            pair_when_hot(is), pair_when_hot(was))});
}

void add_moved(Comparison& into, const Moved& moved) {
    const double change = std::fabs(moved.after - moved.before);
    const bool seen = moved.unit == "degC"
                          ? change >= least_moved_K
                          : change > least_moved_share *
                                         std::max(std::fabs(moved.before), std::fabs(moved.after));
    if (seen) into.moved.push_back(moved);
}

double heat_made_W(const CoolerSide& side) {
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
    const CoolerSide& then = before.likely.fitted;
    const CoolerSide& now = after.likely.fitted;
    for (std::size_t a = 0; a < then.damage.bearings.size(); ++a)
        for (std::size_t b = 0; b < now.damage.bearings.size(); ++b)
            if (then.damage.bearings[a].name == now.damage.bearings[b].name)
                add_moved(into, {"life used an event, bearing " + now.damage.bearings[b].name,
                                 100 * before.sure.fitted.life_share[a].p50,
                                 100 * after.sure.fitted.life_share[b].p50, "%"});
    for (const BearingData& was : before.likely.loads.bearings)
        for (const BearingData& is : after.likely.loads.bearings)
            if (was.name == is.name && was.play_known && is.play_known)
                add_moved(into, {"radial play when hot, bearing " + is.name, was.running_play_mm,
                                 is.running_play_mm, "mm"});
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
    for (const SplineResult& was : then.checked.splines)
        for (const SplineResult& is : now.checked.splines) {
            if (was.name != is.name) continue;
            add_moved(into, {"wear life used an event, spline " + is.name, 100 * was.wear_share,
                             100 * is.wear_share, "%"});
            add_moved(into, {"largest torque over what it takes, spline " + is.name,
                             100 * was.peak_share, 100 * is.peak_share, "%"});
        }
    for (const PairState& was : then.checked.pairs)
        for (const PairState& is : now.checked.pairs) {
            if (was.shaft != is.shaft) continue;
            add_moved(into, {"end play hot, facing pair of " + is.shaft, was.end_play_mm,
                             is.end_play_mm, "mm"});
            add_moved(into, {"preload hot, facing pair of " + is.shaft, was.preload_N, is.preload_N,
                             "N"});
            add_moved(into, {"end play to set, facing pair of " + is.shaft, was.set_end_play_mm,
                             is.set_end_play_mm, "mm"});
        }
    for (const SeatResult& was : then.checked.seats)
        for (const SeatResult& is : now.checked.seats) {
            if (was.bearing != is.bearing) continue;
            // The walk of a ring that its load holds moves with every speed and says nothing.
            if (std::max(was.creep, is.creep) >= SeatClass::walks)
                add_moved(into, {"way of the ring in its seat, bearing " + is.bearing, was.travel_m,
                                 is.travel_m, "m/event"});
            if (was.shaft_fit_known && is.shaft_fit_known)
                add_moved(into, {"effective fit on the shaft, bearing " + is.bearing,
                                 was.effective_fit_um, is.effective_fit_um, "um"});
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
    double driving_s = 0;
    double limited_s = 0;
    for (const LegAnswer& leg : likely.fitted.legs) {
        const auto index = static_cast<std::size_t>(leg.leg);
        const auto times = static_cast<double>(
            std::count(setup.event.run.begin(), setup.event.run.end(), leg.leg));
        const LegInput& input = setup.event.legs[index];
        if (input.course_lines.empty() && input.calculated.empty() && times > 0)
            result.entered_bins = true;
        const auto& bins = prepared.loads.legs[index].bins;
        const double without_loss_degC =
            unheated_degC(prepared.bearing_paths[worst], leg.at_rest.nodes);
        for (std::size_t bin = 0; bin < bins.size(); ++bin) {
            const double time_s = times * setup.event.legs[index].duration_s * bins[bin].bin.share;
            const double part = time_s * bearing_condition(prepared, {index, bin, worst},
                                                           without_loss_degC, nullptr)
                                             .rate_per_h;
            all += part;
            driving_s += time_s;
            const double held_Nm = bins[bin].bin.torque_Nm;
            if (held_Nm <= 0 || free.legs[index].bins[bin].bin.torque_Nm <= held_Nm * (1 + 1e-9))
                continue;
            limited += part;
            limited_s += time_s;
        }
    }
    if (all > 0) result.share = limited / all;
    if (driving_s > 0) result.time_share = limited_s / driving_s;
    return result;
}

Comparison compare(const Calculated& before, const Calculated& after) {
    Comparison result;
    Differences found;
    verdicts(before, after, found);
    actions(before, after, found);
    coolers(before, after, found);
    checks(before, after, found);
    preloads(before, after, found);
    std::stable_sort(found.begin(), found.end(),
                     [](const Difference& a, const Difference& b) { return a.rank < b.rank; });
    result.decision = "Nothing changes in what you would do.";
    for (const Difference& one : found)
        if (&one == &found.front() && one.rank != Rank::check_better)
            result.decision = one.words;
        else
            result.differences.push_back(one.words);
    for (const Note& note : after.read.notes)
        if (note.id == "ask.cut") result.differences.push_back(note.text + ".");
    temperatures(before, after, result);
    lives(before, after, result);
    result.engine = engine_limited(before.read.setup, before.likely);
    result.power = power_words(before, after, result.engine);
    return result;
}

}  // namespace caseload
