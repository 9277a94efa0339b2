// SPDX-License-Identifier: MIT
// The known key or word nearest to a wrong one.
#pragma once

#include <span>
#include <string>
#include <string_view>

namespace caseload::input {

/// Single-character insertions, deletions, replacements and swaps of neighbours that turn a into b.
/// Source: Damerau, Comm. ACM 7 (1964) 171, in its restricted form.
[[nodiscard]] int edit_distance(std::string_view a, std::string_view b);

/// The nearest of the words, upper case ignored, or "" if none is near.
[[nodiscard]] std::string nearest_word(std::span<const std::string> words, std::string_view word);

/// A hint for an unknown key: the nearest key, the heading it belongs under, or the keys there are.
struct KeyHint {
    std::string text;
    std::string meant;  ///< the most likely key; "" if none is near
};
[[nodiscard]] KeyHint hint_for_key(std::string_view key);

/// A hint for a value given to a heading.
[[nodiscard]] std::string hint_for_heading(std::string_view key);

}  // namespace caseload::input
