// SPDX-License-Identifier: MIT
// Tooth forces on working pitch cylinders.
#pragma once

namespace caseload::gear_forces {

struct Mesh {
    double torque_Nm;
    double d_w_mm;
    double alpha_wt_rad;
    double beta_w_rad;
};

struct Forces {
    double F_t_N;
    double F_r_N;
    double F_a_N;
    double F_bt_N;  ///< along the line of action
};

/// F_t = 2000 T / d_w; F_r = F_t tan a_wt; F_a = F_t tan b_w; F_bt = F_t / cos a_wt.
/// Source   gear-statics, tooth-forces
[[nodiscard]] Forces forces(const Mesh& mesh);

}  // namespace caseload::gear_forces
