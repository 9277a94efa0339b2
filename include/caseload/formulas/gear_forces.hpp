// SPDX-License-Identifier: MIT
// Tooth forces on working pitch cylinders.
#pragma once

namespace caseload::gear_forces {

struct Mesh {
    double torque_Nm;  ///< of the gear whose d_w is given, magnitude
    double d_w_mm;
    double alpha_wt_rad;
    double beta_w_rad;  ///< 0: spur
};

/// Magnitudes. F_t acts on the driven gear along its motion and on the driver against it; F_r
/// points to the own axis; F_a runs along +axis as hand (right +1) x rotation about +axis x (driver
/// +1, driven -1).
struct Forces {
    double F_t_N;
    double F_r_N;
    double F_a_N;
    double F_bt_N;  ///< transverse, along the line of action
};

///     F_t = 2000 T / d_w    F_r = F_t tan a_wt    F_a = F_t tan b_w    F_bt = F_t / cos a_wt
///
/// Range    T >= 0, d_w > 0, alpha_wt 0 to 60 deg, beta_w 0 to 60 deg.
/// Note     with reference diameter and angles these are the forces ISO 6336 works with.
/// Source   gear-statics, tooth-forces
[[nodiscard]] Forces forces(const Mesh& mesh);

}  // namespace caseload::gear_forces
