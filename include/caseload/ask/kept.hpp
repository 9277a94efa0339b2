// SPDX-License-Identifier: MIT
// Losses at an oil temperature that is given, not found: what a rig measures with a heater or a
// bath that keeps it.
#pragma once

#include "caseload/assess.hpp"

#include <vector>

namespace caseload {

struct KeptLeg {
    std::string name;
    double power_W = 0;  ///< mean through the case, of bins that drive
    Steady at;           ///< `short_by_W`: to take out of the oil, negative: to put in
};

struct KeptAnswer {
    double oil_degC = 0;
    std::vector<KeptLeg> legs;  ///< those that drive
};

/// Every drive leg with its oil kept at this temperature, uncertain inputs at their middle.
/// Range    the oil from -40 to 160 degC: beyond it no loss is calculated.
KeptAnswer losses_kept_at(const Setup& setup, double oil_degC);

}  // namespace caseload
