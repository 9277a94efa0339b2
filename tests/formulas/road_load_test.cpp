// SPDX-License-Identifier: MIT
#include "caseload/formulas/road_load.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::road_load {

namespace {
constexpr Car car{.mass_kg = 2300, .drag_area_m2 = 2.3, .rotating_mass_factor = 1.06};
constexpr Ground ground{.resistance = 0.15,
                        .grade = 0.05,
                        .speed_mps = 30,
                        .acceleration_mps2 = 0.5,
                        .air_density_kgpm3 = 1.10};
}  // namespace

TEST_CASE("gillespie-1992 road-load by hand") {
    // th = atan 0.05: cos 0.9987523, sin 0.0499376. 2300 x 9.80665 x (0.1498128 + 0.0499376) =
    // 4505.42; air 0.55 x 2.3 x 900 = 1138.5; 2300 x 1.06 x 0.5 = 1219: 6862.92 N.
    CHECK(force_N(car, ground) == rel(6862.92, 3e-6));
}

TEST_CASE("gillespie-1992 road-load each part by itself") {
    Ground g = ground;
    g.resistance = 0;
    g.grade = 0;
    g.acceleration_mps2 = 0;
    CHECK(force_N(car, g) == rel(1138.5, 1e-12));
    g.speed_mps = 0;
    CHECK(force_N(car, g) == 0);
    g.acceleration_mps2 = -2;
    CHECK(force_N(car, g) == rel(-2 * 2300 * 1.06, 1e-12));
    g.acceleration_mps2 = 0;
    g.grade = 1;  // 45 deg
    CHECK(force_N(car, g) == rel(2300 * 9.80665 * std::sqrt(0.5), 1e-12));
    g.resistance = 0.2;
    CHECK(force_N(car, g) == rel(1.2 * 2300 * 9.80665 * std::sqrt(0.5), 1e-12));
}

TEST_CASE("gillespie-1992 road-load bad input") {
    Ground g = ground;
    g.grade = 1.01;
    CHECK_THROWS_AS((void)force_N(car, g), Error);
    g = ground;
    g.resistance = -0.01;
    CHECK_THROWS_AS((void)force_N(car, g), Error);
    Car c = car;
    c.rotating_mass_factor = 0.99;
    CHECK_THROWS_AS((void)force_N(c, ground), Error);
    c = car;
    c.mass_kg = 0;
    CHECK_THROWS_AS((void)force_N(c, ground), Error);
}

TEST_CASE("gillespie-1992 driveline by hand") {
    // 39 in tyre, rolling radius 0.475488 m, axle 5.43, underdrive 1.25: 0.0700535 m.
    const Driveline driveline{.rolling_radius_m = 0.475488, .axle_ratio = 5.43, .drop_ratio = 1.25};
    CHECK(input_lever_m(driveline) == rel(0.0700535, 1e-6));
    for (const Driveline& bad :
         {Driveline{0, 5.43, 1.25}, Driveline{0.475488, 0, 1.25}, Driveline{0.475488, 5.43, 0}})
        CHECK_THROWS_AS((void)input_lever_m(bad), Error);
}

}  // namespace caseload::road_load
