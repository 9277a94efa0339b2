// SPDX-License-Identifier: MIT
// Published figures on what the ground asks of the case: torque and speed at its input, equivalent
// torques of a duty, the joint behind it. Recomputed by the formula functions, the mean of a duty
// by the chain's own loads.
#include "caseload/formulas/cardan.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/road_load.hpp"
#include "caseload/input.hpp"
#include "caseload/loads.hpp"
#include "caseload/units.hpp"
#include "evidence/drag.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace caseload {
namespace {

using road_load::Driveline;

// 39 in tyres and axle 5.43; 40 in tyres and axle 4.56; both with an underdrive of 1.25.
constexpr Driveline truck{.rolling_radius_m = 0.475488, .axle_ratio = 5.43, .drop_ratio = 1.25};
constexpr Driveline heavier{.rolling_radius_m = 0.48768, .axle_ratio = 4.56, .drop_ratio = 1.25};
constexpr double mesh_efficiency = 0.97;

double input_rpm(const Driveline& driveline, double speed_mps) {
    return rpm_from_radps(speed_mps / road_load::input_lever_m(driveline));
}

struct Grip {
    double mass_kg;
    double share;
};
double grip_Nm(const Driveline& driveline, const Grip& grip) {
    return grip.share * grip.mass_kg * g_mps2 * road_load::input_lever_m(driveline);
}

double truck_torque_Nm() {
    return road_load::force_N({.mass_kg = 2300, .drag_area_m2 = 2.3, .rotating_mass_factor = 1.06},
                              {.resistance = 0.15,
                               .grade = 0.05,
                               .speed_mps = 30,
                               .acceleration_mps2 = 0.5,
                               .air_density_kgpm3 = 1.10}) *
           road_load::input_lever_m(truck) / (mesh_efficiency * mesh_efficiency);
}

double worst_grip_Nm() {
    constexpr std::array<std::array<double, 2>, 5> row{
        {{0.35, 734}, {0.5, 1049}, {0.6, 1259}, {0.7, 1469}, {0.8, 1679}}};
    double worst = 0;
    for (const auto& [share, printed_Nm] : row)
        worst = std::max(worst, std::fabs(grip_Nm(heavier, {2500, share}) - printed_Nm));
    return worst;
}

constexpr std::array<double, 3> speeds_mps{26, 45, 58};

double worst_torque_Nm() {
    struct Line {
        double resistance;
        std::array<double, 3> printed_Nm;
    };
    constexpr std::array<Line, 6> lines{{{0.02, {126, 290, 453}},
                                         {0.04, {169, 333, 496}},
                                         {0.08, {255, 420, 583}},
                                         {0.15, {407, 571, 734}},
                                         {0.20, {515, 679, 842}},
                                         {0.30, {731, 895, 1058}}}};
    double worst = 0;
    for (const Line& line : lines)
        for (std::size_t i = 0; i < speeds_mps.size(); ++i) {
            const double force_N = road_load::force_N(
                {.mass_kg = 2500, .drag_area_m2 = 2.4, .rotating_mass_factor = 1},
                {.resistance = line.resistance,
                 .grade = 0,
                 .speed_mps = speeds_mps.at(i),
                 .acceleration_mps2 = 0,
                 .air_density_kgpm3 = 1.15});
            worst = std::max(
                worst, std::fabs(force_N * road_load::input_lever_m(heavier) / mesh_efficiency -
                                 line.printed_Nm.at(i)));
        }
    return worst;
}

double worst_speed_rpm() {
    constexpr std::array<double, 3> printed_rpm{2902, 5023, 6474};
    double worst = 0;
    for (std::size_t i = 0; i < speeds_mps.size(); ++i)
        worst =
            std::max(worst, std::fabs(input_rpm(heavier, speeds_mps.at(i)) - printed_rpm.at(i)));
    return worst;
}

double worst_top_speed_rpm() {
    constexpr std::array<std::array<double, 2>, 5> row{
        {{4.10, 145}, {4.56, 130}, {5.13, 116}, {5.43, 109}, {6.50, 91}}};
    double worst = 0;
    for (const auto& [axle, printed_mph] : row) {
        Driveline driveline = heavier;
        driveline.axle_ratio = axle;
        worst =
            std::max(worst, std::fabs(input_rpm(driveline, printed_mph / mph_from_mps(1)) - 6500));
    }
    return worst;
}

// The reference duty: share of time, torque, speed.
struct Slice {
    double share;
    double torque_Nm;
    double n_rpm;
};
constexpr std::array<Slice, 7> reference{{{0.04, 1350, 3700},
                                          {0.08, 900, 5800},
                                          {0.28, 420, 4700},
                                          {0.32, 420, 3100},
                                          {0.14, 560, 1500},
                                          {0.12, -120, 3400},
                                          {0.02, 0, 800}}};

struct Equivalent {
    double exponent;
    double drive_Nm;
    double all_Nm;
};
constexpr std::array<Equivalent, 5> equivalents{{{1, 544.52, 493.34},
                                                 {3, 662.53, 635.23},
                                                 {10.0 / 3, 685.15, 659.60},
                                                 {6.61, 877.46, 860.76},
                                                 {8.74, 961.76, 947.88}}};

double worst_equivalent_Nm(bool coast_too) {
    std::vector<iso_281::LoadBlock> blocks;
    for (const Slice& slice : reference)
        if (coast_too || slice.torque_Nm > 0)
            blocks.push_back(
                {.P_N = std::fabs(slice.torque_Nm), .revolutions = slice.share * slice.n_rpm});
    double worst = 0;
    for (const Equivalent& one : equivalents)
        worst = std::max(worst, std::fabs(iso_281::mean_load_N(blocks, one.exponent) -
                                          (coast_too ? one.all_Nm : one.drive_Nm)));
    return worst;
}

/// The reference duty through the chain's loads, in the setup a new user starts from.
LegLoads reference_leg() {
    Setup setup = read_setup(new_setup_text(), "new.toml", {}).setup;
    LegInput leg;
    leg.name = "reference";
    leg.duration_s = 3600;
    for (const Slice& slice : reference)
        leg.bins.push_back({slice.share, slice.torque_Nm, slice.n_rpm, 25});
    setup.event.legs = {leg};
    setup.event.run = {0};
    return calculate_loads(setup).legs.front();
}

double acceleration_radps2(double angle_deg) {
    return cardan::peak_acceleration_radps2(
        {.omega_radps = radps_from_rpm(5200), .angle_rad = rad_from_deg(angle_deg)});
}

constexpr Calculation own_duty[] = {
    {"own-duty-torque", truck_torque_Nm},
    {"own-duty-speed-out",
     []() -> double {
         return input_rpm({.rolling_radius_m = 0.475488, .axle_ratio = 5.43, .drop_ratio = 1},
                          110 / mph_from_mps(1));
     }},
    {"own-duty-speed-in", []() -> double { return input_rpm(truck, 110 / mph_from_mps(1)); }},
    {"own-duty-grip", []() -> double { return grip_Nm(truck, {2300, 0.6}); }},
    {"own-duty-grip-table", worst_grip_Nm},
    {"own-duty-torque-table", worst_torque_Nm},
    {"own-duty-speed-table", worst_speed_rpm},
    {"own-duty-top-speed", worst_top_speed_rpm},
    {"own-duty-equivalent-drive", []() -> double { return worst_equivalent_Nm(false); }},
    {"own-duty-equivalent-all", []() -> double { return worst_equivalent_Nm(true); }},
    {"own-duty-power", []() -> double { return reference_leg().drive_power_W / W_from_kW(1); }},
    {"own-duty-mean-speed", []() -> double { return reference_leg().mean_speed_rpm; }},
    {"own-cardan-acceleration-3", []() -> double { return acceleration_radps2(3); }},
    {"own-cardan-acceleration-12", []() -> double { return acceleration_radps2(12); }},
};

}  // namespace

std::span<const Calculation> duty_calculations() {
    return own_duty;
}

}  // namespace caseload
