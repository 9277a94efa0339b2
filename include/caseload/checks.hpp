// SPDX-License-Identifier: MIT
// What can end the day at once, each with a verdict, its number and its limit. After damage, before
// intervals.
#pragma once

#include "caseload/damage.hpp"
#include "caseload/kinds.hpp"
#include "caseload/seats.hpp"
#include "caseload/teeth.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// What is checked: first what a case does not survive, then what wears it (judgement), last what
/// is shown without a verdict.
enum class CheckId {
    seat_cold,
    gear_root,
    gear_peak_root,
    bearing_life,
    gear_flank,
    prop_shaft_whirl,
    seat_hot,
    seat_play,
    bearing_dent,
    seal_material,
    seal_sump,
    seal_lip,
    bearing_ring,
    gears_scuffing,
    gear_peak_flank,
    bearing_speed,
    gears_film,
    bearing_rating_share,
    gears_contact_ratio,
    bearing_least_load,
    gears_resonance,
    gears_backlash,
    shaft_end_play,
    shaft_end_play_cold,
};

template <>
inline constexpr KindRows<CheckId, 24> kind_rows<CheckId>{
    {{CheckId::seat_cold, "seat.cold"},
     {CheckId::gear_root, "gear.root"},
     {CheckId::gear_peak_root, "gear.peak_root"},
     {CheckId::bearing_life, "bearing.life"},
     {CheckId::gear_flank, "gear.flank"},
     {CheckId::prop_shaft_whirl, "prop_shaft.whirl"},
     {CheckId::seat_hot, "seat.hot"},
     {CheckId::seat_play, "seat.play"},
     {CheckId::bearing_dent, "bearing.dent"},
     {CheckId::seal_material, "seal.material"},
     {CheckId::seal_sump, "seal.sump"},
     {CheckId::seal_lip, "seal.lip"},
     {CheckId::bearing_ring, "bearing.ring"},
     {CheckId::gears_scuffing, "gears.scuffing"},
     {CheckId::gear_peak_flank, "gear.peak_flank"},
     {CheckId::bearing_speed, "bearing.speed"},
     {CheckId::gears_film, "gears.film"},
     {CheckId::bearing_rating_share, "bearing.rating_share"},
     {CheckId::gears_contact_ratio, "gears.contact_ratio"},
     {CheckId::bearing_least_load, "bearing.least_load"},
     {CheckId::gears_resonance, "gears.resonance"},
     {CheckId::gears_backlash, "gears.backlash"},
     {CheckId::shaft_end_play, "shaft.end_play"},
     {CheckId::shaft_end_play_cold, "shaft.end_play_cold"}}};

// Empty defaults are here so that a list of designated members may leave some out (-Wextra).
struct Check {
    CheckId id{};
    std::string about{};    ///< part, for example "bearing.output_rear"
    std::string verdict{};  ///< fine | watch | stop | shown
    std::string words{};    ///< what is looked at, in the trade's words first
    double value = 0;
    double limit = 0;       ///< at which the verdict leaves fine; 0 with `shown`
    bool at_least = false;  ///< true: value must not fall below the limit
    std::string unit{};
    std::string consequence{};  ///< what it means when it is not fine; "" when fine
};
CASELOAD_MEMBERS(Check, "check", id, about, verdict, words, value, limit, at_least, unit,
                 consequence);

/// Everything the checks look at, for one side.
struct Checked {
    std::vector<GearDamage> gears;
    FlankChecks flanks;
    std::vector<SeatResult> seats;
    PlayChange play;
    std::vector<Check> checks;  ///< in the order of the setup; `worst_first` sorts them
};
CASELOAD_MEMBERS(Checked, "checked", gears, flanks, seats, play, checks);

/// A lip runs hotter than what it seals by this while the shaft turns: 20 to 60 K, from memory.
inline constexpr double lip_rise_K = 30;
/// Above the limit of its sump a seal is looked at when the case is opened, from so much above it
/// on it is watched. Judgement.
inline constexpr double seal_look_K = 10;

struct SealLimits {
    double sump_degC;  ///< of the oil or the case it sits in
    double lip_degC;   ///< of the lip itself, for a short time
};
/// Highest temperatures for a lip of this material, in gear oil with or without extreme-pressure
/// additives.
SealLimits seal_limits(SealMaterial material, bool ep_additive);

Checked check_case(const Prepared& prepared, const EventHeat& heat, const Damage& damage);

/// What `words` end with where the value is not the number itself.
inline constexpr std::string_view above_ceiling_words = ", above";
inline constexpr std::string_view hotter_flanks_words = ", at 160 degC: it runs hotter, with less";

/// stop before watch before fine before shown; within one verdict what a case does not survive
/// first.
std::vector<Check> worst_first(const std::vector<Check>& checks);

}  // namespace caseload
