// SPDX-License-Identifier: MIT
// Letters of a setup's text: ASCII, whatever the machine's language is.
#pragma once

#include <string>
#include <string_view>

namespace caseload::input {

[[nodiscard]] bool digit(char c);

[[nodiscard]] std::string lower(std::string_view text);

/// Without blanks and tabs at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

}  // namespace caseload::input
