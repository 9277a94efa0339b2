// SPDX-License-Identifier: MIT
#include "caseload/formulas/radiation.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

namespace caseload::radiation {

double coefficient_Wpm2K(double emissivity, const Pair& pair) {
    constexpr double sigma = 5.670374e-8;
    require_within(emissivity, {0, 1}, "emissivity");
    require_within(pair.surface_degC, {-100, 1000}, "surface_degC");
    require_within(pair.surroundings_degC, {-100, 1000}, "surroundings_degC");
    const double T_s = K_from_degC(pair.surface_degC);
    const double T_r = K_from_degC(pair.surroundings_degC);
    return emissivity * sigma * (T_s + T_r) * (T_s * T_s + T_r * T_r);
}

}  // namespace caseload::radiation
