// SPDX-License-Identifier: MIT
// Mass and inertia of an off-road wheel, tyre and rim together, from the tyre's outside diameter.
#pragma once

namespace caseload::wheel_inertia {

/// 55 kg (D / 0.94 m)^2.5. Judgement, a factor of 1.25 either way.
///
/// Range    outside diameter 0.3 to 1.5 m.
/// Source   wheel-estimate, mass
[[nodiscard]] double mass_kg(double tyre_m);

struct Wheel {
    double mass_kg;
    double tyre_m;  ///< outside diameter
};

/// J = 0.55 m (D / 2)^2. Judgement, 0.50 to 0.65.
///
/// Range    mass > 0, outside diameter 0.3 to 1.5 m.
/// Source   wheel-estimate, inertia
[[nodiscard]] double inertia_kgm2(const Wheel& wheel);

}  // namespace caseload::wheel_inertia
