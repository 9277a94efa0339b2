// SPDX-License-Identifier: MIT
#include "caseload/formulas/cardan.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::cardan {
namespace {

void check_angle(double angle_rad) {
    constexpr Limits angles{0, rad_from_deg(60)};
    require_within(angle_rad, angles, "angle_rad");
}

}  // namespace

CoupleInPlane driving_shaft_couple(const JointState& state) {
    check_angle(state.angle_rad);
    const double half_Nm = state.torque_Nm * std::tan(state.angle_rad) / 2;
    return {.in_plane_Nm = half_Nm * (1 + std::cos(2 * state.phase_rad)),
            .across_Nm = -half_Nm * std::sin(2 * state.phase_rad)};
}

double speed_ratio(const JointMotion& motion) {
    check_angle(motion.angle_rad);
    const double s = std::sin(motion.angle_rad) * std::sin(motion.phase_rad);
    return std::cos(motion.angle_rad) / (1 - s * s);
}

double fluctuation(double angle_rad) {
    check_angle(angle_rad);
    return std::sin(angle_rad) * std::tan(angle_rad);
}

double angle_of_fluctuation_rad(double fluctuation) {
    require_within(fluctuation, {0, 1.5}, "fluctuation");
    return std::acos((std::sqrt(fluctuation * fluctuation + 4) - fluctuation) / 2);
}

double peak_acceleration_radps2(const Spinning& shaft) {
    check_angle(shaft.angle_rad);
    require_not_negative(shaft.omega_radps, "omega_radps");
    const double s2 = std::sin(shaft.angle_rad) * std::sin(shaft.angle_rad);
    if (s2 == 0) return 0;
    // Root of the quadratic in the form that stays accurate for small angles.
    const double half = 1 - s2 / 2;
    const double c = 2 * s2 / (half + std::sqrt(half * half + 2 * s2 * s2));
    const double D = 1 - s2 * (1 + c) / 2;
    return shaft.omega_radps * shaft.omega_radps * std::cos(shaft.angle_rad) * s2 *
           std::sqrt(1 - c * c) / (D * D);
}

}  // namespace caseload::cardan
