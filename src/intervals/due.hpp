// SPDX-License-Identifier: MIT
// After how many events something is due: the limits and the search that one setup, a season and
// the service book have in common.
#pragma once

#include "caseload/intervals.hpp"

#include <cmath>
#include <string>

namespace caseload {

/// Beyond these no fatigue number is printed: other things stop the case first. Judgement.
inline constexpr double most_events = 20;
inline constexpr double most_hours = 200;
/// Oil is changed at half its oxidation life. Common practice.
inline constexpr double oil_dose_limit = 0.5;

/// Where a rule comes from.
inline std::string practice(bool own) {
    return own ? "your rule" : "common practice";
}

/// The largest whole number up to a limit at which a condition is true that is true at 0 and, once
/// false, stays false.
template <class Holds>
double most_kept(double limit, const Holds& holds) {
    double kept = 0;
    double lost = limit + 1;
    while (lost - kept > 1) {
        const double middle = std::floor((kept + lost) / 2);
        (holds(middle) ? kept : lost) = middle;
    }
    return kept;
}

/// The part of `intervals` that says after how many events something is due, and why: the same
/// numbers; what is only printed of the likely case is left empty.
Intervals actions_due(const Setup& setup, const Wear& wear);

}  // namespace caseload
