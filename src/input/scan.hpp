// SPDX-License-Identifier: MIT
// The text of a setup file before TOML is parsed: limits, encoding, lines; and a light reading of
// quotes and brackets that finds where a mistake began, not only where the parser gave up.
#pragma once

#include "caseload/error.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

inline constexpr std::size_t largest_text = std::size_t{1} << 20;
inline constexpr std::size_t longest_line = 4096;
inline constexpr int deepest = 32;

/// A text cut into lines, with its name, for places.
class Source {
public:
    Source(std::string_view text, std::string name);

    [[nodiscard]] std::string_view text() const { return text_; }
    [[nodiscard]] const std::string& name() const { return name_; }
    [[nodiscard]] std::size_t count_lines() const { return lines_.size(); }
    /// Line from 1; empty beyond the end.
    [[nodiscard]] std::string_view line(int number) const;

    struct Place {
        int line = 0;
        int column = 0;  ///< in characters, from 1
        int width = 1;
    };
    [[nodiscard]] Where where(const Place& place) const;
    [[noreturn]] void fail(const Place& place, std::string text, std::string hint) const;

private:
    std::string_view text_;
    std::string name_;
    std::vector<std::string_view> lines_;
};

/// Throws Error{input} if the text is too large, a line longer than `longest`, not UTF-8, holds
/// control characters, or nests brackets or dots too deep.
void check_limits(const Source& source, std::size_t longest = longest_line);

/// The text with each ratio of gears without quotes (fitted = 31/43) made a quoted text of the same
/// length, so that every place stays. The original: ratio_at.
[[nodiscard]] std::string with_quoted_ratios(const Source& source);

/// The ratio without quotes that begins at this place of the source, "" if none does.
[[nodiscard]] std::string_view ratio_at(const Source& source, const Source::Place& place);

/// What is open at the end of a line, and its text outside quotes.
struct LineScan {
    struct Open {
        char bracket = 0;
        Source::Place place;
    };
    std::vector<Open> open;        ///< brackets not closed yet
    Source::Place unclosed_quote;  ///< line 0: none
    Source::Place not_ascii;       ///< first non-ASCII character outside quotes and comments
    bool too_many_closed = false;
    std::string bare;  ///< the line with quoted text and comments blanked out
};

/// Reads the text up to and including line `last`; the result describes that line.
[[nodiscard]] LineScan scan_to(const Source& source, int last);

}  // namespace caseload::input
