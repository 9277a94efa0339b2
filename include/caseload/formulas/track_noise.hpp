// SPDX-License-Identifier: MIT
// What the noise of a recorded speed does to the acceleration and the power made of it.
#pragma once

namespace caseload::track_noise {

/// Standard deviation of the least-squares slope of a speed over `half` samples to each side:
///
///     sd_v / (dt sqrt(2 sum k^2)),   k = 1 .. half
///
/// Range    sd >= 0; step > 0; half 1 to 1000. Noise of one sample unrelated to the next.
/// Source   track-noise, slope
[[nodiscard]] double slope_sd_mps2(double speed_sd_mps, double step_s, int half);

/// Mean of max(P + e, 0), e normal with standard deviation sd: noise makes power of nothing.
///
///     P Phi(P/sd) + sd phi(P/sd);   max(P, 0) where sd is 0
///
/// Range    sd >= 0.
/// Source   track-noise, positive
[[nodiscard]] double positive_mean_W(double power_W, double sd_W);

}  // namespace caseload::track_noise
