// SPDX-License-Identifier: MIT
// Gears of a car without entered ratios: clusters of engine speed over road speed.
#pragma once

#include "duty/dialect.hpp"
#include "duty/layout.hpp"

#include <vector>

namespace caseload::duty {

/// Engine speed over case speed beyond any gear: there the clutch slips. Common practice, no
/// published source.
inline constexpr double most_ratio = 8;

/// Ratios of the gearbox, falling, from the lines of the windows. lever_m: road speed over speed of
/// the case. The mean slip of the tyres is in them. Empty: the speeds form no clusters.
[[nodiscard]] std::vector<double> clustered_gears(const Sampled& sampled, const Layout& layout,
                                                  double lever_m);

}  // namespace caseload::duty
