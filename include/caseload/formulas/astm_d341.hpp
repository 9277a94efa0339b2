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

    bool operator==(const Line&) const = default;
};

/// Line through the viscosities at 40 and 100 degC.
///
///     log log Z = A - B log T,   T in K
///     Z = nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2)
///
/// Range    2e7 > nu_40C > nu_100C >= 0.21 mm2/s; an oil that does not thin throws.
/// Note     the exponential matters below 2 mm2/s only: a thin gear oil above 170 degC. Its numbers
///          are from memory; they agree with the long form, also from memory, within 0.11 % from
///          0.5 to 5 mm2/s. Older DIN texts use 0.8 for 0.7: below 1 % apart at 150 degC for a
///          75W-90.
/// Source   astm-d341, eq-1
[[nodiscard]] Line line(const TwoPoints& points);

/// Viscosity on the line.
///
///     nu = (Z - 0.7) - exp(-0.7487 - 3.295 (Z-0.7) + 0.6119 (Z-0.7)^2 - 0.3193 (Z-0.7)^3)
///
/// Given    a Newtonian liquid between cloud and boiling point.
/// Range    temp_degC from -60 to 400.
/// Note     +-3 % from 20 to 130 degC is realistic for a gear oil, 10 % up to 160; below 0 degC an
///          oil with polymer may be off by a factor of 2.
/// Source   astm-d341, eq-2
[[nodiscard]] double viscosity_mm2ps(const Line& line, double temp_degC);

/// The same and its slope over temperature.
/// Source   astm-d341, eq-2
struct ViscosityAt {
    double nu_mm2ps;
    double slope_mm2psK;
};
[[nodiscard]] ViscosityAt viscosity_and_slope(const Line& line, double temp_degC);

}  // namespace caseload::astm_d341
