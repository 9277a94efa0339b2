// SPDX-License-Identifier: MIT
// What is wrong with a text that is not TOML, in the words of somebody who fixes it.
#pragma once

#include "input/scan.hpp"

#include <string>

namespace caseload::input {

struct ParserStop {
    int line = 0;  ///< 0: nothing known
    int column = 0;
    std::string description;
};

/// Throws Error{input}: the parser reports where it stopped, this the usual mistake there.
[[noreturn]] void explain_syntax(const Source& source, const ParserStop& stop);

}  // namespace caseload::input
