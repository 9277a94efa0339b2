// SPDX-License-Identifier: MIT
// Times of day and dates as loggers write them.
#pragma once

#include <optional>
#include <string_view>

namespace caseload::duty {

inline constexpr double day_s = 86400;
/// Seconds from 1970 to beyond the year 5000: later ones are a fault, and lose their decimals.
inline constexpr double latest_s = 1e11;

/// "hh:mm:ss.s", "mm:ss.s", "2024-05-01T10:11:12.5Z", the same with a blank, "2024-05-01": seconds,
/// from 1970 when a date stands there. HHMMSS without colons is read by compact_clock_s.
[[nodiscard]] std::optional<double> clock_s(std::string_view text);

/// "101112.50" as 10 h 11 min 12.5 s.
[[nodiscard]] std::optional<double> compact_clock_s(double hhmmss);

/// "20240501": seconds from 1970 to the start of that day.
[[nodiscard]] std::optional<double> compact_date_s(double yyyymmdd);

}  // namespace caseload::duty
