// SPDX-License-Identifier: MIT
// Dry air of the US Standard Atmosphere 1976.
#pragma once

namespace caseload::us_standard_atmosphere {

struct AirState {
    double temp_degC;
    double pressure_Pa;
};

struct Air {
    double density_kgpm3;
    double mu_Pas;
    double nu_m2ps;
    double k_WpmK;
    double cp_JpkgK;
    double Pr;
    double beta_1pK;
};

/// Properties of dry air, T in K.
///
///     rho = p / (287.05 T)
///     mu  = 1.458e-6 T^1.5 / (T + 110.4)
///     k   = 2.64638e-3 T^1.5 / (T + 245.4 * 10^(-12/T))
///     cp  = 1030.5 - 0.19975 T + 3.9734e-4 T^2
///
/// Range    -100 to 500 degC, pressure_Pa > 0.
/// Note     cp is not of the standard atmosphere but a fit from memory: within 0.1 % of the air
///          table of Incropera at 300, 350 and 400 K. Moisture moves a film coefficient by < 2 %.
/// Source   us-standard-atmosphere-1976, eq-51
[[nodiscard]] Air air(const AirState& state);

/// Pressure at an altitude.
///
///     p = 101325 (1 - 2.25577e-5 h)^5.25588
///
/// Range    -500 to 11000 m.
/// Note     the usual short form, from memory; within 0.05 % of the standard's own layer formula up
/// to
///          4500 m.
/// Source   us-standard-atmosphere-1976, eq-33a
[[nodiscard]] double pressure_Pa(double altitude_m);

}  // namespace caseload::us_standard_atmosphere
