// SPDX-License-Identifier: MIT
#include "caseload/formulas/road_load.hpp"

#include "caseload/units.hpp"

#include <cmath>

namespace caseload::road_load {

double force_N(const Car& car, const Ground& ground) {
    const double slope = std::atan(ground.grade);
    return car.mass_kg * g_mps2 *
               (ground.resistance * std::cos(slope) + std::sin(slope)) +
           ground.air_density_kgpm3 * car.drag_area_m2 * ground.speed_mps * ground.speed_mps / 2 +
           car.mass_kg * car.rotating_mass_factor * ground.acceleration_mps2;
}

}  // namespace caseload::road_load
