// SPDX-License-Identifier: MIT
// Where the heat of bearings goes: their paths by seat and shaft, and the balance of every node.
#include "caseload/heat.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace caseload::bearing_paths_tests {
namespace {

BearingPaths first_paths(const std::vector<Change>& changes) {
    const Setup setup = examples::setup("light.toml", changes);
    return prepare(setup).bearing_paths.front();
}

std::vector<Change> seat(const std::string& fit_mm) {
    return {{"bearing.input_front.seat.ring_interference", "\"" + fit_mm + " mm\""},
            {"bearing.input_front.seat.boss_outside", "\"190 mm\""}};
}

}  // namespace

TEST_CASE("bearing heat: each bearing gives what it loses, and every node's heat balances") {
    for (const std::string name : {"light", "heavy", "idler", "dip", "shelf"}) {
        const Setup setup = examples::setup(name + ".toml");
        const Prepared prepared = prepare(setup);
        for (const bool cooler : {true, false})
            for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
                if (setup.event.legs[leg].kind != LegKind::drive) continue;
                CAPTURE(name);
                CAPTURE(leg);
                const Steady rest = steady(prepared, leg, {cooler, true, true});
                REQUIRE(rest.bearing_heat.size() == setup.bearings.size());
                BearingHeat all;
                for (std::size_t b = 0; b < rest.bearing_heat.size(); ++b) {
                    const BearingHeat& one = rest.bearing_heat[b];
                    CHECK(one.to_housing_W + one.to_steel_W + one.to_oil_W ==
                          rel(rest.losses.bearing_W[b], 1e-9));
                    all.to_housing_W += one.to_housing_W;
                    all.to_steel_W += one.to_steel_W;
                    all.to_oil_W += one.to_oil_W;
                }
                const LossLedger& lost = rest.losses.ledger;
                const Nodes& at = rest.nodes;
                const double wall_W =
                    prepared.direct.oil_housing_WpK * (at.oil_degC - at.housing_degC);
                const double splash_W =
                    prepared.direct.oil_steel_WpK * (at.oil_degC - at.steel_degC);
                const double least_W = 1e-9 * heat_in_W(rest);
                CHECK(within(lost.mesh_W / 2 + lost.seals_W / 2 + all.to_steel_W + splash_W, 0,
                             least_W));
                CHECK(within(lost.seals_W / 2 + all.to_housing_W + wall_W + rest.exhaust_W +
                                 rest.neighbour_W.value_or(0) - rest.outside.convection_W -
                                 rest.outside.radiation_W,
                             0, least_W));
                CHECK(within(lost.mesh_W / 2 + lost.windage_W + lost.churning_W + lost.thrown_W +
                                 lost.pocketing_W + lost.pump_W + all.to_oil_W - wall_W - splash_W -
                                 rest.cooler_W - rest.short_by_W,
                             0, least_W));
            }
    }
}

TEST_CASE("bearing heat: a seat passes by its fit, its gap, its retainer") {
    const BearingPaths unknown = first_paths({});
    CHECK(within(unknown.housing_WpK, 17.236, 0.0005));
    // Tight at 90 degC: 5000 W/(m2 K). 0.15 mm loose there has 0.14/0.075e-3.
    const double grows_mm = 140 * (23.4e-6 - 12e-6) * 70;
    const double tight = first_paths(seat("0.2")).housing_WpK;
    const double loose = first_paths(seat(std::to_string(grows_mm - 0.15))).housing_WpK;
    const double seat_KpW = [](double film) {
        return 1 / (film * std::acos(-1.0) * 0.14 * 0.024);
    }(1);
    CHECK(1 / tight == rel(1 / unknown.housing_WpK + seat_KpW * (1.0 / 5000 - 1.0 / 3000), 1e-9));
    CHECK(1 / loose ==
          rel(1 / unknown.housing_WpK + seat_KpW * (0.075e-3 / 0.14 - 1.0 / 3000), 1e-6));
    // Never less as the fit gets tighter, nowhere by a jump.
    double before = first_paths(seat("-0.2")).housing_WpK;
    for (double fit_mm = -0.198; fit_mm < 0.27; fit_mm += 0.002) {
        const double now = first_paths(seat(std::to_string(fit_mm))).housing_WpK;
        CHECK(now >= before);
        CHECK(now < 1.03 * before);
        before = now;
    }
    std::vector<Change> nested = seat("0.2");
    nested.push_back({"bearing.input_front.seat.carrier", "\"steel-retainer\""});
    nested.push_back({"bearing.input_front.seat.retainer_outside", "\"160 mm\""});
    nested.push_back({"bearing.input_front.seat.retainer_interference", "\"0.25 mm\""});
    CHECK(first_paths(nested).housing_WpK < tight);
    // Other paths are as they were.
    CHECK(first_paths(nested).steel_WpK == unknown.steel_WpK);
    CHECK(first_paths(nested).oil_WpK == unknown.oil_WpK);
}

TEST_CASE("bearing heat: a boss of cast iron passes less, and keeps a steel ring tighter") {
    const auto iron = [](std::vector<Change> changes) {
        changes.push_back({"housing.material", "\"cast-iron\""});
        return first_paths(changes).housing_WpK;
    };
    // The boss alone: 50 in place of 160 W/(m K), from 140 to 190 mm.
    const double boss_KpW =
        std::log(190.0 / 140) / (2 * std::acos(-1.0) * 0.024) * (1.0 / 50 - 1.0 / 160);
    CHECK(1 / iron({}) - 1 / first_paths({}).housing_WpK == rel(boss_KpW, 1e-9));
    CHECK(1 / iron(seat("0.2")) - 1 / first_paths(seat("0.2")).housing_WpK == rel(boss_KpW, 1e-9));
    // So tight at 20 degC that in aluminium it is free at 90 degC; iron grows less than the ring.
    const double free_at_90_mm = 0.01;
    CHECK(iron(seat(std::to_string(free_at_90_mm))) == iron(seat("0.2")));
    CHECK(first_paths(seat(std::to_string(free_at_90_mm))).housing_WpK <
          first_paths(seat("0.2")).housing_WpK);
}

TEST_CASE("bearing heat: a fit that is only assumed passes as an unknown one") {
    const Setup setup = examples::setup("light.toml");
    REQUIRE(setup.bearings[0].seat.assumed);
    REQUIRE(setup.bearings[0].seat.ring_fit == "N7");
    const auto film = [](const Setup& of) {
        return seat_heat(of, of.bearings[0], calculate_loads(of).bearings[0]).film_Wpm2K;
    };
    CHECK(film(setup) == 3000);
    Setup entered = setup;
    entered.bearings[0].seat.assumed = false;
    CHECK(film(entered) != 3000);
    entered.factors.seat_heat = 0.5;
    Setup half = setup;
    half.factors.seat_heat = 0.5;
    CHECK(film(half) == 1500);
    CHECK(film(entered) == film([&] {
              Setup one = entered;
              one.factors.seat_heat = 1;
              return one;
          }()));
}

TEST_CASE("bearing heat: the factor on unknown seats, a free ring, a bored shaft, oil") {
    Setup setup = examples::setup("light.toml", seat("0.2"));
    const std::vector<BearingPaths> one = prepare(setup).bearing_paths;
    setup.factors.seat_heat = 1.0 / 3;
    const std::vector<BearingPaths> third = prepare(setup).bearing_paths;
    setup.factors.seat_heat = 2;
    const std::vector<BearingPaths> twice = prepare(setup).bearing_paths;
    // A fit that is known stays; cylindrical 90x140x24: 8.25 and 23.68.
    CHECK(third[0] == one[0]);
    CHECK(twice[0] == one[0]);
    REQUIRE(setup.bearings[2].kind == BearingKind::cylindrical_roller);
    CHECK(within(third[2].housing_WpK, 8.2526, 0.0001));
    CHECK(within(twice[2].housing_WpK, 23.6806, 0.0001));
    setup.factors.seat_heat = 1;
    const Loads loads = calculate_loads(setup);
    const Oil oil = make_oil(setup.oil);
    setup.bearings[2].radial = false;
    CHECK(bearing_paths(setup, loads, oil)[2].housing_WpK < 0.5 * third[2].housing_WpK);
    // All round free: 300 in place of 3000 W/(m2 K).
    const BearingInput& free = setup.bearings[2];
    CHECK(1 / bearing_paths(setup, loads, oil)[2].housing_WpK - 1 / one[2].housing_WpK ==
          rel((1.0 / 300 - 1.0 / 3000) / (std::acos(-1.0) * 1e-6 * free.outside_mm * free.width_mm),
              1e-9));
    ShaftInput& shaft = setup.shafts.at(setup.bearings[2].shaft);
    shaft.bore_mm = 60;
    CHECK(bearing_paths(setup, loads, oil)[2].steel_WpK < one[2].steel_WpK);
    // Wider than the bearing is left a wall.
    shaft.bore_mm = 200;
    shaft.bore_mm = 0.9 * free.bore_mm;
    const double thinnest_WpK = bearing_paths(setup, loads, oil)[2].steel_WpK;
    CHECK(thinnest_WpK > 0);
    // A shaft bored to 0.9 of the bearing's bore passes along itself 0.19 of a solid one.
    CHECK(1 / thinnest_WpK - 1 / one[2].steel_WpK ==
          rel(shaft_to_gear_mm(setup, free) * 1000 /
                  (1.5 * 45 * std::acos(-1.0) / 4 * free.bore_mm * free.bore_mm) * (1 / 0.19 - 1),
              1e-9));
    shaft.bore_mm = 200;
    CHECK(bearing_paths(setup, loads, oil)[2].steel_WpK == rel(thinnest_WpK, 1e-12));
    // The oil that passes takes its heat as at 80 degC.
    CHECK(one[2].oil_WpK == rel(oil_density_kgpm3(oil, 80) * oil_specific_heat_JpkgK(oil, 80) *
                                    loads.bearings[2].oil_reaching_Lpmin / 60000,
                                1e-12));
    Loads wetter = loads;
    wetter.bearings[2].oil_reaching_Lpmin *= 3;
    CHECK(bearing_paths(setup, wetter, oil)[2].oil_WpK == rel(3 * one[2].oil_WpK, 1e-12));
}

TEST_CASE("bearing heat: in a stop a quarter of the oil still passes") {
    const BearingPaths one = first_paths({});
    const BearingPaths stopped = bearing_paths_in_stop({one}).front();
    CHECK(stopped.oil_WpK == rel(one.oil_WpK / 4, 1e-12));
    CHECK(stopped.housing_WpK == one.housing_WpK);
    CHECK(stopped.steel_WpK == one.steel_WpK);
}

TEST_CASE("bearing heat: a settled case warms as its seats pass less heat") {
    Setup setup = examples::setup("light.toml", {{"cooler.fit", "false"}});
    double oil_before = 0;
    double film_before = 0;
    for (const double seat_heat : {2.0, 1.0, 1.0 / 3}) {
        setup.factors.seat_heat = seat_heat;
        const Prepared prepared = prepare(setup);
        const std::size_t leg = static_cast<std::size_t>(setup.event.run[1]);
        const Steady rest = steady(prepared, leg, {});
        double film_degC = 0;
        for (const auto& bin : rest.losses.runs)
            for (const BearingRun& run : bin) film_degC = std::max(film_degC, run.film_degC);
        CHECK(rest.nodes.oil_degC > oil_before);
        CHECK(film_degC > film_before);
        // The case cools the bearings, gears and shafts warm them.
        CHECK(rest.bearing_heat[0].to_housing_W > 0.7 * rest.losses.bearing_W[0]);
        CHECK(rest.bearing_heat[1].to_steel_W < 0);
        oil_before = rest.nodes.oil_degC;
        film_before = film_degC;
    }
}

TEST_CASE("bearing heat: no jump of the settled oil for a thousandth of an entry") {
    const auto oil_degC = [](Setup setup) {
        setup.cooler.fit = false;
        const Prepared prepared = prepare(setup);
        return steady(prepared, static_cast<std::size_t>(setup.event.run[1]), {}).nodes.oil_degC;
    };
    using Entry = double& (*)(Setup&);
    const Entry entries[] = {
        [](Setup& s) -> double& { return s.bearings[0].at_mm; },
        [](Setup& s) -> double& { return s.bearings[0].outside_mm; },
        [](Setup& s) -> double& { return s.bearings[0].width_mm; },
        [](Setup& s) -> double& { return s.bearings[1].bore_mm; },
        [](Setup& s) -> double& { return s.bearings[1].oil_reaching_Lpmin; },
        [](Setup& s) -> double& { return s.shafts.at("input").bore_mm; },
        [](Setup& s) -> double& { return s.gears.face_width_mm; },
        [](Setup& s) -> double& { return *s.bearings[0].seat.ring_interference_mm; },
        [](Setup& s) -> double& { return *s.bearings[0].seat.boss_outside_mm; },
        [](Setup& s) -> double& { return s.event.ambient_degC; }};
    Setup setup = examples::setup("light.toml", seat("0.02"));
    setup.shafts.at("input").bore_mm = 40;
    const double settled = oil_degC(setup);
    for (const Entry entry : entries)
        for (const double by : {0.999, 1.001}) {
            Setup other = setup;
            entry(other) *= by;
            CHECK(std::fabs(oil_degC(other) - settled) < 1);
        }
}

}  // namespace caseload::bearing_paths_tests
