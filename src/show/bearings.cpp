// SPDX-License-Identifier: MIT
// Which bearing is good enough for the build: the decision, then a block a position.
#include "caseload/figures.hpp"
#include "caseload/show/choices.hpp"
#include "show/json_writer.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

std::string called(const BearingChoice& choice) {
    return fmt::format("{}{:g}x{:g}x{:g} mm {}", choice.name.empty() ? "" : choice.name + ", ",
                       choice.bore_mm, choice.outside_mm, choice.width_mm,
                       json_writer::word(choice.kind));
}

/// What to fit instead. A seat that fails does so with any bearing: nothing.
std::string offer(const BearingPosition& one) {
    if (one.pick > 0)
        return "; the nearest that holds is " +
               called(one.choices[static_cast<std::size_t>(one.pick)]);
    if (one.choices.front().fails.front().rfind("seat:", 0) == 0) return {};
    return fmt::format("; no other size that goes there {} (--outside, --width, --thinner)",
                       one.choices.size() == 1 ? "is known" : "holds");
}

/// One line for each position this is so of.
template <class Is>
std::string lines_of(const BearingsAnswer& answer, const Units& units, const Is& is) {
    std::string out;
    for (const BearingPosition& one : answer.positions)
        if (is(one.choices.front()))
            out += wrapped("    ",
                           units.text(fmt::format("{}: {}{}.", one.position,
                                                  one.choices.front().fails.front(), offer(one))));
    return out;
}

template <class Is>
std::string names_of(const BearingsAnswer& answer, const Is& is) {
    return joined(answer.positions, ", ", [&](const BearingPosition& one) {
        return is(one.choices.front()) ? one.position : "";
    });
}

std::string events_words(double events) {
    return events < 1 ? "not one event" : counted(events, "event");
}

std::string decision(const BearingsAnswer& answer, const Units& units) {
    const auto stops = [](const BearingChoice& now) { return now.verdict == "stop"; };
    const auto fails = [&](const BearingChoice& now) { return !now.fails.empty() && !stops(now); };
    const auto good = [](const BearingChoice& now) { return now.fails.empty(); };
    std::string out;
    if (answer.decision == "change")
        out +=
            wrapped("  CHANGE  ", names_of(answer, stops) + ":") + lines_of(answer, units, stops);
    if (answer.opens_earlier)
        out +=
            wrapped("  OPEN EARLIER  ",
                    fmt::format("fatigue of bearings and teeth allows {}, and the case is opened "
                                "after {:.0f}: {} wears first.",
                                events_words(answer.fatigue_events), answer.planned_events,
                                answer.weakest));
    else if (!names_of(answer, fails).empty())
        out += wrapped("  UNSURE  ", names_of(answer, fails) +
                                         ": good enough with the likely values, not for 9 chances "
                                         "in 10.");
    out += lines_of(answer, units, fails);
    if (const std::string names = names_of(answer, good); !names.empty())
        out += wrapped("  KEEP  ", names.find(',') == std::string::npos
                                       ? names + ": the fitted bearing is good enough."
                                       : names + ": the fitted bearings are good enough.");
    for (const BearingPosition& one : answer.positions)
        for (const std::string& words : one.choices.front().watches)
            out += wrapped("  ON WATCH  ", units.text(fmt::format("{}: {}.", one.position, words)));
    return out;
}

std::string block(const BearingChoice& choice, const Units& units) {
    std::string out =
        units.text(fmt::format("    {:<6} {}{}\n", choice.fails.empty() ? "holds" : "fails",
                               called(choice), choice.now ? "  (fitted)" : ""));
    if (choice.C_N > 0)
        out += units.text(fmt::format(
            "           life used {} % an event   dent margin {}   cage speed {:.0f} % of "
            "limit\n           heat {} W   about {} kg{}\n",
            percent_figures(choice.life_share), figures(choice.dent_margin, 2),
            choice.speed_limit > 0 ? 100 * choice.cage_speed / choice.speed_limit : 0,
            signed_figures(std::round(choice.heat_added_W), 1), figures(choice.mass_kg, 2),
            choice.estimated ? "   ratings estimated from size" : ""));
    if (choice.holds_share)
        out += fmt::format(
            "           life holds, oil below its limit or no hotter than now, {:.0f} chances in "
            "100\n",
            std::floor(100 * *choice.holds_share));
    if (!choice.play.empty()) out += wrapped("           ", units.text(choice.play));
    if (!choice.pair.empty()) out += wrapped("           ", units.text(choice.pair));
    for (const std::string& why : choice.fails) out += wrapped("           ", units.text(why));
    for (const std::string& why : choice.watches)
        out += wrapped("           on watch: ", units.text(why));
    return out;
}

}  // namespace

std::string bearings_screen(const Setup& setup, const BearingsAnswer& answer) {
    const Units units(setup.imperial);
    std::string out = fmt::format("{}  {}\n\n", setup.name, setup.event.words);
    out += decision(answer, units);
    if (!answer.positions.empty() &&
        answer.positions.front().choices.front().oil_peak_degC > setup.limits.oil_stop_degC)
        out += wrapped("  OIL  ",
                       units.text(fmt::format("above its stop limit of {:.4g} degC with these "
                                              "bearings: caseload assess says what to do first.",
                                              setup.limits.oil_stop_degC)));
    for (const BearingPosition& one : answer.positions) {
        out += fmt::format("\n  {}\n", one.position);
        for (const BearingChoice& choice : one.choices) out += block(choice, units);
    }
    return out +
           "\nHolds: no check of it or its seat says stop, its life reaches the opening, the oil "
           "gets "
           "no hotter\nthan it may; life and oil 9 chances in 10 too. Checks are judged on the "
           "likely case only; assess\njudges them over the range, and the whole case. Dirt, fit "
           "and "
           "oil supply decide what these do not.\n" +
           std::string(deference) +
           "\nMore: --position, --outside, --width (more room), --thinner, --draws; own ones under "
           "[candidate]\n";
}

std::string bearings_json(const Setup& setup, const BearingsAnswer& answer) {
    return fmt::format("{{\"schema\":1,{},\"setup\":{},\"bearings\":{}}}\n", json_value::caution(),
                       json_writer::text(setup.name), json_writer::object(answer));
}

}  // namespace caseload
