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

/// What editors of Windows begin a UTF-8 file with.
inline constexpr std::string_view utf8_mark = "\xEF\xBB\xBF";

/// Without that mark.
[[nodiscard]] std::string_view without_mark(std::string_view text);

/// Whether a byte goes on with a character of UTF-8 that an earlier one began.
[[nodiscard]] constexpr bool continues_character(char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
}

/// Characters of UTF-8 text.
[[nodiscard]] std::size_t count_characters(std::string_view text);

/// Byte where the character with this number (from 0) begins; the text's size if it has no such.
[[nodiscard]] std::size_t byte_of_character(std::string_view text, std::size_t character);

/// Length of the UTF-8 sequence that its first byte announces; 0 if none begins with it.
[[nodiscard]] std::size_t utf8_announced(char first);

/// Length of the UTF-8 sequence at `at`; 0 if it is not valid.
[[nodiscard]] std::size_t utf8_length(std::string_view text, std::size_t at);

}  // namespace caseload::input
