// SPDX-License-Identifier: MIT
// Rings in their seats, cold and hot: a steel ring in the housing's metal, or in a steel retainer
// in it. Ring, retainer and housing at one temperature.
#pragma once

#include "caseload/heat.hpp"
#include "caseload/kinds.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload {

/// A seat at one temperature, with one interference.
struct SeatAt {
    double temp_degC = 0;
    double pressure_MPa = 0;           ///< ring in its seat
    double gap_mm = 0;                 ///< on diameter; 0 while pressed
    double retainer_pressure_MPa = 0;  ///< retainer in the housing; 0 without one
    double retainer_gap_mm = 0;
    double hoop_MPa = 0;           ///< in the housing at its bore
    double raceway_shrink_mm = 0;  ///< on diameter
    double slip_torque_Nm = 0;
    double play_least_mm = 0;  ///< radial clearance left, by its class; see play_known
    double play_largest_mm = 0;
};
CASELOAD_MEMBERS(SeatAt, "seat_at", temp_degC, pressure_MPa, gap_mm, retainer_pressure_MPa,
                 retainer_gap_mm, hoop_MPa, raceway_shrink_mm, slip_torque_Nm, play_least_mm,
                 play_largest_mm);

/// How far a ring that is loose matters; wrong: an inner ring that turns on its shaft.
enum class SeatClass { tight, held, walks, turns, wrong };

template <>
inline constexpr KindRows<SeatClass, 5> kind_rows<SeatClass>{{{SeatClass::tight, "tight"},
                                                              {SeatClass::held, "held"},
                                                              {SeatClass::walks, "walks"},
                                                              {SeatClass::turns, "turns"},
                                                              {SeatClass::wrong, "wrong"}}};

struct SeatResult {
    std::string bearing;
    bool retainer = false;
    bool play_known = false;  ///< the bearing has a clearance class and its shaft fit is known
    double interference_least_mm = 0;  ///< over the tolerance of a named fit; equal when entered
    double interference_largest_mm = 0;
    double loose_above_least_degC = 0;  ///< at the least interference
    double loose_above_degC = 0;        ///< in the middle
    double loose_above_largest_degC = 0;
    SeatAt storage;  ///< at -20 degC
    SeatAt cold;     ///< at the event's ambient
    SeatAt hot;      ///< at the housing's peak
    // The ends of a named fit; equal to the middle when the interference was entered.
    SeatAt storage_tightest;  ///< largest interference: most pressure and hoop stress, least play
    SeatAt cold_loosest;      ///< least interference
    SeatAt hot_loosest;
    SeatAt hot_tightest;
    double loose_after_s = -1;  ///< first time in the event, middle interference; -1: never
    // What a ring does that is loose in the hot case, as if it were so in the whole event, at the
    // hottest oil of each leg and without overload; 0 where it is tight.
    SeatClass creep = SeatClass::tight;
    double gap_mm = 0;       ///< on diameter, of the ring or of its retainer in the case
    double slip_margin = 0;  ///< friction over drag, least of all bins
    double swing_deg = 0;    ///< of the load to either side, most of all bins; 180: goes round
    double travel_m = 0;     ///< of the ring in its seat, an event
    double wear_um = 0;      ///< depth off the bore, an event
    // The inner ring on its shaft, with overload; the rest is 0 while its fit is not entered.
    bool shaft_fit_known = false;
    SeatClass on_shaft = SeatClass::tight;  ///< tight or wrong
    double effective_fit_um = 0;            ///< at the event's load, passed for 5 % of the turning
    double peak_fit_um = 0;                 ///< least of all bins and torque peaks
    double shaft_travel_m = 0;              ///< of the ring on its shaft, an event
};
/// "class" is no name of C++: the list by hand.
template <>
struct Members<SeatResult> {
    using S = SeatResult;
    static constexpr std::string_view owner = "seat";
    static constexpr void all(auto&& member) {
        member("bearing", &S::bearing);
        member("retainer", &S::retainer);
        member("play_known", &S::play_known);
        member("interference_least_mm", &S::interference_least_mm);
        member("interference_largest_mm", &S::interference_largest_mm);
        member("loose_above_least_degC", &S::loose_above_least_degC);
        member("loose_above_degC", &S::loose_above_degC);
        member("loose_above_largest_degC", &S::loose_above_largest_degC);
        member("storage", &S::storage);
        member("cold", &S::cold);
        member("hot", &S::hot);
        member("storage_tightest", &S::storage_tightest);
        member("cold_loosest", &S::cold_loosest);
        member("hot_loosest", &S::hot_loosest);
        member("hot_tightest", &S::hot_tightest);
        member("loose_after_s", &S::loose_after_s);
        member("class", &S::creep);
        member("gap_mm", &S::gap_mm);
        member("slip_margin", &S::slip_margin);
        member("swing_deg", &S::swing_deg);
        member("travel_m", &S::travel_m);
        member("wear_um", &S::wear_um);
        member("shaft_fit_known", &S::shaft_fit_known);
        member("shaft_class", &S::on_shaft);
        member("effective_fit_um", &S::effective_fit_um);
        member("peak_fit_um", &S::peak_fit_um);
        member("shaft_travel_m", &S::shaft_travel_m);
    }
};

/// Seats of the setup that say how they are fitted, over one side's event.
std::vector<SeatResult> seat_results(const Prepared& prepared, const EventHeat& heat);

/// A seat over its temperature, in the middle of its tolerance.
struct SeatSweep {
    std::string bearing;
    std::vector<SeatAt> at;
};

/// A seat from a cold store to the hottest oil, in the steps of a picture.
std::vector<double> seat_sweep_temps_degC();

/// The same seats at these temperatures of ring, retainer and housing.
std::vector<SeatSweep> seat_sweep(const Prepared& prepared, const std::vector<double>& temps_degC);

/// Seats that say too little to be calculated, and bearings without play in a cold store.
Notes seat_notes(const Setup& setup, const std::vector<SeatResult>& seats);

/// What warming does to the whole: rigid parts, housing at its peak, steel at its own.
struct PlayChange {
    std::vector<double> backlash_hot_mm;   ///< per mesh: change against 20 degC, working circle
    std::vector<double> backlash_cold_mm;  ///< the same at the event's ambient
    std::vector<double> end_play_hot_mm;   ///< per shaft: of a facing pair; else how far the free
                                           ///< bearing must move
    std::vector<double> end_play_cold_mm;  ///< the same at the event's ambient
};
CASELOAD_MEMBERS(PlayChange, "play", backlash_hot_mm, backlash_cold_mm, end_play_hot_mm,
                 end_play_cold_mm);

PlayChange play_change(const Prepared& prepared, const EventHeat& heat);

}  // namespace caseload
