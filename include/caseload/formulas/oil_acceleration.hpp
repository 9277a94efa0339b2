// SPDX-License-Identifier: MIT
// Oil met by teeth and thrown.
#pragma once

namespace caseload::oil_acceleration {

struct Thrown {
    double mass_flow_kgps;  ///< that strikes teeth
    double v_mps;           ///< pitch-line speed
    double jet_speed_mps;   ///< along the teeth's motion
    double rehit;           ///< times the same oil is met: judgement, 1.5 good drain to 3 poor
};

/// Shaft power P = m v (v - v_j) rehit: change of momentum; all of it ends as heat. Not below 0: a
/// jet faster than the teeth is not taken to drive them.
///
/// Range    all >= 0.
/// Source   momentum, thrown-oil
[[nodiscard]] double power_W(const Thrown& oil);

}  // namespace caseload::oil_acceleration
