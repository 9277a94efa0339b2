// SPDX-License-Identifier: MIT
// Universal joint with a frictionless cross. phase 0: the driving pins stand across the plane of
// the two shafts.
#pragma once

namespace caseload::cardan {

struct JointState {
    double torque_Nm;  ///< of the driving shaft
    double angle_rad;
    double phase_rad;
};

/// Secondary couple on the driving shaft: vector components in the plane of the shafts and across.
struct CoupleInPlane {
    double in_plane_Nm;
    double across_Nm;
};

/// M_in = (T tan b / 2)(1 + cos 2 phi), M_across = -(T tan b / 2) sin 2 phi: a steady half and one of
/// equal size that turns twice a revolution.
/// Source   cardan-statics, driving-couple
[[nodiscard]] CoupleInPlane driving_shaft_couple(const JointState& state);

/// Speed of the driven over the driving shaft: cos b / (1 - sin^2 b sin^2 phi).
/// Source   cardan-statics, speed-ratio
[[nodiscard]] double speed_ratio(const JointState& state);

}  // namespace caseload::cardan
