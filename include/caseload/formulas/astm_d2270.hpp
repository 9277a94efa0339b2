// SPDX-License-Identifier: MIT
// ASTM D2270 / ISO 2909: viscosity index. L and H from tables/astm_d2270.csv.
#pragma once

#include "caseload/formulas/astm_d341.hpp"

namespace caseload::astm_d2270 {

/// L: viscosity at 40 degC of an oil of index 0 with this viscosity at 100 degC. Linear in the
/// table up to 70 mm2/s, above it
///
///     L = 0.8353 Y^2 + 14.67 Y - 216
///
/// Range    nu_100C_mm2ps from 2 to 10000.
/// Source   astm-d2270, table1-L
[[nodiscard]] double L_mm2ps(double nu_100C_mm2ps);

/// H: the same for index 100; above 70 mm2/s
///
///     H = 0.1684 Y^2 + 11.85 Y - 97
///
/// Source   astm-d2270, table1-H
[[nodiscard]] double H_mm2ps(double nu_100C_mm2ps);

/// Viscosity index, not rounded, of an oil with U at 40 and Y at 100 degC.
///
///     U >= H   VI = 100 (L - U) / (L - H)
///     U <  H   VI = 100 + (10^N - 1) / 0.00715,   N = (log H - log U) / log Y
///
/// Range    Y from 2 to 10000, U > Y.
/// Source   astm-d2270, index
[[nodiscard]] double viscosity_index(const astm_d341::TwoPoints& points);

/// Index as reported: the nearest integer, halves to the even one.
/// Source   astm-d2270, report
[[nodiscard]] int rounded_index(double index);

struct HundredAndIndex {
    double nu_100C_mm2ps;
    double index;
};

/// Viscosity at 40 degC behind an index: viscosity_index() solved for U.
///
/// Range    index from -100 to 400.
/// Source   astm-d2270, inverse
[[nodiscard]] double nu_40C_mm2ps(const HundredAndIndex& oil);

}  // namespace caseload::astm_d2270
