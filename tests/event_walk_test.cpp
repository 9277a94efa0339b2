// SPDX-License-Identifier: MIT
// The rules of an event by themselves, with an oil temperature made up.
#include "heat/event_walk.hpp"

#include "examples.hpp"
#include "support.hpp"

#include <cmath>
#include <vector>

namespace caseload::event_walk_tests {

namespace {

LegInput leg(LegKind kind, double duration_s, Engine engine = Engine::off) {
    LegInput one;
    one.kind = kind;
    one.duration_s = duration_s;
    one.engine = engine;
    return one;
}

}  // namespace

TEST_CASE("event walk: the exhaust heat of a leg decays over all stops after it") {
    const Setup setup = examples::setup("light.toml");
    EventWalk walk(setup, {}, {}, {0, 50, 0, {}});
    const auto still = [] { return 60.0; };
    std::vector<double> at_end_W;
    const auto step = [&](const LegStretch& stretch) {
        at_end_W.push_back(stretch.exhaust.at_W(stretch.end_s));
        return stretch.end_s;
    };
    // A stop at the beginning comes after the exhaust given; then 400 W are driven.
    walk.leg(leg(LegKind::stop, 600), 0, still, step);
    walk.leg(leg(LegKind::drive, 1000), 400, still, step);
    walk.leg(leg(LegKind::stop, 300), 0, still, step);
    walk.leg(leg(LegKind::stop, 300, Engine::idle), 0, still, step);
    REQUIRE(at_end_W.size() == 4);
    CHECK(at_end_W[0] == rel(50 * std::exp(-1), 1e-12));
    CHECK(at_end_W[1] == 400);
    CHECK(at_end_W[2] == rel(400 * std::exp(-0.5), 1e-12));
    CHECK(at_end_W[3] == rel(400 * (0.3 + 0.7 * std::exp(-1)), 1e-12));
    CHECK(walk.now.t_s == 2200);
}

TEST_CASE(
    "event walk: a leg continues in a new stretch where pump or fan switches, with both states "
    "kept") {
    Setup setup = examples::setup("light.toml");
    setup.cooler.fan_on_above_degC = 95;
    EventWalk walk(setup, {});
    // 1 K each 10 s, from 80 to 100 degC and down again.
    const auto oil_degC = [&] { return 100 - 0.1 * std::fabs(walk.now.t_s - 200); };
    std::vector<bool> fan;
    const auto step = [&](const LegStretch& stretch) {
        fan.push_back(stretch.on.fan);
        while (walk.now.t_s < stretch.end_s && !walk.moves(oil_degC())) walk.now.t_s += 10;
        return walk.now.t_s;
    };
    CHECK(walk.may_move());
    walk.leg(leg(LegKind::drive, 200), 0, oil_degC, step);
    CHECK(fan == std::vector<bool>{false, true});
    CHECK(walk.now.latches.fan);
    // Off 5 K below its point, in the next leg.
    walk.leg(leg(LegKind::drive, 200), 0, oil_degC, step);
    CHECK(fan == std::vector<bool>{false, true, true, false});
    CHECK_FALSE(walk.now.latches.fan);
    CHECK(walk.now.t_s == 400);
}

}  // namespace caseload::event_walk_tests
