// SPDX-License-Identifier: MIT
#include "caseload/shocks.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace caseload::pace {
namespace {

constexpr std::array<double, 8> shock_ratios{1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5};
constexpr double shock_style = 0.7;
constexpr Limits shock_max_ends{1.3, 4};

double axle_at_output_Nmprad(const ShockCar& car, const ShockAxle& axle) {
    const double wheel_Nmprad = driveline_shock::wind_up_Nmprad(
        driveline_shock::tyre_stiffness_Npm(car.tyre_mm), car.grip.rolling_radius_m);
    return driveline_shock::axle_Nmprad(
        {driveline_shock::stiffness_Nmprad(axle.half_shaft), wheel_Nmprad,
         driveline_shock::stiffness_Nmprad(axle.prop_shaft), car.grip.axle_ratio});
}

ShockedShaft shocked(std::string name, const driveline_shock::Shaft& shaft, double torque_Nm,
                     double yield_MPa) {
    const double torsion_MPa = driveline_shock::torsion_MPa(shaft, torque_Nm);
    return {std::move(name), torque_Nm, torsion_MPa,
            driveline_shock::strength_ratio(torsion_MPa, yield_MPa)};
}

}  // namespace

ShockSpectrum shocks_of_style(ShockSpectrum spectrum, double style) {
    require_within(style, {-1.3, 1.3}, "style");
    spectrum.per_h *= std::exp(shock_style * style);
    return spectrum;
}

std::vector<ShockLevel> shock_levels(const ShockSpectrum& spectrum, double duration_h) {
    require_not_negative(duration_h, "duration_h");
    std::vector<ShockLevel> levels;
    for (std::size_t k = 0; k < shock_ratios.size() && shock_ratios[k] < spectrum.max; ++k) {
        const double above_ph = driveline_shock::events_per_h(spectrum, shock_ratios[k]);
        const bool last = k + 1 == shock_ratios.size() || shock_ratios[k + 1] >= spectrum.max;
        const double beyond_ph =
            last ? 0 : driveline_shock::events_per_h(spectrum, shock_ratios[k + 1]);
        const double times = (above_ph - beyond_ph) * duration_h;
        if (times > 0) levels.push_back({shock_ratios[k], times});
    }
    return levels;
}

std::vector<Peak> shock_peaks(const std::vector<ShockLevel>& levels, double grip_torque_Nm,
                              double largest_bin_Nm) {
    require_positive(grip_torque_Nm, "grip_torque_Nm");
    require_not_negative(largest_bin_Nm, "largest_bin_Nm");
    std::vector<Peak> peaks;
    peaks.reserve(levels.size());
    for (const ShockLevel& level : levels)
        peaks.push_back({level.ratio * grip_torque_Nm, level.times});
    if (!peaks.empty()) peaks.back().torque_Nm = std::max(peaks.back().torque_Nm, largest_bin_Nm);
    return peaks;
}

double shock_once_Nm(const ShockSpectrum& spectrum, double duration_h, double grip_torque_Nm) {
    require_positive(grip_torque_Nm, "grip_torque_Nm");
    return driveline_shock::reached_once(spectrum, duration_h) * grip_torque_Nm;
}

driveline_shock::Driveline shock_driveline(const ShockCar& car, double gear) {
    constexpr int wheels_an_axle = 2;
    double stiffness_Nmprad = 0;
    for (const ShockAxle& axle : car.axles) stiffness_Nmprad += axle_at_output_Nmprad(car, axle);
    require_positive(stiffness_Nmprad, "stiffness_Nmprad");
    const double engine_kgm2 =
        car.engine_kgm2 ? *car.engine_kgm2 : driveline_shock::engine_kgm2(car.rated_power_W);
    const int wheels = wheels_an_axle * static_cast<int>(car.axles.size());
    return {
        stiffness_Nmprad,
        driveline_shock::engine_side_kgm2({engine_kgm2, car.gearbox_kgm2, gear, car.case_ratio}),
        driveline_shock::wheel_side_kgm2(wheels, car.wheel_kgm2, car.grip.axle_ratio)};
}

double shock_mode_Hz(const ShockCar& car, double gear) {
    return driveline_shock::first_mode_Hz(shock_driveline(car, gear));
}

double landing_ratio(const ShockCar& car, const Landing& landing) {
    const double overspeed_radps = driveline_shock::overspeed_radps(
        {landing.overspeed, landing.road_mps, car.grip.axle_ratio, car.grip.rolling_radius_m});
    return driveline_shock::landing_Nm(
               shock_driveline(car, landing.gear), overspeed_radps,
               driveline_shock::ground_torque_Nm(car.grip, landing.wheel_load)) /
           driveline_shock::ground_torque_Nm(car.grip, 1);
}

double dump_ratio(const ShockCar& car, const ClutchDump& dump) {
    require_not_negative(dump.engine_rpm, "engine_rpm");
    const double static_Nm = driveline_shock::ground_torque_Nm(car.grip, 1);
    return driveline_shock::dump_Nm(
               shock_driveline(car, dump.gear),
               {radps_from_rpm(dump.engine_rpm), dump.gear, car.case_ratio, dump.clutch_Nm},
               static_Nm) /
           static_Nm;
}

double shock_max(const ShockCar& car, const HardestLanding& hardest) {
    require_positive(hardest.limiter_rpm, "limiter_rpm");
    require_positive(hardest.lowest_gear, "lowest_gear");
    // The limiter gives the wheels' speed, so the road's is less by the overspeed.
    const double wheels_mps = radps_from_rpm(hardest.limiter_rpm) * car.grip.rolling_radius_m /
                              (hardest.lowest_gear * car.case_ratio * car.grip.axle_ratio);
    const double ratio = landing_ratio(
        car, {hardest.lowest_gear, wheels_mps / (1 + driveline_shock::overspeed_limiter),
              driveline_shock::overspeed_limiter, hardest.wheel_load});
    return std::clamp(ratio, shock_max_ends.low, shock_max_ends.high);
}

std::vector<ShockedShaft> shocked_shafts(const ShockCar& car, double output_Nm, double yield_MPa) {
    require_positive(output_Nm, "output_Nm");
    std::vector<ShockedShaft> shafts;
    for (const ShockAxle& axle : car.axles) {
        require_within(axle.torque_share, {0, 1}, "torque_share");
        if (axle.torque_share <= 0) continue;
        const double prop_Nm = output_Nm * axle.torque_share;
        const double half_Nm = prop_Nm * car.grip.axle_ratio / 2;
        shafts.push_back(shocked(axle.name + " half shaft", axle.half_shaft, half_Nm, yield_MPa));
        shafts.push_back(shocked(axle.name + " prop shaft", axle.prop_shaft, prop_Nm, yield_MPa));
    }
    return shafts;
}

const ShockedShaft& breaks_first(const std::vector<ShockedShaft>& shafts) {
    if (shafts.empty()) throw Error(Error::Kind::domain, "no shaft outside the case is known");
    return *std::min_element(
        shafts.begin(), shafts.end(),
        [](const ShockedShaft& one, const ShockedShaft& other) { return one.ratio < other.ratio; });
}

}  // namespace caseload::pace
