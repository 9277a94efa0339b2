// SPDX-License-Identifier: MIT
// Times of day and dates as loggers write them.
#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

namespace caseload::duty {

inline constexpr double day_s = 86400;
/// Seconds from 1970 to beyond the year 5000: later ones are a fault, and lose their decimals.
inline constexpr double latest_s = 1e11;

/// Which number of a date in numbers is what. A year of four digits in front is always followed by
/// the month, and a month in letters is clear.
enum class DateOrder : std::uint8_t {
    any,  ///< the first of the others that gives a date
    day_first,
    month_first,
    year_first,  ///< with two digits
};
/// As --date takes it: "day-first".
[[nodiscard]] std::string_view name_of(DateOrder order);
[[nodiscard]] std::optional<DateOrder> date_order_named(std::string_view name);

/// What is accepted, for hints.
inline constexpr std::string_view clock_forms =
    "hh:mm:ss.s, with or without AM or PM; a date in front of it as 2026-05-31, 31.05.2026, "
    "05/31/2026 or 31-May-2026";

struct Clock {
    std::optional<double> date_s;  ///< from 1970 to the start of the day
    std::optional<double>
        of_day_s;                  ///< or of a watch begun at 0: hours beyond 24 only without date
    std::string_view date;         ///< as it is written; of the text read
    bool order_matters = false;    ///< the date is of numbers that another order reads otherwise
    bool parts_of_second = false;  ///< with decimals of a second

    [[nodiscard]] double sum_s() const { return date_s.value_or(0) + of_day_s.value_or(0); }
};

/// "hh:mm:ss.s", "mm:ss.s", "1:02:03 PM", "2024-05-01T10:11:12.5Z", "01.05.2024 10:11",
/// "1-May-2024", either part alone. Nothing of anything else. HHMMSS without colons is read by
/// compact_clock_s.
[[nodiscard]] std::optional<Clock> read_clock(std::string_view text, DateOrder order);

/// Its sum.
[[nodiscard]] std::optional<double> clock_s(std::string_view text,
                                            DateOrder order = DateOrder::any);

/// "101112.50" as 10 h 11 min 12.5 s.
[[nodiscard]] std::optional<double> compact_clock_s(double hhmmss);

/// "20240501": seconds from 1970 to the start of that day.
[[nodiscard]] std::optional<double> compact_date_s(double yyyymmdd);

}  // namespace caseload::duty
