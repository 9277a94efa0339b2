// SPDX-License-Identifier: MIT
// Facing pairs in words, shared by all that print them.
#pragma once

#include "caseload/heat.hpp"

#include <string>

namespace caseload {

/// "0.05 mm of end play", "0.05 mm of preload".
std::string play_or_preload(double end_play_mm);

/// What the pair becomes when hot: "0.01 mm of end play hot (loop)", or its preload, what that does
/// to the oil and how much it feeds itself.
std::string pair_when_hot(const PairState& pair);

/// What to set cold, both ends: "0.04 mm to 0.08 mm of end play".
std::string pair_setting(const PairState& pair);

/// Preloaded so that the oil gets hotter by a kelvin or more, or does not settle: to be set anew
/// before anything else is changed. The kelvin: judgement.
bool set_too_tight(const PairState& pair);

/// "idler set with 0.04 mm to 0.08 mm of end play cold".
std::string looser_words(const PairState& pair);

}  // namespace caseload
