// SPDX-License-Identifier: MIT
// Oil pumps.
#pragma once

namespace caseload::pump {

struct Pump {
    double flow_Lpmin;
    double pressure_Pa;
    double efficiency;  ///< overall
};

/// Shaft power P = dp Q / eta.
/// Source   esposito-fluid-power, 5.8
[[nodiscard]] double shaft_power_W(const Pump& pump);

struct GearPump {
    double outside_mm;
    double inside_mm;
    double width_mm;
    double n_rpm;
};

/// Theoretical flow of an external gear pump: (pi/4)(D_o^2 - D_i^2) L n.
/// Source   esposito-fluid-power, 5.2
[[nodiscard]] double theoretical_flow_Lpmin(const GearPump& pump);

}  // namespace caseload::pump
