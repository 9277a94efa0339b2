// SPDX-License-Identifier: MIT
// Laps against the prints of independent programs of the same algorithm, and parts of a lap by
// hand.
#include "cars.hpp"
#include "caseload/pace.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::pace_lap_tests {

using namespace pace_cars;

namespace {

// As many digits as are printed.
constexpr double printed = 2e-6;

/// Time from 10 to 40 m/s with 500 kW at the ground, nothing else at work.
double seconds_to_40(double slow_spots_pkm) {
    pace::Car car = truck();
    car.drag_area_m2 = 0;
    car.engine_power_W = 500e3 / (0.93 * 0.94 * 0.94);
    // Rotating mass 1.075.
    const double radius_m = pace::rolling_radius_m(car);
    car.wheel_kg = 0.055 * radius_m * radius_m * car.mass_kg / 4 / (0.55 * 0.508 * 0.508);
    pace::Ground flat = ground("graded");
    flat.slow_spots_pkm = slow_spots_pkm;
    flat.slip = 0;
    flat.cap_mps = 120;
    flat.grip = 1.5;
    constexpr double grip_factor = 5;
    const double slow_mps = 10 / (1.12 * std::sqrt(grip_factor));
    pace::Lap lap = pace::lap(car, flat, {{400, 1e-7, 0, 0, slow_mps}},
                              {.style = 1, .severity = 0.05, .grip_factor = grip_factor});
    // The slow spot is where the last cell begins; a cell at full force has two states.
    std::rotate(lap.states.begin(), lap.states.end() - 2, lap.states.end());
    double speed_mps = 10;
    double time_s = 0;
    for (const pace::State& state : lap.states) {
        if (state.time_s < 1e-9) continue;  // nobody lifts a foot
        const double end_mps = 2 * state.way_m / state.time_s - speed_mps;
        if (end_mps >= 40) return time_s + state.time_s * (40 - speed_mps) / (end_mps - speed_mps);
        time_s += state.time_s;
        speed_mps = end_mps;
    }
    return 0;
}

}  // namespace

TEST_CASE("pace: a truck of 850 hp on rough desert") {
    const pace::Lap lap = pace::lap(truck(), ground("rough-desert"), {});
    CHECK(kmph(lap.pace_mps) == rel(89.4454, printed));
    CHECK(within(kmph(lap.fast_mps), 177.2, 0.5));  // from classes of 0.5 km/h
    CHECK(kmph(lap.highest_mps) == rel(216.0, 1e-12));
    CHECK(lap.highest_by == pace::Fastest::cap);
    CHECK(lap.crank_W == rel(181058, 4e-6));
    CHECK(lap.fuel_Lph == rel(81.2705, printed));
    CHECK(lap.fuel_Lp100km == rel(100 * 81.2705 / 89.4454, 2 * printed));
    CHECK(lap.torque_mean_Nm == rel(634.447, printed));
    CHECK(lap.torque_cube_Nm == rel(847.251, printed));
    CHECK(lap.torque_874_Nm == rel(1091.50, 5e-6));
    CHECK(lap.torque_largest_Nm == rel(1335.80, 5e-6));
    CHECK(lap.drive_rpm_of_all == rel(2561.65, printed));
    CHECK(lap.drive_rpm == rel(3209.7, 2e-5));
    CHECK(within(lap.resistance, 0.0914, 5.1e-5));
    CHECK(lap.cells == 3186);
    CHECK(lap.way_m == rel(29724.6, printed));
}

TEST_CASE("pace: a car of 430 hp in sand, driven harder on worse ground") {
    const pace::Lap lap = pace::lap(light(), ground("sand"),
                                    {.style = 0.5, .severity = 1.5, .resistance_factor = 0.9});
    CHECK(kmph(lap.pace_mps) == rel(53.8614, printed));
    CHECK(kmph(lap.highest_mps) == rel(147.458, 4e-6));
    CHECK(lap.highest_by == pace::Fastest::ride);
    CHECK(lap.crank_W == rel(92463.3, printed));
    CHECK(lap.fuel_Lph == rel(40.5885, printed));
    CHECK(lap.torque_mean_Nm == rel(421.573, printed));
    CHECK(lap.torque_cube_Nm == rel(517.465, printed));
    CHECK(lap.torque_874_Nm == rel(624.232, printed));
    CHECK(lap.torque_largest_Nm == rel(745.631, printed));
    CHECK(lap.drive_rpm_of_all == rel(1968.77, 3e-6));
    CHECK(within(lap.resistance, 0.2128, 5.1e-5));
    CHECK(lap.way_m == rel(17834.8, 3e-6));
}

TEST_CASE("pace: the truck with an automatic of three speeds and a limiter") {
    const pace::Lap lap = pace::lap(geared(), ground("rough-desert"), {});
    CHECK(kmph(lap.pace_mps) == rel(88.2460, printed));
    CHECK(kmph(lap.fast_mps) == rel(159.944, 4e-6));
    CHECK(kmph(lap.highest_mps) == rel(159.944, 4e-6));
    CHECK(lap.highest_by == pace::Fastest::limiter);
    CHECK(lap.crank_W == rel(167579, 4e-6));
    CHECK(lap.fuel_Lph == rel(75.6179, printed));
    CHECK(lap.torque_mean_Nm == rel(486.791, 3e-6));
    CHECK(lap.torque_cube_Nm == rel(687.636, printed));
    CHECK(lap.torque_874_Nm == rel(913.412, printed));
    CHECK(lap.torque_largest_Nm == rel(1128.48, 5e-6));
    CHECK(lap.drive_rpm_of_all == rel(3090.12, printed));
    CHECK(within(lap.shares.open_throttle, 0.2060, 5.1e-5));
    CHECK(within(lap.shares.open_at_engine, 0.0667, 5.1e-5));
    CHECK(within(lap.shares.coast, 0.1863, 5.1e-5));
}

TEST_CASE("pace: what moves the truck on rough desert") {
    struct Row {
        const char* what;
        pace::Car car;
        double pace_kmph, fast_kmph, crank_kW, cube_Nm, high_Nm;
    };
    pace::Car ungeared = geared();
    ungeared.gearbox.reset();
    const Row rows[] = {
        {"250 hp", car(250, 2900, 40, 0.70), 77.7, 122, 117, 494, 751},
        {"430 hp", car(430, 2900, 40, 0.70), 85.0, 147, 149, 650, 927},
        {"1000 hp", car(1000, 2900, 40, 0.70), 89.8, 183, 186, 884, 1121},
        {"2300 kg", car(850, 2300, 40, 0.70), 89.6, 182, 155, 722, 900},
        {"3500 kg", car(850, 3500, 40, 0.70), 89.0, 172, 205, 955, 1269},
        {"35 in", car(850, 2900, 35, 0.70), 85.1, 176, 169, 724, 946},
        {"42 in", car(850, 2900, 42, 0.70), 91.1, 178, 186, 898, 1150},
        {"0.20 m", car(850, 2900, 40, 0.20), 24.6, 67, 26, 439, 859},
        {"0.35 m", car(850, 2900, 40, 0.35), 60.7, 142, 97, 702, 1028},
        {"0.50 m", car(850, 2900, 40, 0.50), 81.1, 171, 155, 809, 1075},
        {"0.90 m", car(850, 2900, 40, 0.90), 91.7, 178, 189, 858, 1096},
        {"gears", geared(), 88.2, 160, 168, 688, 913},
        {"the same without gears", ungeared, 89.4, 177, 181, 716, 922},
    };
    // To half of the last printed digit, but 185.45 kW printed as 186; the fast speed is from
    // classes of 0.5 km/h.
    for (const Row& row : rows) {
        CAPTURE(row.what);
        const pace::Lap lap = pace::lap(row.car, ground("rough-desert"), {});
        CHECK(within(kmph(lap.pace_mps), row.pace_kmph, 0.051));
        CHECK(within(kmph(lap.fast_mps), row.fast_kmph, 1.0));
        CHECK(within(lap.crank_W / 1000, row.crank_kW, 0.56));
        CHECK(within(lap.torque_cube_Nm, row.cube_Nm, 0.51));
        CHECK(within(lap.torque_874_Nm, row.high_Nm, 0.51));
    }
}

TEST_CASE("pace: 10 to 40 m/s at constant power by the two stages of a cell") {
    // Exact: 4.67625 s.
    CHECK(seconds_to_40(1000 / 299.9) == rel(4.70012, printed));
    CHECK(seconds_to_40(1000 / 59.99) == rel(4.67728, printed));
}

TEST_CASE("pace: power at a steady limit on the flat by hand") {
    pace::Ground flat = ground("graded");
    flat.unevenness = 0;
    flat.cap_mps = 20;
    const pace::Lap lap = pace::lap(truck(), flat, {{3000, 1e-4, 0.05, 0, 10}}, {});
    const double resistance_N = 2900 * g_mps2 * (0.05 + 2.42854 * 1e-4) + 1.12 * 2.4 * 20 * 20 / 2;
    const double power_W = resistance_N * 20 / ((1 - flat.slip) * 0.94);
    const pace::State& middle = lap.states[lap.states.size() / 2];
    CHECK(middle.way_m / middle.time_s == rel(20, 1e-9));
    CHECK(middle.torque_Nm * radps_from_rpm(middle.speed_rpm) == rel(power_W, 1e-6));
}

TEST_CASE("pace: rear wheels alone bring 0.58 of the grip") {
    pace::Car rear = truck();
    rear.rear_only = true;
    const double all_Nm = pace::lap(truck(), ground("rough-desert"), {}).torque_largest_Nm;
    CHECK(pace::lap(rear, ground("rough-desert"), {}).torque_largest_Nm ==
          rel(0.58 * all_Nm, 1e-9));
}

TEST_CASE("pace: a clutch pulls less than a converter, an entered curve is taken") {
    pace::Car clutch = geared();
    clutch.gearbox->converter = false;
    clutch.gearbox->ratios = {1.00};  // below its stall speed out of every slow spot
    pace::Car converter = clutch;
    converter.gearbox->converter = true;
    const double by_clutch_mps = pace::lap(clutch, ground("rough-desert"), {}).pace_mps;
    CHECK(by_clutch_mps < pace::lap(converter, ground("rough-desert"), {}).pace_mps);

    // A curve on the points of the parabola at 6500 r/min and below does nearly the same.
    pace::Car entered = geared();
    const double rated_Nm = entered.engine_power_W / radps_from_rpm(6500);
    for (double speed_rpm = 1500; speed_rpm < 6801; speed_rpm += 100) {
        const double x = speed_rpm / 6500;
        const double c = 1 / 0.56;
        entered.gearbox->full_load.push_back(
            {speed_rpm, rated_Nm * (1 - 1.44 * c + c + 1.44 * c * x - c * x * x)});
    }
    CHECK(pace::lap(entered, ground("rough-desert"), {}).torque_cube_Nm == rel(687.636, 1e-4));
    // Without a limiter the curve's end is the limit.
    entered.gearbox->limiter_rpm.reset();
    CHECK(kmph(pace::lap(entered, ground("rough-desert"), {}).highest_mps) == rel(159.944, 4e-6));
    entered.gearbox->full_load.clear();
    CHECK(kmph(pace::lap(entered, ground("rough-desert"), {}).highest_mps) ==
          rel(159.944 * 7000 / 6800, 4e-6));
}

TEST_CASE("pace: a turbo has its rated power down to 1.35 of the torque there") {
    pace::Car turbo = geared();
    turbo.gearbox->turbo = true;
    pace::Car entered = geared();
    // 1.35 up to 6500 / 1.35 r/min, then the power; linear between points every 25 r/min.
    const double rated_Nm = entered.engine_power_W / radps_from_rpm(6500);
    for (double speed_rpm = 1500; speed_rpm < 6801; speed_rpm += 25)
        entered.gearbox->full_load.push_back(
            {speed_rpm, rated_Nm * std::min(1.35, 6500 / speed_rpm)});
    const pace::Lap lap = pace::lap(turbo, ground("rough-desert"), {});
    CHECK(lap.torque_cube_Nm ==
          rel(pace::lap(entered, ground("rough-desert"), {}).torque_cube_Nm, 1e-4));
    CHECK(lap.torque_cube_Nm > 687.636 * 1.01);
}

TEST_CASE("pace: at most 48 bins keep time, way, work and the cube mean") {
    for (const std::string& course : courses) {
        CAPTURE(course);
        const pace::Lap lap = pace::lap(truck(), ground(course), {});
        const std::vector<Bin> bins = pace::bins_of(lap);
        CHECK(bins.size() <= 48);
        double share = 0;
        double way_mps = 0;
        double power_W = 0;
        double turns = 0;
        double cubes = 0;
        for (const Bin& bin : bins) {
            share += bin.share;
            way_mps += bin.share * bin.road_speed_mps;
            CHECK(bin.torque_Nm <= lap.torque_largest_Nm * (1 + 1e-9));
            if (bin.torque_Nm <= 0) continue;
            power_W += bin.share * bin.torque_Nm * radps_from_rpm(bin.speed_rpm);
            turns += bin.share * bin.speed_rpm;
            cubes += bin.share * bin.speed_rpm * bin.torque_Nm * bin.torque_Nm * bin.torque_Nm;
        }
        CHECK(share == rel(1, 1e-9));
        // As the bins of a log: tests/duty/bins_test.cpp.
        CHECK(way_mps == rel(lap.pace_mps, 0.002));
        CHECK(power_W == rel(lap.work.drive / lap.time_s, 0.005));
        CHECK(std::cbrt(cubes / turns) == rel(lap.torque_cube_Nm, 0.005));
    }
}

}  // namespace caseload::pace_lap_tests
