// SPDX-License-Identifier: MIT
#pragma once

#include "caseload/input.hpp"

#include <string>

namespace caseload::input {

/// Where the value of an entry comes from: "yours, line 6"; "standard, judgement".
[[nodiscard]] std::string origin_words(const Entry& entry);

}  // namespace caseload::input
