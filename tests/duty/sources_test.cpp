// SPDX-License-Identifier: MIT
// Speed and torque of the case from what the log has, by hand. The car of these logs: 20 m/s are
// 200 rad/s at the case (r / (axle x drop) = 0.5 / (5 x 1) = 0.1 m), gears of 2 and 1.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "duty/log_text.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

namespace caseload::sources_tests {

using namespace caseload::duty;
using duty_test::read;

namespace {

DutyOptions with_car() {
    DutyOptions options = duty_test::with_car();
    options.car->vehicle.gearbox = {2, 1};
    options.car->vehicle.engine_torque = {{1000, 300}, {3000, 500}, {5000, 400}};
    return options;
}

/// 10 Hz; the row of each instant without its time.
std::string log_of(const std::string& head, double duration_s,
                   const std::function<std::string(double t_s)>& row) {
    std::string text = head;
    for (int i = 0; i < 10 * duration_s; ++i)
        text += fmt::format("{:.1f},{}\n", i / 10.0, row(i / 10.0));
    return text;
}

void check_bin(const Bin& bin, double share, double torque_Nm, double speed_rpm) {
    CHECK(bin.share == rel(share, 1e-6));
    CHECK(bin.torque_Nm == rel(torque_Nm, 1e-4));
    CHECK(bin.speed_rpm == rel(speed_rpm, 1e-4));
}

}  // namespace

TEST_CASE("duty: engine torque times the ratio of the gear, engine speed over it") {
    // First gear half of the time: 2 x 200 = 400 N m at 3000 / 2 = 1500 r/min; then 1 x 150 at
    // 2400.
    const DutyAnswer answer =
        read(log_of("Time (s),RPM,Torque (Nm),Gear,Speed (m/s)\n", 40,
                    [](double t_s) {
                        return std::string(t_s < 20 ? "3000,200,1,15.7" : "2400,150,2,25.1");
                    }),
             with_car());
    CHECK(answer.speed == SpeedSource::engine_and_gear);
    CHECK(answer.torque == TorqueSource::engine_column);
    REQUIRE(answer.legs.size() == 1);
    REQUIRE(answer.legs[0].bins.size() == 2);
    check_bin(answer.legs[0].bins[0], 0.5, 400, 1500);
    check_bin(answer.legs[0].bins[1], 0.5, 150, 2400);
    REQUIRE(answer.gears.size() == 2);
    CHECK(answer.gears[0].time_s == rel(20, 1e-6));
    CHECK(answer.gears[1].time_s == rel(20, 1e-6));
    CHECK(answer.no_gear_s == 0);
}

TEST_CASE("duty: the gear is the one both speeds agree with, slip allowed") {
    // 20 m/s are 1909.86 r/min at the case. 8 % slip: 2 x 1909.86 x 1.08 = 4125.30 is first gear,
    // 1909.86 x 1.08 = 2062.65 second; 2800 lies 47 % off second and 27 % off first: no gear.
    const DutyAnswer answer = read(log_of("Time (s),RPM,Torque (Nm),Speed (m/s)\n", 40,
                                          [](double t_s) {
                                              return std::string(t_s < 10   ? "4125.30,200,20"
                                                                 : t_s < 36 ? "2062.65,200,20"
                                                                            : "2800,200,20");
                                          }),
                                   with_car());
    CHECK(answer.gears[0].time_s == rel(10, 1e-6));
    CHECK(answer.gears[1].time_s == rel(26, 1e-6));
    CHECK(answer.no_gear_s == rel(4, 1e-6));
    CHECK(answer.coverage == rel(0.9, 1e-6));
    REQUIRE(answer.legs.size() == 1);
    CHECK(answer.legs[0].duration_s == rel(40, 1e-6));
    CHECK(answer.legs[0].distance_m == rel(800, 1e-6));
    CHECK(answer.unknown_s == rel(4, 1e-6));
    REQUIRE(answer.legs[0].bins.size() == 2);
    check_bin(answer.legs[0].bins[0], 10.0 / 36, 400, 2062.65);
    check_bin(answer.legs[0].bins[1], 26.0 / 36, 200, 2062.65);
}

TEST_CASE("duty: throttle times full load at the engine's speed, closed throttle drives back") {
    // Half throttle at 2000 r/min, between 300 and 500 N m: 0.5 x 400 x 2 = 400 N m at 1000 r/min.
    // Closed: a tenth of 100 kW over 104.72 rad/s = -95.493 N m.
    const DutyAnswer answer = read(
        log_of("Time (s),RPM,TPS (%),Gear,Speed (m/s)\n", 40,
               [](double t_s) { return std::string(t_s < 30 ? "2000,50,1,10" : "2000,0,1,10"); }),
        with_car());
    CHECK(answer.torque == TorqueSource::engine_table);
    REQUIRE(answer.legs.size() == 1);
    REQUIRE(answer.legs[0].bins.size() == 2);
    check_bin(answer.legs[0].bins[0], 0.75, 400, 1000);
    check_bin(answer.legs[0].bins[1], 0.25, -95.493, 1000);
    CHECK(answer.coast_share == rel(0.25, 1e-6));
}

TEST_CASE("duty: beyond the last point of the engine's table there is no torque") {
    const DutyAnswer answer = read(
        log_of(
            "Time (s),RPM,TPS (%),Gear,Speed (m/s)\n", 40,
            [](double t_s) { return std::string(t_s < 20 ? "5000,100,1,26" : "5001,100,1,26"); }),
        with_car());
    REQUIRE(answer.legs.size() == 1);
    REQUIRE(answer.legs[0].bins.size() == 2);
    check_bin(answer.legs[0].bins[0], 0.5, 800, 2500);
    CHECK(answer.legs[0].bins[1].torque_Nm == 0);
}

TEST_CASE("duty: torque from motion counts rolling, air, inertia and brakes") {
    DutyOptions options = with_car();
    options.resistance = 0.15;
    // Steady 20 m/s: 2000 x 9.80665 x 0.15 + 1.2/2 x 1 x 20^2 = 2941.995 + 240 = 3181.995 N,
    // at 0.1 m 318.1995 N m; 200 rad/s = 1909.86 r/min.
    const std::string head = "Time (s),Speed (m/s)\n";
    const DutyAnswer steady =
        read(log_of(head, 40, [](double) { return std::string("20"); }), options);
    CHECK(steady.speed == SpeedSource::road_speed);
    CHECK(steady.torque == TorqueSource::road_load);
    REQUIRE(steady.legs.size() == 1);
    REQUIRE(steady.legs[0].bins.size() == 1);
    check_bin(steady.legs[0].bins[0], 1, 318.1995, 1909.8593);
    CHECK(steady.legs[0].distance_m == rel(800, 1e-6));
    // From 10 m/s by 1 m/s^2; at the last instant, 19.9 m/s: 2000 x 1.06 x 1 more, and
    // 0.6 x 19.9^2 = 237.606 of air: 5299.601 N.
    const DutyAnswer faster =
        read(log_of(head, 10, [](double t_s) { return fmt::format("{:.1f}", 10 + t_s); }), options);
    CHECK(faster.largest_Nm == rel(529.9601, 1e-4));
    // From 30 m/s by -3 m/s^2 the brakes work: 6360 N against 2942 and at most 540. The engine
    // takes a tenth of 100 kW: at the first instant over 300 rad/s, 33.333 N m.
    const DutyAnswer slower = read(
        log_of(head, 8, [](double t_s) { return fmt::format("{:.1f}", 30 - 3 * t_s); }), options);
    CHECK(slower.coast_share == rel(1, 1e-6));
    REQUIRE(!slower.legs.empty());
    for (const Bin& bin : slower.legs[0].bins)
        CHECK(-bin.torque_Nm * bin.speed_rpm * 3.14159265 / 30 == rel(10e3, 0.02));
}

TEST_CASE("duty: torque from motion of a log of a line a second has the acceleration in it") {
    DutyOptions options = with_car();
    options.resistance = 0.15;
    // From 10 m/s by 1 m/s^2; at the last line, 19 m/s: 2941.995 + 0.6 x 19^2 + 2120 = 5278.595 N.
    std::string text = "Time (s),Speed (m/s)\n";
    for (int i = 0; i < 10; ++i) text += fmt::format("{},{}\n", i, 10 + i);
    CHECK(read(text, options).largest_Nm == rel(527.8595, 1e-4));
}

TEST_CASE("duty: torque from motion has the acceleration in it at every step of a log") {
    DutyOptions options = with_car();
    options.resistance = 0.05;
    // Mean drive power over a speed that swings: 15 + 8 sin(t/5) m/s.
    const auto power_W = [&](const std::function<double(int)>& step_s) {
        std::string text = "Time (s),Speed (m/s)\n";
        double t_s = 0;
        for (int i = 0; i < 1200; ++i) {
            text += fmt::format("{:.3f},{:.4f}\n", t_s, 15 + 8 * std::sin(t_s / 5));
            t_s += step_s(i);
        }
        double sum_W = 0;
        const DutyAnswer answer = read(text, options);
        REQUIRE(answer.legs.size() == 1);
        for (const Bin& bin : answer.legs[0].bins)
            sum_W += bin.share * std::max(0.0, bin.torque_Nm) * bin.speed_rpm * 3.14159265 / 30;
        return sum_W;
    };
    const double even_W = power_W([](int) { return 0.2; });
    CHECK(power_W([](int) { return 1.0; }) == rel(even_W, 0.02));
    CHECK(power_W([](int i) { return i < 620 ? 1.0 : 1.1; }) == rel(even_W, 0.02));
    CHECK(power_W([](int i) { return i % 3 == 0 ? 1.3 : 0.9; }) == rel(even_W, 0.02));
    CHECK(power_W([](int i) { return i < 620 ? 0.3 : 0.6; }) == rel(even_W, 0.02));
}

TEST_CASE("duty: the ratio of the speeds while the clutch slips is not taken for a gear") {
    // Engine 3000 r/min: the case at 1500 is a ratio of 2; at 300 it is 10, which no gear has.
    const DutyAnswer answer =
        read(log_of("Time (s),RPM,Case speed (rpm),Torque (Nm),Speed (m/s)\n", 20,
                    [](double t_s) {
                        return std::string(t_s < 2 ? "3000,300,200,3" : "3000,1500,200,15");
                    }),
             {});
    CHECK(answer.largest_Nm == rel(400, 1e-9));
    CHECK(answer.no_gear_s == rel(2, 1e-6));
    CHECK(answer.coverage == rel(0.9, 1e-6));
}

TEST_CASE("duty: without stated ratios the gears are the clusters of the two speeds' ratio") {
    // Ratios 3, 1.8 and 1 with 2, 3 and 4 % of tyre slip, and a minute between gears.
    DutyOptions options = with_car();
    options.car->vehicle.gearbox.clear();
    options.car->vehicle.engine_torque.clear();
    const auto row = [](double t_s) {
        const auto at = static_cast<int>(10 * t_s + 0.5);
        const double mps = 10 + at % 60 / 4.0;
        const double ratio = t_s < 20 ? 3 * 1.02 : t_s < 60 ? 1.8 * 1.03 : 1.04;
        const double engine_rpm =
            t_s > 95 ? 2000 + 37 * (at % 50) : mps / 0.1 * 30 / 3.14159265358979 * ratio;
        return fmt::format("{:.2f},200,{:.2f}", engine_rpm, mps);
    };
    const DutyAnswer answer =
        read(log_of("Time (s),RPM,Torque (Nm),Speed (m/s)\n", 100, row), options);
    CHECK(answer.speed == SpeedSource::engine_and_gear);
    REQUIRE(answer.gears.size() == 3);
    CHECK(answer.gears[0].ratio == rel(3 * 1.02, 0.005));
    CHECK(answer.gears[1].ratio == rel(1.8 * 1.03, 0.005));
    CHECK(answer.gears[2].ratio == rel(1.04, 0.005));
    CHECK(answer.gears[0].time_s >= 20);
    CHECK(answer.gears[1].time_s >= 40);
    CHECK(answer.no_gear_s > 0.5);
    // With a column of gears the ratios have to be stated.
    const std::string with_gear =
        log_of("Time (s),RPM,Torque (Nm),Gear,Speed (m/s)\n", 100, [&](double t_s) {
            const std::string plain = row(t_s);
            const std::size_t at = plain.rfind(',');
            return plain.substr(0, at) + ",1" + plain.substr(at);
        });
    CHECK_THROWS_AS((void)read(with_gear, options), Error);
}

TEST_CASE(
    "duty: where the clutch slips beside a gear column the case's speed comes from the road "
    "speed") {
    // First gear of 2 at 20 m/s = 1909.86 r/min: 4000 r/min is 5 % of slip, 6000 is the clutch.
    const DutyAnswer answer = read(
        log_of(
            "Time (s),RPM,Torque (Nm),Gear,Speed (m/s)\n", 40,
            [](double t_s) { return std::string(t_s < 30 ? "4000,200,1,20" : "6000,200,1,20"); }),
        with_car());
    REQUIRE(answer.legs.size() == 1);
    REQUIRE(answer.legs[0].bins.size() == 2);
    check_bin(answer.legs[0].bins[0], 0.75, 400, 2000);
    check_bin(answer.legs[0].bins[1], 0.25, 400, 1909.8593);
    CHECK(answer.remarks.back().substr(0, 31) == "10.0 s the clutch or converter ");
}

TEST_CASE("duty: too many legs are refused with the file's name") {
    // 410 rests of 2 s, each a stop if 1 s is one.
    std::string text = "Time (s),Case speed (rpm),Case torque (Nm),Speed (m/s)\n";
    for (int i = 0; i < 8200; ++i)
        text += fmt::format("{:.1f},{}\n", i / 5.0, i / 10 % 2 == 0 ? "1500,400,15" : "0,0,0");
    DutyOptions options;
    options.shortest_stop_s = 1;
    const Error error = refused_by([&] { (void)read(text, options); });
    CHECK(std::string(error.what()) == "the log has more than 400 legs and stops");
    CHECK(error.problems().front().where.file == "log.csv");
}

}  // namespace caseload::sources_tests
