// SPDX-License-Identifier: MIT
// Everything behind the first screen, one part a block.
#include "caseload/figures.hpp"
#include "caseload/show/text.hpp"
#include "show/units_shown.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

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
            out += units.line({words, value, row.unit, row.how != "calculated"});
        }
    });
    return out;
}

/// The checks, worst first, one a line: verdict, part, words, number and limit.
std::string check_lines(const Answer& answer, const Units& units) {
    std::string out = fmt::format("\nChecks, values {}\n", middle_run);
    for (const Check& check : judged_checks(answer)) {
        out += fmt::format("  {:<6} {:<28} {}: {}{}\n", check.verdict, check.about,
                           units.text(check.words), units.value(check.value, check.unit),
                           check.verdict == "shown"
                               ? ""
                               : fmt::format(" ({} {})", check.at_least ? "at least" : "at most",
                                             units.number(check.limit, check.unit)));
        if (!check.consequence.empty()) out += fmt::format("         {}\n", check.consequence);
    }
    return out;
}

std::string gear_lines(const Checked& checked, const Units& units) {
    std::string out;
    for (const GearDamage& gear : checked.gears)
        out +=
            fmt::format("\nGear {}{}\n", gear.shaft, gear.set.empty() ? "" : ", set " + gear.set) +
            (gear.calculated ? lines(gear, units) + "  driving:\n" + lines(gear.drive, units) +
                                   "  coasting:\n" + lines(gear.coast, units)
                             : "  outside what the tooth formulas cover: not calculated\n");
    if (checked.flanks.calculated) out += "\nFlanks\n" + lines(checked.flanks, units);
    return out;
}

std::string seat_lines(const Checked& checked, const Units& units) {
    std::string out;
    for (const SeatResult& seat : checked.seats)
        out += fmt::format("\nSeat of {}{}\n", seat.bearing,
                           seat.retainer ? ", steel retainer" : ", straight in the housing") +
               lines(seat, units) + "  storage:\n" + lines(seat.storage, units) + "  cold:\n" +
               lines(seat.cold, units) + "  hot:\n" + lines(seat.hot, units);
    return out;
}

std::string pair_detail(const Checked& checked, const Units& units) {
    std::string out;
    for (const PairState& pair : checked.pairs)
        out += fmt::format("\nFacing pair of shaft {}\n", pair.shaft) + lines(pair, units);
    return out;
}

std::string spline_detail(const Checked& checked, const Units& units) {
    std::string out;
    for (const SplineResult& spline : checked.splines)
        out += fmt::format("\nSpline {} on shaft {}\n", spline.name, spline.shaft) +
               lines(spline, units);
    return out;
}

std::string pump_dead_lines(const PumpDead& dead, const Units& units) {
    if (!dead.asked) return {};
    if (!dead.reaches_gears)
        return "\nScavenge pump dead: oil settles below the gears; nothing brings it to them\n";
    const std::string settles =
        dead.found ? "oil settles at " + units.degrees(dead.oil_degC) : does_not_settle(units);
    return fmt::format("\nScavenge pump dead: {} on {}; within a factor of 3 of the oil churned\n",
                       settles, dead.leg) +
           lines(dead, units);
}

}  // namespace

std::string detail_screen(const Answer& answer) {
    const Assessment& likely = answer.likely;
    const Units units(answer.read.setup.imperial);
    std::string out;
    for (const LegAnswer& leg : likely.fitted.legs) {
        out += fmt::format("\nLeg {}, settled, {}{}\n", leg.name, middle_run,
                           leg.at_rest.found
                               ? std::string()
                               : fmt::format(" ({}; values there)", does_not_settle(units)));
        out += lines(leg.at_rest.nodes, units) + lines(leg.at_rest.losses.ledger, units) +
               lines(leg.at_rest.outside, units) +
               units.line({"cooler", leg.at_rest.cooler_W, "W"}) +
               units.line({"exhaust", leg.at_rest.exhaust_W, "W"});
        if (leg.at_rest.neighbour_W)
            out += units.line({"neighbour", *leg.at_rest.neighbour_W, "W"});
        for (std::size_t b = 0; b < leg.at_rest.bearing_heat.size(); ++b)
            out += fmt::format("  bearing.{}:\n", likely.loads.bearings[b].name) +
                   lines(leg.at_rest.bearing_heat[b], units);
        const auto& loads = likely.loads.legs[static_cast<std::size_t>(leg.leg)];
        out += lines(loads, units);
    }
    out += pump_dead_lines(likely.pump_dead, units);
    for (int k = 0; k <= static_cast<int>(likely.loads.others.size()); ++k) {
        const Train& train = train_of(likely.loads, k);
        for (const MeshPlace& mesh : train.meshes)
            out += fmt::format("\nMesh {} to {}{}\n",
                               train.shafts[static_cast<std::size_t>(mesh.driver)].name,
                               train.shafts[static_cast<std::size_t>(mesh.driven)].name,
                               k == 0 ? "" : ", set " + train.set) +
                   lines(mesh.pair, units);
    }
    for (std::size_t b = 0; b < likely.loads.bearings.size(); ++b) {
        const BearingDamage& damage = likely.fitted.damage.bearings[b];
        out += fmt::format("\nBearing {}, presses towards {}\n", damage.name,
                           clock_words(damage.clock_deg)) +
               lines(damage, units) + lines(likely.loads.bearings[b], units);
    }
    out += gear_lines(likely.fitted.checked, units) + seat_lines(likely.fitted.checked, units) +
           spline_detail(likely.fitted.checked, units) + pair_detail(likely.fitted.checked, units) +
           check_lines(answer, units);
    out += must_not_run(answer) ? "\nOpening the case, if it ran\n" : "\nOpening the case\n";
    out += lines(likely.fitted.intervals, units);
    for (const Part& part : likely.parts)
        out += fmt::format("  {:<24} {}\n  {:<24} {}\n", part.name, units.text(part.size), "",
                           part.look_at);
    out += fmt::format("\nOil: {} of its oxidation life per event (a factor of 3 either way)\n",
                       figures(likely.fitted.damage.oil_dose, 3));
    out += "\nAssumed, by effect (hottest oil, share of the most used bearing's life):\n";
    const std::vector<Worth> effects = with_effect(answer.worth);
    for (const Worth& one : effects)
        out += fmt::format("  {:<52} {}   {} .. {}\n",
                           fmt::format("{}: {}", one.entry.key, units.text(one.entry.number)),
                           oil_effect(one, units, ".."), signed_figures(one.life_low_share, 2),
                           signed_figures(one.life_high_share, 2));
    out += fmt::format("  {} more move the oil by under {} and that share by under {:g}\n",
                       answer.worth.size() - effects.size(), units.width(least_effect_K),
                       least_effect_on_life);
    out += "\nNotes:\n";
    for (const Notes* notes : {&answer.read.notes, &likely.notes})
        for (const Note& note : *notes) out += fmt::format("  {}\n", units.text(note.text));
    return out;
}

}  // namespace caseload
