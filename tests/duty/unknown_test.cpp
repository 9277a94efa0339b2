// SPDX-License-Identifier: MIT
// What a log does not say of its driving stays in the event: its time and way as shares of legs.
#include "caseload/duty/event.hpp"
#include "caseload/show/duty.hpp"
#include "duty/log_text.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <string>

namespace caseload::unknown_tests {

using namespace caseload::duty;

namespace {

const std::string columns = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";

void add(std::string& text, double from_s, double to_s, const std::string& row) {
    for (int i = static_cast<int>(10 * from_s + 0.5); i < static_cast<int>(10 * to_s + 0.5); ++i)
        text += fmt::format("{:.1f},{}\n", i / 10.0, row);
}

double time_s(const DutyAnswer& answer) {
    double sum = 0;
    for (const LegInput& leg : answer.legs) sum += leg.duration_s;
    return sum;
}

double way_m(const DutyAnswer& answer) {
    double sum = 0;
    for (const LegInput& leg : answer.legs) sum += leg.distance_m;
    return sum;
}

}  // namespace

TEST_CASE("duty: a gap in a drive is in its leg, from the speed before to that after") {
    // 10 m/s for 100 s, 20 s without lines, 20 m/s for 80 s: 1000 + 15 x 20 + 1600 m.
    std::string text = columns;
    add(text, 0, 100, "1000,300,10");
    add(text, 120, 200, "2000,400,20");
    const DutyAnswer answer = duty_test::read(text);
    REQUIRE(answer.legs.size() == 1);
    CHECK(time_s(answer) == rel(200, 1e-9));
    CHECK(way_m(answer) == rel(2900, 1e-3));
    CHECK(answer.unknown_s == rel(20, 1e-6));
    CHECK(answer.unknown_m == rel(300, 1e-6));
    CHECK(answer.unknown_time_share() == rel(0.1, 1e-6));
    // Driven like the rest: the shares of the bins are those of the 180 s.
    REQUIRE(answer.legs[0].bins.size() == 2);
    CHECK(answer.legs[0].bins[0].share == rel(80.0 / 180, 1e-6));
    CHECK(answer.agreement.front().off_share == doctest::Approx(0).epsilon(1e-6));
    CHECK(event_text(answer).find("# 10.0 % of the driving time and 10.3 % of the way could not be "
                                  "read") != std::string::npos);
    CHECK(event_text(answer).find("duration = \"200 s\"\ndistance = \"2900 m\"") !=
          std::string::npos);
}

TEST_CASE("duty: lines without torque keep their own road speed, peaks come oftener") {
    std::string text = columns;
    for (int i = 0; i < 2000; ++i) {
        const double t_s = i / 10.0;
        const bool lacks = t_s >= 50 && t_s < 90;
        text += fmt::format("{:.1f},1500,{},{}\n", t_s,
                            lacks ? "" : (i / 10 % 2 == 0 ? "600" : "100"), lacks ? 5 : 15);
    }
    std::string without = columns;
    for (int i = 0; i < 1600; ++i)
        without += fmt::format("{:.1f},1500,{},15\n", i / 10.0, i / 10 % 2 == 0 ? "600" : "100");
    const DutyAnswer answer = duty_test::read(text);
    const DutyAnswer known = duty_test::read(without);
    CHECK(time_s(answer) == rel(200, 1e-6));
    // 160 s at 15 and 40 s at 5 m/s; half a second to each side is filled between neighbours.
    CHECK(way_m(answer) == rel(160 * 15 + 40 * 5, 1e-3));
    CHECK(answer.excluded_s == rel(answer.unknown_s, 1e-9));
    REQUIRE(!answer.legs[0].peaks.empty());
    CHECK(answer.legs[0].peaks[0].times / known.legs[0].peaks[0].times ==
          doctest::Approx(200.0 / 160).epsilon(0.02));
    CHECK(answer.mean_drive_power_W == rel(known.mean_drive_power_W, 0.01));
}

TEST_CASE("duty: a gap between two standstills is a standstill") {
    std::string text = columns;
    add(text, 0, 100, "1500,300,15");
    add(text, 100, 110, "0,0,0");
    add(text, 400, 410, "0,0,0");
    add(text, 410, 600, "1500,300,15");
    DutyOptions forced;
    forced.force = true;
    const DutyAnswer answer = duty_test::read(text, forced);
    REQUIRE(answer.legs.size() == 3);
    CHECK(answer.legs[1].kind == LegKind::stop);
    CHECK(answer.legs[1].duration_s == rel(310, 1e-6));
    CHECK(answer.rest_s == rel(290, 1e-6));
    CHECK(answer.unknown_s == 0);
    CHECK(time_s(answer) == rel(600, 1e-9));
    CHECK(duty_screen(answer).find("UNKNOWN  290.0 s without readings") != std::string::npos);
}

TEST_CASE("duty: driving before the first stop, of less than a second, and at the end is kept") {
    // Driven without torque, then a stop, then read, then without torque again.
    std::string text = columns;
    add(text, 0, 30, "1500,,15");
    add(text, 30, 100, "0,0,0");
    add(text, 100, 400, "1500,300,15");
    add(text, 400, 470, "0,0,0");
    add(text, 470, 500, "1500,,10");
    const DutyAnswer answer = duty_test::read(text);
    CHECK(time_s(answer) == rel(500, 1e-6));
    CHECK(way_m(answer) == rel(330 * 15 + 300, 1e-3));
    CHECK(answer.unknown_s == rel(60, 1e-6));
    int drives = 0;
    for (const LegInput& leg : answer.legs) drives += leg.kind == LegKind::drive ? 1 : 0;
    CHECK(drives == 1);
}

TEST_CASE("duty: above the limit the unknown share is warned of, and JSON has it") {
    const auto with_gap = [](double gap_s) {
        std::string text = columns;
        add(text, 0, 100, "1500,300,15");
        add(text, 100 + gap_s, 200, "1500,300,15");
        return duty_test::read(text);
    };
    const std::string little = duty_screen(with_gap(18));
    const std::string much = duty_screen(with_gap(22));
    CHECK(little.find("UNKNOWN  9.0 % of the driving time") != std::string::npos);
    CHECK(little.find("more than 10 %") == std::string::npos);
    CHECK(much.find("more than 10 %") != std::string::npos);
    const std::string json = duty_json(with_gap(22), "e.toml");
    CHECK(json.find("\"unknown\":{\"time_s\":2") != std::string::npos);
    CHECK(json.find("\"limit_share\":0.1,\"rest_s\":0}") != std::string::npos);
    std::string whole = columns;
    add(whole, 0, 100, "1500,300,15");
    CHECK(duty_screen(duty_test::read(whole)).find("UNKNOWN") == std::string::npos);
    CHECK(event_text(duty_test::read(whole)).find("could not be read") == std::string::npos);
}

}  // namespace caseload::unknown_tests
