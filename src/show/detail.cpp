// SPDX-License-Identifier: MIT
// Everything behind the first screen, one part a block.
#include "caseload/show/text.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

#include <cmath>
#include <type_traits>

namespace caseload {
namespace {

/// The numbers of a result, one a line, in the words of the quantity table.
template <class T>
std::string lines(const T& result, const Units& units) {
    std::string out;
    each(result, [&](std::string_view name, const auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, double>) {
            const Quantity& row = quantity(Members<T>::owner, name);
            const std::string words =
                row.symbol.empty() ? row.words : fmt::format("{}, {}", row.words, row.symbol);
            out += units.line({words, value, row.unit});
        }
    });
    return out;
}

std::string pump_dead_lines(const PumpDead& dead, const Units& units) {
    if (!dead.asked) return {};
    if (!dead.reaches_gears)
        return "\nScavenge pump dead: oil settles below the gears; nothing brings it to them\n";
    const std::string settles =
        dead.found
            ? fmt::format("oil settles at {} {}", units.temp(dead.oil_degC), units.degree())
            : fmt::format("no balance below {} {}", units.temp(oil_ceiling_degC), units.degree());
    return fmt::format("\nScavenge pump dead: {} on {}; within a factor of 3 of the oil churned\n",
                       settles, dead.leg) +
           lines(dead, units);
}

std::string clock_text(double clock_deg) {
    const int hour = static_cast<int>(std::lround(clock_deg / 30)) % 12;
    return fmt::format("{} o'clock", hour == 0 ? 12 : hour);
}

}  // namespace

std::string detail_screen(const Answer& answer) {
    const Assessment& likely = answer.likely;
    const Units units(answer.read.setup.imperial);
    std::string out;
    for (const LegAnswer& leg : likely.fitted.legs) {
        out += fmt::format("\nLeg {}, at rest{}\n", leg.name,
                           leg.at_rest.found
                               ? std::string()
                               : fmt::format(" (no balance below {} {}; values there)",
                                             units.temp(oil_ceiling_degC), units.degree()));
        out += lines(leg.at_rest.nodes, units) + lines(leg.at_rest.losses.ledger, units) +
               lines(leg.at_rest.outside, units) +
               units.line({"cooler", leg.at_rest.cooler_W, "W"}) +
               units.line({"exhaust", leg.at_rest.exhaust_W, "W"});
        const auto& loads = likely.loads.legs[static_cast<std::size_t>(leg.leg)];
        out += lines(loads, units);
    }
    out += pump_dead_lines(likely.pump_dead, units);
    for (const MeshPlace& mesh : likely.loads.train.meshes)
        out += fmt::format("\nMesh {} to {}\n",
                           likely.loads.train.shafts[static_cast<std::size_t>(mesh.driver)].name,
                           likely.loads.train.shafts[static_cast<std::size_t>(mesh.driven)].name) +
               lines(mesh.pair, units);
    for (std::size_t b = 0; b < likely.loads.bearings.size(); ++b) {
        const BearingDamage& damage = likely.fitted.damage.bearings[b];
        out += fmt::format("\nBearing {}, presses towards {}\n", damage.name,
                           clock_text(damage.clock_deg)) +
               lines(damage, units) + lines(likely.loads.bearings[b], units);
    }
    out += fmt::format("\nOil: {:.3g} of its oxidation life per event (a factor of 3 either way)\n",
                       likely.fitted.damage.oil_dose);
    out += "\nAssumed, by worth (oil peak, largest bearing share):\n";
    for (const Worth& one : answer.worth)
        out += fmt::format("  {:<52} {} .. {}   {:+.2g} .. {:+.2g}\n",
                           fmt::format("{}: {}", one.entry.key, units.text(one.entry.number)),
                           units.difference(one.oil_low_K), units.difference(one.oil_high_K),
                           one.life_low_share, one.life_high_share);
    out += "\nNotes:\n";
    for (const Notes* notes : {&answer.read.notes, &likely.notes})
        for (const Note& note : *notes) out += fmt::format("  {}\n", units.text(note.text));
    return out;
}

}  // namespace caseload
