// SPDX-License-Identifier: MIT
// Second part of the gear calculations.
#pragma once

#include "caseload/evidence.hpp"

#include <span>

namespace caseload {

std::span<const Calculation> drag_calculations();

}  // namespace caseload
