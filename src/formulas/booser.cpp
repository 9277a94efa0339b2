// SPDX-License-Identifier: MIT
#include "caseload/formulas/booser.hpp"

#include "caseload/units.hpp"

#include <cmath>

namespace caseload::booser {

double oxidation_life_h(const Dose& dose) {
    return std::pow(10, dose.k1 + 4750 / K_from_degC(dose.temp_degC));
}

}  // namespace caseload::booser
