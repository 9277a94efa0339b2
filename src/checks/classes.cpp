// SPDX-License-Identifier: MIT
// The classes of every check and where each begins, in one table.
#include "checks/parts.hpp"

#include <array>
#include <cstddef>
#include <utility>

namespace caseload {
namespace {

constexpr ClassLimit no_class{};
constexpr ClassLimit from(double value) {
    return {true, 0, value};
}
/// Of the limit of its part.
constexpr ClassLimit of_part(double factor, double plus = 0) {
    return {true, factor, plus};
}

using Id = CheckId;
constexpr JudgedOver by_range = JudgedOver::range;
constexpr JudgedOver by_middle = JudgedOver::middle;

/// A check whose class comes with it.
constexpr CheckRow by_its_own_class(Id id, std::string_view action) {
    return {id, true, no_class, no_class, no_class, no_class, by_middle, "judgement", {}, action};
}

/// A number without a limit.
constexpr CheckRow shown_only(Id id) {
    return {id, false, no_class, no_class, no_class, no_class, by_middle, "shown only", {}, {}};
}

// Which class is which is judgement throughout; `source` is that of the limits. In the order of
// CheckId. Columns: stop, watch, look, shown.
constexpr std::array<CheckRow, kind_rows<CheckId>.size()> class_rows{
    {{Id::gear_root, false, from(1), no_class, no_class, no_class, by_range,
      "ISO 6336-6: a whole life", "a tooth can break: larger module, wider gear, less shock",
      "a larger module or a wider gear"},
     {Id::gear_peak_root, false, from(1), no_class, no_class, no_class, by_middle,
      "ISO 6336-6: static strength",
      "one blow can break a tooth: soften the driveline or fit a larger module",
      "soften the driveline"},
     {Id::spline_peak, false, from(1), no_class, no_class, no_class, by_middle,
      "Dudley 1957: a fixed spline, a thousand cycles",
      "one blow can break the spline: soften the driveline or fit a longer or larger one",
      "soften the driveline"},
     {Id::bearing_life, false, from(1), from(0.3), no_class, no_class, by_range,
      "ISO 281: the life at which 10 % fail; 0.3 judgement",
      "a bearing of this size does not reach the finish: larger bearing, less load or "
      "cleaner, cooler oil",
      "a larger bearing or cooler oil"},
     {Id::gear_flank, false, from(1), no_class, no_class, no_class, by_range,
      "ISO 6336-6: a whole life",
      "flanks pit before the finish: wider or larger gears, less torque",
      "wider gears or less torque"},
     {Id::spline_wear, false, no_class, from(1), from(0.2), no_class, by_range,
      "Dudley 1957: a whole wear life; 0.2 judgement",
      "the spline wears out: a piloted or longer fit, harder teeth, oil on it",
      "pilot it, oil it or fit harder teeth"},
     {Id::prop_shaft_whirl, false, from(0.90), from(0.70), no_class, no_class, by_middle,
      "share of the critical speed, common practice",
      "the shaft may whirl and tear loose: shorter, larger or two-piece shaft, or a slower "
      "axle ratio. Keep out of its plane",
      "a shorter or larger shaft; keep out of its plane"},
     // Heat that tightens and tightening that heats: no balance from 1 on.
     {Id::pair_gain, false, from(1), from(0.8), from(0.5), no_class, by_middle, "judgement",
      "preload feeds itself, or runs away: set more cold end play", "more cold end play"},
     // SeatResult::creep.
     by_its_own_class(Id::seat_creep, "pin, flange or steel retainer"),
     // SeatResult::on_shaft.
     by_its_own_class(Id::seat_shaft, "a tighter shaft fit"),
     // L: the play its load zone passes eps 2.5 at, negative.
     {Id::seat_play, true, of_part(1), from(0), no_class, no_class, by_middle, "judgement",
      "the bearing can run without play and seize: a larger clearance class, less "
      "interference",
      "a larger clearance class"},
     // L: what the kind wants under shock.
     {Id::bearing_dent, true, from(1), no_class, of_part(1), no_class, by_middle,
      "ISO 76, static safety",
      "a torque peak can dent the raceway: look for regular marks, listen for a new noise",
      "look for regular marks"},
     {Id::seal_material, false, no_class, from(0), no_class, no_class, by_middle,
      "practice, from memory", "silicone does not live in EP gear oil: fit FKM", "fit FKM"},
     {Id::seal_sump, false, no_class, of_part(1, seal_look_K), of_part(1), no_class, by_range,
      "DIN 3760 and ISO 6194-1 tables, from memory; 10 K judgement",
      "the lip hardens and leaks: a hotter material, and a new seal after this event",
      "fit a hotter material"},
     {Id::seal_lip, false, no_class, of_part(1), no_class, no_class, by_range,
      "a general elastomer guide, short time",
      "the lip hardens and leaks: a hotter material, and a new seal after this event",
      "fit a hotter material"},
     // L: what its rings are stabilised to.
     {Id::bearing_ring, false, no_class, of_part(1, ring_watch_K), no_class, no_class, by_range,
      "codes of DIN 623-1; 30 K judgement",
      "rings of this heat treatment grow there for good and lose their fits: rings marked "
      "for more heat (S0, S1), or cooler oil",
      "rings marked S0 or S1"},
     {Id::bearing_cage, false, no_class, of_part(1), no_class, no_class, by_range,
      "practice, from memory", "polyamide ages and breaks there: a steel or brass cage",
      "a steel or brass cage"},
     // ISO/TS 6336-20 leaves the figure to the user.
     {Id::gears_scuffing, true, from(1.5), from(2), no_class, no_class, by_range,
      "gear books, from memory",
      "flanks may weld and tear: cooler oil, an oil of higher load stage, smoother flanks",
      "cooler oil or a higher load stage"},
     {Id::gear_peak_flank, false, no_class, no_class, from(1), no_class, by_middle,
      "ISO 6336-6: static strength",
      "one blow can indent the flank, and pits start there: soften the driveline or widen "
      "the gears",
      "soften the driveline"},
     // L: the kind's figure for an oil bath. Watched where it is passed for long.
     {Id::bearing_speed, false, no_class, of_part(1.3), of_part(1), no_class, by_middle,
      "textbook guides, from memory; 1.3 judgement",
      "beyond the usual speed of this kind: oil jet, a cage for the speed, or a smaller "
      "bearing",
      "an oil jet or a smaller bearing"},
     // L: 0.4 ground flanks, which run in, 0.7 others.
     {Id::gears_film, true, no_class, no_class, of_part(0.5), of_part(1), by_range, "judgement",
      "flanks wear and grow grey: smoother flanks or thicker, cooler oil",
      "smoother flanks or thicker oil"},
     {Id::bearing_rating_share, false, no_class, no_class, from(0.5), no_class, by_middle,
      "ISO 281:2007, 5.3 and 6.4", "outside the life standard: its life is not to be trusted there",
      "a larger bearing"},
     {Id::gears_contact_ratio, true, from(1), no_class, no_class, from(1.1), by_middle,
      "common practice", "teeth hand over with a knock: taller tips or another tooth sum",
      "taller tips or another tooth sum"},
     // Of its time without load enough to roll.
     {Id::bearing_least_load, false, no_class, no_class, from(0.6), no_class, by_middle,
      "judgement", "elements may slide and smear: a smaller or preloaded bearing rolls better",
      "a smaller bearing"},
     shown_only(Id::gears_resonance),
     shown_only(Id::gears_backlash),
     shown_only(Id::shaft_end_play),
     shown_only(Id::shaft_end_play_cold)}};

constexpr bool in_order() {
    for (std::size_t i = 0; i < class_rows.size(); ++i)
        if (static_cast<std::size_t>(class_rows.at(i).id) != i) return false;
    return true;
}
static_assert(in_order());

constexpr std::array<std::string_view, 5> class_words{"fine", "shown", "look", "watch", "stop"};

constexpr std::array<Severity, 4> worst_to_mildest{Severity::stop, Severity::watch, Severity::look,
                                                   Severity::shown};

}  // namespace

std::string_view severity_word(Severity severity) {
    return class_words.at(static_cast<std::size_t>(severity));
}

Severity severity_of(std::string_view word) {
    for (std::size_t i = 0; i < class_words.size(); ++i)
        if (class_words.at(i) == word) return static_cast<Severity>(i);
    return Severity::fine;
}

const CheckRow& check_row(CheckId id) {
    return class_rows.at(static_cast<std::size_t>(id));
}

ClassLimit class_limit(const CheckRow& row, Severity severity) {
    switch (severity) {
        case Severity::stop:
            return row.stop;
        case Severity::watch:
            return row.watch;
        case Severity::look:
            return row.look;
        case Severity::shown:
            return row.shown;
        case Severity::fine:
            break;
    }
    return no_class;
}

bool past(const CheckRow& row, double value, double limit) {
    return row.at_least ? value < limit : value > limit;
}

Check judged(Check check, double of_part) {
    const CheckRow& row = check_row(check.id);
    check.at_least = row.at_least;
    Severity found = Severity::fine;
    for (const Severity severity : worst_to_mildest) {
        const ClassLimit limit = class_limit(row, severity);
        if (!limit.is) continue;
        check.limit = limit.at(of_part);
        if (!past(row, check.value, check.limit)) continue;
        found = severity;
        break;
    }
    check.verdict = severity_word(found);
    if (found > Severity::shown) check.consequence = row.consequence;
    return check;
}

}  // namespace caseload
