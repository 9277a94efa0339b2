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

}  // namespace caseload::cardan
