// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/error.hpp"
#include "caseload/show/problems.hpp"

#include <cstdio>
#include <cstdlib>
#include <string>

namespace fuzz {

/// What does not hold is a find.
inline void require(bool holds, const char* what, const std::string& text) {
    if (holds) return;
    std::fprintf(stderr, "%s:\n%s\n", what, text.c_str());
    std::abort();
}

/// Refused as a mistake of who wrote it, with a report.
inline void require_report(const caseload::Error& error) {
    require(error.kind() == caseload::Error::Kind::input, "not an input error", error.what());
    require(!caseload::problem_report(error).empty(), "no report", error.what());
}

}  // namespace fuzz
