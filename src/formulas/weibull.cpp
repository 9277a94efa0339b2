// SPDX-License-Identifier: MIT
#include "caseload/formulas/weibull.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::weibull {

double characteristic_life(double slope) {
    require_positive(slope, "slope");
    return std::pow(std::log(1 / 0.9), -1 / slope);
}

}  // namespace caseload::weibull
