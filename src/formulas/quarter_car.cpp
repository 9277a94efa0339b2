// SPDX-License-Identifier: MIT
#include "caseload/formulas/quarter_car.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/road_roughness.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::quarter_car {
namespace {

void check(const Corner& corner) {
    require_positive(corner.sprung_kg, "sprung_kg");
    require_positive(corner.unsprung_kg, "unsprung_kg");
    require_positive(corner.spring_Npm, "spring_Npm");
    require_positive(corner.damper_Nspm, "damper_Nspm");
    require_positive(corner.tyre_Npm, "tyre_Npm");
}

}  // namespace

Corner corner(const Body& body) {
    require_positive(body.corner_kg, "corner_kg");
    require_within(body.unsprung_share, {0.001, 0.9}, "unsprung_share");
    require_positive(body.frequency_Hz, "frequency_Hz");
    require_within(body.damping, {0.001, 2}, "damping");
    require_positive(body.tyre_Npm, "tyre_Npm");
    const double unsprung_kg = body.corner_kg * body.unsprung_share;
    const double sprung_kg = body.corner_kg - unsprung_kg;
    const double omega_radps = 2 * pi * body.frequency_Hz;
    const double spring_Npm = sprung_kg * omega_radps * omega_radps;
    return {sprung_kg, unsprung_kg, spring_Npm,
            2 * body.damping * std::sqrt(spring_Npm * sprung_kg), body.tyre_Npm};
}

double travel_variance_s(const Corner& corner) {
    check(corner);
    return (corner.sprung_kg + corner.unsprung_kg) / (4 * corner.damper_Nspm);
}

double damper_power_Npm(double tyre_Npm) {
    require_positive(tyre_Npm, "tyre_Npm");
    return tyre_Npm / 4;
}

double resistance_pm3(double tyre_deflection_m) {
    require_positive(tyre_deflection_m, "tyre_deflection_m");
    // Per N of weight and m/s; both fall out of 4 P / (v W).
    const double tyre_Npm = 1 / (4 * tyre_deflection_m);
    return 4 * damper_power_Npm(tyre_Npm) * road_roughness::velocity_density_m(1);
}

double acceleration_gain_ps2(const Corner& corner, double frequency_Hz) {
    check(corner);
    require_positive(frequency_Hz, "frequency_Hz");
    const double omega_radps = 2 * pi * frequency_Hz;
    const double omega2 = omega_radps * omega_radps;
    const double k = corner.spring_Npm;
    const double c2_omega2 = corner.damper_Nspm * corner.damper_Nspm * omega2;
    const double body_part = k - corner.sprung_kg * omega2;
    const double wheel_part = k + corner.tyre_Npm - corner.unsprung_kg * omega2;
    const double real = body_part * wheel_part - k * k;
    const double imaginary = corner.tyre_Npm - (corner.sprung_kg + corner.unsprung_kg) * omega2;
    return omega2 * corner.tyre_Npm * corner.tyre_Npm * (k * k + c2_omega2) /
           (real * real + c2_omega2 * imaginary * imaginary);
}

}  // namespace caseload::quarter_car
