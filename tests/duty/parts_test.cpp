// SPDX-License-Identifier: MIT
// Lines are taken many at a time: where one part of them ends changes no answer.
#include "duty/log_text.hpp"

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <string>

namespace caseload::parts_tests {

using namespace caseload::duty;
using duty_test::read;

namespace {

/// Two minutes at 10 Hz with something odd every hundred lines or so.
std::string lines_of(bool oil) {
    std::string text;
    double t_s = 50;
    for (int i = 0; i < 1200; ++i) {
        t_s += i == 333 ? 4 : i == 700 ? -20 : i == 444 ? -0.1 : 0.1;
        const int wave = i * 37 % 401;
        std::string torque = fmt::format("{}", 3 * wave - 100);
        if (i % 97 == 0) torque.clear();
        if (i == 512) torque = "999999";
        if (i >= 900 && i < 920) torque.clear();
        const bool stands = i >= 555 && i < 600;
        text += fmt::format("{:.2f},{},{},{}", t_s, stands ? 0 : 1500 + wave, torque,
                            stands ? 0 : 10 + wave / 100.0);
        if (oil) text += fmt::format(",{:.1f},21.5", 80 + i / 100.0 + (i == 610 ? 30 : 0));
        text += i % 131 == 0 ? "\n\n" : "\n";
    }
    return text;
}

std::string said(const std::string& text) {
    DutyOptions options;
    options.shortest_stop_s = 2;
    DutyAnswer answer = read(text, options);
    answer.lines = answer.duplicates = 0;
    std::string out = event_text(answer);
    out +=
        fmt::format("{} samples, {} late, {} restarts, {} gaps of {} s, {} filled, {} s left out",
                    answer.samples, answer.late, answer.restarts, answer.gaps, answer.gap_s,
                    answer.filled, answer.excluded_s);
    for (const std::size_t rejected : answer.rejected) out += fmt::format(" {}", rejected);
    for (const Agreement& one : answer.agreement) out += fmt::format(" {}", one.off_share);
    for (const OilSeries& series : answer.oil)
        for (const OilRow& row : series.rows)
            out += fmt::format(" {} {}", row.after_s, row.temp_degC);
    return out;
}

}  // namespace

TEST_CASE("duty: the size of the blocks of lines changes no answer") {
    for (const bool oil : {false, true}) {
        const std::string names =
            fmt::format("Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s){}\n",
                        oil ? ",Oil temperature (C),Ambient temperature (C)" : "");
        const std::string lines = lines_of(oil);
        const std::string first = lines.substr(0, lines.find('\n') + 1);
        const std::string one = said(names + lines);
        CHECK(one.find("restarts") != std::string::npos);
        // The same time again says nothing new and moves all that follows by a line.
        std::string again;
        for (int moved = 1; moved <= 300; ++moved) {
            again += first;
            if (moved % 7 != 0 && moved < 250) continue;
            CAPTURE(moved);
            CHECK(said(names + again + lines) == one);
        }
    }
}

}  // namespace caseload::parts_tests
