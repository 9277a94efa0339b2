// SPDX-License-Identifier: MIT
// Further parts of the heat calculations.
#pragma once

#include "caseload/evidence.hpp"
#include "caseload/formulas/box_film.hpp"

#include <span>

namespace caseload {

/// The housing of the published balances.
inline constexpr box_film::Box reference_box{.along_m = 0.45, .across_m = 0.30, .high_m = 0.20};

/// Air, films, walls.
std::span<const Calculation> film_calculations();
/// Heat exchangers.
std::span<const Calculation> core_calculations();
/// Grades and properties of oils.
std::span<const Calculation> oil_calculations();

}  // namespace caseload
