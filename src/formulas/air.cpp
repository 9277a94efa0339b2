// SPDX-License-Identifier: MIT
#include "caseload/formulas/air.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>
#include <numbers>

namespace caseload::us_standard_atmosphere {

Air air(const AirState& state) {
    require_within(state.temp_degC, {-100, 500}, "temp_degC");
    require_positive(state.pressure_Pa, "pressure_Pa");
    const double T = K_from_degC(state.temp_degC);
    const double root_T3 = T * std::sqrt(T);
    Air air{};
    air.density_kgpm3 = state.pressure_Pa / (287.05 * T);
    air.mu_Pas = 1.458e-6 * root_T3 / (T + 110.4);
    air.nu_m2ps = air.mu_Pas / air.density_kgpm3;
    air.k_WpmK = 2.64638e-3 * root_T3 / (T + 245.4 * std::exp(-12 / T * std::numbers::ln10));
    air.cp_JpkgK = 1030.5 - 0.19975 * T + 3.9734e-4 * T * T;
    air.Pr = air.mu_Pas * air.cp_JpkgK / air.k_WpmK;
    air.beta_1pK = 1 / T;
    return air;
}

double pressure_Pa(double altitude_m) {
    require_within(altitude_m, {-500, 11000}, "altitude_m");
    return 101325 * std::pow(1 - 2.25577e-5 * altitude_m, 5.25588);
}

}  // namespace caseload::us_standard_atmosphere
