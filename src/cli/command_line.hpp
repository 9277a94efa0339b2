// SPDX-License-Identifier: MIT
// A command line that cannot be read: what is wrong with it, and the most likely correction.
#pragma once

#include "caseload/error.hpp"
#include "cli/options.hpp"

#include <string>
#include <vector>

namespace caseload {

/// The four commands to begin with, for a call without one.
[[nodiscard]] std::string first_commands();

/// Why `program` refused these words (without its own name): the command or option nearest to one
/// it does not know, the place of one that is misplaced, else what the parser says.
[[nodiscard]] Problem refused_words(const Syntax& program, const std::vector<std::string>& words,
                                    const WordsRead& read);

}  // namespace caseload
