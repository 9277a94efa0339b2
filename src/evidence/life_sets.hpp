// SPDX-License-Identifier: MIT
// Life data with published fits.
#pragma once

#include "caseload/formulas/weibull_fit.hpp"

#include <span>
#include <string_view>
#include <vector>

namespace caseload {

struct LifeSet {
    std::string_view name;
    std::vector<weibull_fit::LifeRecord> records;
    double shape;
    double scale;
    double log_likelihood;
};
std::span<const LifeSet> life_sets();
const LifeSet& life_set(std::string_view name);

}  // namespace caseload
