// SPDX-License-Identifier: MIT
#pragma once

#include <cmath>

namespace caseload {

/// x^(1/4), many times faster than std::pow.
inline double fourth_root(double x) {
    return std::sqrt(std::sqrt(x));
}

}  // namespace caseload
