// SPDX-License-Identifier: MIT
#include "caseload/formulas/oil_thermal.hpp"

#include "caseload/error.hpp"

namespace caseload::oil_thermal {

double specific_heat_JpkgK(BaseOil base, double temp_degC) {
    require_within(temp_degC, {-60, 400}, "temp_degC");
    return base == BaseOil::mineral ? 1810 + 4.2 * temp_degC : 2050 + 3.3 * temp_degC;
}

}  // namespace caseload::oil_thermal
