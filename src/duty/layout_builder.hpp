// SPDX-License-Identifier: MIT
// How lay_out works, its long form, its time and its decimal commas in other files. For this
// folder alone.
#pragma once

#include "duty/channels.hpp"
#include "duty/header.hpp"
#include "duty/layout.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace caseload::duty {

class LayoutBuilder {
public:
    LayoutBuilder(const Sampled& sampled, const Dialect& dialect, const ReadOptions& options,
                  std::string file)
        : sampled_(sampled), options_(options), file_(std::move(file)) {
        layout_.dialect = dialect;
    }

    Layout build();

private:
    [[noreturn]] void refuse(std::size_t line, std::string text, std::string hint) const;
    [[noreturn]] void refuse_header() const;
    void read_rows();
    void check_map() const;
    /// Refuses values in fields beyond the last name.
    void check_unnamed() const;
    /// True when one of the lines below that of the names looks like it has decimal commas.
    [[nodiscard]] bool commas_below(std::size_t line) const;
    /// Refuses a column taken as a channel with digits in the column without a name behind it.
    void check_cut_numbers() const;
    /// True of a column of whole numbers that rise by this step in each line of the head; 0: by
    /// that of the first two lines.
    [[nodiscard]] bool is_counter(std::size_t at, double step) const;
    [[noreturn]] static void refuse_channel(std::string_view option, const std::string& channel);
    /// Fields that could be this channel: the mapped one, else those whose alias it is.
    [[nodiscard]] std::vector<std::size_t> candidates(Channel channel) const;
    /// True of a column whose name is exactly another channel's, where the naming is less sure.
    [[nodiscard]] bool of_another(std::size_t at, Channel channel, Naming naming) const;
    /// Says which columns are of no channel.
    void list_left_over();
    /// True of a column that --map gives to some channel.
    [[nodiscard]] bool claimed(std::size_t at) const;
    [[nodiscard]] std::string list(const std::vector<std::size_t>& fields) const;
    void build_wide();
    /// Whether it is a track; of another log what only a track needs is no channel.
    void settle_track(bool gives_torque);
    /// Of several columns of time those that never run back, where another does.
    [[nodiscard]] std::vector<std::size_t> rising(const std::vector<std::size_t>& found);
    [[nodiscard]] std::optional<double> value_of(std::string_view cell) const;
    void add_column(const ChannelWords& words, std::size_t at);
    void settle_unit(const ChannelWords& words, Column& column, const std::string& in_row) const;
    [[nodiscard]] Column* column(Channel channel);
    void drop(Channel channel);

    void settle_time();
    void settle_clock();
    void settle_one(Column& time);
    /// A column of dates and no time beside it: it may contain both.
    [[nodiscard]] bool date_is_time();
    /// Leaves out a column of dates without dates.
    void drop_no_date();
    /// A time of day without a date, and a column of dates: they go together.
    void join_date(Column& time);
    /// Which number of a date is the day. Refuses dates that could be read in two ways.
    void settle_dates(const Column& column);
    /// How many filled cells are dates or times that this is true of, and how many there are.
    template <class Of>
    [[nodiscard]] bool mostly_clock(std::size_t at, Of&& of) const;
    [[noreturn]] void refuse_time() const;
    [[nodiscard]] double median_dt_s() const;
    /// A time without a unit: seconds, if loggers write so often; else ask.
    void take_seconds(Column& time);

    [[nodiscard]] bool is_long_form();
    /// Names and units are in the records; each name found in the windows becomes a column.
    void build_long();

    const Sampled& sampled_;
    const ReadOptions& options_;
    std::string file_;
    Layout layout_;
    Header header_;
    std::optional<CellRows> rows_;  ///< of data
    std::size_t head_rows_ = 0;
};

}  // namespace caseload::duty
