// SPDX-License-Identifier: MIT
// Further parts of the heat calculations.
#pragma once

#include "caseload/evidence.hpp"

#include <span>

namespace caseload {

/// Air, films, walls.
std::span<const Calculation> film_calculations();
/// Heat exchangers.
std::span<const Calculation> core_calculations();
/// Grades and properties of oils.
std::span<const Calculation> oil_calculations();

}  // namespace caseload
