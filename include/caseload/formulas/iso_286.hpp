// SPDX-License-Identifier: MIT
// ISO 286: limits of size of bores that hold outer rings. Values from memory of the standard;
// the bands are composed here by its own rule, and the widths and deviations agree with its
// formulas to rounding.
#pragma once

#include <string_view>

namespace caseload::iso_286 {

/// Deviations from the nominal size, at 20 degC.
struct Band {
    double lower_mm;
    double upper_mm;
};

/// Nominal sizes covered. 80 itself belongs to the standard's range over 50 to 80.
inline constexpr double least_size_mm = 80;
inline constexpr double largest_size_mm = 250;

/// Whether `hole_band_mm` has this tolerance class: H, J, K, M, N, P of grades 6 and 7.
/// Source   iso-286-2-2010, hole-names
[[nodiscard]] bool is_hole_class(std::string_view name);

/// Tolerance band of a bore, for example "N7" at 170 mm.
///
///     width IT of the grade;  H: lower deviation 0;  J: upper deviation from the table
///     K, M, N, P: upper deviation = Delta - (k, m, n, p of shafts), Delta = IT - IT one grade
///     finer
///
/// Range    nominal size from 80 to 250 mm; a class of `is_hole_class`.
/// Source   iso-286-2-2010, hole-bands
[[nodiscard]] Band hole_band_mm(std::string_view name, double size_mm);

}  // namespace caseload::iso_286
