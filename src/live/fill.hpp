// SPDX-License-Identifier: MIT
// The live page with a setup and its answer inside: without script it shows the answer.
#pragma once

#include "caseload/show/page.hpp"

#include <map>
#include <string>

namespace caseload::live {

/// A setup file and the files beside it.
struct SetupText {
    std::string name;
    std::string text;
    std::map<std::string, std::string> beside;
};

/// Throws std::invalid_argument when `part` is not the live page of this version.
[[nodiscard]] std::string filled_page(std::string part, const SetupText& setup,
                                      const PageAnswer& page);

}  // namespace caseload::live
