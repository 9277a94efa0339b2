// SPDX-License-Identifier: MIT
#include "caseload/formulas/gear_forces.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::gear_forces {

Forces forces(const Mesh& mesh) {
    require_not_negative(mesh.torque_Nm, "torque_Nm");
    require_positive(mesh.d_w_mm, "d_w_mm");
    const double F_t_N = 2000 * mesh.torque_Nm / mesh.d_w_mm;
    return {.F_t_N = F_t_N,
            .F_r_N = F_t_N * std::tan(mesh.alpha_wt_rad),
            .F_a_N = F_t_N * std::tan(mesh.beta_w_rad),
            .F_bt_N = F_t_N / std::cos(mesh.alpha_wt_rad)};
}

}  // namespace caseload::gear_forces
