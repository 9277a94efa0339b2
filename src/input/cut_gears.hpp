// SPDX-License-Identifier: MIT
// Entries of how gears were cut belong to the gears they were entered for.
#pragma once

#include "input/completed.hpp"
#include "input/library.hpp"

#include <map>
#include <string>

namespace caseload::input {

/// After a layer: lists it enters keep the teeth of the gears fitted then, whether by numbers or by
/// the name of a set. What a newer layer fits, or calls by that name, may be other gears.
void mark_cut(std::map<std::string, Sourced>& leaves);

/// Whether another value of this key may fit other gears than those of an entered list.
[[nodiscard]] bool fits_others_than_cut(const Completed& entered, const std::string& key);

/// Turns the lists round where the same two gears are fitted the other way round, and leaves them
/// out, with a note, where others are.
void leave_out_cut(std::map<std::string, Sourced>& leaves, Completed& noted);

}  // namespace caseload::input
