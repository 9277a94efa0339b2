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

/// What was found of a check, without its part: "hottest oil or case at the seal above 100 degC, 7
/// chances in 10", "dent margin 0.8, at least 1".
std::string finding_words(const JudgedCheck& check);
/// The same with its part in front: "seal.input: ...".
std::string part_and_finding(const JudgedCheck& check);

/// Where a check decides, what stops the case, or the first check to watch; else what the oil does.
std::string verdict_reason(const Setup& setup, const Assessment& likely, const Band& band);

/// The second half of the headline, after "Case: ": "fine", "watch seal.input (...): ...", "1 to
/// watch, 3 to look at". `short_of_room`: without what was found.
std::string case_words(const Assessment& likely, const Band& band, bool short_of_room = false);

}  // namespace caseload
