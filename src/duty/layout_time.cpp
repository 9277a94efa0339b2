// SPDX-License-Identifier: MIT
// Time of a layout: which columns have it, in which form, in which unit.
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
            const auto t = value_of(rows_->cell(i, at));
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
        settle_one(*time);
        join_date(*time);
    }
    const bool clocks =
        layout_.time_form == TimeForm::text || layout_.time_form == TimeForm::date_clock;
    for (const Channel channel : {Channel::date, Channel::time, Channel::clock})
        if (const Column* const one = column(channel); clocks && one != nullptr) settle_dates(*one);
    layout_.median_dt_s = median_dt_s();
    if (!(layout_.median_dt_s > 0)) refuse_time();
    // A last line has no next: it weighs the median step, which must fit the sums.
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
            runs_on = value_of(rows_->cell(i, count->at)).value_or(0) > 999;
        if (runs_on) {
            drop(Channel::date);
            drop(Channel::clock);
            layout_.time_form = TimeForm::millisecond_count;
            return;
        }
    }
    if (column(Channel::clock) == nullptr) {
        if (date_is_time()) return;
        if (const Column* const date = column(Channel::date); date != nullptr && rows_->size() > 0)
            refuse(
                header_.first_line,
                fmt::format("{}: \"{}\" has no time of day known here, and no other column is the "
                            "time",
                            date->heading,
                            shown(rows_->cell(0, date->at), layout_.dialect.encoding)),
                fmt::format("say which is the time: --map time=COLUMN; accepted: {}", clock_forms));
        const std::string near = nearest_heading(layout_, Channel::time);
        refuse(header_.line, "no column is the time",
               near.empty() ? "say which: --map time=COLUMN"
                            : fmt::format("is it \"{0}\"? Then: --map \"time={0}\"", near));
    }
    layout_.time_form = TimeForm::date_clock;
    drop_no_date();
}

template <class Of>
bool LayoutBuilder::mostly_clock(std::size_t at, Of&& of) const {
    std::size_t filled = 0;
    std::size_t those = 0;
    for (std::size_t i = 0; i < rows_->size(); ++i) {
        const std::string_view cell = rows_->cell(i, at);
        if (cell.empty()) continue;
        ++filled;
        const auto clock = read_clock(cell, DateOrder::any);
        if (clock && of(*clock)) ++those;
    }
    return 2 * those > filled;
}

bool LayoutBuilder::date_is_time() {
    Column* const date = column(Channel::date);
    if (date == nullptr ||
        !mostly_clock(date->at, [](const Clock& clock) { return clock.of_day_s.has_value(); }))
        return false;
    date->channel = Channel::time;
    drop(Channel::millisecond);
    settle_one(*column(Channel::time));
    return true;
}

void LayoutBuilder::join_date(Column& time) {
    const bool joins =
        layout_.time_form == TimeForm::text && column(Channel::date) != nullptr &&
        mostly_clock(time.at, [](const Clock& clock) { return !clock.date_s.has_value(); });
    if (joins) drop_no_date();
    if (!joins || column(Channel::date) == nullptr) {
        // Beside a column of time, date and clock are not needed.
        for (const Channel other : {Channel::date, Channel::clock, Channel::millisecond})
            drop(other);
        return;
    }
    drop(Channel::clock);
    Column& clock = *column(Channel::time);
    clock.channel = Channel::clock;
    // Milliseconds beside a time that has its own would be counted twice.
    if (mostly_clock(clock.at, [](const Clock& one) { return one.parts_of_second; }))
        drop(Channel::millisecond);
    layout_.time_form = TimeForm::date_clock;
}

void LayoutBuilder::drop_no_date() {
    const Column* const date = column(Channel::date);
    if (date == nullptr) return;
    std::size_t dates = 0;
    double value = 0;
    for (std::size_t i = 0; i < rows_->size(); ++i) {
        const std::string_view cell = rows_->cell(i, date->at);
        const auto clock = read_clock(cell, DateOrder::any);
        const bool compact = !clock &&
                             number::read_rest(cell, layout_.marks(), value) == Cell::number &&
                             compact_date_s(value);
        if (compact || (clock && clock->date_s)) ++dates;
    }
    if (2 * dates > rows_->size()) return;
    layout_.remarks.push_back(
        fmt::format("\"{}\" holds no dates known here and was left out", date->heading));
    drop(Channel::date);
}

void LayoutBuilder::refuse_time() const {
    if (rows_->size() < 2)
        refuse(header_.first_line, "only one line of data", "a log needs at least two");
    std::size_t times = 0;
    for (std::size_t i = 0; i < rows_->size(); ++i)
        if (time_of(layout_, (*rows_)[i])) ++times;
    if (times > 1)
        refuse(header_.first_line, "time does not rise from line to line",
               "name the column that does: --map time=COLUMN");
    for (const Channel channel : {Channel::time, Channel::clock, Channel::millisecond})
        if (const Column* const one = layout_.find(channel); one != nullptr)
            refuse(header_.first_line,
                   fmt::format("{}: \"{}\" is no time known here{}", one->heading,
                               shown(rows_->cell(0, one->at), layout_.dialect.encoding),
                               order_words(layout_)),
                   fmt::format("accepted: a number with its unit (--unit time=ms), or {}",
                               clock_forms));
    refuse(header_.line, "no column is the time", "say which: --map time=COLUMN");
}

void LayoutBuilder::settle_one(Column& time) {
    std::size_t clocks = 0;
    std::size_t filled = 0;
    double value = 0;
    for (std::size_t i = 0; i < rows_->size(); ++i) {
        // More than half of all lines: the others change nothing.
        if (2 * std::max(clocks, filled - clocks) > rows_->size()) break;
        const std::string_view cell = rows_->cell(i, time.at);
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
    std::size_t cells = 0;  // up to the last that tells time
    for (const Channel channel :
         {Channel::time, Channel::date, Channel::clock, Channel::millisecond})
        if (const Column* const one = layout_.find(channel)) cells = std::max(cells, one->at + 1);
    std::vector<double> steps;
    steps.reserve(rows_->size());
    std::optional<double> last;
    for (std::size_t i = 0; i < rows_->size(); ++i) {
        const auto t = time_of(layout_, rows_->first(i, cells));
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
               fmt::format("time: \"{}\" has no unit, and lines {:.4g} apart are hardly "
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
    const auto clock_at = [&](Channel channel) -> std::optional<Clock> {
        const Column* const column = layout.find(channel);
        if (column == nullptr || column->at >= cells.size()) return std::nullopt;
        return layout.clock(cells[column->at]);
    };
    if (layout.time_form == TimeForm::text) {
        const auto clock = clock_at(Channel::time);
        return clock ? std::optional(clock->sum_s()) : std::nullopt;
    }
    if (layout.time_form == TimeForm::millisecond_count) return number_at(Channel::millisecond);
    std::optional<double> of_day_s;
    if (const auto clock = clock_at(Channel::clock))
        of_day_s = clock->of_day_s;
    else if (const auto number = number_at(Channel::clock))
        of_day_s = compact_clock_s(*number);
    if (!of_day_s) return std::nullopt;
    double date_s = 0;
    if (layout.find(Channel::date) != nullptr) {
        std::optional<double> found;
        if (const auto clock = clock_at(Channel::date))
            found = clock->date_s;
        else if (const auto number = number_at(Channel::date))
            found = compact_date_s(*number);
        if (!found) return std::nullopt;
        date_s = *found;
    }
    return date_s + *of_day_s + number_at(Channel::millisecond).value_or(0);
}

}  // namespace caseload::duty
