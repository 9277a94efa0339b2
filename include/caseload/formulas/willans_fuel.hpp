// SPDX-License-Identifier: MIT
// Fuel of an engine by a straight line over its power.
#pragma once

namespace caseload::willans_fuel {

struct Engine {
    double rated_W;
    double drag_share;  ///< power for its own friction over rated power, at any load
    double efficiency;  ///< indicated: of the fuel's power before that friction
};

/// Power of the fuel burnt:
///
///     (P_e + 0.07 P_r) / eta_i        eta_i 0.33 at part load, 0.30 at full load (rich)
///
/// The constants are judgement, drag share 0.04 to 0.10, eta_i 0.30 to 0.36: 20 to 28 % overall at
/// race loads.
///
/// Range    power >= 0; rated power > 0; drag share 0 to 0.3, efficiency 0.1 to 0.6.
/// Source   willans-line, fuel
[[nodiscard]] double fuel_power_W(const Engine& engine, double power_W);

}  // namespace caseload::willans_fuel
