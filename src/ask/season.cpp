// SPDX-License-Identifier: MIT
#include "caseload/ask/season.hpp"

#include "caseload/ask/pairs.hpp"

#include "intervals/due.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

namespace caseload {
namespace {

/// Completes an event's setup; a refused change is reported at its line of the list.
ReadSetup complete_event(const Document& document, const ComingEvent& event) {
    try {
        return document.complete(event.changes);
    } catch (const Error& error) {
        std::vector<Problem> problems = error.problems();
        for (Problem& problem : problems) {
            if (problem.where.line > 0) continue;
            problem.where = event.where;
            for (std::size_t i = 0; i < event.changes.size(); ++i)
                if (problem.text.find(event.changes[i].key) != std::string::npos)
                    problem.where = event.places[i];
            problem.text = fmt::format("event {}: {}", event.name, problem.text);
        }
        throw Error(error.kind(), std::move(problems));
    }
}

/// What has been used since the last opening, and since the last of each action.
class Used {
public:
    /// Adds one event; the first decides how many parts there are.
    void add(const Wear& wear) {
        sum_ = plus(wear);
        ++since_oil_;
        ++since_look_;
        ++since_open_;
    }
    /// Chance that all parts last to the end of one more event.
    [[nodiscard]] double lasts(const Wear& wear) const { return reliability(plus(wear), 1); }
    /// Wear of the splines to the end of one more event, the worst of them.
    [[nodiscard]] double worn(const Wear& wear) const { return most_worn_spline(plus(wear)); }
    [[nodiscard]] double lasts() const { return reliability(sum_, 1); }
    [[nodiscard]] const Wear& sum() const { return sum_; }
    [[nodiscard]] double since_oil() const { return since_oil_; }
    [[nodiscard]] double since_look() const { return since_look_; }
    [[nodiscard]] double since_open() const { return since_open_; }

    void change_oil() {
        sum_.oil_dose = 0;
        since_oil_ = 0;
    }
    void look() { since_look_ = 0; }
    void open() { *this = Used(); }

private:
    [[nodiscard]] Wear plus(const Wear& wear) const {
        Wear all = wear;
        for (std::size_t b = 0; b < sum_.bearing_share.size(); ++b)
            all.bearing_share[b] += sum_.bearing_share[b];
        for (std::size_t g = 0; g < sum_.teeth.size(); ++g) {
            all.teeth[g].flank_share += sum_.teeth[g].flank_share;
            all.teeth[g].root_share += sum_.teeth[g].root_share;
        }
        for (std::size_t k = 0; k < sum_.spline_share.size(); ++k)
            all.spline_share[k] += sum_.spline_share[k];
        all.oil_dose += sum_.oil_dose;
        all.driving_h += sum_.driving_h;
        return all;
    }

    Wear sum_;
    double since_oil_ = 0;
    double since_look_ = 0;
    double since_open_ = 0;
};

/// What falls due, looking one event ahead; nullptr after the last.
std::vector<SeasonAction> due(const Setup& setup, const Used& used, const Wear& now,
                              const Wear* next) {
    const RulesInput& rules = setup.rules;
    std::vector<SeasonAction> actions;
    std::string open;
    if (next != nullptr && used.lasts(*next) < setup.aims.rebuild_reliability)
        open = "fatigue: the next event would pass the aim";
    else if (next != nullptr && used.worn(*next) > 1)
        open = "a spline worn out: the next event would wear it through";
    else if (now.seal_over_limit)
        open = "a seal above its limit";
    else if (next != nullptr && used.sum().driving_h + next->driving_h > most_hours)
        open = "more than 200 driving hours";
    else if (used.since_open() >= rules.open_case_events)
        open = practice(rules.open_case_own);
    if (!open.empty()) actions.push_back({"open_case", open});
    if (now.peak_oil_degC > setup.limits.oil_stop_degC)
        actions.push_back({"change_oil", "oil above its stop limit"});
    else if (next != nullptr && used.sum().oil_dose + next->oil_dose > oil_dose_limit)
        actions.push_back({"change_oil", "oil oxidation"});
    else if (used.since_oil() >= rules.change_oil_events)
        actions.push_back({"change_oil", practice(rules.change_oil_own)});
    if (now.seat_loose_hot)
        actions.push_back({"look", "a ring walks in its seat when hot"});
    else if (now.ring_on_shaft)
        actions.push_back({"look", std::string(ring_on_shaft_words)});
    else if (now.seal_to_look_at)
        actions.push_back({"look", "a seal above its limit"});
    else if (used.since_look() >= rules.look_events)
        actions.push_back({"look", practice(rules.look_own)});
    return actions;
}

void carry_out(const std::vector<SeasonAction>& actions, Used& used) {
    for (const SeasonAction& action : actions) {
        if (action.name == "change_oil") used.change_oil();
        if (action.name == "look") used.look();
        if (action.name == "open_case") {
            used.open();
            return;
        }
    }
}

void describe(const Setup& setup, const Used& used, SeasonEvent& event) {
    event.reliability = std::min(used.lasts(), most_reliability);
    event.oil_dose = used.sum().oil_dose;
    event.hours = used.sum().driving_h;
    for (std::size_t b = 0; b < used.sum().bearing_share.size(); ++b)
        if (used.sum().bearing_share[b] >= event.used_share) {
            event.used_share = used.sum().bearing_share[b];
            event.decided_by = setup.bearings[b].name;
        }
}

std::string action_words(const std::string& action) {
    if (action == "open_case") return "open the case";
    if (action == "change_oil") return "change the oil";
    return "drain and read the magnet";
}

std::string decide(const Season& season) {
    const auto count = [](std::size_t i) { return fmt::format("event {}", i + 1); };
    for (std::size_t i = 0; i < season.events.size(); ++i)
        if (season.events[i].verdict == "stop")
            return fmt::format(
                "Do not run {} ({}) with this setup: its verdict is STOP. caseload "
                "assess with that event says why, and what would make it run.",
                count(i), season.events[i].name);
    std::string first;
    std::string opening;
    for (std::size_t i = 0; i < season.events.size(); ++i) {
        const SeasonEvent& event = season.events[i];
        if (!event.before.empty())
            return fmt::format("Not one event: {}, {} would fall short of the aim.", count(i),
                               event.name);
        for (const SeasonAction& action : event.actions) {
            if (first.empty())
                first = fmt::format("After {} ({}) {}: {}", count(i), event.name,
                                    action_words(action.name), action.reason);
            if (action.name == "open_case" && opening.empty())
                opening = fmt::format("the case comes apart after {} ({})", count(i), event.name);
        }
    }
    if (first.empty())
        return fmt::format("Nothing falls due in these {} events.", season.events.size());
    return fmt::format("{}; {}.", first,
                       opening.empty() ? "no opening falls in these events" : opening);
}

/// One setting serves every event: what suits all of them, where the present one does not.
std::vector<std::string> pair_settings(const std::vector<SeasonEvent>& events) {
    constexpr double printed_mm = 0.005;
    std::vector<std::string> all;
    for (const PairState& first : events.front().pairs) {
        PairState loosest = first;  // needs the most end play
        PairState tightest = first;
        bool suits = true;
        for (const SeasonEvent& event : events)
            for (const PairState& pair : event.pairs) {
                if (pair.shaft != first.shaft) continue;
                if (pair.set_end_play_mm > loosest.set_end_play_mm) loosest = pair;
                if (pair.set_end_play_mm < tightest.set_end_play_mm) tightest = pair;
                suits = suits && std::fabs(pair.cold_end_play_mm - pair.set_end_play_mm) <=
                                     pair.set_tolerance_mm + printed_mm;
            }
        if (suits) continue;
        PairState common = loosest;
        const double least_mm = loosest.set_end_play_mm - loosest.set_tolerance_mm;
        const double most_mm = tightest.set_end_play_mm + tightest.set_tolerance_mm;
        common.set_end_play_mm = (least_mm + most_mm) / 2;
        common.set_tolerance_mm = (most_mm - least_mm) / 2;
        all.push_back(
            least_mm < most_mm
                ? fmt::format("Facing pair of {}: {} cold does not suit every event; set {} cold.",
                              first.shaft, play_or_preload(first.cold_end_play_mm),
                              pair_setting(common))
                : fmt::format("Facing pair of {}: no one setting suits every event; {} cold keeps "
                              "it from preload in all of them.",
                              first.shaft, pair_setting(loosest)));
    }
    return all;
}

/// An event of the list by itself.
struct Alone {
    Setup setup;
    SeasonEvent result;
    std::optional<Error> refused;  ///< thrown once those before it are known to be valid
};

Alone alone(const Document& document, const ComingEvent& event, const BandOptions& draws) {
    Alone one;
    const Setup& setup = one.setup = complete_event(document, event).setup;
    const Assessment likely = verdict_answer(setup);
    const Band sure = verdict_band(setup, likely, draws);
    one.result.name = event.name;
    one.result.date = event.date;
    one.result.verdict = sure.verdict;
    one.result.oil_likely_degC = sure.fitted.peak_oil_degC.p50;
    one.result.oil_high_degC = sure.fitted.peak_oil_degC.p90;
    for (const Check& check : likely.fitted.checked.checks)
        if (check.id == CheckId::seat_play && severity_over_range(sure, check) >= Severity::watch)
            one.result.without_play.push_back(
                fmt::format("{}: {}", check.about, check_row(check.id).consequence));
    one.result.pairs = likely.fitted.checked.pairs;
    one.result.wear =
        wear_of(setup, likely.fitted.event, likely.fitted.damage, likely.fitted.checked);
    return one;
}

}  // namespace

Season season(const Document& document, const std::vector<ComingEvent>& coming,
              const BandOptions& options) {
    std::vector<Alone> events(coming.size());
    for_each_answer(events.size(), options, [&](std::size_t i, const BandOptions& draws) {
        try {
            events[i] = alone(document, coming[i], draws);
        } catch (const Error& error) {
            events[i].refused = error;
        }
    });
    Season result;
    std::vector<Setup> setups;
    for (std::size_t i = 0; i < events.size(); ++i) {
        if (events[i].refused) throw *events[i].refused;
        const ComingEvent& event = coming[i];
        Setup& setup = events[i].setup;
        SeasonEvent& one = events[i].result;
        const bool same = setups.empty() || (setups.front().bearings == setup.bearings &&
                                             result.events.front().wear.gears == one.wear.gears);
        if (!same)
            throw Error(Error::Kind::input,
                        {Problem{event.where,
                                 fmt::format("event {} has other bearings or gears than {}: what "
                                             "each has used cannot be added up",
                                             event.name, coming.front().name),
                                 "keep the case's parts the same over the list"}});
        setups.push_back(std::move(setup));
        result.events.push_back(std::move(one));
    }
    Used used;
    for (std::size_t i = 0; i < result.events.size(); ++i) {
        SeasonEvent& event = result.events[i];
        // It is not to be run: it uses no life, and no action follows from it.
        if (event.verdict == "stop") {
            event.before.push_back({"do_not_run", "its verdict is STOP"});
            describe(setups[i], used, event);
            continue;
        }
        if (used.since_open() == 0 && used.lasts(event.wear) < setups[i].aims.rebuild_reliability)
            event.before.push_back({"open_case", "fatigue: this event alone passes the aim"});
        used.add(event.wear);
        describe(setups[i], used, event);
        const auto runs_next = std::find_if(
            result.events.begin() + static_cast<std::ptrdiff_t>(i) + 1, result.events.end(),
            [](const SeasonEvent& later) { return later.verdict != "stop"; });
        const Wear* next = runs_next != result.events.end() ? &runs_next->wear : nullptr;
        event.actions = due(setups[i], used, event.wear, next);
        carry_out(event.actions, used);
    }
    result.decision = decide(result);
    if (!result.events.empty()) result.pairs = pair_settings(result.events);
    return result;
}

}  // namespace caseload
