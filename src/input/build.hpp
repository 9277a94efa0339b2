// SPDX-License-Identifier: MIT
// Checks that need more than one key, and values that follow from others.
#pragma once

#include "input/completed.hpp"

namespace caseload::input {

void check_train(Completed& from, Setup& setup);
/// Adds the problem of gears.profile_shift or gears.tip_diameter: one at most.
void check_cut(Completed& from, const Setup& setup);
void check_bearings(Completed& from, Setup& setup);
/// How facing pairs are set.
/// sound_bearings: each may be calculated with; where not that is a problem by itself.
void check_pair_settings(Completed& from, const Setup& setup, bool sound_bearings);
void check_parts(Completed& from, Setup& setup);
void check_oil(Completed& from, Setup& setup);
void check_cooler(Completed& from, Setup& setup);
void build_event(Completed& from, Setup& setup);
void check_readings(Completed& from, const Setup& setup);
void use_measured(Completed& from, Setup& setup);
/// Entries that cannot be, and those to ask about: "ask." notes. Of a setup without problems.
void check_plausible(Completed& from, const Setup& setup);
void check_oil_circuit(Completed& from, const Setup& setup);

/// Shares of a leg's time, or of the joints on a shaft, may miss 1 by this: rounding.
inline constexpr double share_slack = 0.02;

/// True if the shaft is in gears.train.
[[nodiscard]] bool in_train(const Setup& setup, const std::string& shaft);

/// Between two shafts of the train, by their places in it; 0 while the distances are not known.
[[nodiscard]] double shafts_apart_mm(const Setup& setup, std::size_t first, std::size_t second);

/// Adds a problem if `key` names a shaft that is not in the train.
void check_shaft_name(Completed& from, const Setup& setup, const std::string& key);

}  // namespace caseload::input
