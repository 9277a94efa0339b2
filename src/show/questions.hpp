// SPDX-License-Identifier: MIT
// Entries that are possible and more likely a slip: asked about before the verdict they lead to.
#pragma once

#include "caseload/show/text.hpp"
#include "show/units_shown.hpp"

#include <string>

namespace caseload {

/// One line each for the first screen; "" where nothing is asked.
[[nodiscard]] std::string question_lines(const Answer& answer, const Units& units);

/// The same as a paragraph each of the page.
[[nodiscard]] std::string question_paragraphs(const Answer& answer, const Units& units);

}  // namespace caseload
