// SPDX-License-Identifier: MIT
// The oil over an event, from a band made for it alone.
#pragma once

#include "caseload/ask/sheets.hpp"

#include <vector>

namespace caseload {

inline std::vector<Moment> moments_of(const Setup& setup, const Assessment& likely,
                                      const BandOptions& options) {
    OilTraces traces = oil_traces(likely);
    static_cast<void>(band(setup, likely, options, &traces));
    return over_time(likely, traces);
}

}  // namespace caseload
