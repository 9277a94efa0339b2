// SPDX-License-Identifier: MIT
// Full-load torque of an engine of which rated power and its speed alone are known.
#pragma once

namespace caseload::engine_curve {

/// Torque over torque at rated power as a parabola of x = speed over rated speed.
struct Parabola {
    double a;
    double b;
    double c;
};

/// With x_t where torque peaks:
///
///     T / T_r = a + b x - c x^2,   c = 1 / (2 (1 - x_t)),   b = 2 x_t c,   a = 1 - b + c
///
/// Derived: T = T_r and dP/dx = 0 at x = 1. x_t = 0.5 is the form x + x^2 - x^3 of power in
/// textbooks (from memory). Racing engines without a turbo 0.72 (0.60 to 0.80), judgement.
///
/// Range    x_t 0.3 to 0.95.
/// Source   engine-parabola, shape
[[nodiscard]] Parabola parabola(double peak_at);

/// Range    x >= 0.
/// Note     0 where the parabola is below 0: far above the rated speed.
/// Source   engine-parabola, torque
[[nodiscard]] double torque_ratio(const Parabola& parabola, double speed_ratio);

}  // namespace caseload::engine_curve
