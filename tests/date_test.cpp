// SPDX-License-Identifier: MIT
// Days of the Gregorian calendar.
#include "caseload/date.hpp"

#include "support.hpp"

#include <string>

namespace caseload::date_tests {

TEST_CASE("dates: a day is what the Gregorian calendar has, 400 years by hand") {
    // Rule of the calendar: every fourth year is a leap year, centuries only by 400.
    int days = 0;
    for (int year = 1701; year <= 2100; ++year)
        for (int month = 1; month <= 12; ++month)
            for (int day = 0; day <= 32; ++day) {
                const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
                const int last = month == 2 ? leap ? 29 : 28
                                 : month == 4 || month == 6 || month == 9 || month == 11 ? 30
                                                                                         : 31;
                const bool there = day >= 1 && day <= last;
                if (there != day_of(year, month, day).has_value()) FAIL_CHECK(year, month, day);
                if (there) ++days;
            }
    CHECK(days == 146097);
    CHECK_FALSE(day_of(2026, 257, 1));
    CHECK_FALSE(day_of(2026, 1, 257));
    CHECK_FALSE(day_of(0, 1, 1));
    CHECK_FALSE(day_of(10000, 1, 1));
}

TEST_CASE("dates: text is ten characters of year, month and day") {
    const auto day = day_of("2024-02-29");
    REQUIRE(day);
    CHECK(std::chrono::sys_days(*day).time_since_epoch().count() == 19782);  // of Python's datetime
    for (const char* bad : {"2026-02-29", "2026-2-09", "2026/02/09", "20260209", "2026-02-0x",
                            " 2026-02-09", "2026-02-09 ", "", "0000-01-01", "2026-\xC2\xB2-1"}) {
        CAPTURE(std::string(bad));
        CHECK_FALSE(day_of(bad));
    }
}

}  // namespace caseload::date_tests
