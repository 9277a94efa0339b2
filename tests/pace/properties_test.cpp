// SPDX-License-Identifier: MIT
// What must be true of every lap, on all six courses.
#include "cars.hpp"
#include "caseload/error.hpp"
#include "caseload/pace.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <functional>

namespace caseload::pace_properties_tests {

using namespace pace_cars;

namespace {

using Change = std::function<void(pace::Car&, pace::Drive&, double factor)>;

double pace_after(const std::string& course, const Change& change, double factor) {
    pace::Car car = truck();
    pace::Drive drive;
    change(car, drive, factor);
    return pace::lap(car, ground(course), drive).pace_mps;
}

const Change power = [](pace::Car& car, pace::Drive&, double x) { car.engine_power_W *= x; };
const Change travel = [](pace::Car& car, pace::Drive&, double x) { car.wheel_travel_m *= x; };
const Change style = [](pace::Car&, pace::Drive& drive, double x) { drive.style = x - 1; };
const Change grip = [](pace::Car& car, pace::Drive&, double x) { car.grip *= x; };
const Change grip_factor = [](pace::Car&, pace::Drive& drive, double x) { drive.grip_factor = x; };
const Change severity = [](pace::Car&, pace::Drive& drive, double x) { drive.severity = x; };
const Change soil = [](pace::Car&, pace::Drive& drive, double x) { drive.resistance_factor = x; };

const double factors[] = {0.3, 0.5, 0.7, 0.85, 1.0, 1.2, 1.4};

}  // namespace

TEST_CASE("pace: pace never falls when power, travel, style or grip rises") {
    for (const std::string& course : courses)
        for (const Change* change : {&power, &travel, &style, &grip, &grip_factor}) {
            CAPTURE(course);
            double before_mps = 0;
            for (const double factor : factors) {
                const double now_mps = pace_after(course, *change, factor);
                CHECK(now_mps >= before_mps * (1 - 1e-9));
                before_mps = now_mps;
            }
        }
}

TEST_CASE("pace: pace never rises with the severity of the ground or with the soil") {
    for (const std::string& course : courses)
        for (const Change* change : {&severity, &soil}) {
            CAPTURE(course);
            double before_mps = 1e9;
            for (const double factor : factors) {
                const double now_mps = pace_after(course, *change, factor);
                CHECK(now_mps <= before_mps * (1 + 1e-9));
                before_mps = now_mps;
            }
        }
    CHECK(pace_after("rough-desert", severity, 1.4) < pace_after("rough-desert", severity, 1));
    CHECK(pace_after("rough-desert", soil, 1.4) < pace_after("rough-desert", soil, 1));
}

TEST_CASE("pace: mass hardly moves the pace of a strong car") {
    const double usual_mps = pace::lap(truck(), ground("rough-desert"), {}).pace_mps;
    for (const double mass_kg : {2000.0, 2500.0, 3500.0})
        CHECK(pace::lap(car(850, mass_kg, 40, 0.70), ground("rough-desert"), {}).pace_mps ==
              rel(usual_mps, 0.01));
}

TEST_CASE("pace: no torque above grip and none above the engine") {
    for (const std::string& course : courses)
        for (const pace::Car& one : {light(), truck(), geared()}) {
            CAPTURE(course);
            const pace::Ground& of = ground(course);
            const pace::Lap lap = pace::lap(one, of, {});
            const double grip_Nm = of.grip * one.mass_kg * g_mps2 * pace::rolling_radius_m(one) /
                                   (one.axle_ratio * one.case_ratio * 0.94);
            // The force of a cell is the engine's at the mean speed of the first stage.
            const double engine_W = one.engine_power_W * 0.94 * 1.01;
            for (const pace::State& state : lap.states) {
                CHECK_UNARY(state.torque_Nm <= grip_Nm * (1 + 1e-12));
                CHECK_UNARY(state.torque_Nm * radps_from_rpm(state.speed_rpm) <= engine_W);
                CHECK_UNARY(state.torque_Nm * radps_from_rpm(state.speed_rpm) >=
                            -0.1 * one.engine_power_W * (1 + 1e-12));
            }
        }
}

TEST_CASE("pace: work of a lap is what takes it") {
    for (const std::string& course : courses)
        for (const pace::Car& one : {light(), truck(), geared()}) {
            CAPTURE(course);
            const pace::Lap lap = pace::lap(one, ground(course), {});
            const pace::Work& work = lap.work;
            const double taken_J =
                work.resistance + work.climb + work.drag + work.brakes + work.coast + work.losses;
            CHECK(taken_J == rel(work.drive, 0.01));
            double drive_J = 0;
            double coast_J = 0;
            for (const pace::State& state : lap.states) {
                const double J = state.torque_Nm * radps_from_rpm(state.speed_rpm) * state.time_s;
                (J > 0 ? drive_J : coast_J) += J;
            }
            CHECK(drive_J == rel(work.drive, 1e-9));
            CHECK(-coast_J == rel(work.coast, 1e-9));
            CHECK(lap.crank_W == rel(drive_J / 0.94 / lap.time_s, 1e-9));
            if (ground(course).step == 0) CHECK(std::fabs(work.climb) < 1e-3 * work.resistance);
        }
}

TEST_CASE("pace: speeds stay below the limiter, the cap and the ride limit") {
    for (const std::string& course : courses)
        for (const double s : {-1.0, 0.0, 1.0}) {
            CAPTURE(course);
            const pace::Ground& of = ground(course);
            const pace::Lap lap = pace::lap(geared(), of, {.style = s});
            CHECK(lap.highest_mps <= of.cap_mps * pace::style_of(s).corner * (1 + 1e-12));
            const double limiter_mps =
                radps_from_rpm(6800) * 0.48 * 1.016 * (1 - of.slip) / (5.43 * 49 / 37);
            CHECK(lap.highest_mps <= limiter_mps * (1 + 1e-12));
            double smoothest_m3 = 1;
            for (const pace::Segment& one : pace::segments(of))
                smoothest_m3 = std::min(smoothest_m3, one.roughness_m3);
            CHECK(lap.highest_mps <= pace::ride(geared()).limit_m4ps / smoothest_m3 *
                                         pace::style_of(s).ride * (1 + 1e-12));
            CHECK(lap.fast_mps <= lap.highest_mps);
            CHECK(lap.fast_mps >= lap.pace_mps);
        }
}

TEST_CASE("pace: more power moves torque and speed up, beyond grip no more") {
    for (const std::string& course : courses) {
        CAPTURE(course);
        double cube_Nm = 0;
        double fast_mps = 0;
        for (const double hp : {200.0, 300.0, 430.0, 600.0, 850.0, 1000.0, 1300.0}) {
            const pace::Lap lap = pace::lap(car(hp, 2900, 40, 0.70), ground(course), {});
            CHECK(lap.torque_cube_Nm >= cube_Nm * (1 - 1e-9));
            CHECK(lap.fast_mps >= fast_mps * (1 - 1e-9));
            cube_Nm = lap.torque_cube_Nm;
            fast_mps = lap.fast_mps;
        }
    }
    const pace::Lap strong = pace::lap(car(2000, 2900, 40, 0.70), ground("graded"), {});
    const pace::Lap stronger = pace::lap(car(2400, 2900, 40, 0.70), ground("graded"), {});
    CHECK(stronger.torque_cube_Nm == rel(strong.torque_cube_Nm, 0.002));
    CHECK(stronger.pace_mps == rel(strong.pace_mps, 1e-4));
}

TEST_CASE("pace: shares are all of the time, and way over time is the pace") {
    for (const std::string& course : courses) {
        CAPTURE(course);
        const pace::Lap lap = pace::lap(truck(), ground(course), {});
        const pace::Shares& shares = lap.shares;
        CHECK(shares.engine + shares.grip + shares.ride_and_slow + shares.brake == rel(1, 1e-12));
        CHECK(shares.open_at_engine <= shares.open_throttle);
        CHECK(lap.way_m / lap.time_s == lap.pace_mps);
        double time_s = 0;
        double way_m = 0;
        for (const pace::State& state : lap.states) {
            time_s += state.time_s;
            way_m += state.way_m;
        }
        CHECK(time_s == rel(lap.time_s, 1e-9));
        CHECK(way_m == rel(lap.way_m, 1e-9));
        // Never wide open on a road or on rocks.
        if (ground(course).throttle)
            CHECK(shares.open_throttle == 0);
        else
            CHECK(shares.open_throttle > 0.1);
    }
}

TEST_CASE("pace: mass x 1.2 is grip torque x 1.2") {
    for (const std::string& course : {std::string("rough-desert"), std::string("forest")}) {
        const double usual_Nm =
            pace::lap(car(1000, 2500, 40, 0.70), ground(course), {}).torque_largest_Nm;
        CHECK(pace::lap(car(1000, 3000, 40, 0.70), ground(course), {}).torque_largest_Nm ==
              rel(1.2 * usual_Nm, 1e-12));
    }
}

TEST_CASE("pace: the same lap twice, to the bit") {
    const pace::Lap one = pace::lap(geared(), ground("rock"), {.style = -0.3, .severity = 1.7});
    const pace::Lap two = pace::lap(geared(), ground("rock"), {.style = -0.3, .severity = 1.7});
    REQUIRE(one.states.size() == two.states.size());
    CHECK(std::memcmp(one.states.data(), two.states.data(),
                      one.states.size() * sizeof(pace::State)) == 0);
    CHECK(one.fuel_Lph == two.fuel_Lph);
}

}  // namespace caseload::pace_properties_tests
