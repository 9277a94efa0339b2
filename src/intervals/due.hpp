// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/intervals.hpp"

namespace caseload {

/// The part of `intervals` that says after how many events something is due, and why: the same
/// numbers, and what is only printed of the likely case left as it is made.
Intervals actions_due(const Setup& setup, const Wear& wear);

}  // namespace caseload
