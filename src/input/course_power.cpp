// SPDX-License-Identifier: MIT
#include "input/course_power.hpp"

#include "caseload/formulas/air.hpp"
#include "caseload/formulas/road_load.hpp"
#include "caseload/units.hpp"

#include <algorithm>

namespace caseload::input {

double line_force_N(const VehicleInput& vehicle, const CourseLine& line, double speed_mps,
                    double air_density_kgpm3) {
    return road_load::force_N({.mass_kg = vehicle.mass_kg,
                               .drag_area_m2 = vehicle.drag_area_m2,
                               .rotating_mass_factor = road_load::rotating_mass_factor},
                              {.resistance = line.resistance,
                               .grade = line.grade,
                               .speed_mps = speed_mps,
                               .acceleration_mps2 = line.acceleration_mps2,
                               .air_density_kgpm3 = air_density_kgpm3});
}

double mean_power_W(const Setup& setup, const LegInput& leg, double pace_mps) {
    double sum_W = 0;
    if (leg.course_lines.empty()) {
        for (const Bin& bin : leg.bins)
            sum_W += bin.share * std::max(bin.torque_Nm, 0.0) * radps_from_rpm(bin.speed_rpm);
        return sum_W;
    }
    const VehicleInput& vehicle = setup.vehicle;
    const double density_kgpm3 =
        us_standard_atmosphere::air(
            {.temp_degC = setup.event.ambient_degC,
             .pressure_Pa = us_standard_atmosphere::pressure_Pa(setup.event.altitude_m)})
            .density_kgpm3;
    const double grip_N = vehicle.grip * vehicle.mass_kg * g_mps2;
    for (const CourseLine& line : leg.course_lines) {
        const double speed_mps = pace_mps * line.pace_ratio;
        const double force_N = line_force_N(vehicle, line, speed_mps, density_kgpm3);
        sum_W += line.share * std::clamp(force_N, 0.0, grip_N) * speed_mps;
    }
    return sum_W;
}

double pace_of_power_mps(const Setup& setup, const LegInput& leg, double power_W) {
    constexpr double walking_mps = 0.5;
    constexpr int halvings = 60;
    if (mean_power_W(setup, leg, fastest_pace_mps) <= power_W) return fastest_pace_mps;
    double low_mps = walking_mps;
    double high_mps = fastest_pace_mps;
    if (mean_power_W(setup, leg, low_mps) > power_W) return 0;
    for (int i = 0; i < halvings; ++i) {
        const double middle_mps = (low_mps + high_mps) / 2;
        (mean_power_W(setup, leg, middle_mps) > power_W ? high_mps : low_mps) = middle_mps;
    }
    return low_mps;
}

}  // namespace caseload::input
