// SPDX-License-Identifier: MIT
// Answers to choices between events, as text and as JSON. Never calculates.
#pragma once

#include "caseload/ask/bearings.hpp"
#include "caseload/ask/cooler.hpp"
#include "caseload/ask/sets.hpp"

#include <string>

namespace caseload {

std::string sets_screen(const Setup& setup, const SetsAnswer& answer);
std::string sets_json(const Setup& setup, const SetsAnswer& answer);
std::string cooler_screen(const Setup& setup, const CoolerAnswer& answer);
std::string cooler_json(const Setup& setup, const CoolerAnswer& answer);
std::string bearings_screen(const Setup& setup, const BearingsAnswer& answer);
std::string bearings_json(const Setup& setup, const BearingsAnswer& answer);

}  // namespace caseload
