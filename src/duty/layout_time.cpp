// SPDX-License-Identifier: MIT
// Time of a layout: which columns tell it, in which form, in which unit.
#include "duty/clock.hpp"
#include "duty/layout_builder.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::duty {

std::vector<std::size_t> LayoutBuilder::rising(const std::vector<std::size_t>& found) {
    std::vector<std::size_t> good;
    for (const std::size_t at : found) {
        double last = -1e300;
        bool rises = true;
        for (std::size_t i = 0; i < head_rows_ && rises; ++i) {
            const auto t = value_of((*rows_)[i][at]);
            if (!t) continue;
            rises = *t >= last;
            last = *t;
        }
        if (rises) good.push_back(at);
    }
    if (good.size() == 1)
        layout_.remarks.push_back(
            fmt::format("of {} the one that never runs back was taken as time: \"{}\"", list(found),
                        header_.names[good.front()]));
    return good.size() == 1 ? good : found;
}

void LayoutBuilder::settle_time() {
    Column* const time = column(Channel::time);
    if (time == nullptr) {
        settle_clock();
    } else {
        // With a time of its own, date and clock say nothing more.
        for (const Channel other : {Channel::date, Channel::clock, Channel::millisecond})
            drop(other);
        settle_one(*column(Channel::time));
    }
    layout_.median_dt_s = median_dt_s();
    if (!(layout_.median_dt_s > 0))
        refuse(header_.first_line, "time does not rise from line to line",
               "name the column that does: --map time=COLUMN");
    // A last line has no next: it weighs the median step, and so must stand in the sums.
    if (layout_.median_dt_s > latest_s)
        refuse(header_.first_line,
               fmt::format("lines are {:.4g} s apart; accepted: up to {:g} s", layout_.median_dt_s,
                           latest_s),
               "check the column taken as time and its unit; --map time=COLUMN, --unit time=ms");
    Column* const one = column(Channel::time);
    if (one != nullptr && one->unit.empty()) take_seconds(*one);
}

void LayoutBuilder::settle_clock() {
    Column* const count = column(Channel::millisecond);
    if (count != nullptr) {
        bool runs_on = false;
        for (std::size_t i = 0; i < rows_->size() && !runs_on; ++i)
            runs_on = value_of((*rows_)[i][count->at]).value_or(0) > 999;
        if (runs_on) {
            drop(Channel::date);
            drop(Channel::clock);
            layout_.time_form = TimeForm::millisecond_count;
            return;
        }
    }
    if (column(Channel::clock) == nullptr) {
        const std::string near = nearest_heading(layout_, Channel::time);
        refuse(header_.line, "no column is the time",
               near.empty() ? "say which: --map time=COLUMN"
                            : fmt::format("is it \"{0}\"? Then: --map \"time={0}\"", near));
    }
    layout_.time_form = TimeForm::date_clock;
}

void LayoutBuilder::settle_one(Column& time) {
    std::size_t clocks = 0;
    std::size_t filled = 0;
    double value = 0;
    for (std::size_t i = 0; i < rows_->size(); ++i) {
        const std::string_view cell = (*rows_)[i][time.at];
        if (cell.empty()) continue;
        ++filled;
        if (number::read_rest(cell, layout_.marks(), value) != Cell::number && clock_s(cell))
            ++clocks;
    }
    layout_.time_form = 2 * clocks > filled ? TimeForm::text : TimeForm::number;
    if (layout_.time_form == TimeForm::text) {
        time.unit = "clock";
        time.factor = 1;
    }
}

double LayoutBuilder::median_dt_s() const {
    std::vector<double> steps;
    std::optional<double> last;
    for (std::size_t i = 0; i < rows_->size(); ++i) {
        const auto t = time_of(layout_, (*rows_)[i]);
        if (last && t && *t > *last && i != head_rows_) steps.push_back(*t - *last);
        if (t) last = t;
    }
    if (steps.empty()) return 0;
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

void LayoutBuilder::take_seconds(Column& time) {
    constexpr double shortest_s = 0.0005;
    constexpr double longest_s = 2;
    if (layout_.median_dt_s < shortest_s || layout_.median_dt_s > longest_s)
        refuse(header_.line,
               fmt::format("time: no unit stands at \"{}\", and lines {:.4g} apart are hardly "
                           "seconds",
                           time.heading, layout_.median_dt_s),
               "say it: --unit time=ms, or s, min");
    time.unit = "s";
    time.unit_taken = true;
}

std::optional<double> time_of(const Layout& layout, std::span<const std::string_view> cells) {
    const auto number_at = [&](Channel channel) -> std::optional<double> {
        const Column* const column = layout.find(channel);
        double value = 0;
        if (column == nullptr || column->at >= cells.size() ||
            number::read_rest(cells[column->at], layout.marks(), value) != Cell::number)
            return std::nullopt;
        return value * column->factor + column->offset;
    };
    if (layout.time_form == TimeForm::number) return number_at(Channel::time);
    if (layout.time_form == TimeForm::text) {
        const Column* const column = layout.find(Channel::time);
        return column->at < cells.size() ? clock_s(cells[column->at]) : std::nullopt;
    }
    if (layout.time_form == TimeForm::millisecond_count) return number_at(Channel::millisecond);
    const auto told = [&](Channel channel, auto compact) -> std::optional<double> {
        const Column* const column = layout.find(channel);
        if (column == nullptr || column->at >= cells.size()) return std::nullopt;
        if (const auto text = clock_s(cells[column->at])) return text;
        const auto number = number_at(channel);
        return number ? compact(*number) : std::nullopt;
    };
    const auto clock = told(Channel::clock, compact_clock_s);
    if (!clock) return std::nullopt;
    return told(Channel::date, compact_date_s).value_or(0) + *clock +
           number_at(Channel::millisecond).value_or(0);
}

}  // namespace caseload::duty
