// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_d1250.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::astm_d1250 {

double density_kgpm3(const At& at) {
    require_within(at.density_15C_kgpm3, {750, 1200}, "density_15C_kgpm3");
    require_within(at.temp_degC, {-60, 400}, "temp_degC");
    const double a = 0.6278 / at.density_15C_kgpm3;
    const double dT = at.temp_degC - 15;
    return at.density_15C_kgpm3 * std::exp(-a * dT * (1 + 0.8 * a * dT));
}

}  // namespace caseload::astm_d1250
