// SPDX-License-Identifier: MIT
// Numbers of two cars, printed by an independent program, and what a car may be.
#include "cars.hpp"
#include "caseload/error.hpp"
#include "caseload/pace.hpp"
#include "support.hpp"

#include <functional>

namespace caseload::pace_car_tests {

using namespace pace_cars;

TEST_CASE("pace: ride limits, roughness resistance and rotating mass of two cars") {
    // Printed to six digits.
    const pace::Ride a = pace::ride(light());
    CHECK(a.limit_m4ps == rel(0.240911, 3e-6));
    CHECK(a.travel_m4ps == rel(0.390718, 3e-6));
    CHECK(a.absorbed_m4ps == rel(0.306002, 3e-6));
    CHECK(a.absorbed_Wspm2 == rel(579.448, 3e-6));
    CHECK(a.resistance_pm3 == rel(2.62545, 3e-6));
    CHECK(pace::rotating_mass_factor(light()) == rel(1.094985, 1e-6));
    const pace::Ride b = pace::ride(truck());
    CHECK(b.limit_m4ps == rel(0.301501, 3e-6));
    CHECK(b.travel_m4ps == rel(0.765808, 3e-6));
    CHECK(b.absorbed_m4ps == rel(0.327990, 3e-6));
    CHECK(b.absorbed_Wspm2 == rel(540.602, 3e-6));
    CHECK(b.resistance_pm3 == rel(2.42854, 3e-6));
    CHECK(pace::rotating_mass_factor(truck()) == rel(1.074987, 1e-6));
}

TEST_CASE("pace: a known wheel mass and rolling radius replace what is taken") {
    pace::Car car = truck();
    CHECK(pace::rolling_radius_m(car) == rel(0.48 * 1.016, 1e-14));
    car.wheel_kg = 2 * pace::usual_wheel_kg(car.tyre_m).usual;
    CHECK(pace::rotating_mass_factor(car) == rel(1.02 + 2 * 0.054987, 1e-5));
    car.rolling_radius_m = 0.4;
    CHECK(pace::rolling_radius_m(car) == 0.4);
}

TEST_CASE("pace: rated speed is a share of the limiter's, or 6500") {
    CHECK(pace::usual_rated_rpm(std::nullopt).usual == 6500);
    CHECK(pace::usual_rated_rpm(7000).usual == rel(6510, 1e-12));
    CHECK(pace::usual_rated_rpm(7000).low == rel(6160, 1e-12));
    CHECK(pace::usual_rated_rpm(7000).high == rel(6790, 1e-12));
    CHECK(pace::usual_wheel_kg(0.94).usual == rel(55, 1e-12));
    CHECK(pace::usual_wheel_kg(0.94).low == rel(44, 1e-12));
    CHECK(pace::usual_wheel_kg(0.94).high == rel(68.75, 1e-12));
}

TEST_CASE("pace: a car that cannot be is refused") {
    using Change = std::function<void(pace::Car&)>;
    const std::vector<Change> changes{
        [](pace::Car& car) { car.mass_kg = 0; },
        [](pace::Car& car) { car.tyre_m = 33; },
        [](pace::Car& car) { car.wheel_travel_m = 700; },
        [](pace::Car& car) { car.engine_power_W = 850; },
        [](pace::Car& car) { car.axle_ratio = 0.5; },
        [](pace::Car& car) { car.case_ratio = -1; },
        [](pace::Car& car) { car.drag_area_m2 = 9; },
        [](pace::Car& car) { car.air_density_kgpm3 = 2; },
        [](pace::Car& car) { car.grip = 0; },
        [](pace::Car& car) { car.rolling_radius_m = 2; },
        [](pace::Car& car) { car.wheel_kg = 0; },
        [](pace::Car& car) { car.unsprung_share = 1; },
        [](pace::Car& car) { car.body_Hz = 0; },
        [](pace::Car& car) { car.damping = 0; },
        [](pace::Car& car) { car.tyre_deflection_share = 0; },
        [](pace::Car& car) { car.absorbed_W = 0; },
        [](pace::Car& car) { car.travel_sigmas = 0; },
        [](pace::Car& car) { car.to_case = 1.1; },
        [](pace::Car& car) { car.to_ground = 0; },
        [](pace::Car& car) { car.engine_drag = 1; },
        [](pace::Car& car) { car.part_load_efficiency = 0; },
        [](pace::Car& car) { car.full_load_efficiency = 0; },
        [](pace::Car& car) { car.fuel_MJpL = 0; },
        [](pace::Car& car) { car.gearbox->ratios = {}; },
        [](pace::Car& car) { car.gearbox->ratios = {0}; },
        [](pace::Car& car) { car.gearbox->limiter_rpm = 100; },
        [](pace::Car& car) { car.gearbox->rated_rpm = 1e6; },
        [](pace::Car& car) { car.gearbox->full_load = {{5000, 900}, {4000, 900}}; },
        [](pace::Car& car) { car.gearbox->full_load = {{5000, -1}}; },
    };
    for (const Change& change : changes) {
        pace::Car car = geared();
        change(car);
        CHECK_THROWS_AS((void)pace::ride(car), Error);
    }
    CHECK_NOTHROW((void)pace::ride(geared()));
}

TEST_CASE("pace: style at -0.5 and 0.5, its ends and its limits") {
    // Printed to four digits.
    const pace::Style easy = pace::style_of(-0.5);
    CHECK(within(easy.ride, 0.8367, 5.1e-5));
    CHECK(within(easy.corner, 0.8944, 5.1e-5));
    CHECK(within(easy.push, 0.7141, 5.1e-5));
    CHECK(within(easy.brake, 0.5916, 5.1e-5));
    CHECK(within(easy.unevenness, 0.4183, 5.1e-5));
    const pace::Style hard = pace::style_of(0.5);
    CHECK(within(hard.ride, 1.1402, 5.1e-5));
    CHECK(within(hard.corner, 1.0583, 5.1e-5));
    CHECK(within(hard.push, 0.9220, 5.1e-5));
    CHECK(within(hard.brake, 0.7937, 5.1e-5));
    CHECK(within(hard.unevenness, 0.5916, 5.1e-5));
    CHECK(pace::style_of(0).push == 0.85);
    CHECK(pace::style_of(1.3).push == 1);
    CHECK(pace::style_of(1).ride == rel(1.30, 1e-12));
    CHECK(pace::style_of(-1).ride == rel(0.70, 1e-12));
    CHECK_THROWS_AS((void)pace::style_of(1.31), Error);
    CHECK_THROWS_AS((void)pace::style_of(-1.31), Error);
}

}  // namespace caseload::pace_car_tests
