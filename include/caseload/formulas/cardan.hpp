// SPDX-License-Identifier: MIT
// Universal joint with a frictionless cross. phase 0: the driving pins lie across the plane of
// the two shafts, and the driven shaft is slowest.
#pragma once

namespace caseload::cardan {

struct JointState {
    double torque_Nm;  ///< of the driving shaft
    double angle_rad;  ///< between the shafts
    double phase_rad;  ///< rotation of the driving shaft
};

/// Secondary couple on the driving shaft: vector components in the plane of the shafts and across.
struct CoupleInPlane {
    double in_plane_Nm;
    double across_Nm;
};

/// The cross passes a couple only along its own normal; what of it does not turn the driving shaft
/// bends it:
///
///     M_in = (T tan b / 2)(1 + cos 2 phi)      M_across = -(T tan b / 2) sin 2 phi
///
/// a steady half and one of equal size that turns twice a revolution; magnitude T tan b |cos phi|.
///
/// Range    angle 0 to 60 deg.
/// Source   cardan-statics, driving-couple
[[nodiscard]] CoupleInPlane driving_shaft_couple(const JointState& state);

}  // namespace caseload::cardan
