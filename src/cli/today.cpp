// SPDX-License-Identifier: MIT
#include "cli/today.hpp"

#include <fmt/format.h>

#include <ctime>

namespace caseload {

std::string days_after_today(int days) {
    const std::time_t now = std::time(nullptr);
    std::tm local{};
#ifdef _WIN32
    localtime_s(&local, &now);
#else
    localtime_r(&now, &local);
#endif
    // At noon a day more or less is never changed by the hour of summer time.
    local.tm_hour = 12;
    local.tm_mday += days;
    local.tm_isdst = -1;
    std::mktime(&local);
    return fmt::format("{:04}-{:02}-{:02}", local.tm_year + 1900, local.tm_mon + 1, local.tm_mday);
}

std::string today() {
    return days_after_today(0);
}

}  // namespace caseload
