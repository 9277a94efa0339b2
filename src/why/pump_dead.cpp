// SPDX-License-Identifier: MIT
// The case with its scavenge pump dead: where its oil lies, and the hottest settled leg
// with all its numbers.
#include "why/places.hpp"

#include <fmt/format.h>

namespace caseload::why_detail {
namespace {

/// The dead case on its hottest leg alone.
void add_dead_rest(const Gather& gather) {
    const PumpDead& dead = gather.answer.pump_dead;
    Setup setup = with_pump_dead(gather.setup, dead.tip_depth_mm);
    for (const LegInput& leg : gather.setup.event.legs)
        if (leg.name == dead.leg) setup.event.legs = {leg};
    setup.event.run = {0};
    const Prepared prepared = prepare(setup);
    Collector to = gather.to.beside();
    const Assessment none;
    const Gather there{setup, prepared, none, to, false};
    const LegAnswer leg{dead.leg, 0,
                        steady(prepared, 0, {.cooler = false, .pump = false, .fan = false})};
    add_ratings(there);
    add_shared(there);
    add_trains(there);
    add_duty(there);
    add_forces(there);
    add_rest(there, leg);
    add_gear_losses(there, leg);
    add_oil_losses(there, leg);
    add_outside(there, leg);
    add_bearings(there, leg);
    add_ledger(there, leg);
    gather.to.add_prefixed(to, dead_prefix, "as a dipped case has it, the pump being dead");
    for (std::size_t first = gather.to.all.size(); first-- > 0;) {
        Number& number = gather.to.all[first];
        if (number.part.rfind(dead_prefix, 0) != 0) break;
        number.words += ", pump dead";
    }
    Number& depth = gather.to.number("pump_dead.shared.dip_mm");
    depth.how = "step";
    depth.value_of = "[pump_dead.tip_depth_mm]";
}

}  // namespace

void add_pump_dead(const Gather& gather) {
    const PumpDead& dead = gather.answer.pump_dead;
    Collector& to = gather.to;
    if (!dead.asked) return;
    const Collector::Place place{"pump_dead", "pump_dead", {}, {}};
    std::vector<std::string> tops;
    std::vector<std::string> bottoms;
    for (std::size_t s = 0; s < gather.prepared.loads.train.shafts.size(); ++s) {
        const std::string shaft = shaft_part(gather, 0, static_cast<int>(s));
        tops.push_back(fmt::format("[{0}.z_mm] + [{0}.tip_diameter_mm] / 2", shaft));
        bottoms.push_back(fmt::format("[{0}.z_mm] - [{0}.tip_diameter_mm] / 2", shaft));
    }
    to.members(place, dead);
    to.step(place, "gears_high_mm", extreme_of("max", tops) + " - " + extreme_of("min", bottoms));
    to.steps_of(place);
    const bool driven = dead.reaches_gears && !dead.leg.empty();
    if (driven) add_dead_rest(gather);
    for (const auto& [member, from] : {std::pair{"oil_degC", "oil_degC"},
                                       {"churning_W", "churning_W"},
                                       {"losses_W", "made_W"},
                                       {"short_by_W", "short_by_W"}}) {
        Number& number = to.number(fmt::format("pump_dead.{}", member));
        const std::string address = fmt::format("pump_dead.rest.{}@{}", from, dead.leg);
        const std::string same_as_fitted = address.substr(dead_prefix.size());
        if (!driven)
            mark_as_zero(number, dead.reaches_gears
                                     ? "nothing is driven"
                                     : "the oil at the bottom does not reach the gears");
        else if (number.member == "oil_degC" && !dead.found)
            mark_as_zero(number, "the oil does not settle below 160 degC");
        else if (number.member == "short_by_W" && dead.found)
            mark_as_zero(number, "it comes to rest below 160 degC");
        else
            number.value_of = "[" + (to.has(address) ? address : same_as_fitted) + "]";
    }
}

}  // namespace caseload::why_detail
