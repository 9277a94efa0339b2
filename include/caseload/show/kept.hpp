// SPDX-License-Identifier: MIT
// Losses at a given oil temperature, as text and as JSON. Never calculates.
#pragma once

#include "caseload/ask/kept.hpp"

#include <string>

namespace caseload {

std::string kept_screen(const Setup& setup, const KeptAnswer& answer);
std::string kept_json(const Setup& setup, const KeptAnswer& answer);

}  // namespace caseload
