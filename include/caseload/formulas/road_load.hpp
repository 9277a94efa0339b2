// SPDX-License-Identifier: MIT
// Force a vehicle needs at its wheels.
#pragma once

namespace caseload::road_load {

/// Rotating mass of wheels and driveline seen at the wheel. Judgement, after four wheels of 8 kg m2
/// on a 2.5 t car (5.5 %).
inline constexpr double rotating_mass_factor = 1.06;

struct Car {
    double mass_kg;
    double drag_area_m2;
    double rotating_mass_factor;  ///< >= 1; counts for acceleration only
};

struct Ground {
    double resistance;  ///< force / wheel load
    double grade;       ///< rise / run
    double speed_mps;
    double acceleration_mps2;
    double air_density_kgpm3;
};

/// F = m g (f cos th + sin th) + rho CdA v^2 / 2 + m k a, th = atan(grade). Still air.
///
/// Range    mass > 0; drag area, resistance, speed, density >= 0; factor >= 1; grade -1 to 1.
/// Source   gillespie-1992, road-load
[[nodiscard]] double force_N(const Car& car, const Ground& ground);

struct Driveline {
    double rolling_radius_m;
    double axle_ratio;
    double drop_ratio;  ///< n_in / n_out of the case
};

/// Lever of the force at the wheels about the case input, without loss and slip:
///
///     L = r / (i_a i_d),   T_in = F L,   omega_in = v / L
///
/// Range    all > 0.
/// Source   gillespie-1992, driveline
[[nodiscard]] double input_lever_m(const Driveline& driveline);

}  // namespace caseload::road_load
