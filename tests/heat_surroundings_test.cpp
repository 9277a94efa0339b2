// SPDX-License-Identifier: MIT
// What surrounds a case and how it starts and stops: altitude, dirt, radiation, air past it, cold
// starts, hot soak. Expected values are closed forms and hand calculations.
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/box_wall.hpp"
#include "caseload/units.hpp"
#include "event_balance.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::heat_surroundings_tests {

using namespace caseload::event_balance;
using examples::then_stop;
using examples::with_bins;

TEST_CASE("altitude: thinner air takes less heat, and the case gets hotter") {
    // Film coefficient of the box 450 x 300 x 200 mm at 20 m/s: 0.873 at 1500 m, 0.796 at 2500 m of
    // what it is at sea level (recomputed, film at 70 degC).
    Setup setup = with_bins(examples::alone("heavy.toml", {{"cooler.fit", "false"},
                                                           {"housing.size", "\"450x300x200 mm\""},
                                                           {"housing.air_speed_share", "0.38"},
                                                           {"housing.dirt", "\"clean\""}}),
                            {{1, 500, 4000, 19.5 / 0.38}});
    const auto convection_W = [&](double altitude_m) {
        setup.event.altitude_m = altitude_m;
        const Prepared prepared = prepare(setup);
        return outside_parts(prepared, 0, 92).convection_W;
    };
    CHECK(convection_W(1500) / convection_W(0) == rel(0.873, 0.001));
    CHECK(convection_W(2500) / convection_W(0) == rel(0.796, 0.001));
    setup.event.altitude_m = 0;
    const auto oil_degC = [](Setup s, double altitude_m) {
        s.event.altitude_m = altitude_m;
        const Prepared prepared = prepare(s);
        return steady(prepared, 0, {}).nodes.oil_degC;
    };
    CHECK(oil_degC(setup, 2000) > oil_degC(setup, 0) + 3);
    Setup with = cooled();
    with.cooler.thermostat_opens_degC.reset();
    CHECK(oil_degC(with, 2000) > oil_degC(with, 0) + 1);
}

TEST_CASE("dirt: heat of a half coated case is the mean of a coated and a clean one") {
    const auto out_W = [](const std::vector<Change>& changes) {
        const Setup setup = with_bins(examples::alone("heavy.toml", changes), {cruise});
        const Prepared prepared = prepare(setup);
        const OutsideParts out = outside_parts(prepared, 0, 100);
        return out.convection_W + out.radiation_W;
    };
    const double mud_W = out_W({{"housing.dirt", "\"mud\""}});
    const double all_W =
        out_W({{"housing.dirt", "\"dust\""}, {"housing.dirt_thickness", "\"3 mm\""}});
    const double none_W =
        out_W({{"housing.dirt", "\"dust\""}, {"housing.dirt_thickness", "\"0 mm\""}});
    CHECK(mud_W == rel((all_W + none_W) / 2, 1e-9));  // both at emissivity 0.90
    // In series: what passes 1 mm of 0.27 W/mK leaves a clean surface of that temperature. Box 180
    // x 270 x 450 mm: 0.5022 m2.
    const Setup dusty =
        with_bins(examples::alone("heavy.toml", {{"housing.dirt", "\"dust\""}}), {cruise});
    Setup bare = dusty;
    bare.housing.dirt_thickness_mm = 0;
    const Prepared coated = prepare(dusty);
    const Prepared uncoated = prepare(bare);
    const OutsideParts dust = outside_parts(coated, 0, 100);
    const double through_W = dust.convection_W + dust.radiation_W;
    const double surface_degC = 100 - through_W * 0.001 / (0.27 * 0.5022);
    const OutsideParts clean = outside_parts(uncoated, 0, surface_degC);
    CHECK(clean.convection_W == rel(dust.convection_W, 1e-8));
    CHECK(clean.radiation_W == rel(dust.radiation_W, 1e-8));
    CHECK(through_W < 0.9 * none_W);
}

TEST_CASE("air at the case: its share of road speed and half a metre a second, none in a stop") {
    Setup setup = then_stop(
        with_bins(examples::alone("heavy.toml", {{"housing.dirt", "\"clean\""}}), {cruise}),
        stop(600, Engine::off, false, false));
    const Prepared prepared = prepare(setup);
    const auto convection_W = [](double speed_mps) {
        return box_wall::outside({.box = {.along_m = 0.18, .across_m = 0.27, .high_m = 0.45},
                                  .emissivity = 0.8,
                                  .air_degC = 48,
                                  .surroundings_degC = 48,
                                  .speed_mps = speed_mps,
                                  .pressure_Pa = us_standard_atmosphere::pressure_Pa(600),
                                  .coat_resistance_m2KpW = 0,
                                  .coat_area_share = 1},
                                 100)
            .convection_W;
    };
    CHECK(outside_parts(prepared, 0, 100).convection_W == rel(convection_W(0.35 * 25 + 0.5), 1e-9));
    CHECK(outside_parts(prepared, 1, 100).convection_W == rel(convection_W(0), 1e-9));
    // Beyond what is calculated: in proportion to the difference to the air.
    const double at_460_W = outside_parts(prepared, 0, 460).convection_W;
    CHECK(outside_parts(prepared, 0, 460.0001).convection_W == rel(at_460_W, 1e-6));
    CHECK(outside_parts(prepared, 0, 48 + 2 * 412).convection_W == rel(2 * at_460_W, 1e-9));
}

TEST_CASE("network: capacities and paths of a case, by hand") {
    // 2.6 L at 826.674 kg/m3 and 2050 + 3.3 x 80 J/(kg K); a box of 180 x 270 x 450 mm with walls
    // of 16 mm, 2700 kg/m3 and 896 J/(kg K); 20 kg of steel at 470 J/(kg K).
    const Setup setup =
        with_bins(examples::alone("light.toml", {{"case.steel_mass", "\"20 kg\""}}), {cruise});
    const Prepared prepared = prepare(setup);
    CHECK(prepared.capacities.oil_JpK == rel(0.0026 * 826.674 * 2314, 2e-6));
    CHECK(prepared.capacities.housing_JpK ==
          rel((0.18 * 0.27 * 0.45 - 0.148 * 0.238 * 0.418) * 2700 * 896, 1e-9));
    CHECK(prepared.capacities.steel_JpK == rel(9400, 1e-12));
    // Half of 0.5022 m2 at 200 W/(m2 K), then 16 mm of 160 W/(m K).
    CHECK(prepared.direct.oil_housing_WpK ==
          rel(1 / (1 / (200 * 0.5 * 0.5022) + 0.016 / (160 * 0.5022)), 1e-9));
    CHECK(prepared.direct.oil_steel_WpK == 120);
    CHECK(prepared.direct.steel_housing_WpK == 0);
    // Four bearings 90x140x24 beside: rollers 12.5 mm thick and balls of 0.3025 x 50 mm in seats of
    // unknown fit, bosses of 190 mm, 46 - 12 - 21 mm of shaft to the gear, 0.1 L/min of oil.
    double oil_housing_WpK = prepared.direct.oil_housing_WpK;
    double oil_steel_WpK = 120;
    double steel_housing_WpK = 0;
    for (const double element_mm : {12.5, 15.125, 12.5, 15.125}) {
        const double mm = 1e-3;
        const double G_o = 1 / (1 / (3000 * pi * 140 * 24 * mm * mm) +
                                std::log(140 / (115 + element_mm)) / (2 * pi * 45 * 24 * mm) +
                                std::log(190.0 / 140) / (2 * pi * 160 * 24 * mm));
        const double G_i = 1 / (1 / (6000 * pi * 90 * 24 * mm * mm) +
                                std::log((115 - element_mm) / 90) / (2 * pi * 45 * 24 * mm) +
                                13 * mm / (1.5 * 45 * pi / 4 * 90 * 90 * mm * mm));
        const double G_q = 826.674 * 2314 * 0.1 / 60000;
        oil_housing_WpK += G_q * G_o / (G_o + G_i + G_q);
        oil_steel_WpK += G_q * G_i / (G_o + G_i + G_q);
        steel_housing_WpK += G_i * G_o / (G_o + G_i + G_q);
    }
    CHECK(prepared.driving.oil_housing_WpK == rel(oil_housing_WpK, 1e-6));
    CHECK(prepared.driving.oil_steel_WpK == rel(oil_steel_WpK, 1e-6));
    CHECK(prepared.driving.steel_housing_WpK == rel(steel_housing_WpK, 1e-6));
    const Conductances stopped = direct_in_stop(prepared.direct);
    CHECK(stopped.oil_housing_WpK == rel(prepared.direct.oil_housing_WpK / 2, 1e-12));
    CHECK(stopped.oil_steel_WpK == 30);
    // A quarter of the oil passes the bearings, so more goes between steel and housing.
    CHECK(in_stop(prepared).steel_housing_WpK > prepared.driving.steel_housing_WpK);
    CHECK(in_stop(prepared).oil_steel_WpK < prepared.driving.oil_steel_WpK / 3);
}

TEST_CASE("radiation: Stefan and Boltzmann's law on a clean case") {
    const Setup setup =
        with_bins(examples::alone("heavy.toml", {{"housing.dirt", "\"clean\""},
                                                 {"housing.emissivity", "0.6"},
                                                 {"housing.air_warmer_by", "\"8 K\""}}),
                  {cruise});
    const Prepared prepared = prepare(setup);
    // Box 180 x 270 x 450 mm: 0.5022 m2; air and surroundings at 40 + 8 degC.
    const double expected_W =
        0.6 * 5.670374e-8 * 0.5022 * (std::pow(373.15, 4) - std::pow(273.15 + 48, 4));
    CHECK(outside_parts(prepared, 0, 100).radiation_W == rel(expected_W, 1e-6));
}

TEST_CASE("start: the event starts at ambient or as entered, cold starts included") {
    const auto first = [](const std::vector<Change>& changes) {
        const Setup setup = with_bins(examples::alone("heavy.toml", changes), {cruise}, 1800);
        const Prepared prepared = prepare(setup);
        EventHeat heat = event_heat(prepared, {});
        const auto as_leg = [](const Sample&) { return Switches{}; };
        CHECK(std::fabs(gap({prepared, heat}, as_leg, no_exhaust)) < closes);
        return heat;
    };
    const EventHeat absent = first({});
    CHECK(absent.samples.front().nodes.oil_degC == 40);
    CHECK(absent.samples.front().nodes.housing_degC == 40);
    CHECK(absent.samples.front().nodes.steel_degC == 40);
    const EventHeat cold = first({{"event.oil_at_start", "\"-20 degC\""}});
    CHECK(cold.samples.front().nodes.oil_degC == -20);
    CHECK(cold.samples.back().nodes.oil_degC < absent.samples.back().nodes.oil_degC);
    const EventHeat winter = first({{"event.ambient", "\"-35 degC\""}});
    CHECK(winter.samples.front().nodes.steel_degC == -35);
    // Hotter than the limits at the start: passed at once.
    const EventHeat hot = first({{"event.oil_at_start", "\"140 degC\""}});
    CHECK(hot.watch_after_s == 0);
    CHECK(hot.stop_after_s == 0);
    CHECK(hot.peak_oil_degC == 140);
}

TEST_CASE("hot soak: the housing may rise after stopping, and its peak is kept") {
    Setup setup = with_bins(
        examples::alone("heavy.toml",
                        {{"cooler.fit", "false"}, {"housing.exhaust", "\"near-shielded\""}}),
        {{1, 700, 4500, 25}}, 5400);
    setup = then_stop(setup, stop(1200, Engine::off, false, false));
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    const EventHeat soak = only_run(heat, 1);
    const Nodes& at_stop = soak.samples.front().nodes;
    // By hand at the moment of stopping: the paths of a stop, exhaust as before,
    // air no longer moving. More comes than goes, so the housing rises; the oil falls.
    const OutsideParts out = outside_parts(prepared, 1, at_stop.housing_degC);
    const double comes_W =
        in_stop(prepared).oil_housing_WpK * (at_stop.oil_degC - at_stop.housing_degC) +
        in_stop(prepared).steel_housing_WpK * (at_stop.steel_degC - at_stop.housing_degC) +
        exhaust_driving_W(prepared, 0);
    REQUIRE(comes_W > out.convection_W + out.radiation_W);
    double highest_degC = at_stop.housing_degC;
    for (const Sample& sample : soak.samples)
        highest_degC = std::max(highest_degC, sample.nodes.housing_degC);
    CHECK(highest_degC > at_stop.housing_degC + 1);
    CHECK(heat.peak_housing_degC == highest_degC);
    CHECK(soak.samples.back().nodes.oil_degC < at_stop.oil_degC);
    // First slope of the housing: net heat over its capacity, to what 30 s of change leave of it.
    const double slope_Kps =
        (comes_W - out.convection_W - out.radiation_W) / prepared.capacities.housing_JpK;
    CHECK((soak.samples[1].nodes.housing_degC - at_stop.housing_degC) / 30 == rel(slope_Kps, 0.2));
}

}  // namespace caseload::heat_surroundings_tests
