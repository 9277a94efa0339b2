// SPDX-License-Identifier: MIT
// ISO 492: outside diameter of radial bearings of normal tolerance class. From memory, without an
// independent test. Tapered bearings have the same limits.
#pragma once

#include "caseload/formulas/iso_286.hpp"

#include <string_view>

namespace caseload::iso_492 {

/// Deviations of the mean outside diameter: 0 down to -13, -15, -18, -25, -30 um up to 80, 120,
/// 150, 180, 250 mm.
///
/// Range    outside diameter from 80 to 250 mm.
/// Source   iso-492-2014, outside-diameter
[[nodiscard]] iso_286::Band outside_band_mm(double outside_mm);

/// Interference of a ring in its bore, on diameter; negative: clearance.
struct Interference {
    double least_mm;
    double largest_mm;
};

/// Interference a named fit can give: smallest ring in the largest bore, largest ring in the
/// smallest.
///
/// Range    as `outside_band_mm` and `iso_286::hole_band_mm`.
/// Note     parts at both limits together are rare; the middle is what most pairs come near.
/// Source   iso-286-1-2010, interference
[[nodiscard]] Interference seat_interference_mm(std::string_view hole_class, double outside_mm);

}  // namespace caseload::iso_492
