// SPDX-License-Identifier: MIT
// What can be on or off, and what surrounds the case: thermostat, bypass, fan and pump in legs and
// stops, exhaust, altitude, dirt, radiation, starts and stops. Expected values are closed forms, or
// the heat balance of a whole event written out here over its samples.
#include "caseload/assess.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/units.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <cmath>
#include <functional>

using namespace caseload;

namespace {

using examples::then_stop;
using examples::with_bins;

constexpr Bin cruise{1, 500, 4000, 25};

LegInput stop(double duration_s, Engine engine, bool pump, bool fan) {
    LegInput leg;
    leg.duration_s = duration_s;
    leg.engine = engine;
    leg.pump_on = pump;
    leg.fan_on = fan;
    return leg;
}

/// A case with a cooler, a fan and a thermostat, on one leg.
Setup cooled(const std::vector<Change>& changes = {}) {
    return with_bins(examples::setup("light.toml", changes), {cruise});
}

/// The event's heat by its samples: made + exhaust - given off, less what the nodes store, over all
/// that passed. 0 when the states named are the ones the event ran with.
struct Event {
    const Prepared& prepared;
    const EventHeat& heat;
};
double gap(const Event& event, const std::function<Switches(const Sample&)>& state,
           const std::function<double(double, const LegInput&)>& exhaust_W) {
    const Setup& setup = *event.prepared.setup;
    double left_J = 0;
    double passed_J = 0;
    for (std::size_t i = 1; i < event.heat.samples.size(); ++i) {
        const Sample& a = event.heat.samples[i - 1];
        const Sample& b = event.heat.samples[i];
        const auto leg = static_cast<std::size_t>(setup.event.run[static_cast<std::size_t>(b.run)]);
        const Switches now = state(a);
        const auto flow_W = [&](const Sample& at) {
            const double made_W =
                total_W(losses_at(setup, event.prepared.loads, event.prepared.oil,
                                  event.prepared.losses[leg], {at.nodes.oil_degC, now.pump})
                            .ledger) +
                exhaust_W(at.t_s, setup.event.legs[leg]);
            const OutsideParts out = outside_parts(event.prepared, leg, at.nodes.housing_degC);
            return made_W - out.convection_W - out.radiation_W -
                   cooler_heat_W(event.prepared, leg, at.nodes.oil_degC, now);
        };
        const double dt_s = b.t_s - a.t_s;
        const double in_J = dt_s * (flow_W(a) + flow_W(b)) / 2;
        const Capacities& c = event.prepared.capacities;
        const double stored_J = c.oil_JpK * (b.nodes.oil_degC - a.nodes.oil_degC) +
                                c.housing_JpK * (b.nodes.housing_degC - a.nodes.housing_degC) +
                                c.steel_JpK * (b.nodes.steel_degC - a.nodes.steel_degC);
        left_J += in_J - stored_J;
        passed_J += std::fabs(in_J) + std::fabs(stored_J);
    }
    return left_J / passed_J;
}

double no_exhaust(double, const LegInput&) {
    return 0;
}

// Trapezoids over 30 s against modes of 20 s and more: below this everywhere here.
constexpr double closes = 0.006;

/// The samples of a run, alone.
EventHeat only_run(const EventHeat& heat, int run) {
    EventHeat part;
    for (std::size_t i = 0; i < heat.samples.size(); ++i)
        if (heat.samples[i].run == run) {
            if (part.samples.empty() && i > 0) {
                part.samples.push_back(heat.samples[i - 1]);  // where it began
                part.samples.back().run = run;
            }
            part.samples.push_back(heat.samples[i]);
        }
    return part;
}

}  // namespace

TEST_CASE("thermostat: a twentieth below its point, all of it 10 K above, linear between") {
    // The same as a pump of that flow without a thermostat.
    const Setup with = cooled();
    const Prepared prepared = prepare(with);
    REQUIRE(with.cooler.thermostat_opens_degC == 80.0);
    for (const auto& [oil_degC, share] :
         {std::pair{60.0, 0.05}, std::pair{79.9, 0.05}, std::pair{85.0, 0.525},
          std::pair{82.0, 0.05 + 0.95 * 0.2}, std::pair{90.0, 1.0}, std::pair{130.0, 1.0}}) {
        CAPTURE(oil_degC);
        Setup without = with;
        without.cooler.thermostat_opens_degC.reset();
        without.lubrication.pump->flow_Lpmin *= share;
        const Prepared other = prepare(without);
        CHECK(cooler_heat_W(prepared, 0, oil_degC, {}) ==
              rel(cooler_heat_W(other, 0, oil_degC, {}), 1e-12));
    }
}

TEST_CASE("bypass: it lets past what would pass its pressure") {
    // 75W-90 at 8 L/min through a core of 30 kPa at 100 degC (its rating): 206, 94 and 30 kPa at
    // 40, 60 and 100 degC (recomputed, three figures).
    Setup setup = cooled({{"lubrication.pump.flow", "\"8 L/min\""}});
    setup.cooler.thermostat_opens_degC.reset();
    const auto heat_W = [](Setup s, double flow_Lpmin, double opens_kPa, double oil_degC) {
        s.lubrication.pump->flow_Lpmin = flow_Lpmin;
        s.cooler.bypass_opens_Pa = 1000 * opens_kPa;
        const Prepared prepared = prepare(s);
        return cooler_heat_W(prepared, 0, oil_degC, {});
    };
    for (const auto& [oil_degC, drop_kPa] :
         {std::pair{40.0, 206.0}, std::pair{60.0, 94.0}, std::pair{100.0, 30.0}}) {
        CAPTURE(oil_degC);
        const double all_W = heat_W(setup, 8, 2000, oil_degC);
        // Opening at half the drop: half the flow stays in the core.
        CHECK(heat_W(setup, 8, drop_kPa / 2, oil_degC) ==
              rel(heat_W(setup, 4, 2000, oil_degC), 0.005));
        CHECK(heat_W(setup, 8, 1.02 * drop_kPa, oil_degC) == all_W);
        CHECK(heat_W(setup, 8, 0.98 * drop_kPa, oil_degC) < all_W);
    }
}

TEST_CASE("fan and pump: driving, stopped, and an input-driven pump") {
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

TEST_CASE("event: a fan switched by temperature, through legs and stops") {
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

TEST_CASE("event: a pump switched by temperature") {
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

TEST_CASE("steady: switched by temperature when the case without it settles above the lower end") {
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

TEST_CASE("exhaust: with the power while driving, and how it dies away after stopping") {
    Setup setup = with_bins(examples::setup("heavy.toml", {{"cooler.fit", "false"},
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

TEST_CASE("altitude: thinner air takes less, and the hot case gets hotter") {
    // Film coefficient of the box 450 x 300 x 200 mm at 20 m/s: 0.873 at 1500 m, 0.796 at 2500 m of
    // what it is at sea level (recomputed, film at 70 degC).
    Setup setup = with_bins(examples::setup("heavy.toml", {{"cooler.fit", "false"},
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

TEST_CASE("dirt: half the case under mud is the mean of a coated and a clean one") {
    const auto out_W = [](const std::vector<Change>& changes) {
        const Setup setup = with_bins(examples::setup("heavy.toml", changes), {cruise});
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
    // A resistance in series: 1 mm of 0.27 W/mK under the film of this very leg, box of 180 x 270 x
    // 450 mm: 0.5022 m2. The film falls a little with the cooler surface.
    const double film_Wpm2K = none_W / (0.5022 * 52);  // 100 degC to air of 48
    const double dust_W = out_W({{"housing.dirt", "\"dust\""}});
    CHECK(dust_W / none_W == rel(1 / (1 + film_Wpm2K * 0.001 / 0.27), 0.005));
}

TEST_CASE("radiation: Stefan and Boltzmann's law on a clean case") {
    const Setup setup =
        with_bins(examples::setup("heavy.toml", {{"housing.dirt", "\"clean\""},
                                                 {"housing.emissivity", "0.6"},
                                                 {"housing.air_warmer_by", "\"8 K\""}}),
                  {cruise});
    const Prepared prepared = prepare(setup);
    // Box 180 x 270 x 450 mm: 0.5022 m2; air and surroundings at 40 + 8 degC.
    const double expected_W =
        0.6 * 5.670374e-8 * 0.5022 * (std::pow(373.15, 4) - std::pow(273.15 + 48, 4));
    CHECK(outside_parts(prepared, 0, 100).radiation_W == rel(expected_W, 1e-6));
}

TEST_CASE("start: the whole case at ambient, or as entered, cold starts included") {
    const auto first = [](const std::vector<Change>& changes) {
        const Setup setup = with_bins(examples::setup("heavy.toml", changes), {cruise}, 1800);
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
        examples::setup("heavy.toml",
                        {{"cooler.fit", "false"}, {"housing.exhaust", "\"near-shielded\""}}),
        {{1, 700, 4500, 25}}, 5400);
    setup = then_stop(setup, stop(1200, Engine::off, false, false));
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    const EventHeat soak = only_run(heat, 1);
    const Nodes& at_stop = soak.samples.front().nodes;
    // By hand at the moment of stopping: half the oil's path, the seats' whole, exhaust as before,
    // air no longer moving. More comes than goes, so the housing rises; the oil falls.
    const OutsideParts out = outside_parts(prepared, 1, at_stop.housing_degC);
    const double comes_W =
        prepared.driving.oil_housing_WpK / 2 * (at_stop.oil_degC - at_stop.housing_degC) +
        prepared.driving.steel_housing_WpK * (at_stop.steel_degC - at_stop.housing_degC) +
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
    CHECK((soak.samples[1].nodes.housing_degC - at_stop.housing_degC) / 30 == rel(slope_Kps, 0.15));
}

TEST_CASE("event.run: a count repeats a leg, byte for byte") {
    const auto samples = [](const std::string& run) {
        const Setup setup = examples::setup("light.toml", {{"event.run", run}});
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
    Setup twice = examples::setup("light.toml", {{"event.run", R"(["2 x loop"])"}});
    Setup once = examples::setup(
        "light.toml", {{"event.run", R"(["loop"])"}, {"leg.loop.duration", "\"110 min\""}});
    const Prepared a = prepare(twice);
    const Prepared b = prepare(once);
    CHECK(within(event_heat(a, {}).samples.back().nodes.oil_degC,
                 event_heat(b, {}).samples.back().nodes.oil_degC, 2e-3));
}
