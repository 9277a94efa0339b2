// SPDX-License-Identifier: MIT
#include "show/words.hpp"

#include "caseload/ask/pairs.hpp"
#include "caseload/ask/verdict.hpp"
#include "caseload/figures.hpp"
#include "caseload/show/calibrate.hpp"
#include "caseload/units.hpp"
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

std::string case_sentence(const Answer& answer, const Units& units) {
    return "Case: " + units.text(case_words(answer.likely, answer.band)) + ".";
}

std::string verdict_sentence(const Answer& answer, const Units& units) {
    const Band& band = answer.band;
    const double passed_s =
        band.oil_word == "stop" ? band.stop_after_s
        : band.fitted.peak_oil_degC.p50 > answer.read.setup.limits.oil_watch_degC
            ? band.watch_after_s
            : -1;
    std::string sentence = units.text(oil_words(answer.read.setup.limits, band)) +
                           (passed_s >= 0 ? " after about " + duration(passed_s) : "") + ". " +
                           case_sentence(answer, units);
    sentence.front() = 'O';
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

std::string not_calculated(const Setup& setup) {
    return std::string(setup.splines.empty() ? "splines, " : "") +
           "bolts, breather and water, oil starvation, assembly faults, impact";
}

std::string pair_words(const PairState& pair, const Units& units) {
    constexpr double wider = 0.05;  // less is no news
    std::string out = fmt::format("{}, {} cold: {}", pair.shaft,
                                  play_or_preload(pair.cold_end_play_mm), pair_when_hot(pair));
    // A pair with end play where a leg settles may have none on the way there.
    if (const std::string on_the_way = play_or_preload(pair.tightest_mm);
        pair.preload_N <= 0 && on_the_way.ends_with("preload"))
        out += ", on the way there " + on_the_way;
    out += fmt::format("; set {} cold, for 0 to {:.2f} mm hot", pair_setting(pair),
                       2 * pair.set_tolerance_mm);
    if (pair.balance && pair.loop_gain >= wider && pair.loop_gain < 1)
        out += fmt::format(
            ". The range keeps this preload; as it feeds itself (gain {:.2f}) the "
            "range is about {:.0f} % too narrow",
            pair.loop_gain, 100 / (1 - pair.loop_gain) - 100);
    return units.text(out);
}

std::string pair_words(const Answer& answer, const Units& units) {
    return joined(answer.likely.fitted.checked.pairs, ". ",
                  [&](const PairState& one) { return pair_words(one, units); });
}

std::string running_play_words(const BearingData& bearing, double zone_deg, const Units& units) {
    if (!bearing.play_known) return {};
    // To what a gauge shows.
    const auto play = [&](double length_mm) {
        return units.imperial()
                   ? fmt::format("{:g} in", std::round(1e4 * in_from_mm(length_mm)) / 1e4 + 0.0)
                   : fmt::format("{:g} mm", std::round(1000 * length_mm) / 1000 + 0.0);
    };
    const double play_mm = bearing.running_play_mm;
    const std::string range = fmt::format("{} to {}", play(bearing.running_play_least_mm),
                                          play(bearing.running_play_largest_mm));
    std::string words =
        play_mm < 0 ? fmt::format("Hot it runs preloaded by {} (play {})", play(-play_mm), range)
                    : fmt::format("Hot it runs with {} of play ({})", play(play_mm), range);
    if (zone_deg > 0)
        words += fmt::format(", its {} carry over {:.0f} deg",
                             is_ball(bearing.kind) ? "balls" : "rollers", zone_deg);
    return words;
}

std::string spline_words(const Answer& answer) {
    const auto& results = answer.likely.fitted.checked.splines;
    const auto& inputs = answer.read.setup.splines;
    std::vector<std::string> all;
    for (std::size_t s = 0; s < results.size(); ++s)
        all.push_back(fmt::format(
            "{} {}, {}", results[s].name, words_for(inputs[s].fit).key,
            inputs[s].fit == SplineFit::piloted
                ? fmt::format("does not wear; largest torque {} % of what it takes",
                              figures(100 * results[s].peak_share, 2))
                : fmt::format("{} % of its wear", figures(100 * results[s].wear_share, 1))));
    return joined(all, "; ", [](const std::string& one) { return one; });
}

Weakest weakest_part(const Answer& answer, const Units& units) {
    const Band& band = answer.band;
    for (const std::vector<JudgedCheck>* found : {&band.stop, &band.watch, &band.look}) {
        if (found->empty()) continue;
        const JudgedCheck& worst = found->front();
        std::string words = part_and_finding(worst);
        for (const SeatResult& seat : answer.likely.fitted.checked.seats)
            if (worst.id == CheckId::seat_creep &&
                worst.about == "bearing." + seat.bearing + ".seat")
                words += fmt::format(
                    "; loose above {:.0f} degC{}{}", seat.loose_above_degC,
                    seat.interference_least_mm < seat.interference_largest_mm
                        ? fmt::format(" ({:.0f} degC to {:.0f} degC over the fit)",
                                      seat.loose_above_least_degC, seat.loose_above_largest_degC)
                        : "",
                    seat.loose_after_s >= 0
                        ? fmt::format(", reached after {}", duration(seat.loose_after_s))
                        : "");
        if (severity_of(worst.verdict) >= Severity::watch && !worst.consequence.empty())
            words += "; " + worst.consequence;
        return {"weakest", units.text(words)};
    }
    const Check* nearest = nullptr;
    for (const Check& check : answer.likely.fitted.checked.checks)
        if (check.verdict == "fine" && (nearest == nullptr || used(check) > used(*nearest)))
            nearest = &check;
    if (nearest == nullptr) return {};
    return {"nearest", fmt::format("{}: {} {}, {} {}", nearest->about, nearest->words,
                                   units.number(nearest->value, nearest->unit),
                                   nearest->at_least ? "at least" : "at most",
                                   units.value(nearest->limit, nearest->unit))};
}

std::vector<Check> judged_checks(const Answer& answer) {
    std::vector<Check> checks = answer.likely.fitted.checked.checks;
    for (Check& check : checks) {
        const Severity severity = severity_over_range(answer.band, check);
        if (severity == severity_of(check.verdict)) continue;
        check.verdict = severity_word(severity);
        check.consequence =
            severity > Severity::shown ? std::string(check_row(check.id).consequence) : "";
    }
    return worst_first(checks);
}

std::vector<std::string> to_look_at(const Answer& answer, const Units& units) {
    struct Found {
        std::string parts;
        JudgedCheck check;    ///< of them all the likeliest
        bool differ = false;  ///< their chances do
    };
    std::vector<Found> all;
    for (const JudgedCheck& check : answer.band.look) {
        Found* last = all.empty() ? nullptr : &all.back();
        const bool same = last != nullptr && last->check.id == check.id &&
                          last->check.limit == check.limit &&
                          (check.over_range || finding_words(check) == finding_words(last->check));
        if (!same) {
            all.push_back({check.about, check});
            continue;
        }
        last->parts += ", " + check.about;
        last->differ = last->differ || finding_words(check) != finding_words(last->check);
        last->check.share = std::max(last->check.share, check.share);
    }
    std::vector<std::string> lines;
    lines.reserve(all.size());
    for (const Found& one : all) {
        std::string words = finding_words(one.check);
        if (const std::size_t chances = words.rfind(", ");
            one.differ && words.find(" in 10") != std::string::npos)
            words.insert(chances + 2, "up to ");
        lines.push_back(
            one.parts + ": " +
            units.text(words +
                       (one.check.consequence.empty() ? "" : "; " + one.check.consequence)));
    }
    return lines;
}

std::string seats_sentence(const Answer& answer, const Units& units) {
    const Setup& setup = answer.read.setup;
    const SeatResult* worst = nullptr;
    double free_above_degC = oil_ceiling_degC;
    for (const SeatResult& seat : answer.likely.fitted.checked.seats)
        for (const BearingInput& bearing : setup.bearings) {
            if (bearing.name != seat.bearing || !bearing.seat.assumed) continue;
            free_above_degC = std::min(free_above_degC, seat.loose_above_degC);
            const bool worse =
                worst == nullptr || seat.creep > worst->creep ||
                (seat.creep == worst->creep && seat.slip_margin < worst->slip_margin);
            if (worse) worst = &seat;
        }
    if (worst == nullptr) return {};
    const std::string free =
        worst->creep == SeatClass::tight
            ? "tight in this event"
            : "free above " + units.degrees(free_above_degC) + ", as in every such case";
    const std::string holds = worst->creep == SeatClass::tight  ? ""
                              : worst->creep == SeatClass::held ? "; their load holds them"
                              : worst->creep == SeatClass::walks
                                  ? fmt::format("; that of {} walks", worst->bearing)
                                  : fmt::format("; that of {} turns", worst->bearing);
    const std::string margin =
        worst->slip_margin > 0 ? fmt::format(" (slip margin {})", figures(worst->slip_margin, 2))
                               : "";
    return fmt::format(
        "rings straight in the {} (N7): {}{}{}. Steel sleeves, or a plate or pin that holds them? "
        "Enter bearing.*.seat",
        setup.housing.material == HousingMaterial::aluminium ? "aluminium" : "cast iron", free,
        holds, margin);
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
