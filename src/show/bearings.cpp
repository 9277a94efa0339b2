// SPDX-License-Identifier: MIT
// Which bearing stands the build: the decision, then a block a position.
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

/// What is there, what is lighter and holds, what holds among one's own.
std::string decision(const BearingsAnswer& answer, const Units& units) {
    std::string failing;
    for (const BearingPosition& one : answer.positions)
        if (!one.choices.front().fails.empty())
            failing += (failing.empty() ? "" : ", ") + one.position;
    if (failing.empty())
        return answer.positions.size() == 1
                   ? wrapped("  KEEP  ", fmt::format("{} holds with what is there.",
                                                     answer.positions.front().position))
                   : wrapped("  KEEP  ", "every position holds with what is there.");
    std::string out = wrapped("  CHANGE  ", failing + ":");
    for (const BearingPosition& one : answer.positions) {
        const BearingChoice& now = one.choices.front();
        if (now.fails.empty()) continue;
        out += wrapped(
            "    ",
            units.text(fmt::format(
                "{}: {}; {}.", one.position, now.fails.front(),
                one.pick < 0 ? "no size within the limits holds"
                             : "the lightest that holds is " +
                                   called(one.choices[static_cast<std::size_t>(one.pick)]))));
    }
    return out;
}

std::string block(const BearingChoice& choice, const Units& units) {
    std::string out =
        units.text(fmt::format("    {:<6} {}{}\n", choice.fails.empty() ? "holds" : "fails",
                               called(choice), choice.now ? "  (there now)" : ""));
    if (choice.C_N > 0)
        out += units.text(fmt::format(
            "           life used {:.2g} % an event   dent margin {:.2g}   cage speed {:.0f} % of "
            "limit\n           heat {:+.0f} W   about {:.2g} kg{}\n",
            100 * choice.life_share, choice.dent_margin,
            choice.speed_limit > 0 ? 100 * choice.cage_speed / choice.speed_limit : 0,
            choice.heat_added_W, choice.mass_kg,
            choice.estimated ? "   ratings estimated from size" : ""));
    if (choice.holds_share)
        out += fmt::format("           life and oil hold in {:.0f} of 100 draws\n",
                           std::floor(100 * *choice.holds_share));
    for (const std::string& why : choice.fails) out += wrapped("           ", units.text(why));
    return out;
}

}  // namespace

std::string bearings_screen(const Setup& setup, const BearingsAnswer& answer) {
    const Units units(setup.imperial);
    std::string out = fmt::format("{}  {}\n\n", setup.name, setup.event.words);
    out += decision(answer, units);
    for (const BearingPosition& one : answer.positions) {
        out += fmt::format("\n  {}\n", one.position);
        for (const BearingChoice& choice : one.choices) out += block(choice, units);
    }
    return out +
           "\nLife, dents, speed, seat and oil must all hold with the likely values, life and oil "
           "in 9 "
           "of 10\ndraws too. Dirt, fit and oil supply decide what these do not.\n" +
           std::string(deference) +
           "\nMore: --position, --outside, --width, --draws; own ones under [candidate]\n";
}

std::string bearings_json(const Setup& setup, const BearingsAnswer& answer) {
    return fmt::format("{{\"schema\":1,{},\"setup\":{},\"bearings\":{}}}\n", json_value::caution(),
                       json_writer::text(setup.name), json_writer::object(answer));
}

}  // namespace caseload
