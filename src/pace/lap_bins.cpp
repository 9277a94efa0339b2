// SPDX-License-Identifier: MIT
#include "bins/bins.hpp"
#include "bins/cells.hpp"
#include "bins/measures.hpp"
#include "caseload/error.hpp"
#include "caseload/pace.hpp"

namespace caseload::pace {

std::vector<Bin> bins_of(const Lap& lap) {
    require_positive(static_cast<double>(lap.states.size()), "number of states");
    bins::Cells cells;
    for (const State& state : lap.states)
        cells.add(state.torque_Nm, state.speed_rpm,
                  {.time_s = state.time_s,
                   .turns = state.speed_rpm * state.time_s / 60,
                   .way_m = state.way_m});
    return bins::bins_of(cells.take(), bins::Measures(nullptr)).bins;
}

}  // namespace caseload::pace
