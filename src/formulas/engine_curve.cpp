// SPDX-License-Identifier: MIT
#include "caseload/formulas/engine_curve.hpp"

#include "caseload/error.hpp"

#include <algorithm>

namespace caseload::engine_curve {

Parabola parabola(double peak_at) {
    require_within(peak_at, {0.3, 0.95}, "peak_at");
    const double c = 1 / (2 * (1 - peak_at));
    const double b = 2 * peak_at * c;
    return {1 - b + c, b, c};
}

double torque_ratio(const Parabola& parabola, double speed_ratio) {
    require_not_negative(speed_ratio, "speed_ratio");
    return std::max(0.0, parabola.a + speed_ratio * (parabola.b - parabola.c * speed_ratio));
}

}  // namespace caseload::engine_curve
