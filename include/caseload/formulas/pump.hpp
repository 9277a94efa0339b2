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

}  // namespace caseload::pump
