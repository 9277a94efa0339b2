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

template <>
struct Members<SeatAt> {
    static constexpr std::string_view owner = "seat_at";
    static constexpr void all(auto&& member) {
        member("temp_degC", &SeatAt::temp_degC);
        member("pressure_MPa", &SeatAt::pressure_MPa);
        member("gap_mm", &SeatAt::gap_mm);
        member("retainer_pressure_MPa", &SeatAt::retainer_pressure_MPa);
        member("retainer_gap_mm", &SeatAt::retainer_gap_mm);
        member("hoop_MPa", &SeatAt::hoop_MPa);
        member("raceway_shrink_mm", &SeatAt::raceway_shrink_mm);
        member("slip_torque_Nm", &SeatAt::slip_torque_Nm);
        member("play_least_mm", &SeatAt::play_least_mm);
        member("play_largest_mm", &SeatAt::play_largest_mm);
    }
};

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

template <>
struct Members<SeatResult> {
    static constexpr std::string_view owner = "seat";
    static constexpr void all(auto&& member) {
        member("bearing", &SeatResult::bearing);
        member("retainer", &SeatResult::retainer);
        member("play_known", &SeatResult::play_known);
        member("interference_least_mm", &SeatResult::interference_least_mm);
        member("interference_largest_mm", &SeatResult::interference_largest_mm);
        member("loose_above_least_degC", &SeatResult::loose_above_least_degC);
        member("loose_above_degC", &SeatResult::loose_above_degC);
        member("loose_above_largest_degC", &SeatResult::loose_above_largest_degC);
        member("storage", &SeatResult::storage);
        member("cold", &SeatResult::cold);
        member("hot", &SeatResult::hot);
        member("storage_tightest", &SeatResult::storage_tightest);
        member("cold_loosest", &SeatResult::cold_loosest);
        member("hot_loosest", &SeatResult::hot_loosest);
        member("hot_tightest", &SeatResult::hot_tightest);
        member("loose_after_s", &SeatResult::loose_after_s);
    }
};

/// Seats of the setup that say how they are fitted, over one side's event.
std::vector<SeatResult> seat_results(const Prepared& prepared, const EventHeat& heat);

/// A seat over its temperature, in the middle of its tolerance.
struct SeatSweep {
    std::string bearing;
    std::vector<SeatAt> at;
};

/// From a cold store to the hottest oil, in steps a picture needs.
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

template <>
struct Members<PlayChange> {
    static constexpr std::string_view owner = "play";
    static constexpr void all(auto&& member) {
        member("backlash_hot_mm", &PlayChange::backlash_hot_mm);
        member("backlash_cold_mm", &PlayChange::backlash_cold_mm);
        member("end_play_hot_mm", &PlayChange::end_play_hot_mm);
        member("end_play_cold_mm", &PlayChange::end_play_cold_mm);
    }
};

PlayChange play_change(const Prepared& prepared, const EventHeat& heat);

}  // namespace caseload
