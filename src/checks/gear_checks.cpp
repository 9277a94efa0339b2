// SPDX-License-Identifier: MIT
#include "caseload/formulas/prop_shaft.hpp"
#include "caseload/units.hpp"
#include "checks/parts.hpp"

#include <fmt/format.h>

#include <string>

namespace caseload {
void check_teeth(const Prepared& prepared, const Checked& found, std::vector<Check>& into) {
    const Setup& setup = *prepared.setup;
    for (int k = 0; k <= static_cast<int>(prepared.loads.others.size()); ++k)
        for (const MeshPlace& mesh : train_of(prepared.loads, k).meshes)
            into.push_back(judged({.id = CheckId::gears_contact_ratio,
                                   .about = "gears",
                                   .words = "pairs of teeth in contact (contact ratio)",
                                   .value = mesh.pair.eps_alpha}));
    for (const GearDamage& gear : found.gears) {
        const std::string about = gear_address(gear);
        if (!gear.calculated) continue;
        const ToothSide used = worst(gear);
        // From one life of many cycles to one cycle, within the last digit of a load.
        const auto beyond_static = [](double of_static) {
            return of_static > 1
                       ? ", a load above the static limit: each of its cycles counts as a "
                         "whole life"
                       : "";
        };
        into.push_back(judged({.id = CheckId::gear_flank,
                               .about = about,
                               .words = std::string("flank life used this event") +
                                        beyond_static(gear.bin_flank_share),
                               .value = used.flank_share}));
        into.push_back(judged(
            {.id = CheckId::gear_root,
             .about = about,
             .words = std::string("root life used this event") + beyond_static(gear.bin_root_share),
             .value = used.root_share}));
        into.push_back(judged({.id = CheckId::gear_peak_root,
                               .about = about,
                               .words = "torque peak over what one blow breaks",
                               .value = gear.peak_root_share}));
        into.push_back(judged({.id = CheckId::gear_peak_flank,
                               .about = about,
                               .words = "torque peak over what one blow leaves a mark of",
                               .value = gear.peak_flank_share}));
    }
    if (found.flanks.calculated) {
        const std::string hotter =
            std::string(found.flanks.above_ceiling ? hotter_flanks_words : "");
        into.push_back(judged({.id = CheckId::gears_scuffing,
                               .about = "gears",
                               .words = "margin against scuffing" + hotter,
                               .value = found.flanks.S_B}));
        if (found.flanks.film_ratio > 0) {
            into.push_back(judged({.id = CheckId::gears_film,
                                   .about = "gears",
                                   .words = "oil film over roughness of the flanks" + hotter,
                                   .value = found.flanks.film_ratio},
                                  film_limit(setup)));
        }
        into.push_back(
            {.id = CheckId::gears_resonance,
             .about = "gears",
             .verdict = "shown",
             .words = fmt::format("driving time in the mesh resonance ({:.0f} to {:.0f} "
                                  "r/min at the input)",
                                  found.flanks.resonance_from_rpm, found.flanks.resonance_to_rpm),
             .value = found.flanks.resonance_time_share});
    }
    for (const double gained_mm : found.play.backlash_hot_mm)
        into.push_back({.id = CheckId::gears_backlash,
                        .about = "gears",
                        .verdict = "shown",
                        .words = "backlash gained when hot",
                        .value = gained_mm,
                        .unit = "mm"});
    for (std::size_t s = 0; s < found.play.end_play_hot_mm.size(); ++s) {
        const ShaftPlace& shaft = prepared.loads.train.shafts[s];
        // The facing pair's own result counts its rings and the squeeze of their seats too.
        if (std::any_of(prepared.pairs.begin(), prepared.pairs.end(),
                        [&](const PairState& pair) { return pair.shaft == shaft.name; }))
            continue;
        into.push_back({.id = CheckId::shaft_end_play,
                        .about = "shaft." + shaft.name,
                        .verdict = "shown",
                        .words = shaft.thrust_bearing < 0
                                     ? "end play gained when hot"
                                     : "way the free bearing must move when hot",
                        .value = found.play.end_play_hot_mm[s],
                        .unit = "mm"});
        into.push_back({.id = CheckId::shaft_end_play_cold,
                        .about = "shaft." + shaft.name,
                        .verdict = "shown",
                        .words = shaft.thrust_bearing < 0
                                     ? "end play gained at the event's ambient"
                                     : "way the free bearing must move at the event's ambient",
                        .value = found.play.end_play_cold_mm[s],
                        .unit = "mm"});
    }
}

void check_prop_shaft(const Prepared& prepared, std::vector<Check>& into) {
    const auto& shaft = prepared.setup->vehicle.prop_shaft;
    if (!shaft) return;
    const double critical_rpm =
        prop_shaft::ends_share * prop_shaft::critical_speed_rpm({.length_mm = shaft->length_mm,
                                                                 .outside_mm = shaft->outside_mm,
                                                                 .wall_mm = shaft->wall_mm});
    // Seconds are enough: in the tallest gear at the limiter, where both are known.
    const double driven_rpm = fastest_rpm(prepared.loads, prepared.loads.train.shafts.size() - 1);
    const double most_rpm = limiter_rpm(*prepared.setup, prepared.loads);
    into.push_back(judged({.id = CheckId::prop_shaft_whirl,
                           .about = "vehicle.prop_shaft",
                           .words = most_rpm > driven_rpm
                                        ? "prop shaft at the engine's limiter over its whirl speed"
                                        : "prop shaft speed over its whirl speed",
                           .value = std::max(driven_rpm, most_rpm) / critical_rpm}));
}

}  // namespace caseload
