// SPDX-License-Identifier: MIT
// ISO 5753-1: radial internal clearance of bearings as delivered, before any fit
// (tables/iso_5753.toml, from memory).
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

#include <optional>

namespace caseload::iso_5753 {

enum class Class { C2, CN, C3, C4, C5 };

/// Bores the table has: over this, up to that.
inline constexpr double over_bore_mm = 30;
inline constexpr double largest_bore_mm = 200;

/// On diameter.
struct Clearance {
    double least_mm;
    double largest_mm;
};

/// Radial internal clearance by class and bore, cylindrical bore.
///
/// Range    bore over 30 up to 200 mm; otherwise throws Error{domain}.
/// Returns  none for kinds without such a class: the clearance of angular contact, four-point and
///          tapered bearings is axial, or set at mounting. Spherical: no table here.
/// Source   iso-5753-1-2009, radial-clearance
[[nodiscard]] std::optional<Clearance> radial_clearance_mm(BearingKind kind, Class clearance_class,
                                                           double bore_mm);

}  // namespace caseload::iso_5753
