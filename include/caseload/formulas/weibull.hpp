// SPDX-License-Identifier: MIT
// Two-parameter Weibull distribution of lives.
#pragma once

namespace caseload::weibull {

/// Characteristic life, which 1/e reach, in rating lives, which 0.9 reach: ln(1/0.9)^(-1/slope).
///
/// Range    slope > 0.
/// Source   weibull-1951, two-parameter
[[nodiscard]] double characteristic_life(double slope);

}  // namespace caseload::weibull
