// SPDX-License-Identifier: MIT
// Letters of a setup's text: ASCII, whatever the machine's language is.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace caseload::input {

[[nodiscard]] bool digit(char c);

[[nodiscard]] std::string lower(std::string_view text);

/// Without blanks and tabs at its ends.
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// Without the mark that editors of Windows begin a UTF-8 file with.
[[nodiscard]] std::string_view without_mark(std::string_view text);

/// Length of the UTF-8 sequence at `at`; 0 if it is not valid.
[[nodiscard]] std::size_t utf8_length(std::string_view text, std::size_t at);

}  // namespace caseload::input
