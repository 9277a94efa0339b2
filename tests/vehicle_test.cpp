// SPDX-License-Identifier: MIT
// From ground to case input, by hand: road load, engine, grip, gearbox, and the power question.
#include "caseload/assess.hpp"
#include "caseload/units.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::vehicle_tests {

namespace {

/// 2300 kg on 39 in tyres (rolling radius 0.48 x 990.6 mm), axle 5.43, at sea level and 20 degC
/// (1.2041 kg/m3 by the air table), 33/41 teeth.
Setup truck(const std::vector<CourseLine>& lines, double pace_mps) {
    Setup setup = examples::setup("heavy.toml", {{"vehicle.mass", "\"2300 kg\""},
                                                 {"vehicle.axle_ratio", "5.43"},
                                                 {"vehicle.drag_area", "\"2.3 m2\""},
                                                 {"vehicle.engine_power", "\"400 kW\""},
                                                 {"event.altitude", "\"0 m\""},
                                                 {"event.ambient", "\"20 degC\""}});
    LegInput leg;
    leg.name = "ground";
    leg.duration_s = 3600;
    leg.course_lines = lines;
    leg.course_pace_mps = pace_mps;
    setup.event.legs = {leg};
    setup.event.run = {0};
    return setup;
}

struct Ground {
    std::vector<Bin> bins;
    LegLoads leg;
    Notes notes;
};
Ground drive(const Setup& setup) {
    const Train train = place_train(setup);
    Ground ground;
    ground.bins = leg_bins(setup, setup.event.legs.front(), train, ground.leg);
    ground.notes = calculate_loads(setup).notes;
    return ground;
}

constexpr double radius_m = 0.48 * 0.9906;
constexpr double lever_m = radius_m / 5.43 * 33 / 41;  // force at the wheels to torque at the input

}  // namespace

TEST_CASE("torque peaks: a leg has those entered, and the course's own only where it brings some") {
    Setup setup = truck({{1, 1, 0.15, 0, 0}}, 10);
    CHECK(calculate_loads(setup).legs.front().peaks.empty());
    setup.event.legs.front().peaks = {{5000, 3}};
    const std::vector<PeakLoads> entered = calculate_loads(setup).legs.front().peaks;
    REQUIRE(entered.size() == 1);
    CHECK(entered.front().torque_Nm == 5000);
    CHECK(entered.front().times == 3);
    setup.event.legs.front().course_peaks_per_h = 2;
    CHECK(calculate_loads(setup).legs.front().peaks.size() == 2);
}

TEST_CASE(
    "road load: effect of mass, tyre, drag, resistance, grade and acceleration on torque, by "
    "hand") {
    const auto torque_Nm = [](const CourseLine& line, double v) {
        return drive(truck({line}, v)).bins.front().torque_Nm;
    };
    const double weight_N = 2300 * 9.80665;
    const double angle = std::atan(0.05);
    CHECK(torque_Nm({1, 1, 0.15, 0, 0}, 0.5) ==
          rel((0.15 * weight_N + 0.5 * 1.2041 * 2.3 * 0.25) * lever_m, 1e-4));
    CHECK(torque_Nm({1, 1, 0.02, 0, 0}, 40) ==
          rel((0.02 * weight_N + 0.5 * 1.2041 * 2.3 * 1600) * lever_m, 1e-4));
    CHECK(torque_Nm({1, 1, 0.15, 0.05, 0.5}, 30) ==
          rel((weight_N * (0.15 * std::cos(angle) + std::sin(angle)) + 0.5 * 1.2041 * 2.3 * 900 +
               2300 * 1.06 * 0.5) *
                  lever_m,
              1e-4));
    // Speeds: v / r x 5.43 x 41/33.
    const Bin bin = drive(truck({{1, 0.8, 0.15, 0, 0}}, 30)).bins.front();
    CHECK(bin.road_speed_mps == rel(24, 1e-12));
    CHECK(bin.speed_rpm == rel(24 / radius_m * 5.43 * 41 / 33 * 30 / pi, 1e-9));
    // Thin air: 79501 Pa at 2000 m (US Standard Atmosphere 1976) over 101325.
    Setup high = truck({{1, 1, 0, 0, 0}}, 40);
    high.event.altitude_m = 2000;
    CHECK(drive(high).bins.front().torque_Nm ==
          rel(0.5 * 1.2041 * 79501 / 101325 * 2.3 * 1600 * lever_m, 2e-4));
    // A measured turn count stands in place of the tyre: 335 /km is 0.47509 m.
    Setup turns = examples::setup("heavy.toml");
    turns = Document(examples::text("light.toml").value() + "", "light.toml", examples::text)
                .complete()
                .setup;
    CHECK(turns.vehicle.rolling_radius_m == rel(0.48 * 35 * 0.0254, 1e-12));
}

TEST_CASE("limits: torque is the smallest of road load, engine and grip, bin by bin") {
    // Flat out on a steep sandy hill: engine; slow on a steeper one: grip; the third: neither.
    const std::vector<CourseLine> lines{
        {0.2, 1.0, 0.3, 0.3, 0.5}, {0.3, 0.1, 0.3, 0.5, 0}, {0.5, 0.5, 0.05, 0, 0}};
    const Ground ground = drive(truck(lines, 40));
    const double omega = 40 / radius_m * 5.43 * 41 / 33;
    CHECK(ground.bins[0].torque_Nm == rel(400000 / omega, 1e-9));
    CHECK(ground.bins[1].torque_Nm == rel(0.6 * 2300 * 9.80665 * lever_m, 1e-9));
    CHECK(ground.bins[2].torque_Nm ==
          rel((0.05 * 2300 * 9.80665 + 0.5 * 1.2041 * 2.3 * 400) * lever_m, 1e-4));
    CHECK(ground.leg.limited_by_engine);
    CHECK(ground.leg.limited_by_grip);
    CHECK(examples::has_note(ground.notes, "leg.limited_by_engine", "leg.ground"));
    CHECK(examples::has_note(ground.notes, "leg.limited_by_grip", "leg.ground"));
    const Ground easy = drive(truck({{1, 0.5, 0.05, 0, 0}}, 40));
    CHECK(!easy.leg.limited_by_engine);
    CHECK(!easy.leg.limited_by_grip);
    CHECK(easy.notes.size() + 2 == ground.notes.size());
    // Mean drive power: coast counts as nothing.
    const Setup setup = truck({{0.5, 1, 0.1, 0, 0}, {0.5, 1, 0.0, -0.2, 0}}, 20);
    const Loads loads = calculate_loads(setup);
    const double pull_W = (0.1 * 2300 * 9.80665 + 0.5 * 1.2041 * 2.3 * 400) * 20;
    CHECK(loads.legs.front().drive_power_W == rel(pull_W / 2, 1e-4));
}

TEST_CASE("coast: the engine drags with a tenth of its power, brakes take the rest") {
    const double omega = 20 / radius_m * 5.43 * 41 / 33;
    const Ground steep = drive(truck({{1, 1, 0.0, -0.3, 0}}, 20));
    CHECK(steep.bins.front().torque_Nm == rel(-40000 / omega, 1e-9));
    // Gentle: all of it comes back through the case.
    const Ground gentle = drive(truck({{1, 1, 0.02, -0.05, 0}}, 20));
    const double angle = std::atan(-0.05);
    CHECK(gentle.bins.front().torque_Nm ==
          rel((2300 * 9.80665 * (0.02 * std::cos(angle) + std::sin(angle)) +
               0.5 * 1.2041 * 2.3 * 400) *
                  lever_m,
              1e-3));
    CHECK(gentle.bins.front().torque_Nm < 0);
}

TEST_CASE("engine: with a curve and a gearbox the best gear at this speed decides") {
    // Steep and fast enough that only the engine limits.
    Setup setup = truck({{1, 1, 0.3, 0.3, 4.0}}, 20);
    setup.vehicle.grip = 1.5;
    setup.vehicle.engine_torque = {{2000, 600}, {4000, 800}, {6000, 700}};
    const double n_rpm = 20 / radius_m * 5.43 * 41 / 33 * 30 / pi;  // 2710 r/min at the input
    CHECK(n_rpm == rel(2709.76, 1e-5));
    const auto torque_Nm = [&] { return drive(setup).bins.front().torque_Nm; };
    const double by_power_Nm = 400000 / (n_rpm * pi / 30);
    CHECK(torque_Nm() == rel(by_power_Nm, 1e-9));  // no gearbox: rated power alone
    // 2.48: 6720 r/min, beyond the curve; 1.48: 4010; 1.0: 2710.
    setup.vehicle.gearbox = {2.48, 1.48, 1.0};
    const double second_Nm = (800 - 100 * (1.48 * n_rpm - 4000) / 2000) * 1.48;
    CHECK(torque_Nm() == rel(second_Nm, 1e-9));
    // A limit below second gear's speed leaves third: 600 and 200 of (2710 - 2000) / 2000.
    setup.vehicle.engine_limit_rpm = 4000;
    CHECK(torque_Nm() == rel(600 + 200 * (n_rpm - 2000) / 2000, 1e-9));
    CHECK(!drive(setup).leg.beyond_engine_speed);
    // Below the first point its torque is held.
    setup.vehicle.engine_torque = {{3000, 650}, {4000, 800}};
    CHECK(torque_Nm() == rel(650, 1e-9));
    // Faster than the tallest gear allows: nothing drives, and it is said.
    setup.vehicle.engine_limit_rpm = 2700;
    CHECK(torque_Nm() == 0);
    CHECK(drive(setup).leg.beyond_engine_speed);
    CHECK(examples::has_note(drive(setup).notes, "leg.engine_speed", "leg.ground"));
    // Rated power caps a curve that promises more.
    setup.vehicle.engine_limit_rpm.reset();
    setup.vehicle.engine_torque = {{2000, 5000}, {6000, 5000}};
    CHECK(torque_Nm() == rel(by_power_Nm, 1e-9));
    // A gearbox with a limit and no curve: power alone, but the speed is known.
    setup.vehicle.engine_torque.clear();
    setup.vehicle.engine_limit_rpm = 2700;
    CHECK(torque_Nm() == rel(by_power_Nm, 1e-9));
    CHECK(drive(setup).leg.beyond_engine_speed);
}

TEST_CASE(
    "power question: any 60 minutes with a mean above 250 kW are asked about, stops count as 0") {
    const auto asked = [](const std::vector<std::pair<double, double>>& min_kW) {
        Setup setup = examples::setup("heavy.toml");
        setup.event.legs.clear();
        setup.event.run.clear();
        for (const auto& [duration_min, power_kW] : min_kW) {
            LegInput leg;
            leg.name = "leg" + std::to_string(setup.event.legs.size());
            leg.duration_s = 60 * duration_min;
            if (power_kW > 0)
                leg.bins = {{1, power_kW * 1000 / (5000 * pi / 30), 5000, 30}};
            else
                leg.kind = LegKind::stop;
            setup.event.run.push_back(static_cast<int>(setup.event.legs.size()));
            setup.event.legs.push_back(leg);
        }
        return examples::has_note(assess(setup).notes, "event.mean_power", "event");
    };
    CHECK(!asked({{300, 249}}));
    CHECK(asked({{300, 251}}));
    // Half an hour at 400 kW is 200 kW over an hour; 40 min are 267.
    CHECK(!asked({{30, 400}, {90, 0}}));
    CHECK(asked({{40, 400}, {90, 0}}));
    // Two bursts of 25 min: 20 min apart 60 min hold 40 of them, 267 kW; 30 min apart 30, 200.
    CHECK(asked({{60, 1}, {25, 400}, {20, 0}, {25, 400}, {60, 1}}));
    CHECK(!asked({{60, 1}, {25, 400}, {30, 0}, {25, 400}, {60, 1}}));
    // The best hour begins inside a leg: 30 min of 200 kW before, 30 min of 310 kW.
    CHECK(asked({{120, 200}, {30, 310}}));
    CHECK(!asked({{120, 180}, {30, 310}}));
}

}  // namespace caseload::vehicle_tests
