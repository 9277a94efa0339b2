// SPDX-License-Identifier: MIT
// What changes if, as text and as one JSON document each.
#pragma once

#include "caseload/ask/compare.hpp"
#include "caseload/ask/failure.hpp"
#include "caseload/ask/region.hpp"

#include <string>
#include <vector>

namespace caseload {

/// Two answers and what lies between them.
struct CompareAnswer {
    const Calculated& before;
    const Calculated& after;
    const Comparison& between;
    std::vector<ChangedKey> changed = {};  ///< on the command line
};
std::string compare_screen(const CompareAnswer& answer);
std::string compare_json(const CompareAnswer& answer);

std::string failure_screen(const Setup& setup, const Failure& failure);
std::string failure_json(const Setup& setup, const Failure& failure);

std::string region_screen(const Setup& setup, const Region& region);
std::string region_json(const Setup& setup, const Region& region);

}  // namespace caseload
