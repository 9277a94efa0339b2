// SPDX-License-Identifier: MIT
// A command line that cannot be read: what is wrong with it, and what was most likely meant.
#pragma once

#include "caseload/error.hpp"
#include "cli/options.hpp"

#include <string>
#include <vector>

namespace caseload {

/// The four commands to begin with, for who names none.
[[nodiscard]] std::string first_commands();

/// Why `program` refused these words (without its own name): the command or option nearest to one
/// it does not know, the place of one that is misplaced, else what the parser says.
[[nodiscard]] Problem refused_words(const Syntax& program, const std::vector<std::string>& words,
                                    const WordsRead& read);

}  // namespace caseload
