// SPDX-License-Identifier: MIT
// Duties of a course by the segment model: the setup's car over the course's ground.
#pragma once

#include "caseload/pace_duties.hpp"
#include "input/completed.hpp"

#include <string>

namespace caseload::input {

/// A car as entered, behind a case of this ratio (input over output speed); a gearbox where its
/// ratios are entered.
[[nodiscard]] pace::Car segment_car(const VehicleInput& vehicle, double case_ratio,
                                    double air_density_kgpm3);

/// The setup's, in the air of the event's ambient and altitude.
[[nodiscard]] pace::Car segment_car(const Setup& setup, double case_ratio);

/// Gives a leg on a course its duties, pace and way; `heading` has its pace, distance and duration.
/// Adds a problem where the pace cannot be. Of a setup without problems.
void calculate_duty(Completed& from, const Setup& setup, LegInput& leg, const std::string& heading);

}  // namespace caseload::input
