// SPDX-License-Identifier: MIT
// A car as the segment model sees it, with what is taken where nobody knows better.
#pragma once

#include "caseload/model.hpp"

#include <optional>
#include <vector>

namespace caseload::pace {

/// A usual value between the ends of what is plausible.
struct Ends {
    double usual;
    double low;
    double high;
};

// All judgement.
inline constexpr Ends usual_unsprung_share{0.17, 0.12, 0.25};  ///< of a corner's mass
inline constexpr Ends usual_body_Hz{1.1, 0.9, 1.5};
inline constexpr Ends usual_damping{0.40, 0.25, 0.6};
inline constexpr Ends usual_tyre_deflection_share{0.04, 0.03, 0.055};  ///< of the outside diameter
inline constexpr Ends usual_absorbed_W{35, 15, 70};  ///< a strapped-in crew; ride tests stop at 6
inline constexpr Ends usual_travel_sigmas{3, 2.5, 3.5};  ///< of wheel travel that touch the stop
inline constexpr Ends usual_torque_peak_at{0.72, 0.60, 0.80};  ///< of rated speed
inline constexpr Ends usual_rated_share{0.93, 0.88, 0.97};     ///< of the limiter's speed
inline constexpr Ends usual_converter_torque{1.8, 1.6, 2.2};   ///< at stall
inline constexpr Ends usual_power_share{0.93, 0.88, 0.98};     ///< of rated, no gearbox entered
inline constexpr Ends usual_to_case{0.94, 0.90, 0.97};         ///< efficiency, crank to case
inline constexpr Ends usual_to_ground{0.94, 0.90, 0.97};       ///< efficiency, case to ground
inline constexpr Ends usual_rear_share{0.58, 0.50, 0.65};      ///< of grip, rear wheels driven
inline constexpr Ends usual_engine_drag{0.07, 0.04, 0.10};     ///< of rated power
inline constexpr Ends usual_part_load{0.33, 0.30, 0.36};       ///< indicated efficiency
inline constexpr Ends usual_full_load{0.30, 0.27, 0.33};       ///< the same, rich mixture
inline constexpr Ends petrol_MJpL{32, 31, 33};

/// Wheel and tyre by the tyre's outside diameter (wheel_inertia::mass_kg), x 1/1.25 to x 1.25.
[[nodiscard]] Ends usual_wheel_kg(double tyre_m);
/// Of the rated power: usual_rated_share of the limiter; 6500 r/min where none is known.
[[nodiscard]] Ends usual_rated_rpm(std::optional<double> limiter_rpm);

inline constexpr double usual_limiter_rpm = 7000;

/// Rolling radius over the tyre's outside diameter: common practice.
inline constexpr double usual_rolling_share = 0.48;

/// Gears between the engine and the case.
struct Gearbox {
    std::vector<double> ratios;          ///< engine over case input, 0.2 to 20
    bool converter = false;              ///< automatic; else a clutch
    bool turbo = false;                  ///< or Diesel: rated power down to 1.35 of its torque
    std::optional<double> limiter_rpm;   ///< engine, 1000 to 20000
    std::optional<double> rated_rpm;     ///< engine, 1000 to 20000
    std::vector<TorquePoint> full_load;  ///< entered curve by rising speed; empty: by rated power

    bool operator==(const Gearbox&) const = default;
};

struct Car {
    double mass_kg = 0;               ///< 200 to 20000
    double tyre_m = 0;                ///< outside diameter, 0.3 to 1.5
    double wheel_travel_m = 0;        ///< full droop to full bump, 0.05 to 1.2
    double engine_power_W = 0;        ///< rated, 1e4 to 2e6
    double axle_ratio = 0;            ///< 1 to 12
    double case_ratio = 0;            ///< input over output speed, 0.2 to 5
    double drag_area_m2 = 2.4;        ///< 0 to 8
    double air_density_kgpm3 = 1.12;  ///< 0.5 to 1.6
    double grip = 0.6;               ///< as vehicle.grip; a course's own grip is at 0.6. 0.1 to 1.5
    bool rear_only = false;          ///< only the rear wheels are driven
    std::optional<Gearbox> gearbox;  ///< absent: a share of the rated power at every speed
    std::optional<double> rolling_radius_m;  ///< absent: 0.48 of the outside diameter
    std::optional<double> wheel_kg;          ///< absent: usual_wheel_kg
    double unsprung_share = usual_unsprung_share.usual;
    double body_Hz = usual_body_Hz.usual;
    double damping = usual_damping.usual;
    double tyre_deflection_share = usual_tyre_deflection_share.usual;
    double absorbed_W = usual_absorbed_W.usual;
    double travel_sigmas = usual_travel_sigmas.usual;
    double to_case = usual_to_case.usual;
    double to_ground = usual_to_ground.usual;
    double engine_drag = usual_engine_drag.usual;
    double part_load_efficiency = usual_part_load.usual;
    double full_load_efficiency = usual_full_load.usual;
    double fuel_MJpL = petrol_MJpL.usual;  ///< lower heating value, 10 to 45

    bool operator==(const Car&) const = default;
};

/// What limits a car on rough ground, each as speed x roughness, and what it takes to roll there.
struct Ride {
    double travel_m4ps = 0;     ///< K_tr: the wheels touch their stops
    double absorbed_m4ps = 0;   ///< K_ap: the driver slows down
    double limit_m4ps = 0;      ///< K: both; v = K / G
    double absorbed_Wspm2 = 0;  ///< A_p: in the driver for a unit velocity density at one corner
    double resistance_pm3 = 0;  ///< f_rough / G
};

/// Throws Error{domain} where a member of the car is outside its range.
[[nodiscard]] Ride ride(const Car& car);

/// 1.02 + 4 J_w / (r^2 m): wheels, and judgement for the rest.
[[nodiscard]] double rotating_mass_factor(const Car& car);

/// usual_rolling_share of the tyre's outside diameter unless known.
[[nodiscard]] double rolling_radius_m(const Car& car);

}  // namespace caseload::pace
