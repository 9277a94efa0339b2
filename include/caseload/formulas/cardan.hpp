// SPDX-License-Identifier: MIT
// Universal joint with a frictionless cross. phase 0: the driving pins stand across the plane of
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

struct JointMotion {
    double angle_rad;
    double phase_rad;
};

/// Speed of the driven over the driving shaft: cos b / (1 - sin^2 b sin^2 phi).
/// Source   cardan-statics, speed-ratio
[[nodiscard]] double speed_ratio(const JointMotion& motion);

/// Fastest less slowest driven speed over the driving speed: sin b tan b.
/// Source   cardan-statics, fluctuation
[[nodiscard]] double fluctuation(double angle_rad);

/// Joint angle that gives a fluctuation q: cos b = (sqrt(q^2 + 4) - q) / 2.
/// Source   cardan-statics, angle
[[nodiscard]] double angle_of_fluctuation_rad(double fluctuation);

struct Spinning {
    double omega_radps;  ///< of the driving shaft, steady
    double angle_rad;
};

/// Largest acceleration of the driven shaft over a turn, exact. With s = sin b and D = 1 - s^2
/// (1+c)/2, c = cos 2 theta where it occurs solves s^2 c^2 / 2 + (1 - s^2/2) c - s^2 = 0:
///
///     omega^2 cos b s^2 sqrt(1 - c^2) / D^2
///
/// Source   cardan-statics, acceleration
[[nodiscard]] double peak_acceleration_radps2(const Spinning& shaft);

}  // namespace caseload::cardan
