// SPDX-License-Identifier: MIT
// The heat network against exact solutions, an independent integration, and itself.
#include "caseload/assess.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/input.hpp"
#include "caseload/units.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <iterator>
#include <string>

namespace caseload::heat_tests {

namespace {

ReadSetup read_example(const std::string& name, std::vector<Change> changes = {}) {
    return Document(examples::text(name).value(), name, examples::text).complete(changes);
}

// Capacities and paths of the reference network: 3 L of oil, a 0.45 x 0.30 x 0.20 m box, 25 kg
// steel.
constexpr Capacities reference{5738.77, 24102.4, 11750};
constexpr Conductances paths{91.2, 120, 15};

struct Row {
    double t_s;
    double oil, housing, steel;
};

}  // namespace

TEST_CASE("network: linear case against the matrix exponential") {
    // Independent: exp(A t) by scipy.linalg.expm 1.10, printed to 1e-3 K. LIN1: 27.5 W/K to air of
    // 35 degC, 1500 W to oil, 1000 W to steel; LIN2 has a cooler of 89 W/K at the oil.
    const Row lin1[] = {{60, 43.634, 36.128, 41.176},
                        {300, 59.726, 46.311, 60.159},
                        {900, 87.657, 70.878, 89.731},
                        {1800, 113.894, 94.506, 117.169},
                        {3600, 137.409, 115.684, 141.758}};
    const Row lin2[] = {
        {60, 41.553, 35.933, 40.707}, {300, 49.047, 42.260, 53.099}, {900, 55.326, 50.655, 61.676}};
    const auto run = [](double cooler_WpK, double t_s) {
        Nodes nodes{35, 35, 35};
        integrate(
            reference, nodes, {0, t_s, t_s},
            [&](double, const Nodes& n) {
                return Drives{{.oil_W = 1500, .steel_W = 1000, .housing_W = 0},
                              27.5 * (n.housing_degC - 35),
                              cooler_WpK * (n.oil_degC - 35),
                              0,
                              paths};
            },
            [](double, const Nodes&) {});
        return nodes;
    };
    for (const Row& row : lin1) {
        CAPTURE(row.t_s);
        const Nodes nodes = run(0, row.t_s);
        CHECK(
            within(nodes.oil_degC, row.oil, 1.5e-3));  // printed to 1e-3, integrated to 1e-4 a step
        CHECK(within(nodes.housing_degC, row.housing, 1.5e-3));
        CHECK(within(nodes.steel_degC, row.steel, 1.5e-3));
    }
    for (const Row& row : lin2) {
        CAPTURE(row.t_s);
        const Nodes nodes = run(89, row.t_s);
        CHECK(within(nodes.oil_degC, row.oil, 1.5e-3));
        CHECK(within(nodes.housing_degC, row.housing, 1.5e-3));
        CHECK(within(nodes.steel_degC, row.steel, 1.5e-3));
    }
}

TEST_CASE("network: steady and transient of every example close and meet") {
    for (const std::string name : {"light.toml", "heavy.toml", "idler.toml"}) {
        const ReadSetup read = read_example(name);
        const Prepared prepared = prepare(read.setup);
        for (const bool cooler : {true, false}) {
            const Switches switches{cooler, true, true};
            for (std::size_t leg = 0; leg < read.setup.event.legs.size(); ++leg) {
                if (read.setup.event.legs[leg].kind != LegKind::drive) continue;
                CAPTURE(name);
                CAPTURE(leg);
                const Steady state = steady(prepared, leg, switches);
                REQUIRE(state.found);
                CHECK(heat_in_W(state) == rel(heat_out_W(state), 1e-9));
                // Each loss and each path in turn 1 W off: the closure must notice.
                for (const LossRow& loss : loss_rows) {
                    Steady off = state;
                    off.losses.ledger.*loss.power_W += 1;
                    CHECK(heat_in_W(off) != rel(heat_out_W(off), 1e-9));
                }
                double* out[] = {nullptr, nullptr, nullptr, nullptr};
                Steady off = state;
                out[0] = &off.outside.convection_W;
                out[1] = &off.outside.radiation_W;
                out[2] = &off.cooler_W;
                out[3] = &off.exhaust_W;
                for (double* path : out) {
                    *path += 1;
                    CHECK(heat_in_W(off) != rel(heat_out_W(off), 1e-9));
                    *path -= 1;
                }
                // The curves' own network at rest.
                Setup longer = read.setup;
                longer.event.run = {static_cast<int>(leg)};
                longer.event.legs[leg].duration_s = 60000;
                const Prepared again = prepare(longer);
                const EventHeat event = event_heat(again, switches);
                CHECK(within(event.samples.back().nodes.oil_degC, state.nodes.oil_degC, 0.05));
                CHECK(within(event.samples.back().nodes.housing_degC, state.nodes.housing_degC,
                             0.05));
                CHECK(within(event.samples.back().nodes.steel_degC, state.nodes.steel_degC, 0.05));
            }
        }
    }
}

TEST_CASE("network: no cooler equals a cooler that gets no air") {
    ReadSetup read = read_example("light.toml");
    read.setup.cooler.face_speed_share = 0;
    read.setup.cooler.fan_face_speed_mps = 0;
    const Assessment answer = assess(read.setup);
    CHECK(answer.fitted.event.peak_oil_degC == rel(answer.without.event.peak_oil_degC, 1e-12));
}

TEST_CASE("network: doubling the fill changes the time to a limit, not the balance") {
    const ReadSetup read = read_example("heavy.toml");
    ReadSetup more = read_example("heavy.toml");
    more.setup.oil.fill_L *= 2;
    const Assessment one = assess(read.setup);
    const Assessment two = assess(more.setup);
    for (std::size_t leg = 0; leg < one.without.legs.size(); ++leg)
        CHECK(within(one.without.legs[leg].at_rest.nodes.oil_degC,
                     two.without.legs[leg].at_rest.nodes.oil_degC, 1e-9));
    CHECK(two.without.event.watch_after_s > one.without.event.watch_after_s + 60);
}

TEST_CASE("network: a limit is passed where the line between two samples meets it") {
    ReadSetup read = read_example("heavy.toml");
    read.setup.limits = {.oil_watch_degC = 83.7, .oil_stop_degC = 101.3};
    const EventHeat event = assess(read.setup).without.event;
    const auto oil_degC = [&](double t_s) {
        std::size_t i = 1;
        while (event.samples.at(i).t_s < t_s) ++i;
        const Sample& from = event.samples[i - 1];
        const Sample& to = event.samples[i];
        return from.nodes.oil_degC +
               (t_s - from.t_s) / (to.t_s - from.t_s) * (to.nodes.oil_degC - from.nodes.oil_degC);
    };
    REQUIRE(event.watch_after_s > 0);
    REQUIRE(event.stop_after_s > event.watch_after_s);
    CHECK(within(oil_degC(event.watch_after_s), 83.7, 1e-9));
    CHECK(within(oil_degC(event.stop_after_s), 101.3, 1e-9));
}

TEST_CASE("damage: doubling every torque cuts basic life by 8 and by 10.08") {
    ReadSetup read = read_example("light.toml");
    read.setup.joints.clear();
    read.setup.transfer_case.steel_mass_kg = 1e-9;  // weight off
    for (LegInput& leg : read.setup.event.legs)
        if (leg.kind == LegKind::drive) {
            leg.course_lines.clear();
            leg.bins = {{1, 500, 3000, 20}};
        }
    Prepared one = prepare(read.setup);
    Setup doubled = read.setup;
    for (LegInput& leg : doubled.event.legs)
        for (Bin& bin : leg.bins) bin.torque_Nm *= 2;
    Prepared two = prepare(doubled);
    // Play matters less under more load: without it.
    for (Prepared* prepared : {&one, &two})
        for (BearingData& data : prepared->loads.bearings) data.play_known = false;
    for (std::size_t leg = 0; leg < read.setup.event.legs.size(); ++leg) {
        if (read.setup.event.legs[leg].kind != LegKind::drive) continue;
        for (std::size_t b = 0; b < one.loads.bearings.size(); ++b) {
            const BearingData& data = one.loads.bearings[b];
            const auto life = [&](const Prepared& prepared) {
                const double P_N = bearing_condition(prepared, {leg, 0, b}, 80, nullptr).P_N;
                return iso_281::basic_life_Mrev({data.C_N, P_N, iso_281::life_exponent(data.kind)});
            };
            CHECK(life(one) / life(two) == rel(is_ball(data.kind) ? 8.0 : 10.0794, 1e-5));
        }
    }
}

TEST_CASE("loads: turning the case the other way mirrors the clock positions, joints included") {
    // Prop shafts going straight down look the same in the mirror; none goes to the side.
    const ReadSetup read = read_example("light.toml");
    const ReadSetup turned =
        read_example("light.toml", {{"case.input_turns", "\"counter-clockwise\""}});
    const Loads a = calculate_loads(read.setup);
    const Loads b = calculate_loads(turned.setup);
    int bins = 0;
    for (std::size_t leg = 0; leg < a.legs.size(); ++leg)
        for (std::size_t bin = 0; bin < a.legs[leg].bins.size(); ++bin, ++bins)
            for (std::size_t i = 0; i < a.bearings.size(); ++i) {
                const BearingLoad& one = a.legs[leg].bins[bin].nominal[i];
                const BearingLoad& two = b.legs[leg].bins[bin].nominal[i];
                CAPTURE(a.bearings[i].name);
                CHECK(one.F_r_N == rel(two.F_r_N, 1e-9));
                const double sum_deg = std::fmod(one.clock_deg + two.clock_deg, 360);
                CHECK(std::min(sum_deg, 360 - sum_deg) < 1e-6);
            }
    CHECK(bins > 4);
}

TEST_CASE("loads: the steady couple of a rear joint by hand") {
    // Input clockwise, so the output turns counter-clockwise: about +x. At the rear joint the
    // torque T leaves along +x; the prop shaft falls by 4 degrees, so the cross passes on a couple
    // with the part T tan 4 (mean over a turn: half) along -z, and the shaft feels +T tan 4 / 2
    // about +z. Held by the bearings: B_y = -M_z / span, A_y = +M_z / span; the shaft presses the
    // other way.
    ReadSetup read = read_example("light.toml");
    JointInput rear;
    for (const JointInput& joint : read.setup.joints)
        if (joint.name == "rear") rear = joint;
    REQUIRE(rear.angle_right_deg == 0);
    const Loads base = calculate_loads(read.setup);
    const auto press_y = [&](const std::vector<JointInput>& joints, std::size_t bearing) {
        Setup setup = read.setup;
        setup.joints = joints;
        const auto loads = bearing_loads(setup, base.train, base.bearings, 500, {});
        return loads[bearing];
    };
    std::size_t rear_bearing = 0;
    std::size_t front_bearing = 0;
    for (std::size_t i = 0; i < base.bearings.size(); ++i) {
        if (base.bearings[i].name == "output_rear") rear_bearing = i;
        if (base.bearings[i].name == "output_front") front_bearing = i;
    }
    const double T_Nmm = 500e3 * 41 / 33 * rear.torque_share;  // 33 teeth drive 41
    const double span_mm = base.bearings[rear_bearing].at_mm - base.bearings[front_bearing].at_mm;
    // The mean direction over a turn gives the ratio of the mean components: y and z of the press.
    const auto without = press_y({}, rear_bearing);
    const auto with = press_y({rear}, rear_bearing);
    const double y_0 = without.F_r_N * std::sin(without.clock_deg * pi / 180);
    const double z_0 = without.F_r_N * std::cos(without.clock_deg * pi / 180);
    const double y_1 = y_0 + T_Nmm * std::tan(4 * pi / 180) / 2 / span_mm;
    const double clock_deg = std::fmod(std::atan2(y_1, z_0) * 180 / pi + 360, 360);
    CHECK(with.clock_deg == rel(clock_deg, 1e-9));
}

}  // namespace caseload::heat_tests
