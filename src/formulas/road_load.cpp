// SPDX-License-Identifier: MIT
#include "caseload/formulas/road_load.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::road_load {

double force_N(const Car& car, const Ground& ground) {
    require_positive(car.mass_kg, "mass_kg");
    require_not_negative(car.drag_area_m2, "drag_area_m2");
    require_within(car.rotating_mass_factor, {1, 10}, "rotating_mass_factor");
    require_not_negative(ground.resistance, "resistance");
    require_within(ground.grade, {-1, 1}, "grade");
    require_not_negative(ground.speed_mps, "speed_mps");
    require_within(ground.acceleration_mps2, {-100, 100}, "acceleration_mps2");
    require_not_negative(ground.air_density_kgpm3, "air_density_kgpm3");
    const double slope = std::atan(ground.grade);
    return car.mass_kg * g_mps2 * (ground.resistance * std::cos(slope) + std::sin(slope)) +
           ground.air_density_kgpm3 * car.drag_area_m2 * ground.speed_mps * ground.speed_mps / 2 +
           car.mass_kg * car.rotating_mass_factor * ground.acceleration_mps2;
}

double input_lever_m(const Driveline& driveline) {
    require_positive(driveline.rolling_radius_m, "rolling_radius_m");
    require_positive(driveline.axle_ratio, "axle_ratio");
    require_positive(driveline.drop_ratio, "drop_ratio");
    return driveline.rolling_radius_m / (driveline.axle_ratio * driveline.drop_ratio);
}

}  // namespace caseload::road_load
