// SPDX-License-Identifier: MIT
#include "caseload/formulas/box_wall.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/radiation.hpp"
#include "formulas/settled_wall.hpp"
#include "support.hpp"

namespace caseload::box_wall {

namespace {

constexpr double dirt_WpmK = 0.27;

Outside around(double speed_mps, double emissivity, double dirt_m) {
    return {.box = {.along_m = 0.45, .across_m = 0.30, .high_m = 0.20},
            .emissivity = emissivity,
            .air_degC = 35,
            .surroundings_degC = 35,
            .speed_mps = speed_mps,
            .pressure_Pa = 101325,
            .coat_resistance_m2KpW = dirt_m / dirt_WpmK,
            .coat_area_share = 1};
}

double inside_WpK() {
    return oil_to_metal_WpK({.film_Wpm2K = 200,
                             .wetted_m2 = 0.8 * 0.57,
                             .wall_m = 0.020,
                             .conductivity_WpmK = 160,
                             .area_m2 = 0.57});
}

/// Heat per kelvin between oil at 110 and air at 35 degC.
double whole_WpK(const Outside& out) {
    const OutsideHeat heat = outside(out, settled_wall::metal_degC(out, 110, inside_WpK()));
    return (heat.convection_W + heat.radiation_W) / 75;
}

}  // namespace

TEST_CASE("incropera-6e 3.1.3 oil to metal: two resistances by hand") {
    // 1/91.2 + 0.02/91.2 K/W.
    CHECK(inside_WpK() == rel(1 / (1 / 91.2 + 0.020 / 91.2), 1e-12));
    CHECK(oil_to_metal_WpK({.film_Wpm2K = 100,
                            .wetted_m2 = 0.3,
                            .wall_m = 0,
                            .conductivity_WpmK = 1,
                            .area_m2 = 1}) == rel(30, 1e-12));
    CHECK_THROWS_AS(
        (void)oil_to_metal_WpK(
            {.film_Wpm2K = 0, .wetted_m2 = 1, .wall_m = 0, .conductivity_WpmK = 1, .area_m2 = 1}),
        Error);
}

TEST_CASE("incropera-6e 3.1 outside: oil to air: independent evaluation, no published example") {
    // tests/reference/heat_values.py: clean, outer surface, 3 mm dust, clean with emissivity 0.1.
    struct Row {
        double speed_mps;
        double clean;
        double surface_degC;
        double dusty;
        double bright;
    };
    for (const Row& row :
         {Row{0, 7.3212, 103.8589, 6.2307, 3.6579}, Row{1, 8.7849, 102.6311, 7.3616, 5.2531},
          Row{2, 10.6842, 101.0379, 8.7265, 7.3351}, Row{5, 15.3236, 97.1464, 11.7269, 12.4082},
          Row{10, 21.0351, 92.3554, 14.8976, 18.6077}, Row{20, 29.0653, 85.6196, 18.5873, 27.2358},
          Row{30, 34.8158, 80.7960, 20.7959, 33.3542},
          Row{60, 45.8943, 71.5032, 24.2885, 45.0093}}) {
        CAPTURE(row.speed_mps);
        const Outside clean = around(row.speed_mps, 0.9, 0);
        CHECK(within(whole_WpK(clean), row.clean, 6e-5));
        CHECK(within(settled_wall::metal_degC(clean, 110, inside_WpK()), row.surface_degC, 6e-5));
        CHECK(within(whole_WpK(around(row.speed_mps, 0.9, 0.003)), row.dusty, 6e-5));
        CHECK(within(whole_WpK(around(row.speed_mps, 0.1, 0)), row.bright, 6e-5));
    }
}

TEST_CASE("incropera-6e 3.1 outside: clean metal in closed form") {
    const Outside out = around(10, 0.9, 0);
    const OutsideHeat heat = outside(out, 90);
    CHECK(heat.surface_degC == 90);
    const double h = box_film::mixed_Wpm2K(
        out.box, {.surface_degC = 90, .air_degC = 35, .speed_mps = 10, .pressure_Pa = 101325});
    CHECK(heat.convection_W == rel(0.57 * h * 55, 1e-13));
    CHECK(heat.radiation_W == rel(0.57 * radiation::coefficient_Wpm2K(0.9, {90, 35}) * 55, 1e-13));
    // Sky or ground at another temperature than the air moves radiation only.
    Outside cold = out;
    cold.surroundings_degC = 0;
    CHECK(outside(cold, 90).convection_W == heat.convection_W);
    CHECK(outside(cold, 90).radiation_W > heat.radiation_W);
}

TEST_CASE("incropera-6e 3.1 outside: the coat's surface carries one heat through and off") {
    for (const double speed : {0.0, 0.5, 5.0, 40.0})
        for (const double metal : {-20.0, 34.0, 35.001, 60.0, 120.0, 160.0, 400.0})
            for (const double surroundings : {10.0, 35.0, 70.0})
                for (const double dirt_m : {0.0005, 0.003, 0.010}) {
                    Outside out = around(speed, 0.9, dirt_m);
                    out.surroundings_degC = surroundings;
                    const OutsideHeat heat = outside(out, metal);
                    CAPTURE(speed);
                    CAPTURE(metal);
                    const double through_W =
                        0.57 * (metal - heat.surface_degC) * dirt_WpmK / dirt_m;
                    // 1e-7 K of surface is worth up to 0.57 * 2000 * 1e-7 W.
                    CHECK(within(heat.convection_W + heat.radiation_W, through_W, 1e-4));
                }
    // Nothing flows between equal temperatures.
    const OutsideHeat none = outside(around(10, 0.9, 0.003), 35);
    CHECK(none.convection_W == 0);
    CHECK(none.radiation_W == 0);
    CHECK(none.surface_degC == 35);
}

TEST_CASE("incropera-6e 3.1 outside: share of the coat mixes the two") {
    const Outside dusty = around(10, 0.9, 0.003);
    const Outside clean = around(10, 0.9, 0);
    Outside half = dusty;
    half.coat_area_share = 0.3;
    CHECK(
        outside(half, 90).convection_W ==
        rel(0.3 * outside(dusty, 90).convection_W + 0.7 * outside(clean, 90).convection_W, 1e-13));
    CHECK(outside(half, 90).radiation_W ==
          rel(0.3 * outside(dusty, 90).radiation_W + 0.7 * outside(clean, 90).radiation_W, 1e-13));
    half.coat_area_share = 0;
    CHECK(outside(half, 90).convection_W == outside(clean, 90).convection_W);
    CHECK(outside(dusty, 90).convection_W < outside(clean, 90).convection_W);
    // A thin coat is no coat.
    CHECK(outside(around(10, 0.9, 1e-9), 90).convection_W ==
          rel(outside(clean, 90).convection_W, 1e-5));
    half.coat_area_share = 1.001;
    CHECK_THROWS_AS((void)outside(half, 90), Error);
    half = dusty;
    half.coat_resistance_m2KpW = -0.001;
    CHECK_THROWS_AS((void)outside(half, 90), Error);
}

}  // namespace caseload::box_wall
