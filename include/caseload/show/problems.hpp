// SPDX-License-Identifier: MIT
// An Error as the lines a person reads: place, what is wrong, the line with a caret, what to do.
#pragma once

#include "caseload/error.hpp"

#include <string>
#include <string_view>

namespace caseload {

/// Every problem of the error and how many there are, and what came of the run.
std::string problem_report(const Error& error, std::string_view outcome = "nothing was calculated");

}  // namespace caseload
