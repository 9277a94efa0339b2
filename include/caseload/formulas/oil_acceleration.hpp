// SPDX-License-Identifier: MIT
// Oil met by teeth and thrown.
#pragma once

namespace caseload::oil_acceleration {

struct Thrown {
    double mass_flow_kgps;
    double v_mps;          ///< pitch-line speed
    double jet_speed_mps;
    double rehit;          ///< times the same oil is met
};

/// Shaft power P = m v (v - v_j) rehit, not below 0: momentum; all of it ends as heat.
/// Source   momentum, thrown-oil
[[nodiscard]] double power_W(const Thrown& oil);

}  // namespace caseload::oil_acceleration
