// SPDX-License-Identifier: MIT
#include "caseload/date.hpp"

#include <cstddef>

namespace caseload {

std::optional<std::chrono::year_month_day> day_of(int year, int month, int day) {
    // Numbers that do not fit into a date's own would come back as others.
    if (year < 1 || year > 9999 || month < 1 || month > 12 || day < 1 || day > 31)
        return std::nullopt;
    const std::chrono::year_month_day date{std::chrono::year{year},
                                           std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    return date.ok() ? std::optional(date) : std::nullopt;
}

std::optional<std::chrono::year_month_day> day_of(std::string_view text) {
    constexpr std::string_view form = "0000-00-00";
    if (text.size() != form.size()) return std::nullopt;
    int number[3] = {};
    std::size_t part = 0;
    for (std::size_t i = 0; i < form.size(); ++i) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (form[i] == '-' ? text[i] != '-' : !digit) return std::nullopt;
        if (digit)
            number[part] = 10 * number[part] + (text[i] - '0');
        else
            ++part;
    }
    return day_of(number[0], number[1], number[2]);
}

}  // namespace caseload
