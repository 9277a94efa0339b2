// SPDX-License-Identifier: MIT
#include "show/words.hpp"

#include "caseload/ask/verdict.hpp"
#include "caseload/figures.hpp"
#include "caseload/show/calibrate.hpp"
#include "show/html.hpp"
#include "show/lines.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace caseload {
namespace {

/// How much of a check's room is used: 1 at its limit.
double used(const Check& check) {
    if (check.verdict == "shown" || check.limit == 0) return 0;
    if (check.at_least) return check.value > 0 ? check.limit / check.value : 2;
    return check.value / check.limit;
}

std::string upper(std::string words) {
    std::transform(words.begin(), words.end(), words.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return words;
}

std::vector<std::string> questions(const Answer& answer, const Units& units) {
    std::vector<std::string> all;
    for (const Notes* notes : {&answer.read.notes, &answer.likely.notes})
        for (const Note& note : *notes)
            if (note.id.rfind("ask.", 0) == 0) all.push_back(units.text(note.text));
    return all;
}

}  // namespace

std::string as_sentence(std::string words) {
    if (!words.empty()) words.front() = upper(words.substr(0, 1)).front();
    return words + ".";
}

std::string after(const Action& action) {
    return action.after_events == 0   ? "not one event"
           : action.after_events == 1 ? "after this event"
                                      : fmt::format("after event {}", action.after_events);
}

std::vector<HeatSource> heat_sources(const LossLedger& losses) {
    static const auto rows = quantities_of(Members<LossLedger>::owner);
    std::vector<HeatSource> parts;
    for (const LossRow& row : loss_rows)
        parts.push_back({losses.*row.power_W, rows.at(std::string(row.name)).words, row.name});
    std::stable_sort(parts.begin(), parts.end(), [](const HeatSource& a, const HeatSource& b) {
        return a.power_W > b.power_W;
    });
    return parts;
}

std::string verdict_word(const Answer& answer) {
    return upper(answer.band.verdict);
}

std::string verdict_sentence(const Answer& answer, const Units& units) {
    const std::string& why = answer.band.decides;
    const EventHeat& event = answer.likely.fitted.event;
    const double passed_s = why == "likely_above"     ? event.watch_after_s
                            : why == "likely_too_hot" ? event.stop_after_s
                                                      : -1;
    std::string sentence = units.text(answer.likely.stopped_by);
    if (why != "check") {
        sentence = units.text(oil_words(answer.read.setup.limits, answer.band)) +
                   (passed_s >= 0 ? " after about " + duration(passed_s) : "") + ".";
        sentence.front() = 'O';
    }
    const auto& checks = answer.likely.fitted.checked.checks;
    const auto watched = std::count_if(checks.begin(), checks.end(),
                                       [](const Check& check) { return check.verdict == "watch"; });
    if (watched > 0) sentence += fmt::format(" {} to watch.", counted(watched, "check"));
    sentence += " " + measured_sentence(answer.read.setup);
    for (const Note& note : answer.read.notes)
        if (note.id == "measured.changed") sentence += " " + note.text;
    return sentence;
}

std::string does_not_settle(const Units& units) {
    return "the oil does not settle below " + units.degrees(oil_ceiling_degC);
}

std::string question_lines(const Answer& answer, const Units& units) {
    std::string out;
    for (const std::string& question : questions(answer, units))
        out += wrapped("  ENTRY?   ", question);
    return out.empty() ? out : out + "\n";
}

std::string question_paragraphs(const Answer& answer, const Units& units) {
    std::string out;
    for (const std::string& question : questions(answer, units))
        out += fmt::format("<p class=\"question\"><strong>Is this entry right?</strong> {}</p>\n",
                           escaped(question));
    return out;
}

bool must_not_run(const Answer& answer) {
    return answer.band.verdict == "stop";
}

std::string stop_words(const Answer& answer, const Units& units) {
    return units.text(verdict_reason(answer.read.setup, answer.likely, answer.band));
}

std::string remedy_words(const Remedy& remedy, const Units& units) {
    if (remedy.tried.empty()) return {};
    if (const Attempt* found = first_that_runs(remedy))
        return fmt::format("makes it run: {}; then {}: {} ({} .. {} .. {})",
                           units.text(found->words), upper(found->verdict),
                           units.text(found->reason), units.temp(found->oil_degC.p10),
                           units.temp(found->oil_degC.p50), units.degrees(found->oil_degC.p90));
    return "nothing tried makes it run: " +
           joined(remedy.tried, "; ", [&](const Attempt& one) { return units.text(one.words); });
}

std::string fatigue_words(const Intervals& intervals) {
    return "calculated fatigue life of bearings and teeth: " +
           (intervals.fatigue_beyond ? "more than 20 events or 200 h"
                                     : fmt::format("{:.0f} events", intervals.fatigue_events));
}

Weakest weakest_part(const Answer& answer, const Units& units) {
    const std::vector<Check> sorted = worst_first(answer.likely.fitted.checked.checks);
    if (sorted.empty()) return {};
    const Check* weakest = &sorted.front();
    if (weakest->verdict == "fine")
        for (const Check& check : sorted)
            if (used(check) > used(*weakest)) weakest = &check;
    for (const SeatResult& seat : answer.likely.fitted.checked.seats)
        if (weakest->about == "bearing." + seat.bearing + ".seat" && weakest->verdict != "fine")
            return {"weakest",
                    fmt::format("{} seat: loose above {}{}{}", seat.bearing,
                                units.degrees(seat.loose_above_degC),
                                seat.interference_least_mm < seat.interference_largest_mm
                                    ? fmt::format(" ({} to {} over the fit)",
                                                  units.temp(seat.loose_above_least_degC),
                                                  units.temp(seat.loose_above_largest_degC))
                                    : "",
                                seat.loose_after_s >= 0 ? fmt::format(", reached after {}",
                                                                      duration(seat.loose_after_s))
                                                        : "")};

    return {weakest->verdict == "fine" ? "nearest" : "weakest",
            fmt::format("{}: {} {}, {} {}", weakest->about, weakest->words,
                        units.number(weakest->value, weakest->unit),
                        weakest->at_least ? "at least" : "at most",
                        units.value(weakest->limit, weakest->unit))};
}

double oil_effect_K(const Worth& one) {
    return std::max(std::fabs(one.oil_low_K), std::fabs(one.oil_high_K));
}

std::vector<Worth> with_effect(const std::vector<Worth>& all) {
    std::vector<Worth> kept;
    for (const Worth& one : all)
        if (oil_effect_K(one) >= least_effect_K ||
            std::max(std::fabs(one.life_low_share), std::fabs(one.life_high_share)) >=
                least_effect_on_life)
            kept.push_back(one);
    return kept;
}

std::string oil_effect(const Worth& one, const Units& units, std::string_view between) {
    if (oil_effect_K(one) < least_effect_K) return "under " + units.width(least_effect_K);
    return fmt::format("{} {} {}", units.difference(std::min(one.oil_low_K, one.oil_high_K)),
                       between, units.difference(std::max(one.oil_low_K, one.oil_high_K)));
}

}  // namespace caseload
