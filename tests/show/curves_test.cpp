// SPDX-License-Identifier: MIT
// The document for another integrator: tests/reference/event_scipy.py checks its numbers, here that
// every state of the switches is in it.
#include "caseload/show/curves.hpp"

#include "caseload/input.hpp"
#include "support.hpp"

#include <fstream>
#include <iterator>
#include <optional>
#include <string>

namespace caseload::curves_tests {

namespace {

std::optional<std::string> reference_file(const std::string& path) {
    std::ifstream file(std::string(CASELOAD_ROOT) + "/tests/reference/" + path, std::ios::binary);
    if (!file) return std::nullopt;
    return std::string(std::istreambuf_iterator<char>(file), {});
}

Setup switched() {
    return read_setup(reference_file("switched.toml").value(), "switched.toml", reference_file)
        .setup;
}

std::size_t leg_named(const Setup& setup, const std::string& name) {
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg)
        if (setup.event.legs[leg].name == name) return leg;
    FAIL("no such leg: " << name);
    return 0;
}

std::size_t count(const std::string& text, const std::string& word) {
    std::size_t n = 0;
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
        ++n;
    return n;
}

}  // namespace

TEST_CASE("curves: a leg has every state of the switches it can be in, once") {
    Setup setup = switched();
    const auto states = [&setup](const std::string& leg) {
        const Prepared prepared = prepare(setup);
        return event_network(prepared, {}).legs.at(leg_named(setup, leg)).states;
    };
    CHECK(states("loop").size() == 4);  // pump and fan by temperature
    CHECK(states("fuel").size() == 4);
    REQUIRE(states("wait").size() == 2);  // pump = "off" in this stop
    for (const StateCurves& state : states("wait")) CHECK(!state.switches.pump);
    REQUIRE(states("driver").size() == 2);  // fan = "off" in this stop
    for (const StateCurves& state : states("driver")) CHECK(!state.switches.fan);
    setup.cooler.fan_on_above_degC.reset();
    CHECK(states("loop").size() == 2);
    for (const StateCurves& state : states("loop")) CHECK(state.switches.fan);
    setup.lubrication.pump->on_above_degC.reset();
    REQUIRE(states("loop").size() == 1);
    CHECK(states("loop").front().switches.pump);
}

TEST_CASE("curves: the network is the one the event is integrated with") {
    const Setup setup = switched();
    const Prepared prepared = prepare(setup);
    const EventNetwork network = event_network(prepared, {});
    REQUIRE(network.legs.size() == setup.event.legs.size());
    const std::size_t loop = leg_named(setup, "loop");
    const std::size_t fuel = leg_named(setup, "fuel");
    CHECK(network.legs[loop].exhaust_driving_W == exhaust_driving_W(prepared, loop));
    CHECK(network.legs[loop].exhaust_driving_W > 0);
    CHECK(network.legs[fuel].exhaust_driving_W == 0);
    CHECK(network.legs[fuel].paths.oil_steel_WpK ==
          rel(network.legs[loop].paths.oil_steel_WpK / 4, 1e-12));
    CHECK(network.start.oil_degC == 60);
    CHECK(network.event.peak_oil_degC == event_heat(prepared, {}).peak_oil_degC);
}

TEST_CASE("curves: the document names both sides, or one without a cooler") {
    Setup setup = switched();
    const Prepared prepared = prepare(setup);
    Curves curves{setup, event_network(prepared, {}), std::nullopt};
    const std::string one = curves_json(curves);
    curves.without = event_network(prepared, {.cooler = false, .pump = true, .fan = true});
    const std::string two = curves_json(curves);
    CHECK(one.find("\"without\"") == std::string::npos);
    CHECK(count(two, "\"capacities\"") == 2);
    // Five legs: 4 + 4 + 4 + 2 + 2 states.
    CHECK(count(one, "\"cooler_W\"") == 16);
    CHECK(one.find(R"("run":[)") != std::string::npos);
    CHECK(
        one.find(
            R"({"name":"wait","kind":"stop","duration_s":2400,"engine":"off","pump_on":false,"fan_on":true})") !=
        std::string::npos);
    CHECK(one.find(R"("switch_hysteresis_K":5,"neighbour":{"driving_degC":)") != std::string::npos);
    CHECK(one.find(R"(},"pump_on_above_degC":85,"fan_on_above_degC":88)") != std::string::npos);
}

}  // namespace caseload::curves_tests
