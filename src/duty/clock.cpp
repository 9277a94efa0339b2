// SPDX-License-Identifier: MIT
#include "duty/clock.hpp"

#include <cmath>
#include <cstddef>

namespace caseload::duty {
namespace {

/// Reads 1 to 9 digits and takes them off.
std::optional<int> whole(std::string_view& text) {
    int value = 0;
    std::size_t count = 0;
    while (count < text.size() && count < 9 && text[count] >= '0' && text[count] <= '9')
        value = value * 10 + (text[count++] - '0');
    if (count == 0) return std::nullopt;
    text.remove_prefix(count);
    return value;
}

bool take(std::string_view& text, char c) {
    if (text.empty() || text.front() != c) return false;
    text.remove_prefix(1);
    return true;
}

/// Days from 1970-01-01 in the Gregorian calendar; year 0 to 9999.
std::optional<double> date_s(int year, int month, int day) {
    constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (year < 1 || year > 9999 || month < 1 || month > 12 || day < 1) return std::nullopt;
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    if (day > days[month - 1] + (leap && month == 2 ? 1 : 0)) return std::nullopt;
    const int before = year - 1;
    int count = before * 365 + before / 4 - before / 100 + before / 400 - 719162;
    for (int m = 1; m < month; ++m) count += days[m - 1];
    if (leap && month > 2) ++count;
    return day_s * (count + day - 1);
}

std::optional<double> time_of_day_s(std::string_view text) {
    const auto first = whole(text);
    if (!first || !take(text, ':')) return std::nullopt;
    const auto second = whole(text);
    if (!second || *second > 59) return std::nullopt;
    double seconds = *first * 60.0 + *second;
    if (take(text, ':')) {
        const auto third = whole(text);
        if (!third || *third > 60) return std::nullopt;
        seconds = seconds * 60 + *third;
    }
    if (take(text, '.') || take(text, ',')) {
        double scale = 0.1;
        while (!text.empty() && text.front() >= '0' && text.front() <= '9') {
            seconds += (text.front() - '0') * scale;
            scale /= 10;
            text.remove_prefix(1);
        }
    }
    // A zone shifts every line alike.
    if (take(text, 'Z')) return text.empty() ? std::optional(seconds) : std::nullopt;
    if (take(text, '+') || take(text, '-')) {
        (void)whole(text);
        if (take(text, ':')) (void)whole(text);
    }
    if (!text.empty()) return std::nullopt;
    return seconds;
}

}  // namespace

std::optional<double> clock_s(std::string_view text) {
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\r')) text.remove_suffix(1);
    std::string_view rest = text;
    const auto year = whole(rest);
    if (year && text.size() - rest.size() == 4 && (take(rest, '-') || take(rest, '/'))) {
        const auto month = whole(rest);
        if (!month || !(take(rest, '-') || take(rest, '/'))) return std::nullopt;
        const auto day = whole(rest);
        if (!day) return std::nullopt;
        const auto date = date_s(*year, *month, *day);
        if (!date || rest.empty()) return date;
        if (!take(rest, 'T') && !take(rest, ' ')) return std::nullopt;
        const auto clock = time_of_day_s(rest);
        return clock ? std::optional(*date + *clock) : std::nullopt;
    }
    return time_of_day_s(text);
}

std::optional<double> compact_clock_s(double hhmmss) {
    if (!(hhmmss >= 0 && hhmmss < 240000)) return std::nullopt;
    const double whole_part = std::floor(hhmmss);
    const int all = static_cast<int>(whole_part);
    const int minutes = all / 100 % 100;
    const int seconds = all % 100;
    if (minutes > 59 || seconds > 60) return std::nullopt;
    return all / 10000 * 3600.0 + minutes * 60.0 + seconds + (hhmmss - whole_part);
}

std::optional<double> compact_date_s(double yyyymmdd) {
    if (!(yyyymmdd >= 10101 && yyyymmdd <= 99991231) || std::floor(yyyymmdd) != yyyymmdd)
        return std::nullopt;
    const int all = static_cast<int>(yyyymmdd);
    return date_s(all / 10000, all / 100 % 100, all % 100);
}

}  // namespace caseload::duty
