// SPDX-License-Identifier: MIT
// What can be on or off: thermostat, bypass, fan and pump in legs and stops, exhaust, repeated
// legs. Expected values are closed forms, or the heat balance of a whole event over its samples.
#include "caseload/units.hpp"
#include "event_balance.hpp"
#include "support.hpp"

#include <cmath>
#include <utility>

namespace caseload::heat_states_tests {

using namespace caseload::event_balance;
using examples::then_stop;
using examples::with_bins;

TEST_CASE("thermostat: it passes 5 % below its point, all from 10 K above, linear between") {
    // The same as a pump of that flow without a thermostat.
    const Setup with = cooled();
    const Prepared prepared = prepare(with);
    REQUIRE(with.cooler.thermostat_opens_degC == 80.0);
    for (const auto& row :
         {std::pair{60.0, 0.05}, std::pair{79.9, 0.05}, std::pair{85.0, 0.525},
          std::pair{82.0, 0.05 + 0.95 * 0.2}, std::pair{90.0, 1.0}, std::pair{130.0, 1.0}}) {
        const double oil_degC = row.first;
        const double share = row.second;
        CAPTURE(oil_degC);
        Setup without = with;
        without.cooler.thermostat_opens_degC.reset();
        without.lubrication.pump->flow_Lpmin *= share;
        const Prepared other = prepare(without);
        CHECK(cooler_heat_W(prepared, 0, oil_degC, {}) ==
              rel(cooler_heat_W(other, 0, oil_degC, {}), 1e-12));
    }
}

TEST_CASE("bypass: it passes the flow beyond its opening pressure") {
    // 75W-90 at 8 L/min through a core of 30 kPa at 100 degC (its rating), 105 mm2/s and 852.2
    // kg/m3 at 40 degC against 16 and 813.8: 206.2 kPa; 48.733 and 839.5 (Walther and D1250) at 60.
    Setup setup = cooled({{"lubrication.pump.flow", "\"8 L/min\""}});
    setup.cooler.thermostat_opens_degC.reset();
    const auto heat_W = [](Setup s, double flow_Lpmin, double opens_kPa, double oil_degC) {
        s.lubrication.pump->flow_Lpmin = flow_Lpmin;
        s.cooler.bypass_opens_Pa = 1000 * opens_kPa;
        const Prepared prepared = prepare(s);
        return cooler_heat_W(prepared, 0, oil_degC, {});
    };
    for (const auto& row :
         {std::pair{40.0, 30 * 105 * 852.2 / (16 * 813.8)},
          std::pair{60.0, 30 * 48.733 * 839.5 / (16 * 813.8)}, std::pair{100.0, 30.0}}) {
        const double oil_degC = row.first;
        const double drop_kPa = row.second;
        CAPTURE(oil_degC);
        const double all_W = heat_W(setup, 8, 2000, oil_degC);
        // Opening at half the drop: half the flow stays in the core.
        CHECK(heat_W(setup, 8, drop_kPa / 2, oil_degC) ==
              rel(heat_W(setup, 4, 2000, oil_degC), 0.001));
        CHECK(heat_W(setup, 8, 1.005 * drop_kPa, oil_degC) == all_W);
        CHECK(heat_W(setup, 8, 0.995 * drop_kPa, oil_degC) < all_W);
    }
}

TEST_CASE(
    "fan and pump: each runs as entered when driving and stopped, an input-driven pump only when "
    "driving") {
    Setup setup = then_stop(cooled(), stop(600, Engine::off, true, true));
    setup.cooler.face_speed_share = 0.2;  // 5 m/s at 25 m/s of road speed; the fan makes 3 m/s
    const auto heat_W = [](const Setup& s, std::size_t leg, const Switches& switches) {
        const Prepared prepared = prepare(s);
        return cooler_heat_W(prepared, leg, 110, switches);
    };
    const double driving_W = heat_W(setup, 0, {});
    // The faster of ram air and fan; the fan alone in a stop.
    CHECK(heat_W(setup, 0, {.fan = false}) == driving_W);
    Setup slow = setup;
    slow.event.legs[0].bins = {{1, 500, 4000, 10}};  // 2 m/s ram
    Setup fan_only = slow;
    fan_only.cooler.face_speed_share = 0;
    CHECK(heat_W(slow, 0, {}) == heat_W(fan_only, 0, {}));
    CHECK(heat_W(slow, 0, {.fan = false}) < heat_W(slow, 0, {}));
    CHECK(heat_W(fan_only, 0, {.fan = false}) == 0);
    CHECK(heat_W(setup, 1, {}) == rel(heat_W(slow, 0, {}), 1e-12));
    CHECK(heat_W(setup, 1, {.fan = false}) == 0);
    CHECK(heat_W(setup, 1, {.pump = false}) == 0);
    CHECK(heat_W(setup, 0, {.pump = false}) == 0);
    CHECK(heat_W(setup, 0, {.cooler = false}) == 0);
    // It turns with the input: half the flow at half the speed, none in a stop.
    Setup input = setup;
    input.lubrication.pump->drive = PumpDrive::input;
    input.lubrication.pump->rated_speed_rpm = 8000;
    Setup half = setup;
    half.lubrication.pump->flow_Lpmin /= 2;
    CHECK(heat_W(input, 0, {}) == rel(heat_W(half, 0, {}), 1e-12));
    CHECK(heat_W(input, 1, {}) == 0);
}

TEST_CASE("event: a stop's pump and fan do what the leg says") {
    // 500 N m without thermostat: warm oil at the stop, whose states then decide.
    // A slow fan: trapezoids follow what it does.
    const Setup base =
        cooled({{"event.oil_at_start", "\"100 degC\""}, {"cooler.fan_face_speed", "\"1 m/s\""}});
    double end_degC[2][2];
    for (const bool pump : {false, true})
        for (const bool fan : {false, true}) {
            const Setup setup = then_stop(base, stop(900, Engine::off, pump, fan));
            const Prepared prepared = prepare(setup);
            const EventHeat heat = event_heat(prepared, {});
            const EventHeat part = only_run(heat, 1);
            const Event event{prepared, part};
            const auto as = [](bool p, bool f) {
                return [p, f](const Sample&) { return Switches{true, p, f}; };
            };
            CAPTURE(pump);
            CAPTURE(fan);
            CHECK(std::fabs(gap(event, as(pump, fan), no_exhaust)) < closes);
            // The other states would not close.
            CHECK(std::fabs(gap(event, as(!pump, fan), no_exhaust)) > 2 * closes);
            if (pump) CHECK(std::fabs(gap(event, as(pump, !fan), no_exhaust)) > 10 * closes);
            end_degC[pump ? 1 : 0][fan ? 1 : 0] = heat.samples.back().nodes.oil_degC;
        }
    CHECK(end_degC[1][1] < end_degC[0][0]);
    CHECK(end_degC[0][1] == end_degC[0][0]);  // a fan cools nothing without flow
    // 60 W of an electric pump warm the oil where nothing cools it.
    CHECK(end_degC[1][0] > end_degC[0][0]);
    // An input-driven pump stands whatever the leg says: neither heat nor flow.
    Setup input = then_stop(base, stop(900, Engine::off, true, true));
    input.lubrication.pump->drive = PumpDrive::input;
    input.lubrication.pump->rated_speed_rpm = 4000;  // the speed of the leg
    const Prepared prepared = prepare(input);
    CHECK(event_heat(prepared, {}).samples.back().nodes.oil_degC == rel(end_degC[0][0], 1e-6));
}

TEST_CASE(
    "event: a fan switched by temperature goes on and off at its points, through legs and stops") {
    // On above 100, off at 95; starts off although the oil starts between.
    Setup setup = cooled({{"event.oil_at_start", "\"98 degC\""},
                          {"cooler.fan_on_above", "\"100 degC\""},
                          {"cooler.fan_face_speed", "\"1 m/s\""}});
    setup.cooler.thermostat_opens_degC.reset();
    setup.cooler.face_speed_share = 0;  // the fan is all the core gets
    setup.event.legs[0].bins = {{1, 900, 4500, 15}};
    setup = then_stop(setup, stop(1200, Engine::off, true, true));
    setup.event.run = {0, 1, 0, 1};
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    bool on = false;
    bool was_on_in_stop = false;
    int switched = 0;
    std::size_t next = 0;
    const auto as_said = [&](const Sample& at) {
        const bool before = on;
        on = on ? at.nodes.oil_degC > 95 : at.nodes.oil_degC > 100;
        if (on != before) ++switched;
        ++next;
        if (on && heat.samples[next].run == 1) was_on_in_stop = true;
        return Switches{true, true, on};
    };
    CHECK(std::fabs(gap({prepared, heat}, as_said, no_exhaust)) < closes);
    CHECK(switched >= 4);
    CHECK(was_on_in_stop);  // carried over from the leg
    const auto never = [](const Sample&) { return Switches{true, true, false}; };
    const auto always = [](const Sample&) { return Switches{true, true, true}; };
    CHECK(std::fabs(gap({prepared, heat}, never, no_exhaust)) > 10 * closes);
    CHECK(std::fabs(gap({prepared, heat}, always, no_exhaust)) > 10 * closes);
    // The oil turns round at the switch: the peak stands there, found to 0.01 s.
    CHECK(heat.peak_oil_degC >= 100);
    // A stop whose leg says off keeps it off.
    setup.event.legs[1].fan_on = false;
    const Prepared off = prepare(setup);
    const EventHeat other = event_heat(off, {});
    on = false;
    const auto and_the_leg = [&](const Sample& at) {
        on = on ? at.nodes.oil_degC > 95 : at.nodes.oil_degC > 100;
        return Switches{true, true, on};
    };
    CHECK(std::fabs(gap({off, other}, and_the_leg, no_exhaust)) > 2 * closes);
    on = false;
    std::size_t sample = 0;
    const auto both_say = [&](const Sample& at) {
        on = on ? at.nodes.oil_degC > 95 : at.nodes.oil_degC > 100;
        // The state from a sample on belongs to the run of the next one.
        const int run = other.samples[++sample].run;
        return Switches{true, true, on && run % 2 == 0};
    };
    CHECK(std::fabs(gap({off, other}, both_say, no_exhaust)) < closes);
}

TEST_CASE("event: a pump switched by temperature goes on and off at its points") {
    Setup setup = cooled(
        {{"event.oil_at_start", "\"60 degC\""}, {"lubrication.pump.on_above", "\"90 degC\""}});
    setup.cooler.thermostat_opens_degC.reset();
    setup.event.legs[0].bins = {{1, 900, 4500, 25}};
    setup.event.legs[0].duration_s = 7200;
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    bool on = false;
    const auto as_said = [&](const Sample& at) {
        on = on ? at.nodes.oil_degC > 85 : at.nodes.oil_degC > 90;
        return Switches{true, on, true};
    };
    CHECK(std::fabs(gap({prepared, heat}, as_said, no_exhaust)) < closes);
    CHECK(heat.peak_oil_degC == rel(90, 1e-4));  // turns round at the switch
}

TEST_CASE(
    "steady: a switched pump or fan runs where the leg without it settles above the lower end") {
    Setup setup = cooled();
    setup.cooler.thermostat_opens_degC.reset();
    setup.cooler.face_speed_share = 0.02;  // 0.5 m/s: the fan's 3 m/s matter
    const Prepared plain = prepare(setup);
    const double without_fan_degC = steady(plain, 0, {.fan = false}).nodes.oil_degC;
    const double with_fan_degC = steady(plain, 0, {}).nodes.oil_degC;
    const double without_pump_degC = steady(plain, 0, {.pump = false}).nodes.oil_degC;
    REQUIRE(with_fan_degC < without_fan_degC - 5);
    const auto settles = [](const Setup& s) {
        const Prepared prepared = prepare(s);
        return steady(prepared, 0, {});
    };
    Setup fan = setup;
    fan.cooler.fan_on_above_degC = without_fan_degC + 4.9;
    CHECK(settles(fan).switches.fan);
    CHECK(settles(fan).nodes.oil_degC == with_fan_degC);
    fan.cooler.fan_on_above_degC = without_fan_degC + 5.1;
    CHECK(!settles(fan).switches.fan);
    CHECK(settles(fan).nodes.oil_degC == without_fan_degC);
    Setup pump = setup;
    pump.lubrication.pump->on_above_degC = without_pump_degC + 4.9;
    CHECK(settles(pump).switches.pump);
    pump.lubrication.pump->on_above_degC = without_pump_degC + 5.1;
    CHECK(!settles(pump).switches.pump);
    CHECK(settles(pump).nodes.oil_degC == without_pump_degC);
}

TEST_CASE("exhaust: heat is in proportion to power while driving, and decays after stopping") {
    Setup setup = with_bins(examples::alone("heavy.toml", {{"cooler.fit", "false"},
                                                           {"housing.exhaust", "\"near-bare\""}}),
                            {{0.5, 600, 4000, 20}, {0.5, -100, 3000, 20}});
    // 1500 W at 150 kW: mean of 600 N m x 418.88 rad/s over half of the time, coast as nothing.
    const double Q_W = 1500 * 0.5 * 600 * 4000 * pi / 30 / 150000;
    const Prepared driven = prepare(setup);
    CHECK(exhaust_driving_W(driven, 0) == rel(Q_W, 1e-12));
    CHECK(steady(driven, 0, {}).exhaust_W == rel(Q_W, 1e-12));
    Setup light = setup;
    light.event.legs[0].bins = {{1, 10, 1000, 20}};
    const Prepared hardly = prepare(light);
    CHECK(exhaust_driving_W(hardly, 0) == rel(0.2 * 1500, 1e-12));  // never below a fifth
    Setup hard = setup;
    hard.event.legs[0].bins = {{1, 1000, 4000, 20}};
    const Prepared hardest = prepare(hard);
    CHECK(exhaust_driving_W(hardest, 0) == rel(1500.0 * 1000 * 4000 * pi / 30 / 150000, 1e-12));
    // Two stops one after the other, the first at idle: time counts from the end of driving.
    LegInput idle = stop(900, Engine::idle, false, false);
    setup = then_stop(setup, idle);
    setup = then_stop(setup, stop(1200, Engine::off, false, false));
    setup.event.legs.back().name = "off";
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    const double stopped_s = 3600;
    const auto law = [&](double tau_s, double kept) {
        return [=](double t_s, const LegInput& leg) {
            if (leg.kind == LegKind::drive) return Q_W;
            const double left = std::exp(-(t_s - stopped_s) / tau_s);
            return Q_W * (leg.engine == Engine::idle ? kept + (1 - kept) * left : left);
        };
    };
    const auto no_pump = [](const Sample& at) { return Switches{true, at.run == 0, true}; };
    for (const int run : {1, 2}) {
        CAPTURE(run);
        const EventHeat part = only_run(heat, run);
        const Event event{prepared, part};
        CHECK(std::fabs(gap(event, no_pump, law(600, 0.3))) < closes);
        CHECK(std::fabs(gap(event, no_pump, law(500, 0.3))) > 1.5 * closes);
        CHECK(std::fabs(gap(event, no_pump, no_exhaust)) > 10 * closes);
    }
    const EventHeat idling = only_run(heat, 1);
    CHECK(std::fabs(gap({prepared, idling}, no_pump, law(600, 0.2))) > 1.5 * closes);
    // Nothing before any drive leg.
    setup.event.run = {1, 0};
    const Prepared first = prepare(setup);
    const EventHeat waiting = event_heat(first, {});
    const EventHeat before = only_run(waiting, 0);
    for (const Sample& at : before.samples)
        CHECK(at.nodes.housing_degC < 48.001);  // air at the case
}

TEST_CASE("event.run: a leg with a count gives the bytes of the leg written so often") {
    const auto samples = [](const std::string& run) {
        const Setup setup = examples::alone("light.toml", {{"event.run", run}});
        const Prepared prepared = prepare(setup);
        return event_heat(prepared, {});
    };
    const EventHeat counted = samples(R"(["transit", "3 x loop", "fuel", "2 x loop"])");
    const EventHeat written =
        samples(R"(["transit", "loop", "loop", "loop", "fuel", "loop", "loop"])");
    REQUIRE(counted.runs.size() == 7);
    REQUIRE(written.samples.size() == counted.samples.size());
    for (std::size_t i = 0; i < counted.samples.size(); ++i) {
        CHECK(counted.samples[i].t_s == written.samples[i].t_s);
        CHECK(counted.samples[i].run == written.samples[i].run);
        CHECK(counted.samples[i].nodes.oil_degC == written.samples[i].nodes.oil_degC);
        CHECK(counted.samples[i].nodes.housing_degC == written.samples[i].nodes.housing_degC);
    }
    // 40 min, five loops of 55 min, 8 min: each leg begins where the last one ended.
    CHECK(counted.samples.back().t_s == rel(60 * (40 + 5 * 55 + 8), 1e-12));
    for (std::size_t i = 1; i < counted.runs.size(); ++i)
        CHECK(counted.runs[i].start_s == rel(counted.runs[i - 1].end_s, 1e-12));
    // Two loops in a row are one of twice the length.
    Setup twice = examples::alone("light.toml", {{"event.run", R"(["2 x loop"])"}});
    Setup once = examples::alone(
        "light.toml", {{"event.run", R"(["loop"])"}, {"leg.loop.duration", "\"110 min\""}});
    const Prepared a = prepare(twice);
    const Prepared b = prepare(once);
    CHECK(within(event_heat(a, {}).samples.back().nodes.oil_degC,
                 event_heat(b, {}).samples.back().nodes.oil_degC, 2e-3));
}

}  // namespace caseload::heat_states_tests
