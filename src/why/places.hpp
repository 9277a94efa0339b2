// SPDX-License-Identifier: MIT
// What gathers the numbers of one part of an answer. Called in the order of this list: a formula
// finds the numbers gathered before it.
#pragma once

#include "caseload/assess.hpp"
#include "why/collector.hpp"

#include <string>

namespace caseload::why_detail {

struct Gather {
    const Setup& setup;
    const Prepared& prepared;
    const Assessment& answer;
    Collector& to;
    bool with_lives = true;  ///< false: only numbers of the heat balance
};

/// Whether heat passes a flange to what the case is bolted to, and the formulas that are then used.
inline bool bolted(const Prepared& prepared) {
    return prepared.driving.neighbour_WpK > 0;
}
inline std::string flange_variant(const Prepared& prepared) {
    return bolted(prepared) ? "bolted" : "alone";
}

/// Where the face load factor of the teeth comes from.
inline std::string face_variant(const Setup& setup) {
    return setup.gears.face_load_factor ? "entered" : "by_load";
}

/// The fitted train and those of other sets that legs run.
inline int trains(const Loads& loads) {
    return 1 + static_cast<int>(loads.others.size());
}
/// Parts of a train another leg runs carry the name of its set.
std::string of_set(const Loads& loads, int train);
/// "train", "train.A".
std::string train_part(const Loads& loads, int train);
/// How often the event runs a leg.
int times_run(const Setup& setup, std::size_t leg);
std::string shaft_part(const Gather& gather, int train, int shaft);
std::string mesh_part(const Gather& gather, int train, const MeshPlace& mesh);
/// The loads behind a settled leg.
const LegLoads& loads_of(const Gather& gather, const LegAnswer& leg);
/// "loop/2" of the second bin.
std::string in_bin(const std::string& leg, std::size_t bin);
/// "run/3" of the third.
std::string run_at(std::size_t run);
/// A number that is 0 because a part is missing or does not turn.
void mark_as_zero(Number& number, const std::string& reason);

void add_shared(const Gather& gather);
void add_trains(const Gather& gather);
void add_duty(const Gather& gather);
void add_ratings(const Gather& gather);
void add_forces(const Gather& gather);
/// Forces of a torque peak on each bearing.
void add_blow_forces(const Gather& gather, std::size_t leg, std::size_t blow);
void add_rest(const Gather& gather, const LegAnswer& leg);
void add_gear_losses(const Gather& gather, const LegAnswer& leg);
void add_oil_losses(const Gather& gather, const LegAnswer& leg);
void add_outside(const Gather& gather, const LegAnswer& leg);
void add_cooler(const Gather& gather, const LegAnswer& leg);
void add_bearings(const Gather& gather, const LegAnswer& leg);
/// A bearing in a bin with the oil as hot as the leg gets in the event.
void add_hot(const Gather& gather, const LegAnswer& leg, const BearingPlace& in);
void add_ledger(const Gather& gather, const LegAnswer& leg);
void add_runs(const Gather& gather);
void add_event(const Gather& gather);
void add_lives(const Gather& gather);
void add_teeth(const Gather& gather);
void add_flanks(const Gather& gather);
void add_seats(const Gather& gather);
void add_splines(const Gather& gather);
void add_pairs(const Gather& gather);
void add_actions(const Gather& gather);
void add_pump_dead(const Gather& gather);
void add_checks(const Gather& gather);

}  // namespace caseload::why_detail
