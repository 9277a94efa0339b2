// SPDX-License-Identifier: MIT
// Bearing examples of textbooks and their printed solutions.
#pragma once

#include "caseload/evidence.hpp"

#include <span>

namespace caseload {

std::span<const Calculation> bearing_textbook_calculations();

}  // namespace caseload
