// SPDX-License-Identifier: MIT
#include "caseload/formulas/booser.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::booser {

double oxidation_life_h(const Dose& dose) {
    require_within(dose.k1, {-12, -7}, "k1");
    require_within(dose.temp_degC, {-100, 500}, "temp_degC");
    return std::pow(10, log10_oxidation_life(dose));
}

}  // namespace caseload::booser
