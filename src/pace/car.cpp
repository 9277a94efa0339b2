// SPDX-License-Identifier: MIT
#include "pace/car.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/absorbed_power.hpp"
#include "caseload/formulas/quarter_car.hpp"
#include "caseload/formulas/road_roughness.hpp"
#include "caseload/formulas/wheel_inertia.hpp"
#include "caseload/units.hpp"
#include "pace/engine.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::pace {
namespace {

constexpr double axles_apart =
    0.5;  // of a corner's variance: the inputs of two axles are unrelated
// Judgement.
constexpr double bump_share = 0.55;        // of the wheel's travel
constexpr double driveline_factor = 1.02;  // what turns besides the wheels
constexpr double turbo_torque = 1.35;      // of that at rated power, at most
constexpr double stall_share = 0.45;       // of the rated speed

void check(const Gearbox& gearbox) {
    for (const double ratio : gearbox.ratios) require_within(ratio, {0.2, 20}, "gear ratio");
    if (gearbox.ratios.empty()) require_positive(0, "number of gears");
    constexpr Limits speeds_rpm{1000, 20000};
    if (gearbox.limiter_rpm) require_within(*gearbox.limiter_rpm, speeds_rpm, "limiter_rpm");
    if (gearbox.rated_rpm) require_within(*gearbox.rated_rpm, speeds_rpm, "rated_rpm");
    double before_rpm = 0;
    for (const TorquePoint& point : gearbox.full_load) {
        require_within(point.speed_rpm, {before_rpm, speeds_rpm.high}, "speed_rpm");
        require_within(point.torque_Nm, {0, 5000}, "torque_Nm");
        before_rpm = point.speed_rpm;
    }
}

quarter_car::Corner corner_of(const Car& car) {
    const double corner_kg = car.mass_kg / 4;
    return quarter_car::corner(
        {.corner_kg = corner_kg,
         .unsprung_share = car.unsprung_share,
         .frequency_Hz = car.body_Hz,
         .damping = car.damping,
         .tyre_Npm = corner_kg * g_mps2 / (car.tyre_deflection_share * car.tyre_m)});
}

}  // namespace

Ends usual_wheel_kg(double tyre_m) {
    constexpr double factor = 1.25;
    const double usual = wheel_inertia::mass_kg(tyre_m);
    return {usual, usual / factor, usual * factor};
}

Ends usual_rated_rpm(std::optional<double> limiter_rpm) {
    if (!limiter_rpm) return {6500, 5500, 7500};  // judgement
    const Ends& share = usual_rated_share;
    return {*limiter_rpm * share.usual, *limiter_rpm * share.low, *limiter_rpm * share.high};
}

void check(const Car& car) {
    require_within(car.mass_kg, {200, 20000}, "mass_kg");
    require_within(car.tyre_m, {0.3, 1.5}, "tyre_m");
    require_within(car.wheel_travel_m, {0.05, 1.2}, "wheel_travel_m");
    require_within(car.engine_power_W, {1e4, 2e6}, "engine_power_W");
    require_within(car.axle_ratio, {1, 12}, "axle_ratio");
    require_within(car.case_ratio, {0.2, 5}, "case_ratio");
    require_within(car.drag_area_m2, {0, 8}, "drag_area_m2");
    require_within(car.air_density_kgpm3, {0.5, 1.6}, "air_density_kgpm3");
    require_within(car.grip, {0.1, 1.5}, "grip");
    if (car.gearbox) check(*car.gearbox);
    if (car.rolling_radius_m) require_within(*car.rolling_radius_m, {0.1, 0.8}, "rolling_radius_m");
    if (car.wheel_kg) require_within(*car.wheel_kg, {3, 500}, "wheel_kg");
    require_within(car.unsprung_share, {0.02, 0.5}, "unsprung_share");
    require_within(car.body_Hz, {0.3, 5}, "body_Hz");
    require_within(car.damping, {0.05, 1.5}, "damping");
    require_within(car.tyre_deflection_share, {0.005, 0.2}, "tyre_deflection_share");
    require_within(car.absorbed_W, {1, 200}, "absorbed_W");
    require_within(car.travel_sigmas, {1, 6}, "travel_sigmas");
    require_within(car.to_case, {0.5, 1}, "to_case");
    require_within(car.to_ground, {0.5, 1}, "to_ground");
    require_within(car.engine_drag, {0, 0.3}, "engine_drag");
    require_within(car.part_load_efficiency, {0.1, 0.6}, "part_load_efficiency");
    require_within(car.full_load_efficiency, {0.1, 0.6}, "full_load_efficiency");
    require_within(car.fuel_MJpL, {10, 45}, "fuel_MJpL");
}

double rolling_radius_m(const Car& car) {
    return car.rolling_radius_m.value_or(usual_rolling_share * car.tyre_m);
}

double rotating_mass_factor(const Car& car) {
    check(car);
    const double radius_m = rolling_radius_m(car);
    const double wheel_kg = car.wheel_kg.value_or(usual_wheel_kg(car.tyre_m).usual);
    return driveline_factor + 4 * wheel_inertia::inertia_kgm2({wheel_kg, car.tyre_m}) /
                                  (radius_m * radius_m * car.mass_kg);
}

Ride ride(const Car& car) {
    check(car);
    const quarter_car::Corner corner = corner_of(car);
    const double density_pm2 = road_roughness::velocity_density_m(1);  // for each m3 of roughness
    const double sigma_m = bump_share * car.wheel_travel_m / car.travel_sigmas;
    Ride ride;
    ride.absorbed_Wspm2 = absorbed_power::of_corner_Wspm2(corner);
    ride.travel_m4ps = sigma_m * sigma_m / (quarter_car::travel_variance_s(corner) * density_pm2);
    ride.absorbed_m4ps = car.absorbed_W / (axles_apart * ride.absorbed_Wspm2 * density_pm2);
    ride.limit_m4ps = 1 / std::sqrt(1 / (ride.travel_m4ps * ride.travel_m4ps) +
                                    1 / (ride.absorbed_m4ps * ride.absorbed_m4ps));
    ride.resistance_pm3 = quarter_car::resistance_pm3(car.tyre_deflection_share * car.tyre_m);
    return ride;
}

FullLoad::FullLoad(const Car& car, double slip) {
    flat_W_ = usual_power_share.usual * car.engine_power_W;
    if (!car.gearbox) return;
    const Gearbox& gearbox = *car.gearbox;
    entered_ = gearbox.full_load;
    turbo_ = gearbox.turbo;
    double limiter_rpm = usual_limiter_rpm;
    if (!entered_.empty()) limiter_rpm = entered_.back().speed_rpm;
    if (gearbox.limiter_rpm) limiter_rpm = *gearbox.limiter_rpm;
    rated_radps_ =
        radps_from_rpm(gearbox.rated_rpm.value_or(usual_rated_rpm(gearbox.limiter_rpm).usual));
    rated_Nm_ = car.engine_power_W / rated_radps_;
    parabola_ = engine_curve::parabola(usual_torque_peak_at.usual);
    const double stall_radps = stall_share * rated_radps_;
    const double engine_Nm = torque_Nm(stall_radps);
    stall_W_ = engine_Nm * stall_radps;
    stall_Nm_ = engine_Nm * (gearbox.converter ? usual_converter_torque.usual : 1.0);
    const double case_radps_per_mps =
        car.axle_ratio * car.case_ratio / ((1 - slip) * rolling_radius_m(car));
    limiter_mps_ = 0;
    for (const double ratio : gearbox.ratios) {
        Gear gear{};
        gear.engine_radps_per_mps = ratio * case_radps_per_mps;
        gear.highest_mps = radps_from_rpm(limiter_rpm) / gear.engine_radps_per_mps;
        gear.stall_mps = stall_radps / gear.engine_radps_per_mps;
        limiter_mps_ = std::max(limiter_mps_, gear.highest_mps);
        gears_.push_back(gear);
    }
}

double FullLoad::torque_Nm(double engine_radps) const {
    if (!entered_.empty()) return engine_torque_Nm(entered_, rpm_from_radps(engine_radps));
    if (turbo_) return rated_Nm_ * std::min(turbo_torque, rated_radps_ / engine_radps);
    return rated_Nm_ * engine_curve::torque_ratio(parabola_, engine_radps / rated_radps_);
}

double FullLoad::power_W(double speed_mps) const {
    if (gears_.empty()) return flat_W_;
    double best_W = 0;
    for (const Gear& gear : gears_) {
        if (speed_mps > gear.highest_mps) continue;
        const double engine_radps = gear.engine_radps_per_mps * speed_mps;
        best_W = std::max(best_W, speed_mps < gear.stall_mps
                                      ? std::min(stall_Nm_ * engine_radps, stall_W_)
                                      : torque_Nm(engine_radps) * engine_radps);
    }
    return best_W;
}

}  // namespace caseload::pace
