// SPDX-License-Identifier: MIT
// What is taken of the engine and the wheels, for a course and for a log.
#pragma once

#include "caseload/model.hpp"

#include <vector>

namespace caseload {

// Engine drag when coasting, as a share of rated power; the brakes take the rest of what a course
// line would return. Judgement.
inline constexpr double coast_power_share = 0.1;

/// Full-load engine torque at an engine speed, linear between the entered points: that of the first
/// point below it, 0 beyond the last, where none is known.
double engine_torque_Nm(const std::vector<TorquePoint>& curve, double speed_rpm);

}  // namespace caseload
