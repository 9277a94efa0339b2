// SPDX-License-Identifier: MIT
#include "caseload/formulas/track_noise.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::track_noise {

double slope_sd_mps2(double speed_sd_mps, double step_s, int half) {
    require_not_negative(speed_sd_mps, "speed_sd_mps");
    require_positive(step_s, "step_s");
    require_within(half, {1, 1000}, "half");
    double squares = 0;
    for (int k = 1; k <= half; ++k) squares += 2.0 * k * k;
    return speed_sd_mps / (step_s * std::sqrt(squares));
}

double positive_mean_W(double power_W, double sd_W) {
    require_not_negative(sd_W, "sd_W");
    if (sd_W == 0) return std::max(power_W, 0.0);
    const double z = power_W / sd_W;
    return power_W * std::erfc(-z / std::sqrt(2.0)) / 2 +
           sd_W * std::exp(-z * z / 2) / std::sqrt(2 * pi);
}

}  // namespace caseload::track_noise
