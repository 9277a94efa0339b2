// SPDX-License-Identifier: MIT
// What the ground asks of the case: road load of a course line, limited by engine and grip.
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/road_load.hpp"
#include "caseload/loads.hpp"
#include "caseload/units.hpp"
#include "input/course_power.hpp"
#include "pace/engine.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

namespace caseload {
namespace {

/// Largest drive torque at the case input: engine power, and with an engine curve and a gearbox
/// the best gear at this speed.
double engine_limit_Nm(const VehicleInput& vehicle, double case_speed_rpm) {
    const double by_power = vehicle.engine_power_W / radps_from_rpm(case_speed_rpm);
    if (vehicle.engine_torque.empty() || vehicle.gearbox.empty()) return by_power;
    const double last_rpm =
        vehicle.engine_limit_rpm.value_or(vehicle.engine_torque.back().speed_rpm);
    double best = 0;
    for (const double gear : vehicle.gearbox) {
        const double engine_rpm = case_speed_rpm * gear;
        if (engine_rpm > last_rpm) continue;
        best = std::max(best, engine_torque_Nm(vehicle.engine_torque, engine_rpm) * gear);
    }
    return std::min(best, by_power);
}

/// True when even the tallest gear would turn the engine beyond its limit.
bool beyond_engine_speed(const VehicleInput& vehicle, double case_speed_rpm) {
    if (vehicle.gearbox.empty()) return false;
    const double tallest = *std::min_element(vehicle.gearbox.begin(), vehicle.gearbox.end());
    std::optional<double> last_rpm = vehicle.engine_limit_rpm;
    if (!last_rpm && !vehicle.engine_torque.empty())
        last_rpm = vehicle.engine_torque.back().speed_rpm;
    return last_rpm && case_speed_rpm * tallest > *last_rpm;
}

}  // namespace

double triangular(const Triangle& triangle, double rank) {
    const auto [low, likely, high] = triangle;
    if (!(high > low)) return likely;
    const double below = (likely - low) / (high - low);
    if (rank < below) return low + std::sqrt(rank * (high - low) * (likely - low));
    return high - std::sqrt((1 - rank) * (high - low) * (high - likely));
}

std::size_t drawn_duty(const Factors& factors) {
    if (!factors.pace_rank) return likely_duty;
    const auto drawn = static_cast<std::size_t>(*factors.pace_rank * drawn_duties);
    return std::min(drawn, drawn_duties - 1);
}

double pace_mps(const LegInput& leg, const Factors& factors) {
    if (!leg.calculated.empty())
        return leg.calculated[place_of_drawn(drawn_duty(factors))].pace_mps;
    if (!leg.pace_ends || !factors.pace_rank) return leg.course_pace_mps;
    return triangular({leg.pace_ends->low_mps, leg.course_pace_mps, leg.pace_ends->high_mps},
                      *factors.pace_rank);
}

double site_pressure_Pa(const Setup& setup) {
    return us_standard_atmosphere::pressure_Pa(setup.event.altitude_m);
}

std::vector<Bin> leg_bins(const Setup& setup, const LegInput& leg, const Train& train,
                          LegLoads& into) {
    if (!leg.calculated.empty())
        return leg.calculated[place_of_drawn(drawn_duty(setup.factors))].bins;
    if (leg.course_lines.empty()) return leg.bins;
    const VehicleInput& vehicle = setup.vehicle;
    const double density_kgpm3 =
        us_standard_atmosphere::air(
            {.temp_degC = setup.event.ambient_degC, .pressure_Pa = site_pressure_Pa(setup)})
            .density_kgpm3;
    const double wheel_to_input_m =
        road_load::input_lever_m({.rolling_radius_m = vehicle.rolling_radius_m,
                                  .axle_ratio = vehicle.axle_ratio,
                                  .drop_ratio = train.ratio});
    const double mean_mps = pace_mps(leg, setup.factors);
    std::vector<Bin> bins;
    for (const CourseLine& line : leg.course_lines) {
        Bin bin;
        bin.share = line.share;
        bin.road_speed_mps = mean_mps * line.pace_ratio;
        bin.speed_rpm = rpm_from_radps(bin.road_speed_mps / wheel_to_input_m);
        if (beyond_engine_speed(vehicle, bin.speed_rpm)) into.beyond_engine_speed = true;
        const double force_N =
            input::line_force_N(vehicle, line, bin.road_speed_mps, density_kgpm3);
        bin.torque_Nm = force_N * wheel_to_input_m;
        if (bin.torque_Nm > 0) {
            const double engine_Nm = engine_limit_Nm(vehicle, bin.speed_rpm);
            const double grip_Nm = vehicle.grip * vehicle.mass_kg * g_mps2 * wheel_to_input_m;
            if (bin.torque_Nm > std::min(engine_Nm, grip_Nm)) {
                (engine_Nm < grip_Nm ? into.limited_by_engine : into.limited_by_grip) = true;
                bin.torque_Nm = std::min(engine_Nm, grip_Nm);
            }
        } else {
            const double drag_Nm =
                coast_power_share * vehicle.engine_power_W / radps_from_rpm(bin.speed_rpm);
            bin.torque_Nm = std::max(bin.torque_Nm, -drag_Nm);
        }
        bins.push_back(bin);
    }
    return bins;
}

std::vector<Peak> leg_peaks(const Setup& setup, const LegInput& leg, const Train& train,
                            const std::vector<Bin>& bins) {
    std::vector<Peak> peaks;
    peaks.reserve(leg.peaks.size() + 1);
    for (const Peak& entered : leg.peaks)
        peaks.push_back({entered.torque_Nm * setup.factors.load, entered.times});
    if (leg.course_peaks_per_h <= 0) return peaks;
    const VehicleInput& vehicle = setup.vehicle;
    double torque_Nm = landing_load * vehicle.grip * vehicle.mass_kg * g_mps2 *
                       road_load::input_lever_m({.rolling_radius_m = vehicle.rolling_radius_m,
                                                 .axle_ratio = vehicle.axle_ratio,
                                                 .drop_ratio = train.ratio});
    for (const Bin& bin : bins)
        torque_Nm = std::max(torque_Nm, std::fabs(bin.torque_Nm) * leg.overload);
    peaks.push_back(
        {torque_Nm * setup.factors.load, leg.course_peaks_per_h * h_from_s(leg.duration_s)});
    return peaks;
}

}  // namespace caseload
