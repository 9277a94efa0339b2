// SPDX-License-Identifier: MIT
// Days of the calendar.
#pragma once

#include <chrono>
#include <optional>
#include <string_view>

namespace caseload {

/// The day of these numbers, of the years 1 to 9999; none where there is no such day.
std::optional<std::chrono::year_month_day> day_of(int year, int month, int day);

/// The day written "2026-11-20", in these ten characters.
std::optional<std::chrono::year_month_day> day_of(std::string_view text);

}  // namespace caseload
