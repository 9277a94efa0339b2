// SPDX-License-Identifier: MIT
// Oil pumps.
#pragma once

namespace caseload::pump {

struct Pump {
    double flow_Lpmin;   ///< delivered
    double pressure_Pa;  ///< rise
    double efficiency;   ///< overall: volumetric times hydraulic-mechanical
};

/// Shaft power P = dp Q / eta. In a closed circuit all of it ends as heat in the oil.
///
/// Range    flow and pressure >= 0; efficiency 0.01 to 1.
/// Source   esposito-fluid-power, 5.8
[[nodiscard]] double shaft_power_W(const Pump& pump);

struct GearPump {
    double outside_mm;
    double inside_mm;
    double width_mm;
    double n_rpm;
};

/// Theoretical flow of an external gear pump: (pi/4)(D_o^2 - D_i^2) L n.
///
/// Range    outside > inside >= 0.
/// Source   esposito-fluid-power, 5.2
[[nodiscard]] double theoretical_flow_Lpmin(const GearPump& pump);

}  // namespace caseload::pump
