// SPDX-License-Identifier: MIT
// The season as text and as one JSON document.
#pragma once

#include "caseload/ask/season.hpp"

#include <string>

namespace caseload {

std::string season_screen(const Setup& setup, const Season& season);
std::string season_json(const Setup& setup, const Season& season);

}  // namespace caseload
