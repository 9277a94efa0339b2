// SPDX-License-Identifier: MIT
#include "caseload/ask/kept.hpp"

namespace caseload {

KeptAnswer losses_kept_at(const Setup& setup, double oil_degC) {
    const Prepared prepared = prepare(setup);
    KeptAnswer answer{oil_degC, {}};
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg)
        if (setup.event.legs[leg].kind == LegKind::drive)
            answer.legs.push_back({setup.event.legs[leg].name,
                                   prepared.loads.legs[leg].drive_power_W,
                                   kept_at(prepared, leg, oil_degC)});
    return answer;
}

}  // namespace caseload
