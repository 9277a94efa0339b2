// SPDX-License-Identifier: MIT
// How a log is written: delimiter, decimal mark, which row names the columns. Decided once, by
// votes over the windows; a later line against the vote is an error.
#pragma once

#include "duty/number.hpp"
#include "duty/text.hpp"

#include "caseload/duty/log.hpp"

#include <cstdint>
#include <deque>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

/// The text of the windows as lines, without their ends. Pieces of lines at cuts are left out.
struct Sampled {
    std::deque<std::string> made;         ///< text that is not as the windows have it
    std::vector<std::string_view> head;   ///< lines of the head, by number
    std::vector<std::string_view> later;  ///< of the other windows
    bool quotes = false;                  ///< there are some
};
/// Its lines are views of the windows, which must outlive it.
[[nodiscard]] Sampled sample_lines(const Windows& windows, Dialect& dialect,
                                   const std::string& file);

/// Fields of a line; quotes are taken off, a delimiter inside them does not count.
[[nodiscard]] std::vector<std::string> split(std::string_view line, char delimiter);

/// The same without a copy, except where a quote is inside a field.
class CellViews {
public:
    CellViews() = default;
    CellViews(std::string_view line, char delimiter) { take(line, delimiter); }
    /// The first `most` fields.
    void take(std::string_view line, char delimiter, std::size_t most = SIZE_MAX);
    [[nodiscard]] std::size_t size() const { return views_.size(); }
    [[nodiscard]] std::string_view operator[](std::size_t at) const { return views_[at]; }
    [[nodiscard]] std::span<const std::string_view> all() const { return views_; }

private:
    void add(std::string_view cell, std::size_t quotes = 0);

    std::vector<std::string_view> views_;
    std::deque<std::string> unquoted_;
};

/// Many lines with as many fields as the log has. Their cells are found when they are asked for, as
/// most never are, and are to be used before the next row's.
class CellRows {
public:
    explicit CellRows(const Dialect& dialect)
        : delimiter_(dialect.delimiter), fields_(dialect.fields) {}

    void reserve(std::size_t rows) { lines_.reserve(rows); }
    /// Does nothing with a line that has more fields or fewer.
    void add(std::string_view line);
    [[nodiscard]] std::size_t size() const { return lines_.size(); }
    [[nodiscard]] std::span<const std::string_view> operator[](std::size_t row) const {
        return first(row, fields_);
    }
    /// The first cells of a row.
    [[nodiscard]] std::span<const std::string_view> first(std::size_t row,
                                                          std::size_t cells) const {
        views_.take(lines_[row], delimiter_, cells);
        return views_.all();
    }
    [[nodiscard]] std::string_view cell(std::size_t row, std::size_t at) const {
        return first(row, at + 1)[at];
    }

private:
    char delimiter_;
    std::size_t fields_;
    std::vector<std::string_view> lines_;
    mutable CellViews views_;  ///< of the row last asked for
};

/// Sets delimiter, fields and the decimal mark. Throws Error{input} when it cannot be decided.
void vote(const Sampled& sampled, const ReadOptions& options, const std::string& file,
          Dialect& dialect);

/// True of a number by these marks, and of a clock or date.
[[nodiscard]] bool is_value(std::string_view cell, const Marks& marks);

}  // namespace caseload::duty
