// SPDX-License-Identifier: MIT
#include "caseload/shocks.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "input/courses.hpp"
#include "support.hpp"

#include <cmath>
#include <string>
#include <vector>

namespace caseload::shocks_tests {

using namespace caseload::pace;

namespace {

const ShockSpectrum& usual(const std::string& course) {
    return input::course(course).shocks.usual;
}

/// 2900 kg on 40 in, 5.43 axles, 40 mm half shafts, 4 in tubes, 49/37 in the case.
ShockCar heavy_car() {
    const driveline_shock::Shaft half{750, 40, 0};
    return {.grip = {0.55, 2900 * g_mps2, 0.48 * 1.016, 5.43},
            .tyre_mm = 1016,
            .wheel_kgm2 = 9.48129,
            .rated_power_W = W_from_hp(850),
            .engine_kgm2 = {},
            .gearbox_kgm2 = 0,
            .case_ratio = 49.0 / 37,
            .axles = {{"front", {1200, 101.6, 95.5}, half, 0.5},
                      {"rear", {1000, 101.6, 95.5}, half, 0.5}}};
}

double events(const std::vector<ShockLevel>& levels) {
    double sum = 0;
    for (const ShockLevel& level : levels) sum += level.times;
    return sum;
}

}  // namespace

TEST_CASE("shocks: counts, decay and largest of the six courses") {
    // Judgement: nothing to test them against but that they are as documented.
    struct Row {
        const char* course;
        std::vector<double> per_h;
        std::vector<double> decay;
        std::vector<double> max;
        double wheel_load;
    };
    for (const Row& row : {Row{"hard-road", {0.5, 0, 2}, {0.20, 0.1, 0.3}, {1.5, 1.3, 2}, 2.5},
                           {"graded", {8, 3, 20}, {0.25, 0.2, 0.4}, {2, 1.5, 2.5}, 2.5},
                           {"rough-desert", {40, 15, 100}, {0.40, 0.3, 0.55}, {3, 2, 3.7}, 2.5},
                           {"sand", {20, 8, 50}, {0.30, 0.2, 0.4}, {2.5, 2, 3}, 2.5},
                           {"rock", {60, 20, 150}, {0.30, 0.2, 0.45}, {2.6, 2, 3}, 1.3},
                           {"forest", {30, 10, 70}, {0.30, 0.2, 0.45}, {2.5, 2, 3}, 2.5}}) {
        CAPTURE(row.course);
        const input::CourseShocks& shocks = input::course(row.course).shocks;
        const auto is = [&](const ShockSpectrum& spectrum, std::size_t k) {
            return spectrum == ShockSpectrum{row.per_h[k], row.decay[k], row.max[k]};
        };
        CHECK(is(shocks.usual, 0));
        CHECK(is(shocks.low, 1));
        CHECK(is(shocks.high, 2));
        CHECK(shocks.wheel_load == row.wheel_load);
    }
    CHECK(shocks_ln_sd == 0.6);
}

TEST_CASE("shocks: a driver flat out has twice as many as a quick one, to finish half") {
    const ShockSpectrum& desert = usual("rough-desert");
    CHECK(shocks_of_style(desert, 1).per_h == rel(40 * 2.01375, 1e-5));  // exp(0.7)
    CHECK(shocks_of_style(desert, -1).per_h == rel(40 / 2.01375, 1e-5));
    CHECK(shocks_of_style(desert, 0) == desert);
    CHECK(shocks_of_style(desert, 1.3).decay == desert.decay);
    CHECK(shocks_of_style(desert, 1.3).max == desert.max);
    CHECK_THROWS_AS((void)shocks_of_style(desert, 1.31), Error);
    CHECK_THROWS_AS((void)shocks_of_style(desert, -1.31), Error);
}

TEST_CASE("shocks: one hour of rough desert by levels") {
    const std::vector<ShockLevel> levels = shock_levels({40, 0.40, 4}, 1);
    const std::vector<double> ratios{1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5};
    REQUIRE(levels.size() == ratios.size());
    for (std::size_t k = 0; k < ratios.size(); ++k) CHECK(levels[k].ratio == ratios[k]);
    // Derived: above 1, 1.5, 2, 2.5 and 3 come 40, 11.46, 3.283, 0.941 and 0.270.
    CHECK(within(levels[0].times + levels[1].times, 40 - 11.46, 0.005));
    CHECK(within(levels[2].times + levels[3].times, 11.46 - 3.283, 0.006));
    CHECK(within(levels[4].times, 3.283 - 0.941, 0.001));
    CHECK(within(levels[5].times, 0.941 - 0.270, 0.001));
    CHECK(within(levels[6].times + levels[7].times, 0.270, 0.0005));
    // With the course's own largest of 3 the last level below it has all above.
    const std::vector<ShockLevel> own = shock_levels(usual("rough-desert"), 1);
    REQUIRE(own.size() == 6);
    CHECK(own.back().ratio == 2.5);
    CHECK(within(own.back().times, 0.941, 0.0005));
}

TEST_CASE("shocks: levels add up to N_1 h, none at or above the largest") {
    for (const char* name : {"hard-road", "graded", "rough-desert", "sand", "rock", "forest"})
        for (const double style : {-1.3, -0.5, 0.0, 1.0})
            for (double max = 1.05; max <= 4; max += 0.05) {
                CAPTURE(name);
                CAPTURE(max);
                ShockSpectrum spectrum = shocks_of_style(usual(name), style);
                spectrum.max = max;
                const std::vector<ShockLevel> levels = shock_levels(spectrum, 9);
                CHECK(events(levels) == rel(9 * spectrum.per_h, 1e-12));
                for (std::size_t k = 0; k < levels.size(); ++k) {
                    CHECK(levels[k].ratio < max);
                    CHECK(levels[k].times > 0);
                    if (k > 0) CHECK(levels[k].ratio > levels[k - 1].ratio);
                }
            }
    CHECK(shock_levels({0, 0.3, 2.5}, 9).empty());
    CHECK(shock_levels({40, 0.3, 2.5}, 0).empty());
    CHECK(shock_levels({40, 0.3, 1}, 9).empty());
    CHECK(shock_levels({40, 0.3, 1.5}, 9).back().ratio == 1.25);
    CHECK_THROWS_AS((void)shock_levels({40, 0.3, 2.5}, -1), Error);
}

TEST_CASE("shocks: as torque peaks, the largest not below the largest bin with overload") {
    const std::vector<ShockLevel> levels{{1, 20}, {1.25, 8}, {1.5, 3}};
    const std::vector<Peak> peaks = shock_peaks(levels, 1000, 1400);
    REQUIRE(peaks.size() == 3);
    CHECK(peaks[0].torque_Nm == 1000);
    CHECK(peaks[1].torque_Nm == 1250);
    CHECK(peaks[2].torque_Nm == 1500);
    CHECK(peaks[1].times == 8);
    const std::vector<Peak> raised = shock_peaks(levels, 1000, 1800);
    CHECK(raised[1].torque_Nm == 1250);
    CHECK(raised[2].torque_Nm == 1800);
    CHECK(raised[2].times == 3);
    CHECK(shock_peaks({}, 1000, 1800).empty());
    CHECK_THROWS_AS((void)shock_peaks(levels, 0, 1800), Error);
    CHECK_THROWS_AS((void)shock_peaks(levels, 1000, -1), Error);
}

TEST_CASE("shocks: the torque reached once in an event") {
    // Derived: 3.35 times grip in nine hours of rough desert, so the course's largest of 3 rules.
    CHECK(within(shock_once_Nm({40, 0.40, 4}, 9, 1000), 3350, 5));
    CHECK(shock_once_Nm(usual("rough-desert"), 9, 1060.8) == rel(3182.4, 1e-12));
    CHECK(shock_once_Nm({0, 0.40, 4}, 9, 1000) == 0);
    CHECK_THROWS_AS((void)shock_once_Nm({40, 0.40, 4}, 9, 0), Error);
}

TEST_CASE("shocks: landings of a heavy car by gear") {
    // Derived, at 25 m/s, printed to 0.01; first modes to 0.1 Hz.
    const ShockCar car = heavy_car();
    const auto ratio = [&](double gear, double overspeed) {
        return landing_ratio(car, {gear, 25, overspeed, 2.5});
    };
    CHECK(within(ratio(1.00, 0.1), 0.74, 0.005));
    CHECK(within(ratio(1.48, 0.2), 2.20, 0.005));
    CHECK(within(ratio(2.48, 0.4), 3.73, 0.005));
    const driveline_shock::Driveline line = shock_driveline(car, 2.48);
    CHECK(within(line.stiffness_Nmprad, 2291, 5));
    CHECK(within(line.engine_kgm2, 3.775, 0.0005));
    CHECK(line.wheel_kgm2 == rel(4 * 9.48129 / (5.43 * 5.43), 1e-12));
    CHECK(within(shock_mode_Hz(car, 1.00), 9.7, 0.05));
    CHECK(within(shock_mode_Hz(car, 2.48), 3.9, 0.05));
    ShockCar entered = car;
    entered.engine_kgm2 = 0.7;
    CHECK(shock_driveline(entered, 2.48).engine_kgm2 == rel(2 * line.engine_kgm2, 1e-9));
    // Rear drive: one axle's spring and wheels.
    ShockCar rear = car;
    rear.axles.erase(rear.axles.begin());
    CHECK(shock_driveline(rear, 1).wheel_kgm2 == rel(line.wheel_kgm2 / 2, 1e-12));
    CHECK(shock_driveline(rear, 1).stiffness_Nmprad < line.stiffness_Nmprad);
    rear.axles.clear();
    CHECK_THROWS_AS((void)shock_driveline(rear, 1), Error);
}

TEST_CASE("shocks: a dropped clutch in first gear is limited by grip") {
    // Derived: A 1.49 with 4000 r/min.
    const ShockCar car = heavy_car();
    const double clutch_Nm = driveline_shock::clutch_factor * 1060;
    CHECK(within(dump_ratio(car, {2.48, 4000, clutch_Nm}), 1.49, 0.005));
    // A clutch that slips first: its torque through both ratios, over mu W r/i_a.
    CHECK(dump_ratio(car, {2.48, 4000, 100}) ==
          rel(100 * 2.48 * 49 / 37 / (0.55 * 2900 * g_mps2 * 0.48768 / 5.43), 1e-9));
    CHECK(dump_ratio(car, {2.48, 0, clutch_Nm}) == 0);
    CHECK_THROWS_AS((void)dump_ratio(car, {2.48, -1, clutch_Nm}), Error);
}

TEST_CASE("shocks: the largest of a car with known shafts is of its lowest gear") {
    const ShockCar car = heavy_car();
    // Derived, as for landings with the wheels 0.4 over the road: sliding tyres limit all three.
    CHECK(within(shock_max(car, {1.00, 6800, 2.5}), 1.62, 0.005));
    CHECK(within(shock_max(car, {1.48, 6800, 2.5}), 2.56, 0.005));
    CHECK(within(shock_max(car, {2.48, 6800, 2.5}), 3.73, 0.005));
    // Rock: towards 2.6 in a crawler gear; ends of judgement.
    CHECK(within(shock_max(car, {10, 6800, 1.3}), 2.6, 0.06));
    CHECK(shock_max(car, {10, 6800, 2.5}) == 4);
    CHECK(shock_max(car, {0.6, 6800, 1.3}) == 1.3);
    // A slow engine does not reach the tyres' limit. The engine is stopped from 0.4/1.4 of the
    // limiter's speed, and what it brings does not depend on the gear.
    const driveline_shock::Driveline line = shock_driveline(car, 2.48);
    const double elastic_Nm =
        driveline_shock::elastic_Nm(line, 0.4 / 1.4 * radps_from_rpm(3000) / (2.48 * 49 / 37));
    CHECK(shock_max(car, {2.48, 3000, 2.5}) ==
          rel(elastic_Nm / driveline_shock::ground_torque_Nm(car.grip, 1), 1e-9));
    CHECK_THROWS_AS((void)shock_max(car, {0, 6800, 2.5}), Error);
    CHECK_THROWS_AS((void)shock_max(car, {2.48, 0, 2.5}), Error);
}

TEST_CASE("shocks: half shafts break before prop shafts, one axle in the air first of all") {
    ShockCar car = heavy_car();
    const double output_Nm = 3 * driveline_shock::ground_torque_Nm(car.grip, 1);
    const std::vector<ShockedShaft> shafts = shocked_shafts(car, output_Nm);
    REQUIRE(shafts.size() == 4);
    const ShockedShaft& first = breaks_first(shafts);
    CHECK(first.name == "front half shaft");
    // By hand: three times grip, a quarter to each wheel: 0.75 mu W r = 5720 N m; 16 T/(pi d^3);
    // 0.58 x 900 MPa.
    CHECK(first.torque_Nm == rel(0.75 * 0.55 * 2900 * g_mps2 * 0.48768, 1e-9));
    CHECK(first.torsion_MPa == rel(16 * first.torque_Nm * 1000 / (pi * 64000), 1e-9));
    CHECK(first.ratio == rel(522 / first.torsion_MPa, 1e-9));
    CHECK(first.ratio > 1);
    CHECK(shafts[3].name == "rear prop shaft");
    CHECK(shafts[3].torque_Nm == rel(output_Nm / 2, 1e-12));
    CHECK(shafts[3].ratio > 2 * first.ratio);
    // Front axle in the air: the rear has all.
    car.axles[0].torque_share = 0;
    car.axles[1].torque_share = 1;
    const std::vector<ShockedShaft> lifted = shocked_shafts(car, output_Nm);
    REQUIRE(lifted.size() == 2);
    CHECK(breaks_first(lifted).name == "rear half shaft");
    CHECK(breaks_first(lifted).ratio == rel(first.ratio / 2, 1e-9));
    // Other steel; a thin prop shaft.
    CHECK(breaks_first(shocked_shafts(car, output_Nm, 1300)).ratio ==
          rel(first.ratio / 2 * 13 / 9, 1e-9));
    car.axles[1].prop_shaft = {1000, 40, 37};
    CHECK(breaks_first(shocked_shafts(car, output_Nm)).name == "rear prop shaft");
    CHECK_THROWS_AS((void)breaks_first({}), Error);
    CHECK_THROWS_AS((void)shocked_shafts(car, 0), Error);
    car.axles[1].torque_share = 1.005;
    CHECK_THROWS_AS((void)shocked_shafts(car, output_Nm), Error);
}

}  // namespace caseload::shocks_tests
