// SPDX-License-Identifier: MIT
// ASTM D341: kinematic viscosity of a petroleum liquid against temperature. Pure functions.
#pragma once

namespace caseload::astm_d341 {

struct TwoPoints {
    double nu_40C_mm2ps;
    double nu_100C_mm2ps;
};

/// Straight line of log10 log10 Z over log10 T.
struct Line {
    double A;
    double B;
};

/// Line through the viscosities at 40 and 100 degC.
///
///     log log Z = A - B log T,   T in K
///     Z = nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2)
///
/// Given    nu_40C > nu_100C > 0.21 mm2/s.
/// Source   astm-d341, eq-1
[[nodiscard]] Line line(const TwoPoints& points);

/// Viscosity on the line.
///
///     nu = (Z - 0.7) - exp(-0.7487 - 3.295 (Z-0.7) + 0.6119 (Z-0.7)^2 - 0.3193 (Z-0.7)^3)
///
/// Given    temp_degC from -60 to 400; the standard wants a Newtonian liquid between cloud and
///          boiling point; +-3 % from 20 to 130 degC is realistic for a gear oil.
/// Source   astm-d341, eq-2
[[nodiscard]] double viscosity_mm2ps(const Line& line, double temp_degC);

}  // namespace caseload::astm_d341
