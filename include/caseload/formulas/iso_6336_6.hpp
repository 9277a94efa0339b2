// SPDX-License-Identifier: MIT
// ISO 6336-6: life of teeth under changing load. Curves of load cycles over stress, straight lines
// on double logarithmic paper.
#pragma once

#include <span>

namespace caseload::iso_6336_6 {

/// Stress a tooth endures for so many cycles, over its endurance limit.
struct LifePoint {
    double cycles;
    double factor;
};

/// Points of rising cycles and falling factor, at least two.
using LifeCurve = std::span<const LifePoint>;

/// Cycles until failure at a stress, straight between the points on double logarithmic paper. A
/// tooth has one cycle a turn on each flank that carries load; an idler's carry on both.
/// stress_ratio: stress over the endurance limit (life factor 1).
///
/// Returns  1 above the first point (static failure), infinity below the last.
/// Range    stress_ratio >= 0.
/// Source   iso-6336-6, allowed-cycles
[[nodiscard]] double allowed_cycles(LifeCurve curve, double stress_ratio);

/// Part of the life one cycle takes (Miner's sum): 1 / allowed cycles.
///
/// Returns  0 below the last point, 1 above the first.
/// Note     no damage below the last point is a choice; running its last line on would be harder.
/// Source   iso-6336-6, damage
[[nodiscard]] double damage_per_cycle(LifeCurve curve, double stress_ratio);

}  // namespace caseload::iso_6336_6
