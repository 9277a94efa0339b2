// SPDX-License-Identifier: MIT
// Which row names the columns, which column holds what, in which unit, and how time is told.
#pragma once

#include "duty/dialect.hpp"

#include "caseload/duty/log.hpp"

#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace caseload::duty {

enum class TimeForm {
    number,             ///< one column, a number with a unit
    text,               ///< hh:mm:ss or ISO 8601
    date_clock,         ///< date, time of day and perhaps milliseconds in columns of their own
    millisecond_count,  ///< a counter that runs on alone
};

struct Layout {
    Dialect dialect;
    std::vector<Column> columns;  ///< by field; in long form by channel, at = 0
    TimeForm time_form = TimeForm::number;
    double median_dt_s = 0;  ///< of the windows' lines
    // Long form: fields of a record.
    std::size_t time_at = 0;
    std::size_t name_at = 0;
    std::size_t value_at = 0;
    std::vector<double> interval_s;     ///< by channel, long form: median between records
    std::vector<std::string> headings;  ///< all, in UTF-8
    std::vector<std::string> remarks;   ///< what was chosen and why, for people

    [[nodiscard]] const Column* find(Channel channel) const;
    [[nodiscard]] Marks marks() const { return {dialect.decimal, dialect.grouping}; }
};

/// Throws Error{input}: no row names columns, two candidates for one channel, a unit missing.
[[nodiscard]] Layout lay_out(const Sampled& sampled, const Dialect& dialect,
                             const ReadOptions& options, const std::string& file);

/// Time of one line's cells in seconds, or nothing when they are no time.
[[nodiscard]] std::optional<double> time_of(const Layout& layout,
                                            std::span<const std::string_view> cells);

/// "time" is missing or road_speed: what stands there, and the heading nearest to an alias of it.
[[nodiscard]] std::string nearest_heading(const Layout& layout, Channel channel);

}  // namespace caseload::duty
