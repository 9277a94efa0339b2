// SPDX-License-Identifier: MIT
// Rings in their seats, cold and hot: a steel ring in aluminium, or in a steel retainer in
// aluminium. Ring, retainer and housing at one temperature.
#pragma once

#include "caseload/heat.hpp"

#include <string>
#include <vector>

namespace caseload {

/// A seat at one temperature, with one interference.
struct SeatAt {
    double temp_degC = 0;
    double pressure_MPa = 0;           ///< ring in its seat
    double gap_mm = 0;                 ///< on diameter; 0 while pressed
    double retainer_pressure_MPa = 0;  ///< retainer in the housing; 0 without one
    double retainer_gap_mm = 0;
    double hoop_MPa = 0;           ///< in the aluminium at its bore
    double raceway_shrink_mm = 0;  ///< on diameter
    double slip_torque_Nm = 0;
    double play_least_mm = 0;  ///< radial clearance left, by its class; see play_known
    double play_largest_mm = 0;
};
CASELOAD_MEMBERS(SeatAt, "seat_at", temp_degC, pressure_MPa, gap_mm, retainer_pressure_MPa,
                 retainer_gap_mm, hoop_MPa, raceway_shrink_mm, slip_torque_Nm, play_least_mm,
                 play_largest_mm);

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
};
CASELOAD_MEMBERS(SeatResult, "seat", bearing, retainer, play_known, interference_least_mm,
                 interference_largest_mm, loose_above_least_degC, loose_above_degC,
                 loose_above_largest_degC, storage, cold, hot, storage_tightest, cold_loosest,
                 hot_loosest, hot_tightest, loose_after_s);

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
