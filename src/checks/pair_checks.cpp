// SPDX-License-Identifier: MIT
#include "checks/parts.hpp"
#include "heat/at_oil.hpp"
#include "loads/pairs.hpp"

#include <algorithm>

namespace caseload {

namespace {

/// End play of a pair through the driving of an event.
void follow(const Prepared& prepared, const EventHeat& event, PairState& state) {
    const Setup& setup = *prepared.setup;
    for (const PairPlace& pair : facing_pairs(setup, prepared.loads)) {
        if (prepared.loads.train.shafts[pair.shaft].name != state.shaft) continue;
        bool first = true;
        for (const Sample& sample : event.samples) {
            const int leg = setup.event.run[static_cast<std::size_t>(sample.run)];
            if (setup.event.legs[static_cast<std::size_t>(leg)].kind != LegKind::drive) continue;
            const double play_mm =
                state.cold_end_play_mm -
                tightening_mm(setup, prepared.loads, pair,
                              {std::min(sample.nodes.housing_degC, oil_ceiling_degC),
                               std::min(sample.nodes.steel_degC, oil_ceiling_degC)});
            state.tightest_mm = first ? play_mm : std::min(state.tightest_mm, play_mm);
            state.loosest_mm = first ? play_mm : std::max(state.loosest_mm, play_mm);
            first = false;
        }
    }
}

}  // namespace

std::vector<PairState> tightest_pairs(const Prepared& prepared, const EventHeat& event) {
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
    for (PairState& pair : all) follow(prepared, event, pair);
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
