// SPDX-License-Identifier: MIT
#include "caseload/formulas/road_roughness.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::road_roughness {

double velocity_density_m(double roughness_m3) {
    require_positive(roughness_m3, "roughness_m3");
    const double per_m = 2 * pi * n0_pm;
    return per_m * per_m * roughness_m3;
}

double rms_height_m(double roughness_m3) {
    require_positive(roughness_m3, "roughness_m3");
    constexpr double longest_ft = 60;
    return std::sqrt(roughness_m3 * n0_pm * n0_pm * longest_ft * foot_m);
}

}  // namespace caseload::road_roughness
