// SPDX-License-Identifier: MIT
// Numbers cut in two by their own decimal commas, and what looks like them.
#include "duty/layout_builder.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::duty {
namespace {

// Of a counter. Ten lines: a decimal of one digit cannot rise by one in each. Judgement.
constexpr std::size_t least_counted = 10;

bool all_digits(std::string_view cell) {
    return !cell.empty() && cell.find_first_not_of("0123456789") == std::string_view::npos;
}

/// A log that writes decimal points has no decimal commas.
bool has_decimal_point(std::span<const std::string_view> cells) {
    return std::any_of(cells.begin(), cells.end(), [](std::string_view cell) {
        double value = 0;
        return cell.find('.') != std::string_view::npos &&
               number::read_rest(cell, {'.', '\0'}, value) == Cell::number;
    });
}

}  // namespace

bool like_decimal_commas(std::span<const std::string_view> cells, const Dialect& dialect,
                         std::size_t wanted) {
    const std::size_t filled = filled_fields(cells);
    if (dialect.delimiter != ',' || filled <= wanted || filled > 2 * wanted ||
        has_decimal_point(cells))
        return false;
    std::size_t digits = 0;
    for (const std::string_view cell : cells) {
        if (cell.empty()) continue;
        if (all_digits(cell)) ++digits;
    }
    return digits >= filled - wanted;
}

bool LayoutBuilder::commas_below(std::size_t line) const {
    const std::size_t names =
        filled_fields(CellViews(sampled_.head[line - 1], layout_.dialect.delimiter).all());
    for (std::size_t i = line; i < std::min(sampled_.head.size(), line + rows_to_data); ++i)
        if (like_decimal_commas(CellViews(sampled_.head[i], layout_.dialect.delimiter).all(),
                                layout_.dialect, names))
            return true;
    return false;
}

void LayoutBuilder::check_cut_numbers() const {
    if (layout_.dialect.delimiter != ',' || layout_.dialect.long_form) return;
    if (options_.decimal == "point") return;
    for (const Column& column : layout_.columns) {
        const std::size_t behind = column.at + 1;
        if (behind >= layout_.named || !header_.names[behind].empty() || claimed(behind)) continue;
        std::size_t cut = 0;
        for (std::size_t row = 0; row < rows_->size(); ++row) {
            const auto cells = (*rows_)[row];
            std::string_view whole = cells[column.at];
            if (!whole.empty() && (whole.front() == '-' || whole.front() == '+'))
                whole.remove_prefix(1);
            if (all_digits(whole) && all_digits(cells[behind]) && !has_decimal_point(cells)) ++cut;
        }
        if (2 * cut <= rows_->size() || is_counter(behind, 1) ||
            (column.channel == Channel::time && is_counter(column.at, 0)))
            continue;
        refuse(header_.line,
               fmt::format("\"{}\" has whole numbers, and digits in the column without a name "
                           "behind it",
                           column.heading),
               fmt::format("{}; if they are columns of their own: --decimal point",
                           decimal_commas_hint));
    }
}

bool LayoutBuilder::is_counter(std::size_t at, double step) const {
    std::optional<double> last;
    std::size_t steps = 0;
    for (std::size_t row = 0; row < head_rows_; ++row) {
        const std::string_view cell = rows_->cell(row, at);
        double value = 0;
        if (!all_digits(cell) || number::read_rest(cell, layout_.marks(), value) != Cell::number)
            return false;
        if (last) {
            if (step <= 0) step = value - *last;
            if (step <= 0 || value - *last != step) return false;
            ++steps;
        }
        last = value;
    }
    return steps >= least_counted;
}

}  // namespace caseload::duty
