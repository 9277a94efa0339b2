// SPDX-License-Identifier: MIT
// Second part of the gear calculations.
#pragma once

#include "caseload/evidence.hpp"

#include <span>

namespace caseload {

std::span<const Calculation> drag_calculations();
/// Duty of the case: from ground to input, equivalent torques, joints.
std::span<const Calculation> duty_calculations();

}  // namespace caseload
