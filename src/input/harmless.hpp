// SPDX-License-Identifier: MIT
// Text from outside (titles, names of files and columns, serials, words) as it may be shown.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace caseload::input {

/// On one line, without any character that a terminal, a browser or an editor obeys: control
/// characters (C0, DEL, C1), line and paragraph separators (U+2028, U+2029) and what turns the
/// direction of writing (U+061C, U+200E, U+200F, U+202A to U+202E, U+2066 to U+2069) are written
/// \u001B, which JSON and a quoted text of TOML read back as what it was. A tab is a blank; each
/// byte that is not UTF-8 is U+FFFD. Source: ECMA-48 (control functions); Unicode Standard Annex
/// 9, 2.1 to 2.6, and chapter 23.2.
[[nodiscard]] std::string harmless(std::string_view text);

/// The same of a text of several lines: line ends and tabs stay.
[[nodiscard]] std::string harmless_lines(std::string_view text);

/// The same with one "?" for each such character, where characters are counted.
[[nodiscard]] std::string harmless_in_place(std::string_view text);

/// Whether harmless() leaves the text as it is.
[[nodiscard]] bool is_harmless(std::string_view text);

/// The beginning of a text that may be long, for an echo: so many characters of it, then "...".
[[nodiscard]] std::string shortened_to(std::size_t characters, std::string_view text);

}  // namespace caseload::input
