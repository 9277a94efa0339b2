// SPDX-License-Identifier: MIT
// Answers as text for a terminal. Never calculates.
#pragma once

#include "caseload/ask/band.hpp"
#include "caseload/ask/remedy.hpp"
#include "caseload/show/problems.hpp"

#include <string>

namespace caseload {

/// Everything an answer is made of.
struct Answer {
    const ReadSetup& read;
    const Assessment& likely;
    const Band& band;
    const std::vector<Worth>& worth;
    Remedy remedy{};  ///< tried where the verdict is stop; empty: not asked
};

std::string first_screen(const Answer& answer);
std::string detail_screen(const Answer& answer);

}  // namespace caseload
