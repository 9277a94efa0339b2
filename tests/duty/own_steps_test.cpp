// SPDX-License-Identifier: MIT
// Logs of one record a line whose channels come at rates of their own: 1 Hz to one in 6 s, in turn
// and in bursts. Truth is a car whose speed is known at every time.
#include "caseload/duty/event.hpp"
#include "caseload/error.hpp"
#include "caseload/show/duty.hpp"
#include "duty/log_text.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>
#include <vector>

namespace caseload::own_steps_tests {

using namespace caseload::duty;

namespace {

/// Between 10 and 20 m/s and back in 4 min; its integral by hand.
double speed_mps(double t_s) {
    return 15 - 5 * std::cos(2 * 3.14159265358979 * t_s / 240);
}
double way_m(double t_s) {
    return 15 * t_s - 5 * 240 / (2 * 3.14159265358979) * std::sin(2 * 3.14159265358979 * t_s / 240);
}

struct Signal {
    std::string name;
    std::string unit;
    double step_s;
    double first_s;
    int burst;  ///< readings at nearly one time
    std::function<double(double t_s)> value;
};

/// Case at 100 r/min and 20 N m to each m/s.
std::vector<Signal> signals(double case_step_s, double road_step_s, int burst) {
    return {{"Case speed", "rpm", case_step_s, 0, 1, [](double t) { return 100 * speed_mps(t); }},
            {"Case torque", "Nm", case_step_s, case_step_s / 3, 1,
             [](double t) { return 20 * speed_mps(t); }},
            {"Speed (GPS)", "km/h", road_step_s, road_step_s / 2, burst,
             [](double t) { return 3.6 * speed_mps(t); }},
            {"Altitude (GPS)", "m", road_step_s, road_step_s / 2, burst, [](double) { return 1.; }},
            {"Battery", "V", 0.5, 0.1, 1, [](double) { return 12.5; }}};
}

std::string log_of(const std::vector<Signal>& all, double duration_s,
                   const std::function<bool(const Signal&, double t_s)>& lost = {}) {
    struct Record {
        double t_s;
        std::string text;
    };
    std::vector<Record> records;
    for (const Signal& one : all)
        for (double t_s = one.first_s; t_s < duration_s; t_s += one.step_s)
            for (int k = 0; k < one.burst; ++k) {
                const double at_s = t_s + 0.01 * k;
                if (lost && lost(one, at_s)) continue;
                records.push_back({at_s, fmt::format("\"{:.3f}\";\"{}\";\"{:.4f}\";\"{}\"\n", at_s,
                                                     one.name, one.value(at_s), one.unit)});
            }
    std::stable_sort(records.begin(), records.end(),
                     [](const Record& a, const Record& b) { return a.t_s < b.t_s; });
    std::string text = "\"SECONDS\";\"PID\";\"VALUE\";\"UNITS\"\n";
    for (const Record& record : records) text += record.text;
    return text;
}

}  // namespace

TEST_CASE("duty: channels of one record a line are usable from 10 Hz to one reading in 6 s") {
    struct Rates {
        double case_step_s;
        double road_step_s;
        int burst;
    };
    for (const Rates& rates : {Rates{0.1, 0.1, 1}, Rates{0.5, 1, 1}, Rates{1, 1, 4}, Rates{3, 1, 5},
                               Rates{6, 1, 3}, Rates{6, 6, 1}, Rates{6, 6, 3}, Rates{2, 5, 2}}) {
        CAPTURE(rates.case_step_s);
        CAPTURE(rates.road_step_s);
        CAPTURE(rates.burst);
        const DutyAnswer answer = duty_test::read(
            log_of(signals(rates.case_step_s, rates.road_step_s, rates.burst), 960));
        CHECK(answer.coverage > 0.98);
        CHECK(answer.gaps == 0);
        REQUIRE(answer.legs.size() == 1);
        const LegInput& leg = answer.legs.front();
        CHECK(leg.duration_s == rel(960, 0.015));
        CHECK(leg.distance_m == rel(way_m(960), 0.015));
        // Revolutions: 100 r/min to each m/s.
        double turns = 0;
        for (const Bin& bin : leg.bins) turns += bin.share * leg.duration_s * bin.speed_rpm / 60;
        CHECK(turns == rel(way_m(960) * 100 / 60, 0.015));
        CHECK(answer.largest_Nm == rel(400, 0.02));
    }
}

TEST_CASE("duty: noise within a burst of readings is no acceleration") {
    DutyOptions options = duty_test::with_car();
    options.resistance = 0.15;
    // The third of three readings 0.01 s apart is 0.1 m/s too fast: 5 m/s^2 within the burst, 0.1
    // from burst to burst. Of the car itself at most 2 pi / 240 x 5 = 0.131 m/s^2.
    std::vector<Signal> all = signals(1, 1, 3);
    all.erase(all.begin(), all.begin() + 2);
    all[0].first_s = 0;
    all[0].value = [](double t) {
        return 3.6 * (speed_mps(t) + (std::lround(t * 100) % 100 == 2 ? 0.1 : 0));
    };
    all[1].step_s = all[2].step_s = 1;
    const DutyAnswer answer = duty_test::read(log_of(all, 960), options);
    CHECK(answer.torque == TorqueSource::road_load);
    // At 20 m/s 318.2 N m without acceleration, 21.2 more with 0.1 m/s^2.
    CHECK(answer.largest_Nm > 318);
    CHECK(answer.largest_Nm < 318.2 + 1.1 * 21.2 + 2);
}

TEST_CASE("duty: a note says that changes between slow readings are not seen") {
    const DutyAnswer answer = duty_test::read(log_of(signals(6, 1, 3), 960));
    CHECK(answer.slowest_step_s == rel(6, 1e-6));
    const std::string screen = duty_screen(answer);
    CHECK(screen.find("\"Case speed\" in rpm, a reading each 6 s") != std::string::npos);
    CHECK(screen.find("torque changes within 12000 ms are invisible") != std::string::npos);
    CHECK(duty_json(answer, "e.toml").find("\"step_s\":6,") != std::string::npos);
}

TEST_CASE("duty: a gap is one relative to the usual step of its channel") {
    const auto without = [](const std::string& name, double from_s, double to_s) {
        return [=](const Signal& one, double t_s) {
            return (name.empty() || one.name == name) && t_s > from_s && t_s < to_s;
        };
    };
    const auto all = signals(6, 1, 1);
    const double at_ends_s = duty_test::read(log_of(all, 960)).excluded_s;
    // One reading of three is lost: filled. Two are: 18 s apart, not within 2.5 x 6 s.
    CHECK(duty_test::read(log_of(all, 960, without("Case speed", 301, 311))).coverage > 0.98);
    const DutyAnswer two = duty_test::read(log_of(all, 960, without("Case speed", 301, 317)));
    CHECK(two.gaps == 0);
    CHECK(two.excluded_s - at_ends_s == doctest::Approx(18).epsilon(0.06));
    // Speed comes each second: 10 s without it are as long without the answer.
    const DutyAnswer road = duty_test::read(log_of(all, 960, without("Speed (GPS)", 301, 311)));
    CHECK(road.excluded_s - at_ends_s == doctest::Approx(10).epsilon(0.1));
    // Everything silent for a minute.
    const DutyAnswer silent = duty_test::read(log_of(all, 960, without("", 300.4, 360.2)));
    CHECK(silent.gaps == 1);
    CHECK(silent.coverage == doctest::Approx(1 - 64.0 / 960).epsilon(0.01));
    // A channel of one reading in 30 s says too little.
    CHECK_THROWS_AS((void)duty_test::read(log_of(signals(30, 1, 1), 960)), Error);
}

}  // namespace caseload::own_steps_tests
