// SPDX-License-Identifier: MIT
#include "caseload/formulas/gear_forces.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::gear_forces {

Forces forces(const Mesh& mesh) {
    constexpr Limits angles{0, rad_from_deg(60)};
    require_not_negative(mesh.torque_Nm, "torque_Nm");
    require_positive(mesh.d_w_mm, "d_w_mm");
    require_within(mesh.alpha_wt_rad, angles, "alpha_wt_rad");
    require_within(mesh.beta_w_rad, angles, "beta_w_rad");
    const double F_t_N = mesh.torque_Nm / m_from_mm(mesh.d_w_mm / 2);
    return {.F_t_N = F_t_N,
            .F_r_N = F_t_N * std::tan(mesh.alpha_wt_rad),
            .F_a_N = F_t_N * std::tan(mesh.beta_w_rad),
            .F_bt_N = F_t_N / std::cos(mesh.alpha_wt_rad)};
}

}  // namespace caseload::gear_forces
