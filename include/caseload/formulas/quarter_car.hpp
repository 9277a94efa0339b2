// SPDX-License-Identifier: MIT
// One corner of a car on ground whose vertical velocity is white (road_roughness.hpp). Linear, the
// wheel always on the ground: closed forms, derived from the transfer functions.
#pragma once

namespace caseload::quarter_car {

struct Corner {
    double sprung_kg;
    double unsprung_kg;
    double spring_Npm;   ///< at the wheel
    double damper_Nspm;  ///< at the wheel
    double tyre_Npm;
};

/// Corner of a car from a frequency and a damping ratio of its body:
///
///     k = m_s (2 pi f)^2,   c = 2 D sqrt(k m_s)
struct Body {
    double corner_kg;       ///< sprung and unsprung
    double unsprung_share;  ///< of that
    double frequency_Hz;
    double damping;  ///< ratio to critical
    double tyre_Npm;
};

/// Range    all > 0; unsprung share below 1; damping up to 2.
/// Source   quarter-car, body
[[nodiscard]] Corner corner(const Body& body);

/// Mean square of wheel travel for a velocity density of 1 (m/s)^2/Hz, s (m2 over m2/s):
///
///     sigma_z^2 / G_v = M / (4 c),   M = m_s + m_u
///
/// Range    all members > 0.
/// Source   quarter-car, travel
[[nodiscard]] double travel_variance_s(const Corner& corner);

/// Power lost in one damper for a velocity density of 1 (m/s)^2/Hz, N/m (W over m2/s), whatever the
/// suspension:
///
///     P / G_v = k_t / 4
///
/// Range    tyre stiffness > 0.
/// Source   quarter-car, damper
[[nodiscard]] double damper_power_Npm(double tyre_Npm);

/// Resistance of four such corners over the car's weight, by the power of its dampers, for each m3
/// of roughness:
///
///     f_rough / G = 4 P / (v W G) = pi^2 n0^2 / delta,   delta = W / (4 k_t)
///
/// That it depends on stiffness and roughness only is also what a theory for bicycles finds
/// (arXiv 2405.00019, abstract).
///
/// Range    static tyre deflection > 0. Wheels that leave the ground make f_rough too large above
///          about 0.12 (judgement, 0.08 to 0.20): the caller limits it.
/// Source   quarter-car, resistance
[[nodiscard]] double resistance_pm3(double tyre_deflection_m);

/// Square of the body's acceleration over the ground's vertical velocity at a frequency, 1/s2.
///
/// Range    all > 0.
/// Source   quarter-car, acceleration
[[nodiscard]] double acceleration_gain_ps2(const Corner& corner, double frequency_Hz);

}  // namespace caseload::quarter_car
