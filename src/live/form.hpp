// SPDX-License-Identifier: MIT
// What the boxes of the live page are made of, from the field table: no word, unit or choice is
// written a second time for the page.
#pragma once

#include "caseload/input.hpp"

#include <string>
#include <string_view>

namespace caseload::live {

/// The ten entries a new setup has, and its base, as in a text, even one that cannot be
/// calculated. "[]" when the text cannot even be read. `read` supplies what the text leaves out.
[[nodiscard]] std::string boxes_json(std::string_view text, const ReadSetup* read);

/// Every entry of a completed setup, in the order of the field table.
[[nodiscard]] std::string entries_json(const ReadSetup& read);

/// Problems one by one with their lines, and all of them as the program prints them.
[[nodiscard]] std::string problems_json(const Error& error);

}  // namespace caseload::live
