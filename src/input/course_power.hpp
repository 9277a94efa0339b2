// SPDX-License-Identifier: MIT
// Power a duty asks for, against what an engine brings to it.
#pragma once

#include "caseload/model.hpp"

namespace caseload::input {

/// Share of the rated power that reaches the wheels. Common practice, no published source: losses
/// of gearbox, case, axles and tyres together are taken as 15 %.
inline constexpr double power_to_wheels = 0.85;

/// Fastest mean speed a setup may enter.
inline constexpr double fastest_pace_mps = 70;

/// Force at the wheels on a line of a course, N; < 0 where it brakes.
[[nodiscard]] double line_force_N(const VehicleInput& vehicle, const CourseLine& line,
                                  double speed_mps, double air_density_kgpm3);

/// Mean power at the wheels that a leg's course asks of this car at a pace, W: time-weighted mean
/// over its lines of force x speed where it drives, the force limited by the grip of the tyres. The
/// engine's limit does not count. Rises with the pace. Needs mass, drag area, grip, air and
/// altitude of the setup; a leg of entered bins asks for torque x speed of the case input at its
/// own pace. Source: the road load of road_load::force_N over the lines of tables/courses.
[[nodiscard]] double mean_power_W(const Setup& setup, const LegInput& leg, double pace_mps);

/// The fastest pace, up to fastest_pace_mps, at which a leg's course asks for no more than this
/// power; 0 where it asks for more at walking pace.
[[nodiscard]] double pace_of_power_mps(const Setup& setup, const LegInput& leg, double power_W);

}  // namespace caseload::input
