// SPDX-License-Identifier: MIT
#include "intervals/due.hpp"
#include "book/stop.hpp"
#include "caseload/book/state.hpp"
#include "caseload/formulas/replacement.hpp"
#include "input/harmless.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace caseload::book {
namespace {

struct Used {
    replacement::Wear wear;
    std::string name;
};

std::vector<Used> used_parts(const State& state, const CaseState& one) {
    std::vector<Used> all;
    for (const auto& [position, id] : one.parts) {
        const auto found = state.parts.find(id);
        if (found == state.parts.end()) continue;
        for (const std::string measure : {"share", "flank", "root"}) {
            const std::string key = fmt::format("{}.{}", position, measure);
            if (value(one.last_event, key).empty()) continue;
            const auto before = found->second.used.find(measure);
            all.push_back(
                {{.part =
                      measure == "share" ? replacement::Part::bearing : replacement::Part::tooth,
                  .used = before == found->second.used.end() ? 0 : before->second,
                  .per_event = number(one.last_event, key)},
                 measure == "share" ? position : fmt::format("{} {}", position, measure)});
        }
    }
    return all;
}

/// Whole further events that keep the aim, if true lives are `multiplier` times the calculated.
struct Question {
    double aim;         ///< reliability to keep
    double multiplier;  ///< true life over calculated life
    double most;        ///< events to look ahead, whole
};

double events_left(const std::vector<Used>& used, const Question& question) {
    const double multiplier = question.multiplier;
    std::vector<replacement::Wear> parts;
    for (const Used& one : used) {
        parts.push_back(one.wear);
        if (one.wear.part == replacement::Part::bearing) {
            parts.back().used /= multiplier;
            parts.back().per_event /= multiplier;
        }
    }
    return most_kept(question.most, [&](double events) {
        return replacement::case_survival(parts, events) >= question.aim;
    });
}

std::string weakest(const std::vector<Used>& used, double events) {
    std::string name = "case";
    double least = 2;
    for (const Used& one : used) {
        const std::vector<replacement::Wear> alone{one.wear};
        const double survives = replacement::case_survival(alone, events);
        if (survives < least) {
            least = survives;
            name = one.name;
        }
    }
    return name;
}

std::string part_name(const CaseState& one, const std::string& position) {
    const auto at = one.parts.find(position);
    // The part the case came with has no number.
    return at == one.parts.end() || at->second.starts_with("first ")
               ? position
               : fmt::format("{} ({})", position, at->second);
}

void from_findings(const CaseState& one, DueOfCase& answer) {
    for (const OpenFinding& finding : one.findings) {
        const bool now = finding.weight == Weight::open_now;
        const std::string said =
            finding.words.empty() ? "" : fmt::format(" (\"{}\")", finding.words);
        answer.actions.push_back({now ? 0.0 : 1.0, now ? "open_case" : "look",
                                  part_name(one, finding.position),
                                  fmt::format("{} found {}{}; what was seen beats any number",
                                              finding.word, finding.date, said)});
    }
}

/// Whole events left of those a rule allows.
struct Counted {
    double rule;
    double since;
};

double left(const Counted& counted) {
    return std::max(0.0, std::floor(counted.rule - counted.since));
}

int rank_of(const Due& due) {
    return due.action == "do_not_run"   ? 0
           : due.action == "open_case"  ? 1
           : due.action == "change_oil" ? 2
                                        : 3;
}

/// The next first, and one line an action: parts and reasons due at the same time together. A later
/// reason of the same action counts again once it has been done.
std::vector<Due> one_line_each(std::vector<Due> actions) {
    std::stable_sort(actions.begin(), actions.end(), [](const Due& a, const Due& b) {
        return a.after_events != b.after_events ? a.after_events < b.after_events
                                                : rank_of(a) < rank_of(b);
    });
    std::vector<Due> lines;
    const auto join = [](std::string& to, const std::string& more, std::string_view between) {
        if (to.find(more) == std::string::npos) to.append(between).append(more);
    };
    for (Due& due : actions) {
        const auto same = std::find_if(lines.begin(), lines.end(),
                                       [&](const Due& line) { return line.action == due.action; });
        if (same == lines.end()) {
            lines.push_back(std::move(due));
        } else if (same->after_events == due.after_events) {
            join(same->part, due.part, ", ");
            join(same->reason, due.reason, "; ");
        }
    }
    return lines;
}

/// At stop nothing is planned ahead: what the driven events made due stays, and what was seen is
/// looked at now.
void keep_what_is_now(DueOfCase& answer, std::size_t seen, const std::string& reason) {
    auto& actions = answer.actions;
    const auto planned = actions.begin() + static_cast<std::ptrdiff_t>(seen);
    std::for_each(actions.begin(), planned, [](Due& due) { due.after_events = 0; });
    actions.erase(
        std::remove_if(planned, actions.end(), [](const Due& due) { return due.after_events > 0; }),
        actions.end());
    actions.push_back({0, "do_not_run", "setup of the last event",
                       reason + "; caseload assess says what would make it run"});
    answer.fatigue = "no further events are counted for a setup at STOP";
}

/// The same for every case.
struct Shared {
    const State& state;
    LastSetups setups;
    double low = 0;  ///< true life of all bearings over the calculated one
    double likely = 0;
    double high = 0;
};

DueOfCase all_due_of(const CaseState& one, const Shared& shared) {
    DueOfCase answer;
    answer.serial = one.serial;
    from_findings(one, answer);
    const std::size_t seen = answer.actions.size();
    if (one.last_event.id.empty()) {
        answer.fatigue = fmt::format("no event in the book yet: caseload book add event {} SETUP",
                                     input::harmless(one.serial));
        return answer;
    }
    const SetupSays& setup = shared.setups.of(one.last_event.setup);
    answer.watch = setup.watch;
    answer.look = setup.look;
    const RulesInput& rules = setup.rules;
    answer.actions.push_back({left({rules.change_oil_events, one.events_since_oil}), "change_oil",
                              "oil", practice(rules.change_oil_own)});
    const double dose = number(one.last_event, "oil.dose");
    const double by_dose =
        dose > 0 ? std::max(0.0, std::floor((oil_dose_limit - one.oil_dose) / dose)) : most_events;
    if (by_dose < most_events)  // no number is printed beyond it
        answer.actions.push_back({by_dose, "change_oil", "oil", "oil oxidation"});
    if (one.events_since_oil > 0 && number(one.last_event, "oil.peak_degC") > setup.oil_stop_degC)
        answer.actions.push_back({0, "change_oil", "oil", "oil was above its stop limit"});
    answer.actions.push_back({left({rules.look_events, one.events_since_look}), "look",
                              "magnet, end play", practice(rules.look_own)});
    if (number(one.last_event, "seat_loose_hot") > 0)
        answer.actions.push_back({left({1, one.events_since_look}), "look", "seats",
                                  "a ring walks in its seat when hot"});
    if (number(one.last_event, "ring_on_shaft") > 0)
        answer.actions.push_back(
            {left({1, one.events_since_look}), "look", "shafts", std::string(ring_on_shaft_words)});
    for (const auto& [position, id] : one.parts) {
        const auto part = shared.state.parts.find(id);
        if (part != shared.state.parts.end() && part->second.over_heat_code_h >= ring_look_h)
            answer.actions.push_back(
                {left({1, one.events_since_look}), "look", part_name(one, position),
                 fmt::format("rings {:.0f} h hotter than they are stabilised to: feel their play",
                             part->second.over_heat_code_h)});
    }
    answer.actions.push_back({left({rules.open_case_events, one.events_since_opening}), "open_case",
                              "case", practice(rules.open_case_own)});
    if (number(one.last_event, "seal_over_limit") > 0)
        answer.actions.push_back({left({1, one.events_since_opening}), "open_case", "seals",
                                  "a seal runs above its limit"});
    if (!setup.stop.empty()) {
        keep_what_is_now(answer, seen, setup.stop);
        return answer;
    }
    const std::vector<Used> used = used_parts(shared.state, one);
    const double hours = number(one.last_event, "driving_h");
    const double most =
        std::floor(std::min(most_events, hours > 0 ? most_hours / hours : most_events));
    const double aim = setup.reliability;
    const auto at = [&](double life) { return events_left(used, {aim, life, most}); };
    const EventsLeft allowed{at(shared.low), at(shared.likely), at(shared.high), most, aim};
    answer.fatigue_events = allowed;
    const double likely = allowed.likely;
    const std::string part = weakest(used, std::max(likely, 1.0));
    if (likely < most)
        answer.actions.push_back({likely, "open_case", part_name(one, part), "fatigue"});
    const auto words = [&](double events) {
        return events >= most ? fmt::format("more than {:.0f}", most)
                              : fmt::format("{:.0f}", events);
    };
    answer.fatigue = fmt::format(
        "fatigue: {} .. {} .. {} more events\n"
        "          (low .. likely .. high, reliability {:.2f}; first: {})",
        words(allowed.low), words(likely), words(allowed.high), aim,
        input::harmless(part_name(one, part)));
    return answer;
}

DueOfCase due_of(const CaseState& one, const Shared& shared) {
    DueOfCase answer = all_due_of(one, shared);
    answer.actions = one_line_each(std::move(answer.actions));
    return answer;
}

}  // namespace

std::vector<DueOfCase> due(std::span<const Record> records, const ForEach& for_each) {
    const State state = state_of(records);
    const weibull_fit::Multiplier life = fleet_multiplier(state);
    const Shared shared{state, LastSetups(state, records, for_each),
                        weibull_fit::quantile(life, 0.1), weibull_fit::quantile(life, 0.5),
                        weibull_fit::quantile(life, 0.9)};
    std::vector<DueOfCase> all;
    for (const auto& [serial, one] : state.cases)
        if (!serial.empty()) all.push_back(due_of(one, shared));
    const auto next = [](const DueOfCase& one) {
        return one.actions.empty() ? 1e9 : one.actions.front().after_events;
    };
    std::stable_sort(all.begin(), all.end(),
                     [&](const DueOfCase& a, const DueOfCase& b) { return next(a) < next(b); });
    return all;
}

}  // namespace caseload::book
