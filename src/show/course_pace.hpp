// SPDX-License-Identifier: MIT
// What the segment model says of the event's courses, on a screen.
#pragma once

#include "show/units_shown.hpp"

#include <string>

namespace caseload {

/// PACE and LIMITS of each calculated course; nothing where none is.
std::string pace_block(const Setup& setup, const Units& units);

}  // namespace caseload
