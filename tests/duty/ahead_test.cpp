// SPDX-License-Identifier: MIT
// A log read on two threads: the answer and the refusal of one.
#include "caseload/error.hpp"
#include "caseload/show/duty.hpp"
#include "duty/log_text.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <string>
#include <thread>

namespace caseload::ahead_tests {

using namespace caseload::duty;
using duty_test::read;

namespace {

/// More than one block of lines, stops and holes among them.
std::string log_text(int lines, const std::string& at_line = {}, int line = 0) {
    std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < lines; ++i) {
        const int wave = i * 7 % 997;
        if (i == line && !at_line.empty())
            text += at_line;
        else if (i % 20000 >= 19000)
            text += fmt::format("{:.1f},0,0,0\n", i / 10.0);
        else
            text +=
                fmt::format("{:.1f},{},{},{}\n", i / 10.0, 1500 + 2 * wave,
                            i % 501 == 0 ? "" : fmt::format("{}", wave - 100), 10 + wave / 50.0);
    }
    return text;
}

DutyOptions on_two_threads() {
    DutyOptions options;
    options.side_by_side = [](const std::function<void()>& first,
                              const std::function<void()>& second) {
        std::thread other(first);
        second();
        other.join();
    };
    return options;
}

std::string said(const std::string& text, DutyOptions options, double shortest_stop_s = 60) {
    options.shortest_stop_s = shortest_stop_s;
    try {
        const DutyAnswer answer = read(text, options);
        return event_text(answer) + duty_screen(answer);
    } catch (const Error& error) {
        const Where& where = error.problems().front().where;
        return fmt::format("{}:{}: {}", where.file, where.line, error.what());
    }
}

}  // namespace

TEST_CASE("duty: a log read on two threads gives the bytes of one") {
    for (const int lines : {500, 60000, 150000}) {
        const std::string text = log_text(lines);
        const std::string one = said(text, {});
        CHECK(one.find("drive-1") != std::string::npos);
        CHECK(said(text, on_two_threads()) == one);
        DutyOptions in_turn;
        in_turn.side_by_side = [](const auto& first, const auto& second) {
            first();
            second();
        };
        CHECK(said(text, in_turn) == one);
    }
}

TEST_CASE("duty: of two errors in a log the first in the file is reported, on two threads too") {
    const std::string wrong = "12.0,fast,0,0\n";
    for (const int line : {60001, 99990, 149999}) {
        const std::string text = log_text(150000, wrong, line);
        const std::string one = said(text, {});
        CHECK(one.find(fmt::format("log.csv:{}: ", line + 2)) == 0);
        CHECK(said(text, on_two_threads()) == one);
    }
    // A leg too many stands above the line that cannot be read, in the same block and before it.
    std::string stops = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < 8200; ++i)
        stops += fmt::format("{:.1f},{}\n", i / 5.0, i / 10 % 2 == 0 ? "1500,400,15" : "0,0,0");
    for (const int more : {100, 80000}) {
        std::string text = stops;
        for (int i = 0; i < more; ++i)
            text += fmt::format("{:.1f},1500,400,15\n", (8200 + i) / 5.0);
        text += wrong;
        CHECK(said(text, {}, 1) == "log.csv:0: the log has more than 400 legs and stops");
        CHECK(said(text, on_two_threads(), 1) == said(text, {}, 1));
    }
}

}  // namespace caseload::ahead_tests
