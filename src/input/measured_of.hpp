// SPDX-License-Identifier: MIT
// What [measured] was measured on: a check sum for each heading of the case, to notice when it has
// changed.
#pragma once

#include "caseload/note.hpp"
#include "input/completed.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

/// FNV-1a, 64 bits, as 16 digits (Fowler, Noll, Vo; from memory). No seal against forging.
[[nodiscard]] std::string text_hash(std::string_view text);

/// "housing 3f2a9c01" for each heading that makes or carries heat, and one for the readings. By
/// meaning, not by writing: 118 cSt is 118 mm2/s. How dirty the oil is, the gears fitted and
/// whether a cooler is in the circuit change from event to event and do not count.
[[nodiscard]] std::vector<std::string> case_sums(const Completed& from);

/// Adds a note when measured.setup has other sums.
void note_changes(const Completed& from, const std::vector<std::string>& sums, Notes& notes);

}  // namespace caseload::input
