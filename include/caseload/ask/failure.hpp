// SPDX-License-Identifier: MIT
// Something fails in the middle of a leg: how long until the oil is too hot, and the pace
// at which it stays below its limit.
#pragma once

#include "caseload/assess.hpp"

#include <string>

namespace caseload {

struct Failure {
    std::string what;     ///< pump | fan | front_shaft | half_core
    std::string leg;      ///< the hottest drive leg
    double at_s = 0;      ///< in the event: the middle of that leg
    double oil_degC = 0;  ///< at that moment
    bool dry = false;     ///< pump dead, and its oil lies below the gears: no heat is calculated
    double watch_after_s = -1;  ///< driven on at the same pace; 0: is above; -1: never within 12 h
    double stop_after_s = -1;
    double pace_share =
        0;  ///< highest whose settled oil keeps the watch limit; 0: none from 0.1 on
    bool entered_bins = false;  ///< speeds of entered bins are scaled, their torques stay
    std::string decision;
};

/// Slower than this share of the pace is not asked. Judgement.
inline constexpr double least_pace_share = 0.1;

/// Throws Error{input} where the leg has no such cooler, pump, fan or front shaft.
Failure failure(const Setup& setup, const Assessment& likely, const std::string& what);

}  // namespace caseload
