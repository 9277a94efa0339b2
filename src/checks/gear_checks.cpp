// SPDX-License-Identifier: MIT
#include "caseload/formulas/prop_shaft.hpp"
#include "checks/parts.hpp"

#include <fmt/format.h>

#include <string>

namespace caseload {
namespace {

// Scuffing: below 2 look, below 1.5 stop (ISO/TS 6336-20 leaves the figure to the user; common in
// gear books, from memory).
constexpr CheckLimits scuffing_limits{2.0, 1.5};
// Film over roughness: ground flanks of good gears run in; others wear below 0.7. Judgement.
constexpr double film_limit_ground = 0.4;
constexpr double film_limit_other = 0.7;
constexpr CheckLimits contact_ratio_limits{1.1, 1.0};
// Share of the critical speed, ends counted: common practice for prop shafts.
constexpr CheckLimits whirl_limits{0.70, 0.90};

void check_contact(const Prepared& prepared, std::vector<Check>& into) {
    for (int k = 0; k <= static_cast<int>(prepared.loads.others.size()); ++k)
        for (const MeshPlace& mesh : train_of(prepared.loads, k).meshes)
            into.push_back(at_least(
                {.id = CheckId::gears_contact_ratio,
                 .about = "gears",
                 .words = "pairs of teeth in contact (contact ratio)",
                 .value = mesh.pair.eps_alpha,
                 .consequence = "teeth hand over with a knock: taller tips or another tooth sum"},
                contact_ratio_limits));
}

void check_lives(const Checked& found, std::vector<Check>& into) {
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
        into.push_back(at_most({.id = CheckId::gear_flank,
                                .about = about,
                                .words = std::string("flank life used this event") +
                                         beyond_static(gear.bin_flank_share),
                                .value = used.flank_share,
                                .consequence = "flanks pit before the finish: wider or larger "
                                               "gears, less torque"},
                               {1, 1}));
        into.push_back(at_most(
            {.id = CheckId::gear_root,
             .about = about,
             .words = std::string("root life used this event") + beyond_static(gear.bin_root_share),
             .value = used.root_share,
             .consequence = "a tooth can break: larger module, wider gear, less "
                            "shock"},
            {1, 1}));
        into.push_back(
            at_most({.id = CheckId::gear_peak_root,
                     .about = about,
                     .words = "torque peak over what one blow breaks",
                     .value = gear.peak_root_share,
                     .consequence = "one blow can break a tooth: soften the driveline or "
                                    "fit a larger module"},
                    {1, 1}));
        into.push_back(at_most({.id = CheckId::gear_peak_flank,
                                .about = about,
                                .words = "torque peak over what one blow leaves a mark of",
                                .value = gear.peak_flank_share,
                                .consequence = "one blow can indent the flank, and pits start "
                                               "there: soften the driveline or widen the gears"},
                               {1, never}));
    }
}

void check_flanks(const FlankChecks& flanks, bool ground, std::vector<Check>& into) {
    if (!flanks.calculated) return;
    const std::string hotter = std::string(flanks.above_ceiling ? hotter_flanks_words : "");
    into.push_back(at_least({.id = CheckId::gears_scuffing,
                             .about = "gears",
                             .words = "margin against scuffing" + hotter,
                             .value = flanks.S_B,
                             .consequence = "flanks may weld and tear: cooler oil, an oil of "
                                            "higher load stage, smoother flanks"},
                            scuffing_limits));
    if (flanks.film_ratio > 0) {
        const double limit = ground ? film_limit_ground : film_limit_other;
        into.push_back(at_least({.id = CheckId::gears_film,
                                 .about = "gears",
                                 .words = "oil film over roughness of the flanks" + hotter,
                                 .value = flanks.film_ratio,
                                 .consequence = "flanks wear and grow grey: smoother flanks or "
                                                "thicker, cooler oil"},
                                {limit, -never}));
    }
    into.push_back({.id = CheckId::gears_resonance,
                    .about = "gears",
                    .verdict = "shown",
                    .words = fmt::format("driving time in the mesh resonance ({:.0f} to {:.0f} "
                                         "r/min at the input)",
                                         flanks.resonance_from_rpm, flanks.resonance_to_rpm),
                    .value = flanks.resonance_time_share});
}

void check_play(const PlayChange& play, const Train& train, std::vector<Check>& into) {
    for (const double gained_mm : play.backlash_hot_mm)
        into.push_back({.id = CheckId::gears_backlash,
                        .about = "gears",
                        .verdict = "shown",
                        .words = "backlash gained when hot",
                        .value = gained_mm,
                        .unit = "mm"});
    for (std::size_t s = 0; s < play.end_play_hot_mm.size(); ++s) {
        const ShaftPlace& shaft = train.shafts[s];
        into.push_back({.id = CheckId::shaft_end_play,
                        .about = "shaft." + shaft.name,
                        .verdict = "shown",
                        .words = shaft.thrust_bearing < 0
                                     ? "end play gained when hot"
                                     : "way the free bearing must move when hot",
                        .value = play.end_play_hot_mm[s],
                        .unit = "mm"});
        into.push_back({.id = CheckId::shaft_end_play_cold,
                        .about = "shaft." + shaft.name,
                        .verdict = "shown",
                        .words = shaft.thrust_bearing < 0
                                     ? "end play gained at the event's ambient"
                                     : "way the free bearing must move at the event's ambient",
                        .value = play.end_play_cold_mm[s],
                        .unit = "mm"});
    }
}

}  // namespace

void check_teeth(const Prepared& prepared, const Checked& found, std::vector<Check>& into) {
    check_contact(prepared, into);
    check_lives(found, into);
    check_flanks(found.flanks, prepared.setup->gears.ground, into);
    check_play(found.play, prepared.loads.train, into);
}

void check_prop_shaft(const Prepared& prepared, std::vector<Check>& into) {
    const auto& shaft = prepared.setup->vehicle.prop_shaft;
    if (!shaft) return;
    const double critical_rpm =
        prop_shaft::ends_share * prop_shaft::critical_speed_rpm({.length_mm = shaft->length_mm,
                                                                 .outside_mm = shaft->outside_mm,
                                                                 .wall_mm = shaft->wall_mm});
    into.push_back(at_most(
        {.id = CheckId::prop_shaft_whirl,
         .about = "vehicle.prop_shaft",
         .words = "prop shaft speed over its whirl speed",
         .value =
             fastest_rpm(prepared.loads, prepared.loads.train.shafts.size() - 1) / critical_rpm,
         .consequence = "the shaft may whirl and tear loose: shorter, larger or "
                        "two-piece shaft, or a slower axle ratio. Keep out of its "
                        "plane"},
        whirl_limits));
}

}  // namespace caseload
