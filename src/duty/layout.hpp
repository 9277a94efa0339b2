// SPDX-License-Identifier: MIT
// Which row names the columns, which column holds what, in which unit, and in which form the time
// is.
#pragma once

#include "duty/clock.hpp"
#include "duty/dialect.hpp"

#include "caseload/duty/log.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::duty {

/// Long form: satellite receivers and apps write several readings at nearly one time: those so near
/// each other are one. Judgement.
inline constexpr double burst_s = 0.2;

enum class TimeForm {
    number,             ///< one column, a number with a unit
    text,               ///< as read_clock takes it
    date_clock,         ///< date, time of day and perhaps milliseconds in separate columns
    millisecond_count,  ///< a counter that runs on alone
};

struct Layout {
    Dialect dialect;
    std::vector<Column> columns;  ///< by field; in long form by channel, at = 0
    TimeForm time_form = TimeForm::number;
    double median_dt_s = 0;  ///< of the windows' lines
    DateOrder date_order = DateOrder::any;
    /// Of a log whose one date could be read in several orders: whichever, its times are the same.
    std::optional<double> only_date_s;
    // Long form: fields of a record.
    std::size_t time_at = 0;
    std::size_t name_at = 0;
    std::size_t value_at = 0;
    std::vector<double> interval_s;      ///< by channel, long form: median between records
    std::vector<std::string> headings;   ///< all, in UTF-8
    std::vector<std::string> left_over;  ///< columns of no channel; "#7" of one without a name
    bool track = false;     ///< positions or, where the options say so, road speed, and no torque
    std::size_t names = 0;  ///< columns the row of names names
    std::size_t named = 0;  ///< fields up to the last named or mapped; behind it: empty
    std::vector<std::string> remarks;  ///< what was chosen and why, for people

    [[nodiscard]] const Column* find(Channel channel) const;
    /// Nothing, too, of a second date where only one was seen and its order is not known.
    [[nodiscard]] std::optional<Clock> clock(std::string_view cell) const;
    [[nodiscard]] Marks marks() const { return {dialect.decimal, dialect.grouping}; }
};

/// " (day-first)", where the order is known, else nothing.
[[nodiscard]] std::string order_words(const Layout& layout);

/// Throws Error{input}: no row names columns, two candidates for one channel, a unit missing.
[[nodiscard]] Layout lay_out(const Sampled& sampled, const Dialect& dialect,
                             const ReadOptions& options, const std::string& file);

/// Time of one line's cells in seconds, or nothing when they are no time.
[[nodiscard]] std::optional<double> time_of(const Layout& layout,
                                            std::span<const std::string_view> cells);

/// Numbers cut in two by their own decimal commas: commas between the fields, more of them filled
/// than are wanted but at most twice as many, and no number with a decimal point.
[[nodiscard]] bool like_decimal_commas(std::span<const std::string_view> cells,
                                       const Dialect& dialect, std::size_t wanted);
inline constexpr std::string_view decimal_commas_hint =
    "these look like decimal commas: export the log with semicolons or TABs between the fields, or "
    "with decimal points";

/// Message for a line of data with values beyond the last name.
[[nodiscard]] std::string unnamed_words(const Layout& layout, std::size_t filled);
inline constexpr std::string_view unnamed_hint =
    "every column with values needs its name in the row of names";

/// Number of the last field with something in it, from 1.
[[nodiscard]] std::size_t filled_fields(std::span<const std::string_view> cells);

/// "time" is missing or road_speed: what is there, and the heading nearest to an alias of it.
[[nodiscard]] std::string nearest_heading(const Layout& layout, Channel channel);

}  // namespace caseload::duty
