// SPDX-License-Identifier: MIT
// Dates as loggers write them: which number is the day is decided by the log or asked. Expected
// seconds by Python's datetime (timestamp() at UTC), which test comments give.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/clock.hpp"
#include "duty/log_text.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <functional>
#include <string>
#include <vector>

namespace caseload::dates_tests {

using namespace caseload::duty;

namespace {

/// Day of a month as a form writes it; months and days of 2026.
using Form = std::function<std::string(int day, int month)>;

/// A minute at 10 Hz, 15 m/s, begun so many seconds before midnight: it ends the next day when they
/// are fewer than 60.
std::string log_of(const std::string& head, const Form& date, int day, int month, double before_s,
                   char delimiter = ';', bool twelve_hours = false) {
    std::string text = head;
    for (int i = 0; i < 600; ++i) {
        double t_s = 86400 - before_s + i / 10.0;
        const bool next = t_s >= 86400 - 1e-9;
        if (next) t_s -= 86400;
        const int minutes = static_cast<int>((t_s + 1e-9) / 60);
        int hour = minutes / 60;
        std::string half;
        if (twelve_hours) {
            half = hour < 12 ? " AM" : " PM";
            hour = hour % 12 == 0 ? 12 : hour % 12;
        }
        text += fmt::format(
            "{}{:02}:{:02}:{:04.1f}{}{}3000{}400{}15.0\n", date(day + (next ? 1 : 0), month), hour,
            minutes % 60, std::max(0.0, t_s - 60 * minutes), half, delimiter, delimiter, delimiter);
    }
    return text;
}

const std::string columns = ";Case speed (rpm);Case torque (Nm);Speed (m/s)\n";

void check_minute(const DutyAnswer& answer) {
    CHECK(answer.samples == 600);
    CHECK(answer.coverage == rel(1, 1e-9));
    CHECK(answer.restarts == 0);
    REQUIRE(answer.legs.size() == 1);
    CHECK(answer.legs.front().duration_s == rel(60, 1e-6));
    CHECK(answer.legs.front().distance_m == rel(900, 1e-6));
}

std::string words_refused(const std::string& text, const DutyOptions& options = {}) {
    const auto error = error_of([&] { (void)duty_test::read(text, options); });
    if (error) CHECK(error->kind() == Error::Kind::input);
    return error ? fmt::format("{} | {}", error->what(), error->problems().front().hint)
                 : std::string("read");
}

DutyOptions with_order(const std::string& order) {
    DutyOptions options;
    options.read.date = order;
    return options;
}

const Form german = [](int day, int month) { return fmt::format("{:02}.{:02}.2026 ", day, month); };
const Form british = [](int day, int month) {
    return fmt::format("{:02}/{:02}/2026 ", day, month);
};
const Form american = [](int day, int month) { return fmt::format("{}/{}/2026 ", month, day); };

}  // namespace

TEST_CASE("duty: a date with time of day is read in every form, over midnight too") {
    const char* const short_names[] = {"", "Jan", "Feb", "Mar", "Apr", "May", "Jun"};
    const std::vector<Form> forms{
        german,
        british,
        american,
        [](int day, int month) { return fmt::format("2026-{:02}-{:02}T", month, day); },
        [](int day, int month) { return fmt::format("2026/{:02}/{:02} ", month, day); },
        [](int day, int month) { return fmt::format("{:02}-{:02}-2026 ", day, month); },
        [](int day, int month) { return fmt::format("{}.{}.2026, ", day, month); },
        [&](int day, int month) { return fmt::format("{}-{}-2026 ", day, short_names[month]); },
        [&](int day, int month) { return fmt::format("{} {} 2026 ", day, short_names[month]); },
        [&](int day, int month) { return fmt::format("{} {}, 2026 ", short_names[month], day); },
        [](int day, int month) { return fmt::format("{}. Mai {}", day, 2025 + month / 5) + " "; }};
    std::size_t at = 0;
    for (const Form& form : forms) {
        CAPTURE(at++);
        for (const double before_s : {50000.0, 20.0})
            for (const bool twelve : {false, true}) {
                CAPTURE(before_s);
                CAPTURE(twelve);
                check_minute(
                    duty_test::read(log_of("Zeit" + columns, form, 30, 5, before_s, ';', twelve)));
            }
    }
    // Noon and the minute before one at night.
    for (const double before_s : {43230.0, 86400.0 - 3570})
        check_minute(
            duty_test::read(log_of("time" + columns, american, 13, 5, before_s, ';', true)));
}

TEST_CASE("duty: seconds of a date and time are those of another calendar program") {
    const auto seconds = [](const char* text, DateOrder order) {
        const auto clock = read_clock(text, order);
        return clock ? clock->sum_s() : -1;
    };
    // datetime(2026, 5, 3, 13, 2, 4, 500000, timezone.utc).timestamp() = 1777813324.5, and
    // datetime(2026, 3, 5, ...) = 1772715724.5.
    const double third_of_may = 1777813324.5;
    for (const char* const text :
         {"03.05.2026 13:02:04.5", "03.05.2026 13:02:04,5", "3/5/2026 1:02:04.5 PM",
          "3-May-2026 01:02:04.5 p.m.", "03-MAI-26 13:02:04.5", "May 3, 2026 1:02:04.5pm",
          "2026-05-03T13:02:04.5Z", "03-05-26, 13:02:04.5", "3 mai 2026 13:02:04.5",
          "3/5/2026, 1:02:04.5\xE2\x80\xAFPM"})
        CHECK(seconds(text, DateOrder::day_first) == third_of_may);
    CHECK(seconds("03/05/2026 13:02:04.5", DateOrder::month_first) == 1772715724.5);
    CHECK(seconds("26/05/03 13:02:04.5", DateOrder::year_first) == third_of_may);
    CHECK(seconds("12:00:00 AM", DateOrder::any) == 0);
    CHECK(seconds("12:00:00 PM", DateOrder::any) == 43200);
    CHECK(seconds("1:05 PM", DateOrder::any) == 13 * 3600 + 300);
    // Behind a date stand hours and minutes; alone minutes and seconds, as a stop watch writes.
    CHECK(seconds("2026-05-03 13:02", DateOrder::any) == 1777813320);
    CHECK(seconds("13:02", DateOrder::any) == 782);
    CHECK(seconds("29/02/2024", DateOrder::day_first) == 1709164800);
    for (const char* const text :
         {"29/02/2026", "31.04.2026", "13:00:00 PM", "0:10:00 AM", "1/5/2026 25:00:00", "1/5/226",
          "1/5/2026x", "May 2026", "5-Foo-2026", "1/5-2026", "//", "3/5/2026 13:02.5"})
        CHECK(seconds(text, DateOrder::day_first) == -1);
}

TEST_CASE("duty: the log decides which number of a date is the day, else it is asked") {
    // 13/05 has one order; from 31/05 to 01/06 the others run back or are none.
    check_minute(duty_test::read(log_of("Time" + columns, british, 13, 5, 20)));
    check_minute(duty_test::read(log_of("Time" + columns, american, 13, 5, 20)));
    const std::string decided =
        duty_test::read(log_of("Time" + columns, british, 13, 5, 20)).remarks.front();
    CHECK(decided ==
          "dates such as \"14/05/2026\" are read day first: another order gives no date");
    // 12 May to 1 June: month first that is 5 December to 6 January of the same year.
    const auto two_days = [](const Form& form, int day, int month, int day_2, int month_2) {
        return log_of("Time" + columns, form, day, month, 50000) +
               log_of("", form, day_2, month_2, 50000);
    };
    CHECK(words_refused(two_days(british, 12, 5, 1, 6)).find("only 0.0 % of the time") == 0);
    CHECK(words_refused(two_days(american, 12, 5, 1, 6)).find("only 0.0 % of the time") == 0);
    // 5 to 6 June or 6 May to 6 June: both rise.
    const std::string open = log_of("Time" + columns, british, 5, 6, 20);
    CHECK(words_refused(open) ==
          "Time: the dates from \"05/06/2026\" to \"06/06/2026\" may be day first or month first | "
          "say which: --date day-first, or --date month-first");
    check_minute(duty_test::read(open, with_order("day-first")));
    CHECK(words_refused(open, with_order("month-first")).find("only ") == 0);
    CHECK(words_refused(log_of("Time" + columns, british, 13, 5, 20), with_order("month-first"))
              .find("(month-first)") != std::string::npos);
    // One date only: its order does not matter, until another comes that the windows did not see.
    check_minute(duty_test::read(log_of("Time" + columns, british, 5, 6, 50000)));
    // Both 13/05 and 05/14.
    CHECK(words_refused(two_days(british, 13, 5, 13, 5) + log_of("", american, 14, 5, 50000))
              .find("Time: no order of day and month fits all dates") == 0);
    CHECK(words_refused(open, with_order("back")).find("--date back: there is no such order") == 0);
}

TEST_CASE("duty: a second date beyond the part the votes read is asked about, not read") {
    std::string text = "Time" + columns;
    const auto add = [&](int from, int to, const std::string& date) {
        for (int i = from; i < to; ++i)
            text += fmt::format("{} {:02}:{:02}:{:02};3000;400;15\n", date, i / 3600, i / 60 % 60,
                                i % 60);
    };
    for (int k = 0; k < 8; ++k) add(0, 86000, "05/06/2026");
    const std::string one = text;
    add(0, 10, "06/06/2026");
    CHECK(words_refused(one).find("Time: ") == std::string::npos);
    CHECK(
        words_refused(text) ==
        "Time: a second date, \"06/06/2026 00:00:00\", and which of its numbers is the day is not "
        "known | say which: --date day-first, or --date month-first");
    // 13 can only be a day.
    CHECK(words_refused(one + "05/13/2026 00:00:00;3000;400;15\n"
                              "05/13/2026 00:00:01;3000;400;15\n") ==
          "Time: a second date, \"05/13/2026 00:00:00\", and the lines seen before it did not say "
          "which number of a date is the day | only one order gives this date: --date month-first");
}

TEST_CASE("duty: date and time in two columns, or both in one called date, are read") {
    const Form apart = [](int day, int month) {
        return fmt::format("{:02}.{:02}.2026;", day, month);
    };
    for (const double before_s : {50000.0, 20.0}) {
        check_minute(duty_test::read(log_of("Datum;Uhrzeit" + columns, apart, 30, 5, before_s)));
        check_minute(duty_test::read(log_of("Date;Time" + columns, apart, 30, 5, before_s)));
        check_minute(duty_test::read(log_of("Date" + columns, german, 30, 5, before_s)));
        check_minute(duty_test::read(log_of("Datum" + columns, german, 30, 5, before_s)));
    }
    // The date counts: a second day is a gap, not a time that runs back.
    DutyOptions forced;
    forced.force = true;
    const DutyAnswer days = duty_test::read(
        log_of("Date;Time" + columns, apart, 30, 5, 50000) + log_of("", apart, 31, 5, 60000),
        forced);
    CHECK(days.restarts == 0);
    CHECK(days.gap_s == rel(86400 - 10000 - 60, 1e-9));
    // What is no date beside a time says nothing.
    const Form stage = [](int, int) { return std::string("stage two;"); };
    const DutyAnswer without = duty_test::read(log_of("Date;Time" + columns, stage, 30, 5, 50000));
    check_minute(without);
    CHECK(without.remarks.front() == "\"Date\" holds no dates known here and was left out");
}

TEST_CASE("duty: the note that time does not rise comes only where it does not") {
    const auto log_with = [](const std::function<std::string(int)>& time) {
        std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
        for (int i = 0; i < 100; ++i) text += time(i) + ",3000,400,15\n";
        return text;
    };
    CHECK(words_refused(log_with([](int) { return std::string("7"); })).find("does not rise") !=
          std::string::npos);
    CHECK(words_refused(log_with([](int i) {
              return fmt::format("{}", 100 - i);
          })).find("does not rise") != std::string::npos);
    const std::string unknown =
        words_refused(log_with([](int i) { return fmt::format("week 22 day 3 {}", i); }));
    CHECK(unknown.find("Time (s): \"week 22 day 3 0\" is no time known here | accepted: ") == 0);
}

}  // namespace caseload::dates_tests
