// SPDX-License-Identifier: MIT
// Entries of how gears were cut belong to the gears they were entered for.
#pragma once

#include "input/completed.hpp"
#include "input/library.hpp"

#include <map>
#include <string>

namespace caseload::input {

/// Before a newer layer: where it fits other gears and does not say how those were cut, the older
/// entries keep the gears.fitted they were entered for.
void remember_fitted(std::map<std::string, Sourced>& older, const Leaves& newer);

/// Turns the lists round where the newer layer fits the same two gears the other way round, and
/// leaves them out, with a note, where it fits others.
void leave_out_cut(std::map<std::string, Sourced>& leaves, Completed& noted);

}  // namespace caseload::input
