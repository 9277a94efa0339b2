// SPDX-License-Identifier: MIT
// What a log says too little of, doubtful decimals, stops, oil: figures by hand.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/log_text.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <string>

namespace caseload::answer_tests {

using namespace caseload::duty;
using duty_test::read;

namespace {

std::string words_refused(const std::string& text, const DutyOptions& options = {}) {
    const auto error = error_of([&] { (void)read(text, options); });
    if (error) CHECK(error->kind() == Error::Kind::input);
    return error ? error->what() : std::string("read");
}

const std::string columns = "Time (s),RPM,Case speed (rpm),Case torque (Nm),Speed (m/s)\n";

/// One line a tenth of a second, of a car that drives or stands.
void add(std::string& text, double from_s, double to_s, const std::string& row) {
    for (int i = static_cast<int>(10 * from_s + 0.5); i < static_cast<int>(10 * to_s + 0.5); ++i)
        text += fmt::format("{:.1f},{}\n", i / 10.0, row);
}

const std::string drives = "3000,1500,400,15";
const std::string idles = "800,0,0,0";
const std::string is_off = "0,0,0,0";

}  // namespace

TEST_CASE("duty: a log with less than 80 % of usable time is refused unless forced") {
    // 70 s logged of 100: 30 s lie between 40.0 and 70.0, one of whose samples is the line's own.
    std::string text = columns;
    add(text, 0, 40, drives);
    add(text, 70, 100, drives);
    CHECK(words_refused(text) ==
          "only 70.0 % of the time can be used, 80 % is wanted: 30.0 s in gaps, 0.0 s without a "
          "value, 0.0 s in no known gear, of 100.0 s");
    DutyOptions forced;
    forced.force = true;
    const DutyAnswer answer = read(text, forced);
    CHECK(answer.coverage == rel(0.7, 1e-6));
    CHECK(answer.gap_s == rel(30, 1e-6));
    REQUIRE(answer.legs.size() == 1);
    // 30 s at 15 m/s are not read, and are in the event.
    CHECK(answer.legs[0].duration_s == rel(100, 1e-6));
    CHECK(answer.legs[0].distance_m == rel(1500, 1e-6));
    CHECK(answer.unknown_time_share() == rel(0.3, 1e-6));
    // 81 of 100 s are enough.
    text = columns;
    add(text, 0, 40, drives);
    add(text, 59, 100, drives);
    CHECK(read(text).coverage == rel(0.81, 1e-6));
}

TEST_CASE("duty: a log that never drives is refused, forced or not") {
    std::string text = columns;
    add(text, 0, 100, idles);
    DutyOptions forced;
    forced.force = true;
    CHECK(words_refused(text) == "the log never drives for a second");
    CHECK(words_refused(text, forced) == "the log never drives for a second");
}

TEST_CASE("duty: three digits behind every point are asked about, and --decimal answers") {
    std::string text = "Time (s);Case speed (rpm);Case torque (Nm);Speed (m/s)\n";
    for (int i = 0; i < 100; ++i) text += fmt::format("{};1.500;400;15\n", i);
    CHECK(words_refused(text) ==
          "every number with a point has three digits behind it, as in \"4.120\": a decimal or "
          "thousands");
    DutyOptions options;
    options.read.decimal = "comma";
    const DutyAnswer thousands = read(text, options);
    REQUIRE(thousands.legs.size() == 1);
    CHECK(thousands.legs[0].bins.at(0).speed_rpm == rel(1500, 1e-6));
    options.read.decimal = "point";
    const DutyAnswer decimals = read(text, options);
    REQUIRE(decimals.legs.size() == 1);
    CHECK(decimals.legs[0].bins.at(0).speed_rpm == rel(1.5, 1e-6));
}

TEST_CASE("duty: a decimal point beside a decimal comma is asked about") {
    std::string text = "Time (s);Case speed (rpm);Case torque (Nm);Speed (m/s)\n";
    for (int i = 0; i < 100; ++i) text += fmt::format("{};1500,25;400.25;15\n", i);
    CHECK(words_refused(text) ==
          "this log has numbers with a decimal comma and with a decimal point");
}

TEST_CASE("duty: a standstill of a minute is a stop, a shorter one stays in the drive") {
    std::string text = columns;
    add(text, 0, 100, drives);
    add(text, 100, 190, idles);   // a stop of 90 s
    add(text, 190, 250, drives);  // then 60 s,
    add(text, 250, 280, idles);   // a rest of 30 s,
    add(text, 280, 300, drives);  // 20 s more: one drive of 110 s
    add(text, 300, 420, is_off);  // a stop of 120 s, the engine off
    const DutyAnswer answer = read(text);
    REQUIRE(answer.legs.size() == 4);
    const double durations_s[] = {100, 90, 110, 120};
    const char* const names[] = {"drive-1", "stop-1", "drive-2", "stop-2"};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(answer.legs[i].name == names[i]);
        CHECK(answer.legs[i].duration_s == rel(durations_s[i], 1e-6));
        CHECK((answer.legs[i].kind == LegKind::stop) == (i % 2 == 1));
    }
    CHECK(answer.legs[1].engine == Engine::idle);
    CHECK(answer.legs[3].engine == Engine::off);
    CHECK(answer.legs[2].distance_m == rel(15 * 80, 1e-6));
    REQUIRE(answer.legs[2].bins.size() == 2);
    CHECK(answer.legs[2].bins[0].share == rel(80.0 / 110, 1e-6));
    DutyOptions options;
    options.shortest_stop_s = 20;
    CHECK(read(text, options).legs.size() == 6);
    options.shortest_stop_s = 100;
    CHECK(read(text, options).legs.size() == 2);
}

TEST_CASE("duty: oil and air temperatures of the event are those of the log") {
    // Whole degrees from 80 to 99, five seconds each: below the tenth, half, nine tenths of the
    // time lie 81, 89, 97. Air 20 degC half of the time, then 30.
    std::string text =
        "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s),Gearbox oil temp "
        "(degC),Outside temp (degC)\n";
    for (int k = 0; k < 20; ++k)
        add(text, 5 * k, 5 * k + 5, fmt::format("1500,400,15,{},{}", 80 + k, k < 10 ? 20 : 30));
    const DutyAnswer answer = read(text);
    REQUIRE(answer.oil_degC.size() == 3);
    CHECK(answer.oil_degC[0] == rel(81, 1e-9));
    CHECK(answer.oil_degC[1] == rel(89, 1e-9));
    CHECK(answer.oil_degC[2] == rel(97, 1e-9));
    REQUIRE(answer.ambient_degC.has_value());
    CHECK(*answer.ambient_degC == rel(25, 1e-6));
}

TEST_CASE("duty: values beyond any car are missing, a time beyond any clock is refused") {
    std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s),Ambient (degC)\n";
    add(text, 0, 10, "1500,400,15,25");
    text += "10.0,1500,1e300,15,1e300\n10.1,1500,-20001,15,61\n";
    add(text, 10.2, 20, "1500,400,15,25");
    const DutyAnswer answer = read(text);
    CHECK(answer.rejected[index(Channel::case_torque)] == 2);
    CHECK(answer.rejected[index(Channel::ambient)] == 2);
    CHECK(answer.largest_Nm == rel(400, 1e-9));
    CHECK(*answer.ambient_degC == rel(25, 1e-9));
    CHECK(words_refused(text + "1e300,1500,400,15,25\n") ==
          "the time of this line is not within 1e+11 s");
}

TEST_CASE("duty: no leg is longer than a setup takes") {
    // 60 lines 2 h apart.
    std::string text = "Time (h),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < 60; ++i) text += fmt::format("{},1500,400,15\n", 2 * i);
    CHECK(words_refused(text) ==
          "drive-1 lasts 120 h over 6480 km; a leg is at most 100 h and 5000 km");
}

}  // namespace caseload::answer_tests
