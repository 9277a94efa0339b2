// SPDX-License-Identifier: MIT
// Why a verdict is what it is, in words that begin small and end without a full stop. Every screen
// takes its sentence from here.
#pragma once

#include "caseload/ask/band.hpp"

#include <string>

namespace caseload {

/// What the oil does against its limits, by the range that is printed beside it: "likely passes"
/// only where its likely value is above the limit, "may pass" only where it is not.
std::string oil_words(const LimitsInput& limits, const Band& band);

/// The check at stop; else what the oil does, or the first check at watch where the oil keeps its
/// limit.
std::string verdict_reason(const Setup& setup, const Assessment& likely, const Band& band);

}  // namespace caseload
