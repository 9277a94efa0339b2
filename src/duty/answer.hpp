// SPDX-License-Identifier: MIT
// What an answer takes of the finished legs, of a log and of a track.
#pragma once

#include "bins/measures.hpp"
#include "caseload/duty/event.hpp"
#include "duty/legs.hpp"

#include <string>
#include <vector>

namespace caseload::duty {

/// Takes the legs, names them, and compares their bins with the samples.
void take_legs(Legs& legs, const bins::Measures& measures, DutyAnswer& answer);

/// Throws Error{input} where a leg is longer than a setup takes (docs/input.md).
void check_lengths(const std::vector<LegInput>& legs, const std::string& file);

}  // namespace caseload::duty
