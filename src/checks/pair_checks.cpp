// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"

#include <algorithm>

namespace caseload {

std::vector<PairState> tightest_pairs(const Prepared& prepared) {
    std::vector<PairState> all;
    for (const PairState& pair : prepared.pairs) {
        const auto same = std::find_if(all.begin(), all.end(), [&](const PairState& other) {
            return other.shaft == pair.shaft;
        });
        if (same == all.end())
            all.push_back(pair);
        else if (pair.end_play_mm < same->end_play_mm)
            *same = pair;
    }
    return all;
}

void check_pairs(const Checked& found, std::vector<Check>& into) {
    for (const PairState& pair : found.pairs) {
        if (pair.preload_N <= 0) continue;
        // Where nothing balances below the ceiling the loop passes 1 on the way there.
        into.push_back(
            judged({.id = CheckId::pair_gain,
                    .about = "shaft." + pair.shaft,
                    .words = "gain of preload by the heat it makes",
                    .value = pair.balance ? pair.loop_gain : std::max(pair.loop_gain, 1.01)}));
    }
}

}  // namespace caseload
