// SPDX-License-Identifier: MIT
#include "caseload/formulas/oil_thermal.hpp"

#include "caseload/error.hpp"

namespace caseload::oil_thermal {
namespace {

void check(double temp_degC) {
    require_within(temp_degC, {-60, 400}, "temp_degC");
}

}  // namespace

double specific_heat_JpkgK(BaseOil base, double temp_degC) {
    check(temp_degC);
    return base == BaseOil::mineral ? 1810 + 4.2 * temp_degC : 2050 + 3.3 * temp_degC;
}

double conductivity_WpmK(BaseOil base, double temp_degC) {
    check(temp_degC);
    const double above_60_K = temp_degC - 60;
    return base == BaseOil::mineral ? 0.1405 - 1.1e-4 * above_60_K : 0.147 - 1.4e-4 * above_60_K;
}

}  // namespace caseload::oil_thermal
