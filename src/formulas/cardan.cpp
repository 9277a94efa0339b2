// SPDX-License-Identifier: MIT
#include "caseload/formulas/cardan.hpp"

#include <cmath>

namespace caseload::cardan {

CoupleInPlane driving_shaft_couple(const JointState& state) {
    const double half_Nm = state.torque_Nm * std::tan(state.angle_rad) / 2;
    return {.in_plane_Nm = half_Nm * (1 + std::cos(2 * state.phase_rad)),
            .across_Nm = -half_Nm * std::sin(2 * state.phase_rad)};
}

double speed_ratio(const JointState& state) {
    const double s = std::sin(state.angle_rad) * std::sin(state.phase_rad);
    return std::cos(state.angle_rad) / (1 - s * s);
}

}  // namespace caseload::cardan
