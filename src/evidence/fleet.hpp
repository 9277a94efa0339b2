// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/evidence.hpp"

namespace caseload {
/// Life data: joined to the bearings' calculations.
std::span<const Calculation> fleet_calculations();
}  // namespace caseload
