// SPDX-License-Identifier: MIT
// Both words of a verdict: the oil against its limits, the case by the classes of its checks.
#pragma once

#include "caseload/ask/band.hpp"

#include <vector>

namespace caseload {

/// What the checks look at in each draw of the case as fitted; `lives`: the draws hold life shares.
struct JudgedDraws {
    const std::vector<DrawResult>& draws;
    bool lives = true;
};

/// Whether a bearing's life may come near a class in some draws, by its basic life and the least
/// life factor: where not, its draws are not needed.
bool lives_may_count(const Assessment& likely);

/// Words, what decides and checks by class of a band whose oil is known.
/// `all`: also what the draws cannot come near; no class changes by it.
void judge(const Setup& setup, const Assessment& likely, const JudgedDraws& draws, Band& band,
           bool all = false);

}  // namespace caseload
