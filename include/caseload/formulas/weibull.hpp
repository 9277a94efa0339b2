// SPDX-License-Identifier: MIT
// Bearing life at a reliability by other Weibull parameters than ISO 281:2007. For textbook
// examples only: the life of this project's bearings takes iso_281::reliability_factor.
#pragma once

namespace caseload::weibull {

/// Life in multiples of the rating life: R = exp(-((x - x_0)/(theta - x_0))^slope).
struct Distribution {
    double x_0;    ///< failure-free share
    double theta;  ///< characteristic life
    double slope;
};

/// Shigley's parameters for ball and cylindrical roller bearings. Their life at R = 0.9 is 0.9933,
/// not 1.
inline constexpr Distribution shigley{.x_0 = 0.02, .theta = 4.459, .slope = 1.483};
/// Shigley's parameters for tapered roller bearings.
inline constexpr Distribution shigley_tapered{.x_0 = 0, .theta = 4.48, .slope = 1.5};

/// Share that fails, as it enters the life: ln(1/R), or 1 - R, which is 0.1 to 0.5 % off in the
/// rating.
enum class Failing { logarithm, difference };

/// No failure-free time, life 1 at R = 0.9: theta = ln(1/0.9)^(-1/slope).
/// Source   weibull-1951, two-parameter
[[nodiscard]] Distribution two_parameter(double slope);

/// Life at a reliability, x_0 + (theta - x_0) failing^(1/slope), in rating lives.
/// Range    0 < reliability < 1; 0 <= x_0 < theta; slope > 0.
/// Source   shigley-8e-solutions, 11-life
[[nodiscard]] double life_ratio(const Distribution& distribution, Failing failing,
                                double reliability);

/// Reliability after a life in rating lives; 1 up to x_0.
/// Source   shigley-8e-solutions, 11-reliability
[[nodiscard]] double reliability(const Distribution& distribution, double life_ratio);

struct Duty {
    double P_N;
    double life_Mrev;
    double exponent;
};

/// Catalogue rating for a duty: P (L / life_ratio)^(1/p), `life_ratio` at the wanted reliability.
/// Source   shigley-8e-solutions, 11-rating
[[nodiscard]] double rating_N(const Duty& duty, double life_ratio);

/// Reliability of a bearing of rating C on a duty.
/// Source   shigley-8e-solutions, 11-check
[[nodiscard]] double reliability_on_duty(const Distribution& distribution, const Duty& duty,
                                         double C_N);

}  // namespace caseload::weibull
