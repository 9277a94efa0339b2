// SPDX-License-Identifier: MIT
// What can end the day at once or is to be looked at, each with a verdict, its number and its
// limit. After damage, before intervals.
#pragma once

#include "caseload/damage.hpp"
#include "caseload/kinds.hpp"
#include "caseload/seats.hpp"
#include "caseload/splines.hpp"
#include "caseload/teeth.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// What is checked: first what a case does not survive, then what wears it (judgement), last what
/// is shown without a verdict.
enum class CheckId {
    gear_root,
    gear_peak_root,
    spline_peak,
    bearing_life,
    gear_flank,
    spline_wear,
    prop_shaft_whirl,
    pair_gain,
    seat_creep,
    seat_shaft,
    seat_play,
    bearing_dent,
    seal_material,
    seal_sump,
    seal_lip,
    bearing_ring,
    bearing_cage,
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
inline constexpr KindRows<CheckId, 28> kind_rows<CheckId>{
    {{CheckId::gear_root, "gear.root"},
     {CheckId::gear_peak_root, "gear.peak_root"},
     {CheckId::spline_peak, "spline.peak"},
     {CheckId::bearing_life, "bearing.life"},
     {CheckId::gear_flank, "gear.flank"},
     {CheckId::spline_wear, "spline.wear"},
     {CheckId::prop_shaft_whirl, "prop_shaft.whirl"},
     {CheckId::pair_gain, "pair.gain"},
     {CheckId::seat_creep, "seat.creep"},
     {CheckId::seat_shaft, "seat.shaft"},
     {CheckId::seat_play, "seat.play"},
     {CheckId::bearing_dent, "bearing.dent"},
     {CheckId::seal_material, "seal.material"},
     {CheckId::seal_sump, "seal.sump"},
     {CheckId::seal_lip, "seal.lip"},
     {CheckId::bearing_ring, "bearing.ring"},
     {CheckId::bearing_cage, "bearing.cage"},
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

/// Classes of what is found, the mildest first. Stop: breaks or seizes now. Watch: harms in this
/// event. Look: a thing for the next opening. Shown and fine lower nothing.
enum class Severity { fine, shown, look, watch, stop };
/// The word of a class, and back; fine for any other word.
std::string_view severity_word(Severity severity);
Severity severity_of(std::string_view word);

/// Where a class begins, of the limit L of a part: factor x L + plus.
struct ClassLimit {
    bool is = false;
    double factor = 0;
    double plus = 0;

    [[nodiscard]] constexpr double at(double of_part) const { return factor * of_part + plus; }
};

/// Whether a check is judged over the range of what is uncertain, or on the run with all of that at
/// its middle: what neither the oil's heat nor the load's factor moves.
enum class JudgedOver { range, middle };

/// Classes of one check and where they begin. A value past a limit, and not one on it, is in the
/// class.
struct CheckRow {
    CheckId id;
    bool at_least;  ///< the value must not fall below its limits; else not rise above them
    ClassLimit stop;
    ClassLimit watch;
    ClassLimit look;
    ClassLimit shown;
    JudgedOver over;
    std::string_view source;       ///< of the limits; of the classes: judgement
    std::string_view consequence;  ///< what it means where it is looked at or worse
    std::string_view action;       ///< the same in a few words: what to do
};
const CheckRow& check_row(CheckId id);
/// Limit of a class; not `is` where the check has no such class.
ClassLimit class_limit(const CheckRow& row, Severity severity);
/// Whether a value is past a limit.
bool past(const CheckRow& row, double value, double limit);

// Empty defaults stand so that a list of designated members may leave some out (-Wextra).
struct Check {
    CheckId id{};
    std::string about{};    ///< part, for example "bearing.output_rear"
    std::string verdict{};  ///< fine | shown | look | watch | stop, by its class
    std::string words{};    ///< what is looked at, in the trade's words first
    double value = 0;
    double limit = 0;       ///< where its class begins; where fine, the first class; 0: none
    bool at_least = false;  ///< true: value must not fall below the limit
    std::string unit{};
    std::string consequence{};  ///< what it means; "" when fine or shown
};
CASELOAD_MEMBERS(Check, "check", id, about, verdict, words, value, limit, at_least, unit,
                 consequence);

/// Everything the checks look at, for one side.
struct Checked {
    std::vector<GearDamage> gears;
    FlankChecks flanks;
    std::vector<SeatResult> seats;
    PlayChange play;
    std::vector<SplineResult> splines;
    std::vector<PairState> pairs;  ///< facing pairs, each in the drive leg it is tightest in
    std::vector<Check> checks;     ///< in the order of the setup; `worst_first` sorts them
};
CASELOAD_MEMBERS(Checked, "checked", gears, flanks, seats, play, splines, pairs, checks);

/// A lip runs hotter than what it seals by this while the shaft turns: 20 to 60 K, from memory.
inline constexpr double lip_rise_K = 30;
/// Above the limit of its sump a seal is looked at when the case is opened, from so much above it
/// on it is watched. Judgement.
inline constexpr double seal_look_K = 10;
/// To what the rings of a mark are stabilised: codes of DIN 623-1, seen in two pages. Above it they
/// grow by the order of 1e-4 of their diameter in 1000 h, from memory: nothing in an event, so only
/// watched 30 K above, and looked at when the book has so many hours above. Judgement.
double stabilised_degC(HeatCode code);
inline constexpr double ring_watch_K = 30;
inline constexpr double ring_look_h = 50;
/// Highest temperature of a polyamide cage: 120 degC in plain oil, 110 with extreme-pressure
/// additives, from memory (100 to 120).
double polyamide_limit_degC(bool ep_additive);

struct SealLimits {
    double sump_degC;  ///< of the oil or the case it sits in
    double lip_degC;   ///< of the lip itself, for a short time
};
/// Highest temperatures for a lip of this material, in gear oil with or without extreme-pressure
/// additives.
SealLimits seal_limits(SealMaterial material, bool ep_additive);

/// Words of a check without what belongs to its printed value.
std::string without_value(std::string words);

/// Limit of the part that a check judged over the range is about; 1 where it has none of its own.
double part_limit(const Setup& setup, const Check& check);

/// Hottest of oil and housing in the event, and the same with what a turning lip adds.
struct HottestAtSeals {
    double sump_degC;
    double lip_degC;
};
HottestAtSeals hottest_at_seals(const Setup& setup, double start_degC, const EventHeat& heat);

Checked check_case(const Prepared& prepared, const EventHeat& heat, const Damage& damage);

/// What `words` end with where the value is not the number itself.
inline constexpr std::string_view above_ceiling_words = ", above";
inline constexpr std::string_view hotter_flanks_words = ", at 160 degC: it runs hotter, with less";

/// stop before watch before look before fine before shown; within one verdict what a case does not
/// survive first.
std::vector<Check> worst_first(const std::vector<Check>& checks);

}  // namespace caseload
