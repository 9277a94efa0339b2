// SPDX-License-Identifier: MIT
#include "input/pace_car.hpp"

namespace caseload::input {
namespace {

constexpr double rolling_share = 0.48;      // of the tyre's outside diameter, as vehicle.tyre says
constexpr double race_travel_m = 0.6;       // judgement
constexpr std::size_t automatic_up_to = 3;  // ratios; judgement

}  // namespace

pace::Car pace_car(const VehicleInput& vehicle, double case_ratio, double air_density_kgpm3) {
    pace::Car car;
    car.mass_kg = vehicle.mass_kg;
    car.rolling_radius_m = vehicle.rolling_radius_m;
    car.tyre_m = vehicle.rolling_radius_m / rolling_share;
    car.wheel_travel_m = race_travel_m;
    car.engine_power_W = vehicle.engine_power_W;
    car.axle_ratio = vehicle.axle_ratio;
    car.case_ratio = case_ratio;
    car.drag_area_m2 = vehicle.drag_area_m2;
    car.air_density_kgpm3 = air_density_kgpm3;
    car.grip = vehicle.grip;
    if (vehicle.gearbox.empty()) return car;
    pace::Gearbox gearbox;
    gearbox.ratios = vehicle.gearbox;
    gearbox.converter = vehicle.gearbox.size() <= automatic_up_to;
    gearbox.limiter_rpm = vehicle.engine_limit_rpm;
    gearbox.full_load = vehicle.engine_torque;
    car.gearbox = gearbox;
    return car;
}

}  // namespace caseload::input
