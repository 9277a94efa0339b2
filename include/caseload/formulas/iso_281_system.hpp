// SPDX-License-Identifier: MIT
// Life of several bearings of which the first to fail ends the run.
#pragma once

#include <span>

namespace caseload::iso_281 {

/// Weibull slopes: ISO 281's a1; Lundberg and Palmgren for point and for line contact. From memory.
/// The choice moves the life of a system by a third: print it with the result.
inline constexpr double slope_a1 = 1.5;
inline constexpr double slope_point = 10.0 / 9;
inline constexpr double slope_line = 9.0 / 8;

/// Life of a system whose bearings reach 90 % reliability at `lives`, in the same unit:
/// (sum L^-e)^(-1/e).
///
/// Range    at least one life, all > 0; slope > 0.
/// Note     two-parameter Weibull: no failure-free time.
/// Source   bearing-practice, system-life
[[nodiscard]] double system_life(std::span<const double> lives, double slope);

/// The same with the failure-free share of ISO 281's a1: the time at which the product of the
/// survivals falls to 0.9.
///
/// Range    at least one life, all > 0.
/// Source   iso-281-2007, 9.2-system
[[nodiscard]] double system_life_three_parameter(std::span<const double> lives);

}  // namespace caseload::iso_281
