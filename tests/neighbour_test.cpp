// SPDX-License-Identifier: MIT
// Heat through the flange to what the case is bolted to.
#include "caseload/heat.hpp"
#include "examples.hpp"
#include "heat/event_walk.hpp"
#include "support.hpp"

#include <cmath>
#include <numbers>
#include <string>

namespace caseload::neighbour_tests {

namespace {

Steady at_rest(const Setup& setup) {
    return steady(prepare(setup), 0, {});
}

/// The dipped example, bolted to something of this temperature by this path.
Setup bolted(const std::string& temp, const std::string& path) {
    return examples::alone("dip.toml",
                           {{"housing.neighbour_conductance", "\"" + path + " W/K\""},
                            {"housing.neighbour_temperature", "\"" + temp + " degC\""}});
}

/// 1 / (1 / (h A) + 2 ln(1.6) / (2 pi k t)) of two walls of aluminium alike.
double flange_WpK(double contact_Wpm2K) {
    constexpr double area_m2 = 0.02;
    constexpr double wall_m = 0.016;
    constexpr double aluminium_WpmK = 160;
    return 1 / (1 / (contact_Wpm2K * area_m2) +
                2 * std::log(1.6) / (2 * std::numbers::pi * aluminium_WpmK * wall_m));
}

}  // namespace

TEST_CASE("neighbour: the word for a gearbox lies between a dry flange and one with a gasket") {
    // 3600 and 600 W/(m2 K); by hand 13.8 and 7.1 W/K.
    CHECK(within(flange_WpK(3600), 13.8, 0.05));
    CHECK(within(flange_WpK(600), 7.1, 0.05));
    const Setup setup = examples::alone("dip.toml", {{"housing.neighbour", "\"gearbox\""}});
    CHECK(setup.housing.neighbour_WpK > flange_WpK(600));
    CHECK(setup.housing.neighbour_WpK < flange_WpK(3600));
    CHECK(prepare(setup).neighbour_degC == setup.event.ambient_degC + 65);
}

TEST_CASE("neighbour: heat flows either way, in proportion, and the balance closes") {
    for (const char* temp : {"20", "150"}) {
        CAPTURE(temp);
        const Setup setup = bolted(temp, "12");
        const Steady state = at_rest(setup);
        REQUIRE(state.neighbour_W);
        CHECK(*state.neighbour_W == rel(12 * (std::stod(temp) - state.nodes.housing_degC), 1e-12));
        CHECK(heat_in_W(state) == rel(heat_out_W(state), 1e-9));
    }
    const Steady alone = at_rest(examples::alone("dip.toml"));
    CHECK(!alone.neighbour_W);
    CHECK(at_rest(bolted("20", "12")).nodes.oil_degC < alone.nodes.oil_degC);
    CHECK(at_rest(bolted("150", "12")).nodes.oil_degC > alone.nodes.oil_degC);
    CHECK(at_rest(bolted("150", "25")).nodes.oil_degC >
          at_rest(bolted("150", "12")).nodes.oil_degC);
}

TEST_CASE("neighbour: oil that one colder than the air cools below the air comes to rest there") {
    const Setup setup = bolted("-40", "60");
    const Steady state = at_rest(setup);
    REQUIRE(state.found);
    CHECK(state.nodes.housing_degC < setup.event.ambient_degC);
    CHECK(state.outside.convection_W < 0);
    CHECK(heat_in_W(state) == rel(heat_out_W(state), 1e-9));
}

TEST_CASE("neighbour: one as warm as the housing, or none, changes nothing") {
    const Steady alone = at_rest(examples::alone("dip.toml"));
    const Steady none = at_rest(examples::alone("dip.toml", {{"housing.neighbour", "\"none\""}}));
    CHECK(none.nodes == alone.nodes);
    CHECK(!none.neighbour_W);
    const Steady level =
        at_rest(bolted(std::to_string(alone.nodes.housing_degC), "40"));  // to 1e-6 K
    CHECK(within(level.nodes.oil_degC, alone.nodes.oil_degC, 1e-5));
}

TEST_CASE("neighbour: with a path of any size the housing comes to its temperature") {
    // Limit: of 60 W/K, the most that is accepted, the housing is nearer to it than without.
    const Setup setup = bolted("99", "60");
    const Steady alone = at_rest(examples::alone("dip.toml"));
    const Steady state = at_rest(setup);
    CHECK(std::fabs(state.nodes.housing_degC - 99) < std::fabs(alone.nodes.housing_degC - 99));
    Setup huge = setup;
    huge.housing.neighbour_WpK = 1e7;
    CHECK(within(at_rest(huge).nodes.housing_degC, 99, 1e-3));
}

TEST_CASE("neighbour: it keeps its temperature for half an hour of a stop, then cools") {
    const NeighbourNow now{99, 34, 1000 + neighbour_keeps_s};
    CHECK(now.at_degC(900) == 99);
    CHECK(now.at_degC(2800) == 99);
    // An hour further on: 34 + 65 / e.
    CHECK(now.at_degC(2800 + 3600) == rel(57.9122, 1e-6));
    const Setup setup = bolted("120", "12");
    const Prepared prepared = prepare(setup);
    LegInput driven;
    driven.kind = LegKind::drive;
    driven.duration_s = 600;
    LegInput stop;
    stop.kind = LegKind::stop;
    stop.duration_s = 7200;
    EventWalk walk(setup, {}, bolted_to(prepared));
    std::vector<double> cools_from_s;
    const auto step = [&](const LegStretch& stretch) {
        cools_from_s.push_back(stretch.neighbour.cools_from_s);
        return stretch.end_s;
    };
    for (const LegInput* leg : {&driven, &stop, &stop, &driven})
        walk.leg(*leg, 0, [] { return 90.0; }, step);
    // Driving, it is never reached; both stops count from the end of the driving.
    CHECK(cools_from_s == std::vector<double>{2400, 2400, 2400, 15600 + 1800});
}

TEST_CASE("neighbour: an event driven to its rest ends as the leg settles") {
    Setup setup = bolted("120", "12");
    setup.event.run = {0};
    setup.event.legs[0].duration_s = 60 * 3600;
    const Steady rest = at_rest(setup);
    const EventHeat event = event_heat(prepare(setup), {});
    // The curves are within some 0.01 K of the balance.
    CHECK(within(event.samples.back().nodes.housing_degC, rest.nodes.housing_degC, 0.02));
}

}  // namespace caseload::neighbour_tests
