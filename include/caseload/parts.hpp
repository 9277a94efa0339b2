// SPDX-License-Identifier: MIT
// What to have on the bench when the case is opened, and what to look at on each part.
#pragma once

#include "caseload/intervals.hpp"

#include <string>
#include <vector>

namespace caseload {

struct Part {
    std::string name;     ///< "bearing.output_rear", "seal.input", "gear.input", "oil"
    std::string size;     ///< what to order or measure
    std::string look_at;  ///< what to look at, and where
};
CASELOAD_MEMBERS(Part, "part", name, size, look_at);

/// Parts of `open_case`: bearings with the clock position of their load, gears with their loaded
/// flank, seals, oil. Clock positions as seen from behind, looking forward.
std::vector<Part> opening_parts(const Setup& setup, const Damage& damage, const Checked& checked);

/// "4 o'clock".
std::string clock_words(double clock_deg);

}  // namespace caseload
