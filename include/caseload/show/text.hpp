// SPDX-License-Identifier: MIT
// Answers as text for a terminal. Never calculates.
#pragma once

#include "caseload/assess.hpp"
#include "caseload/show/problems.hpp"

#include <string>

namespace caseload {

std::string first_screen(const ReadSetup& read, const Assessment& answer,
                         const std::vector<Worth>& worth);
std::string detail_screen(const ReadSetup& read, const Assessment& answer,
                          const std::vector<Worth>& worth);

}  // namespace caseload
