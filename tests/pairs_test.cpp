// SPDX-License-Identifier: MIT
// Facing pairs in the chain: what heat does to them, and they to the heat.
#include "loads/pairs.hpp"
#include "caseload/ask/pairs.hpp"
#include "caseload/assess.hpp"
#include "caseload/heat_curves.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace caseload::pairs_tests {
namespace {

Setup idler(const std::string& end_play, std::vector<Change> more = {}) {
    more.push_back({"shaft.idler.end_play", "\"" + end_play + "\""});
    return examples::setup("idler.toml", more);
}

PairState tightest(const Setup& setup) {
    const std::vector<PairState> pairs = prepare(setup).pairs;
    return *std::min_element(pairs.begin(), pairs.end(), [](const auto& a, const auto& b) {
        return a.end_play_mm < b.end_play_mm;
    });
}

/// The pair of the idler turned round.
const std::vector<Change> thick_ends_in{{"bearing.idler_front.big_end", "\"rear\""},
                                        {"bearing.idler_rear.big_end", "\"front\""}};

Loads loads_of(const Setup& setup) {
    return prepare(setup).loads;
}

double most_axial_N(const Loads& loads) {
    double most_N = 0;
    for (const LegLoads& leg : loads.legs)
        for (const BinLoads& bin : leg.bins)
            for (const BearingLoad& load : bin.nominal) most_N = std::max(most_N, load.F_a_N);
    return most_N;
}

}  // namespace

TEST_CASE("pairs: preload falls, oil cools and life grows with more cold end play") {
    double preload_before_N = 1e9;
    double oil_before_degC = 1e9;
    double life_before = 1e9;
    for (const std::string end_play : {"-0.1 mm", "-0.05 mm", "-0.01 mm", "0.02 mm"}) {
        const Setup setup = idler(end_play);
        const PairState pair = tightest(setup);
        const Assessment answer = fitted_answer(setup);
        double life = 0;
        for (const BearingDamage& one : answer.fitted.damage.bearings)
            if (one.name.starts_with("idler")) life = std::max(life, one.life_share);
        CAPTURE(end_play);
        CHECK(pair.preload_N > 0);
        CHECK(pair.preload_N < preload_before_N);
        CHECK(answer.fitted.event.peak_oil_degC < oil_before_degC);
        CHECK(life < life_before);
        CHECK(pair.balance);
        CHECK(pair.loop_gain > 0);
        CHECK(pair.loop_gain < 0.5);
        preload_before_N = pair.preload_N;
        oil_before_degC = answer.fitted.event.peak_oil_degC;
        life_before = life;
    }
    // With end play left the pair is what it was without any of this: the same forces.
    CHECK(tightest(idler("0.1 mm")).preload_N == 0);
    CHECK(loads_of(idler("0.1 mm")).legs == loads_of(idler("0.3 mm")).legs);
}

TEST_CASE("pairs: a settled leg is as tight as its own temperatures make it") {
    const Setup setup = idler("-0.05 mm");
    const Prepared prepared = prepare(setup);
    const std::vector<PairPlace> pairs = facing_pairs(setup, prepared.loads);
    REQUIRE(pairs.size() == 1);
    // Pressure centres are 108 mm apart, middles some 13 mm inside each.
    CHECK(pairs.front().span_mm == rel(108 - 90 * std::tan(16 * 3.14159265358979 / 180), 1e-9));
    CaseCurves curves(prepared);
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        if (setup.event.legs[leg].kind != LegKind::drive) continue;
        const Nodes nodes = steady(curves, leg, {}).nodes;
        const double over_mm = 0.05 + tightening_mm(setup, prepared.loads, pairs.front(),
                                                    {nodes.housing_degC, nodes.steel_degC});
        CHECK(prepared.pair_over_mm[leg][pairs.front().shaft] == rel(over_mm, 1e-5));
    }
}

TEST_CASE("pairs: no jump of the forces where end play ends") {
    const double hot_mm = tightest(idler("0.03 mm")).end_play_mm;
    const auto at = [&](double more_mm) {
        return most_axial_N(loads_of(idler(std::to_string(0.03 - hot_mm + more_mm) + " mm")));
    };
    CHECK(at(-1e-5) == rel(at(1e-5), 1e-3));
    CHECK(at(-0.05) > 1.5 * at(1e-5));
}

TEST_CASE("pairs: a leg settles to the same digits alone and beside others") {
    for (const char* structure : {"150 N/um", "600 N/um"}) {
        CAPTURE(structure);
        const Setup both =
            idler("0 mm", {{"case.structure_stiffness", "\"" + std::string(structure) + "\""},
                           {"bearing.idler_front.at", "\"-80 mm\""},
                           {"bearing.idler_rear.at", "\"204 mm\""}});
        int preloaded = 0;
        for (const PairState& beside : prepare(both).pairs) {
            Setup one = both;
            const auto leg =
                std::find_if(both.event.legs.begin(), both.event.legs.end(),
                             [&](const LegInput& input) { return input.name == beside.leg; });
            one.event.legs = {*leg};
            one.event.run = {0};
            const PairState alone = tightest(one);
            CHECK(alone.end_play_mm == beside.end_play_mm);
            CHECK(alone.preload_N == beside.preload_N);
            preloaded += beside.preload_N > 0 ? 1 : 0;
        }
        CHECK(preloaded == 2);
    }
}

TEST_CASE("pairs: thick ends in never run away, thick ends out may") {
    const PairState in = tightest(idler("-0.2 mm", thick_ends_in));
    CHECK(in.preload_N > 0);
    CHECK(in.loop_gain <= 0);
    CHECK(in.tightened_mm < tightest(idler("-0.1 mm")).tightened_mm);
    const Setup stiff = idler("0.05 mm", {{"case.structure_stiffness", "\"1000 N/um\""},
                                          {"bearing.idler_front.at", "\"-80 mm\""},
                                          {"bearing.idler_rear.at", "\"204 mm\""}});
    const PairState wild = tightest(stiff);
    CHECK_FALSE(wild.balance);
    const Assessment answer = fitted_answer(stiff);
    const auto& checks = answer.fitted.checked.checks;
    const auto found = std::find_if(checks.begin(), checks.end(), [](const Check& check) {
        return check.id == CheckId::pair_gain;
    });
    REQUIRE(found != checks.end());
    CHECK(found->verdict == "stop");
    CHECK(found->about == "shaft.idler");
}

TEST_CASE("pairs: set by force or by hand as by the way it gives") {
    const Setup by_play = idler("-0.02 mm");
    const Loads loads = calculate_loads(by_play);
    const PairPlace pair = facing_pairs(by_play, loads).front();
    CHECK(cold_over_mm(by_play, loads, pair) == 0.02);
    const double preload_N = facing_pair::forces(pair.springs, 0, 0.02).F_B_N;
    const auto as = [](const std::string& key, const std::string& value) {
        return examples::setup("idler.toml", {{"shaft.idler." + key, '"' + value + '"'}});
    };
    const Setup by_force = as("preload", std::to_string(preload_N) + " N");
    CHECK(cold_over_mm(by_force, loads, pair) == rel(0.02, 1e-6));
    // Tapered: f_1 4e-4, Y 0.4/tan 16 deg, d_m 90 mm, both bearings.
    const double torque_Nm = preload_N * 2 * 4e-4 * 2 * 1.395 * 90 / 1000;
    const Setup by_hand = as("turning_torque", std::to_string(torque_Nm) + " N m");
    CHECK(cold_over_mm(by_hand, loads, pair) == rel(0.02, 2e-3));
    CHECK(cold_over_mm(as("turning_torque", "0 N m"), loads, pair) == 0);
}

TEST_CASE("pairs: the end play to set leaves what is aimed at when hot") {
    const double set_mm = tightest(idler("0.05 mm")).set_end_play_mm;
    CHECK(set_mm == rel(tightest(idler("-0.1 mm")).set_end_play_mm, 1e-9));
    CHECK(tightest(idler(std::to_string(set_mm) + " mm")).end_play_mm ==
          rel(hot_end_play_mm, 1e-4));
}

TEST_CASE("pairs: assumed where nothing is entered, and nowhere else") {
    const ReadSetup read =
        Document(examples::text("idler.toml").value(), "idler.toml", examples::text).complete();
    const auto entry = [&](const std::string& key) {
        return std::find_if(read.entries.begin(), read.entries.end(),
                            [&](const Entry& one) { return one.key == key; });
    };
    const auto play = entry("shaft.idler.end_play");
    REQUIRE(play != read.entries.end());
    CHECK(play->origin == Origin::standard);
    CHECK(play->low == "\"0 mm\"");
    CHECK(play->high == "\"0.1 mm\"");
    CHECK(entry("case.structure_stiffness") != read.entries.end());
    CHECK(entry("shaft.output.end_play") == read.entries.end());
    const Setup light = examples::setup("light.toml");
    CHECK(prepare(light).pairs.empty());
    CHECK(prepare(light).pair_over_mm.empty());
    CHECK_FALSE(light.transfer_case.structure_Npum.has_value());
}

TEST_CASE("pairs: the other hand of the helix swaps the forces of a pair under preload") {
    // Both bearings of the idler are alike and as far from its gear.
    const auto forces_of = [](const char* hand, double over_mm, double torque_Nm) {
        const Setup setup = examples::setup(
            "idler.toml", {{"gears.hand_on_input", std::string("\"") + hand + '"'}});
        const Loads loads = calculate_loads(setup);
        std::vector<double> over(loads.train.shafts.size(), over_mm);
        const std::vector<BearingLoad> all =
            bearing_loads(setup, loads.train, loads.bearings, torque_Nm, {}, over);
        const PairPlace pair = facing_pairs(setup, loads).front();
        return std::pair(all[pair.front], all[pair.rear]);
    };
    // An idler's meshes balance along its axis, so the pair's own springs are tried too.
    for (const double over_mm : {-0.05, 0.001, 0.05})
        for (const double torque_Nm : {-400.0, 900.0}) {
            const auto [front, rear] = forces_of("right", over_mm, torque_Nm);
            const auto [other_front, other_rear] = forces_of("left", over_mm, torque_Nm);
            CHECK(front.F_a_N == rel(other_rear.F_a_N, 1e-9));
            CHECK(rear.F_a_N == rel(other_front.F_a_N, 1e-9));
            CHECK(front.F_r_N == rel(other_rear.F_r_N, 1e-9));
        }
}

TEST_CASE("pairs: a helix presses the bearing on its side, and its other hand the other") {
    // Two alike, as far from their gear: what one takes with one hand the other takes with the
    // other. Their forces differ by the whole axial force of the teeth.
    const auto forces_of = [](const char* hand, double over_mm) {
        const Setup setup =
            examples::setup("light.toml", {{"gears.helix_angle", "\"20 deg\""},
                                           {"gears.fitted", "[31, 38]"},
                                           {"gears.hand_on_input", std::string("\"") + hand + '"'},
                                           {"bearing.output_front.at", "\"20 mm\""},
                                           {"bearing.output_rear.at", "\"112 mm\""},
                                           {"shaft.output.gear_at", "\"66 mm\""},
                                           {"bearing.output_front.type", "\"tapered-roller\""},
                                           {"bearing.output_front.big_end", "\"front\""},
                                           {"bearing.output_rear.type", "\"tapered-roller\""},
                                           {"bearing.output_rear.big_end", "\"rear\""},
                                           {"bearing.output_rear.locating", "false"}});
        const Loads loads = calculate_loads(setup);
        const PairPlace pair = facing_pairs(setup, loads).front();
        const std::vector<double> over(loads.train.shafts.size(), over_mm);
        const std::vector<BearingLoad> all =
            bearing_loads(setup, loads.train, loads.bearings, 600, {}, over);
        return std::pair(all[pair.front].F_a_N, all[pair.rear].F_a_N);
    };
    for (const double over_mm : {0.02, 0.06}) {
        CAPTURE(over_mm);
        const auto [front_N, rear_N] = forces_of("right", over_mm);
        const auto [other_front_N, other_rear_N] = forces_of("left", over_mm);
        CHECK(std::fabs(front_N - rear_N) > 1000);
        CHECK((front_N > rear_N) == (other_rear_N > other_front_N));
        CHECK(front_N - rear_N == rel(other_rear_N - other_front_N, 1e-6));
    }
}

TEST_CASE("pairs: the order of the bearings and splitting bins change nothing") {
    const Setup setup = idler("-0.05 mm");
    const PairState as_read = tightest(setup);
    Setup swapped = setup;
    std::swap(swapped.bearings[2], swapped.bearings[3]);
    REQUIRE(swapped.bearings[2].name == "idler_rear");
    Setup split = setup;
    for (LegInput& leg : split.event.legs) {
        std::vector<Bin> parts;
        for (const Bin& bin : leg.bins)
            for (const double part : {0.3, 0.7}) {
                parts.push_back(bin);
                parts.back().share *= part;
            }
        leg.bins = parts;
    }
    for (const Setup& other : {swapped, split}) {
        const PairState state = tightest(other);
        CHECK(state.leg == as_read.leg);
        CHECK(state.preload_N == rel(as_read.preload_N, 1e-6));
        CHECK(state.loop_gain == rel(as_read.loop_gain, 1e-3));
        CHECK(state.set_end_play_mm == rel(as_read.set_end_play_mm, 1e-9));
    }
}

TEST_CASE("pairs: the oil is hotter by what the preload adds to the settled leg") {
    const Setup tight = idler("-0.05 mm");
    const PairState state = tightest(tight);
    const auto settled_degC = [&](const Setup& setup) {
        for (const LegAnswer& leg : fitted_answer(setup).fitted.legs)
            if (leg.name == state.leg) return leg.at_rest.nodes.oil_degC;
        return 0.0;
    };
    CHECK(state.hotter_K == rel(settled_degC(tight) - settled_degC(idler("0.2 mm")), 1e-6));
    CHECK(state.hotter_K > 5);
    CHECK(state.loop_gain == rel(state.returned_um / 0.1, 1e-9));
    CHECK(tightest(idler("0.2 mm")).hotter_K == 0);
    // A loop of gain G makes 1/(1 - G) of each micrometre that it is set tighter by.
    const double more_mm = state.end_play_mm - tightest(idler("-0.051 mm")).end_play_mm;
    CHECK(more_mm / 0.001 == rel(1 / (1 - state.loop_gain), 0.002));
    CHECK(more_mm > 0.00105);
}

TEST_CASE("pairs: followed through the driving of the event") {
    const auto pair_of = [](const Setup& setup) {
        return fitted_answer(setup).fitted.checked.pairs.front();
    };
    // Thick ends in: tightest as the cold case starts, and at 20 degC only its cones are warmer.
    const PairState in = pair_of(
        idler("0 mm", {thick_ends_in[0], thick_ends_in[1], {"event.ambient", "\"20 degC\""}}));
    const double cones_mm = 2 * facing_pair::warm_cone_mm({90, 16}, facing_pair::cone_warmer_K);
    CHECK(in.tightest_mm == rel(-cones_mm, 1e-6));
    CHECK(in.loosest_mm > in.end_play_mm - 1e-9);
    // Thick ends out: a long event gets as tight as it settles.
    const PairState out = pair_of(idler("0.1 mm", {{"event.ambient", "\"20 degC\""}}));
    CHECK(out.loosest_mm >= 0.1 - cones_mm - 1e-9);  // steel warms before the housing does
    CHECK(out.tightest_mm < out.end_play_mm + 0.002);
}

TEST_CASE("pairs: what to set is printed with both ends") {
    PairState pair;
    pair.set_end_play_mm = 0.06;
    CHECK(pair_setting(pair) == "0.04 mm to 0.08 mm of end play");
    pair.set_end_play_mm = -0.06;
    CHECK(pair_setting(pair) == "0.04 mm to 0.08 mm of preload");
    pair.set_end_play_mm = 0.001;
    CHECK(pair_setting(pair) == "0.02 mm of preload to 0.02 mm of end play");
    pair.set_end_play_mm = 0.016;
    CHECK(pair_setting(pair) == "0.00 mm to 0.03 mm of end play");
    pair.set_end_play_mm = -0.026;  // rounded to lie within -0.046 and -0.006
    CHECK(pair_setting(pair) == "0.01 mm to 0.04 mm of preload");
    pair.set_end_play_mm = 0.016;
    pair.set_tolerance_mm = 0.001;
    CHECK(pair_setting(pair) == "0.02 mm of end play");
    CHECK(play_or_preload(-0.004) == "0.00 mm of end play");
}

}  // namespace caseload::pairs_tests
