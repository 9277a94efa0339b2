// SPDX-License-Identifier: MIT
// Power a seated person absorbs from a seat that shakes up and down: what limits a driver's speed
// on rough ground. 6 W is the limit of military ride tests.
#pragma once

#include "caseload/formulas/quarter_car.hpp"

namespace caseload::absorbed_power {

/// W for each (m/s2)^2 of mean square acceleration at one frequency: |H|^2 of the filter
///
///     H(s) = 14.5 s (s + 44) / ((s + 63) (s^2 + 24 s + 750))        acceleration in ft/s2
///
/// The continuous form is derived from the digital filter of the source, by the bilinear
/// transformation.
///
/// Range    frequency > 0.
/// Source   chrono-filters, absorbed-power
[[nodiscard]] double per_acceleration_Ws4pm2(double frequency_Hz);

/// Absorbed power on the body of a corner for a velocity density of the ground of 1 (m/s)^2/Hz,
/// W s/m2: the integral of |H s^2 z_s / w|^2 from 0.1 to 40 Hz by trapezia, 1500 equal steps of
/// ln f.
///
/// Range    members of the corner > 0.
/// Source   chrono-filters, corner
[[nodiscard]] double of_corner_Wspm2(const quarter_car::Corner& corner);

}  // namespace caseload::absorbed_power
