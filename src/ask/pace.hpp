// SPDX-License-Identifier: MIT
// The same driving, slower.
#pragma once

#include "caseload/model.hpp"

#include <functional>

namespace caseload {

/// A leg at a share of its pace, for as long as before. Torques of entered bins stay.
void slow_down(LegInput& leg, double share);

/// Highest share of the pace, from 1 down to `least_pace_share`, at which above(share) is not above
/// 0; 0: none. Searched from the top in steps: more pace brings more air and may cool.
double highest_pace(const std::function<double(double share)>& above);

}  // namespace caseload
