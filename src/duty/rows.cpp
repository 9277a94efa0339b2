// SPDX-License-Identifier: MIT
#include "duty/rows.hpp"

#include "duty/channels.hpp"

#include <fmt/format.h>

namespace caseload::duty {
namespace {

constexpr std::size_t shown_of_cell = 40;

std::string_view words_of_mark(char decimal) {
    return decimal == ',' ? "decimal comma" : "decimal point";
}

/// A gear given by a letter: neutral and park 0, reverse -1.
std::optional<double> gear_word(std::string_view cell) {
    const std::string word = folded(cell);
    if (word == "n" || word == "p" || word == "neutral" || word == "park") return 0;
    if (word == "r" || word == "reverse") return -1;
    if (word.size() == 2 && word[0] == 'd' && word[1] >= '1' && word[1] <= '9')
        return word[1] - '0';
    return std::nullopt;
}

}  // namespace

RowReader::RowReader(const Layout& layout, std::string file, Progress progress)
    : layout_(layout),
      file_(std::move(file)),
      number_(layout.marks()),
      slow_(layout.dialect.long_form || layout.time_form != TimeForm::number),
      unnamed_(layout.named < layout.dialect.fields),
      channels_(0),
      progress_(std::move(progress)),
      separators_(layout.dialect.delimiter) {
    constexpr std::size_t margin = 128;  // find() and the number reader look beyond the end
    // Not value-initialised: only what was read is looked at.
    buffer_.reset(new char[longest_line + block_bytes + margin]);
    for (const Column& column : layout.columns) {
        fields_.push_back({column.at, Instants::place(column.channel), column.factor, column.offset,
                           number_.whole_form(), &column});
        channels_ |= 1U << index(column.channel);
    }
}

RowCounts RowReader::counts() const {
    return {.lines = line_ + (kept_ > 0 ? 1 : 0), .cut_last = kept_ > 0, .cut_line = line_ + 1};
}

void RowReader::refuse(Line line, std::size_t column, std::size_t width, std::string text,
                       std::string hint) const {
    const std::string_view whole(line.begin, static_cast<std::size_t>(line.end - line.begin));
    Where where{file_, static_cast<int>(line_), static_cast<int>(column), static_cast<int>(width),
                shown(whole.substr(0, 4096), layout_.dialect.encoding)};
    throw Error(Error::Kind::input, {Problem{std::move(where), std::move(text), std::move(hint)}});
}

void RowReader::refuse_fields(Line line) const {
    const std::size_t fields = cells_.size();
    const bool commas = like_decimal_commas(cells_.all(), layout_.dialect, layout_.names);
    refuse(line, 1, 0,
           fmt::format("this line has {} field{}, the log has {}", fields, fields == 1 ? "" : "s",
                       layout_.dialect.fields),
           commas ? std::string(decimal_commas_hint)
                  : "free text with the delimiter in it, or the logger changed its channels: take "
                    "the line out, or cut the log there");
}

void RowReader::check_unnamed(Line line, const char* behind_names) const {
    const std::string_view rest(behind_names, static_cast<std::size_t>(line.end - behind_names));
    if (rest.find_first_not_of(std::string{' ', '\t', '"', layout_.dialect.delimiter}) ==
        std::string_view::npos)
        return;
    CellViews cells;
    cells.take({line.begin, static_cast<std::size_t>(line.end - line.begin)},
               layout_.dialect.delimiter);
    const std::size_t filled = filled_fields(cells.all());
    if (filled <= layout_.named) return;
    refuse(line, static_cast<std::size_t>(behind_names - line.begin) + 1, 0,
           unnamed_words(layout_, filled),
           like_decimal_commas(cells.all(), layout_.dialect, layout_.names)
               ? std::string(decimal_commas_hint)
               : std::string(unnamed_hint));
}

void RowReader::refuse_cell(Line line, const Column& column, std::string_view cell) const {
    const bool inside = cell.data() >= line.begin && cell.data() <= line.end;
    const std::size_t before =
        inside ? static_cast<std::size_t>(cell.data() - line.begin) : std::size_t{0};
    const std::string written = shown(cell.substr(0, shown_of_cell), layout_.dialect.encoding);
    const std::string grouping =
        layout_.dialect.grouping == '\0'
            ? std::string()
            : fmt::format(", {} between thousands",
                          layout_.dialect.grouping == ',' ? "comma" : "point");
    refuse(line, before + 1, cell.size(),
           fmt::format("{}: \"{}\" is no number as this log writes them ({}{})", column.heading,
                       written, words_of_mark(layout_.dialect.decimal), grouping),
           "the layout is decided once for the whole log; --decimal says it where the vote erred");
}

void RowReader::refuse_time(Line line) const {
    refuse(line, 1, 0, fmt::format("the time of this line is not within {:g} s", latest_s),
           "check the column taken as time and its unit; --map time=COLUMN, --unit time=ms");
}

void RowReader::refuse_clock(Line line, const Column& column) const {
    const std::string_view cell = cells_[column.at];
    const std::string written = shown(cell.substr(0, shown_of_cell), layout_.dialect.encoding);
    if (read_clock(cell, layout_.date_order)) {
        std::string options;
        std::size_t orders = 0;
        for (const DateOrder order :
             {DateOrder::day_first, DateOrder::month_first, DateOrder::year_first}) {
            if (!read_clock(cell, order)) continue;
            ++orders;
            options += fmt::format("{}--date {}", options.empty() ? "" : ", or ", name_of(order));
        }
        refuse(line, 1, 0,
               fmt::format("{}: a second date, \"{}\", {}", column.heading, written,
                           orders == 1 ? "and the lines seen before it did not say which number of "
                                         "a date is the day"
                                       : "and which of its numbers is the day is not known"),
               (orders == 1 ? "only one order gives this date: " : "say which: ") + options);
    }
    refuse(line, 1, 0,
           fmt::format("{}: \"{}\" is no {}{}", column.heading, written,
                       column.channel == Channel::date ? "date" : "time", order_words(layout_)),
           fmt::format("accepted: {}", clock_forms));
}

void RowReader::refuse_long_line() const {
    throw Error(Error::Kind::input, {Problem{{file_, static_cast<int>(line_) + 1, 1, 0, {}},
                                             "this line is longer than 1 MiB",
                                             "a log has one record a line"}});
}

void RowReader::read_cell(Line line, const Column& column, std::string_view cell,
                          Instant& to) const {
    double value = 0;
    switch (number::read_rest(cell, layout_.marks(), value)) {
        case Cell::number:
            to.set(column.channel, value * column.factor + column.offset);
            return;
        case Cell::missing:
            return;
        case Cell::wrong:
            break;
    }
    if (column.channel == Channel::gear)
        if (const auto gear = gear_word(cell)) return to.set(Channel::gear, *gear);
    refuse_cell(line, column, cell);
}

double RowReader::read_odd(Line line, const Field& field, std::string_view cell,
                           std::uint32_t& present) const {
    double value = 0;
    switch (number_.read_other(cell.data(), cell.data() + cell.size(), value)) {
        case Cell::number:
            return value * field.factor + field.offset;
        case Cell::missing:
            break;
        case Cell::wrong: {
            Instant one;
            read_cell(line, *field.column, cell, one);
            if (one.has(field.column->channel)) return one[field.column->channel];
        }
    }
    present &= ~(1U << index(field.column->channel));
    return 0;
}

bool RowReader::read_slow(Line line, Instant& instant) {
    const std::string_view whole(line.begin, static_cast<std::size_t>(line.end - line.begin));
    cells_.take(whole, layout_.dialect.delimiter);
    if (cells_.size() != layout_.dialect.fields) {
        // A blank line, or a row of delimiters alone, as spreadsheets write.
        if (whole.find_first_not_of(std::string{' ', '\t', layout_.dialect.delimiter}) ==
            std::string_view::npos)
            return false;
        refuse_fields(line);
    }
    const std::size_t filled = unnamed_ ? filled_fields(cells_.all()) : 0;
    if (filled > layout_.named)
        refuse(line, 1, 0, unnamed_words(layout_, filled), std::string(unnamed_hint));
    if (layout_.dialect.long_form) return read_record(line, instant);
    instant.present = 0;
    for (const Column& column : layout_.columns) {
        const bool of_clock =
            column.channel == Channel::date || column.channel == Channel::clock ||
            (column.channel == Channel::time && layout_.time_form == TimeForm::text);
        if (!of_clock) read_cell(line, column, cells_[column.at], instant);
    }
    const auto t_s = time_of(layout_, cells_.all());
    if (!t_s) {
        const Channel of_time = layout_.time_form == TimeForm::date_clock ? Channel::clock
                                : layout_.time_form == TimeForm::millisecond_count
                                    ? Channel::millisecond
                                    : Channel::time;
        const Column& column = *layout_.find(of_time);
        double ignored = 0;
        if (number::read_rest(cells_[column.at], layout_.marks(), ignored) == Cell::missing)
            return false;
        const Column* const date = layout_.find(Channel::date);
        refuse_clock(
            line, of_time == Channel::clock && date != nullptr && layout_.clock(cells_[column.at])
                      ? *date
                      : column);
    }
    instant.t_s = *t_s;
    return true;
}

const std::vector<const Column*>& RowReader::named(std::string_view raw) {
    for (const Named& one : names_)
        if (one.raw == raw) return one.columns;
    const std::string name = shown(raw, layout_.dialect.encoding);
    Named found{std::string(raw), {}};
    for (const Column& column : layout_.columns)
        if (column.channel != Channel::time && column.heading == name)
            found.columns.push_back(&column);
    // Free text in the place of names does not fill the memory.
    constexpr std::size_t most_names = 1000;
    if (names_.size() == most_names) names_.pop_back();
    names_.push_back(std::move(found));
    return names_.back().columns;
}

bool RowReader::read_record(Line line, Instant& instant) {
    instant.present = 0;
    for (const Column* column : named(cells_[layout_.name_at]))
        read_cell(line, *column, cells_[layout_.value_at], instant);
    if (instant.present == 0) return false;
    const Column& time = *layout_.find(Channel::time);
    if (layout_.time_form == TimeForm::text) {
        const auto clock = layout_.clock(cells_[time.at]);
        if (!clock) refuse_clock(line, time);
        instant.t_s = clock->sum_s();
        return true;
    }
    Instant of_time;
    read_cell(line, time, cells_[time.at], of_time);
    if (!of_time.has(Channel::time)) return false;
    instant.t_s = of_time[Channel::time];
    return true;
}

}  // namespace caseload::duty
