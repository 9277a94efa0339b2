// SPDX-License-Identifier: MIT
#include "caseload/ask/sets.hpp"

#include "caseload/show/choices.hpp"
#include "examples.hpp"
#include "program.hpp"
#include "support.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace caseload::sets_tests {

namespace {

Document trailer(const std::string& more = "") {
    return Document("caseload = 1\nbase = \"trailer.toml\"\n" + more, "ours.toml", examples::text);
}

SetsOptions quick_sets(std::optional<double> top_kmph = std::nullopt, bool offer = false) {
    SetsOptions options;
    if (top_kmph) options.top_road_speed_mps = *top_kmph / 3.6;
    options.offer = offer;
    options.band.draws = 63;
    return options;
}

const SetResult& named(const SetsAnswer& answer, const std::string& name) {
    for (const SetResult& set : answer.sets)
        if (set.name == name) return set;
    FAIL("no set " << name);
    return answer.sets.front();
}

}  // namespace

TEST_CASE("sets: prop shaft speeds of 39 inch tyres at 220 km/h") {
    // Common practice, no published source: 7240 and 5520 r/min within 1 %, with our radius rule.
    const double rolling_radius_m = 0.48 * 39 * 0.0254;
    CHECK(prop_rpm({rolling_radius_m, 5.9, 1.2, 1}, 220 / 3.6) == rel(7240, 0.01));
    CHECK(prop_rpm({rolling_radius_m, 4.5, 1.2, 1}, 220 / 3.6) == rel(5520, 0.01));
    // There and back.
    const Gearing gearing{rolling_radius_m, 5.13, 1.242, 1.48};
    const double engine_rpm = prop_rpm(gearing, 40) * gearing.drop_ratio * gearing.gear;
    CHECK(road_speed_mps(gearing, engine_rpm) == rel(40, 1e-12));
}

TEST_CASE("sets: the answer is the assessment of each set and nothing else") {
    const SetsAnswer answer = choose_set(trailer(), quick_sets());
    REQUIRE(answer.sets.size() == 3);  // D is not in the trailer
    CHECK(answer.sets[0].ratio > answer.sets[1].ratio);
    const Change change{"gears.fitted", "\"A\""};
    const Setup with_A = trailer().complete({&change, 1}).setup;
    const Assessment likely = assess(with_A);
    const Band sure = band(with_A, likely, {.draws = 63, .for_each = one_by_one});
    const SetResult& A = named(answer, "A");
    CHECK(A.oil_fitted_degC.p90 == sure.fitted.peak_oil_degC.p90);
    CHECK(A.verdict == sure.verdict);
    CHECK_FALSE(A.fitted);
    CHECK(named(answer, "B").fitted);
    // Speeds: the prop shafts turn with the road whatever the set, the input with the set.
    CHECK(A.pace_prop_rpm == rel(named(answer, "C").pace_prop_rpm, 1e-12));
    CHECK(A.pace_input_rpm == rel(A.pace_prop_rpm * A.ratio, 1e-12));
    CHECK(A.fast_engine_rpm == rel(A.fast_input_rpm, 1e-12));  // tallest gear 1.0
    // The other split of one overall ratio: power is the same, so torque goes as 1 / speed.
    CHECK(A.other_axle * A.ratio == rel(5.13 * 41.0 / 33, 1e-12));
    CHECK(A.other_pinion_torque * A.other_prop_rpm == rel(A.fast_prop_rpm, 1e-12));
    CHECK(A.other_pinion_torque > 1);
    CHECK(named(answer, "B").other_pinion_torque == rel(1, 1e-12));
}

TEST_CASE("sets: the set to fit is the shortest gearing that reaches the speed") {
    const auto fit = [](double kmph) {
        const SetsAnswer answer = choose_set(trailer(), quick_sets(kmph));
        return answer.sets[static_cast<std::size_t>(answer.fit)].name;
    };
    CHECK(fit(100) == "A");
    CHECK(fit(165) == "B");
    CHECK(fit(190) == "C");
    const SetsAnswer answer = choose_set(trailer(), quick_sets(165));
    CHECK(named(answer, "A").cannot.find("the engine would turn") == 0);
    CHECK(answer.sets[static_cast<std::size_t>(answer.next)].name == "A");
}

TEST_CASE(
    "sets: speeds decide for the shortest gearing where another wears less, wear without them") {
    // With the torque at the input the pinion's radius makes the force: z1 of one sum of teeth.
    const auto pulls = [](const std::string& base, const std::string& more) {
        return choose_set(
            Document("caseload = 1\nbase = \"" + base + "\"\ngears.fitted = \"B\"\n" + more +
                         "[set]\nA = { teeth = [31, 43] }\nB = { teeth = [33, 41] }\n"
                         "C = { teeth = [36, 38] }\n[event]\nrun = [\"pull\"]\n[leg.pull]\n"
                         "duration = \"4 h\"\nbins = [ { share = 1, torque = \"700 N m\", "
                         "speed = \"2000 rpm\", road_speed = \"60 km/h\" } ]\n",
                     "ours.toml", examples::text),
            quick_sets());
    };
    const SetsAnswer known = pulls("trailer.toml", "vehicle.prop_shaft.length = \"1 m\"\n");
    REQUIRE(known.speeds_known);
    const SetResult& A = named(known, "A");
    const SetResult& C = named(known, "C");
    CHECK(A.verdict == C.verdict);
    CHECK(std::max(A.tooth_share, A.bearing_share.p50) >
          1.3 * std::max(C.tooth_share, C.bearing_share.p50));
    CHECK(known.sets[static_cast<std::size_t>(known.fit)].name == "A");
    const SetsAnswer unknown = pulls("light.toml", "");
    REQUIRE(!unknown.speeds_known);
    CHECK(unknown.sets[static_cast<std::size_t>(unknown.fit)].name == "C");
    CHECK(unknown.sets[static_cast<std::size_t>(unknown.next)].name == "B");
}

TEST_CASE("sets: none is fitted where every one is at STOP") {
    const std::string hot =
        "event.ambient = \"58 degC\"\ncooler.fit = false\nhousing.place = \"tunnel\"\n"
        "housing.dirt = \"mud\"\n";
    const Document document = trailer(hot);
    const SetsAnswer answer = choose_set(document, quick_sets());
    REQUIRE(answer.fit >= 0);
    REQUIRE(answer.sets[static_cast<std::size_t>(answer.fit)].verdict == "stop");
    const std::string screen = sets_screen(document.complete().setup, answer);
    CHECK(screen.find("FIT NONE  do not run it") != std::string::npos);
    CHECK(screen.find("last longest") == std::string::npos);
}

TEST_CASE("sets: one that cannot be fitted is never ranked") {
    // A longer shaft whirls at the course's own speed, with every set.
    const SetsAnswer whirls =
        choose_set(trailer("vehicle.prop_shaft.length = \"1.8 m\"\n"), quick_sets(150));
    CHECK(whirls.fit == -1);
    for (const SetResult& set : whirls.sets) CHECK(set.whirl_share > 0.9);
}

TEST_CASE("sets: offered sets fit the centre distance and are not among the owned ones") {
    const SetsAnswer answer = choose_set(trailer(), quick_sets(std::nullopt, true));
    REQUIRE(answer.offers.size() > 3);
    for (const SetOffer& one : answer.offers) {
        const Change change{"gears.fitted", "[" + std::to_string(one.teeth[0]) + ", " +
                                                std::to_string(one.teeth[1]) + "]"};
        const Train train = place_train(trailer().complete({&change, 1}).setup);
        CHECK(train.ratio == rel(one.ratio, 1e-12));
        CHECK(one.teeth != std::vector<int>{33, 41});
        CHECK(one.teeth != std::vector<int>{41, 33});
    }
}

TEST_CASE("sets: an offer's remark is what is to be watched of its gears") {
    // Teeth of 30 degrees are pointed: some tips are thinner than usual.
    const std::string pointed = "gears.pressure_angle = \"30 deg\"\n";
    const SetsAnswer answer = choose_set(trailer(pointed), quick_sets(std::nullopt, true));
    int remarks = 0;
    for (const SetOffer& one : answer.offers) {
        const Change change{"gears.fitted", "[" + std::to_string(one.teeth[0]) + ", " +
                                                std::to_string(one.teeth[1]) + "]"};
        const Train train = place_train(trailer(pointed).complete({&change, 1}).setup);
        const auto watch =
            std::find_if(train.findings.begin(), train.findings.end(), [](const auto& finding) {
                return finding.severity == iso_21771::Finding::Severity::watch;
            });
        CHECK(one.remark == (watch == train.findings.end() ? "" : watch->text));
        remarks += one.remark.empty() ? 0 : 1;
    }
    CHECK(remarks > 0);
}

TEST_CASE("sets: legs with their own set wear their own gears") {
    const std::string two = "leg.transit.set = \"C\"\n";
    const Setup mixed = trailer(two).complete().setup;
    const Assessment likely = assess(mixed);
    REQUIRE(likely.loads.others.size() == 1);
    REQUIRE(likely.fitted.checked.gears.size() == 4);
    CHECK(likely.fitted.checked.gears[2].set == "C");
    CHECK(likely.fitted.checked.gears[2].teeth == 36);
    CHECK(gear_address(likely.fitted.checked.gears[3]) == "gear.output (set C)");
    // What each pair takes is what it takes alone on those legs.
    Setup only_C = mixed;
    only_C.gears.teeth = {36, 38};
    only_C.gears.fitted_name = "C";
    only_C.event.run = {mixed.event.run.front()};
    const std::vector<GearDamage> alone = gear_damage(only_C, calculate_loads(only_C));
    CHECK(likely.fitted.checked.gears[2].S_H == rel(alone[0].S_H, 1e-12));
    CHECK(likely.fitted.checked.gears[3].S_F == rel(alone[1].S_F, 1e-12));
    // Input speed of the leg follows its own ratio.
    const Assessment plain = assess(trailer().complete().setup);
    CHECK(likely.loads.legs[0].mean_speed_rpm ==
          rel(plain.loads.legs[0].mean_speed_rpm * (38.0 / 36) / (41.0 / 33), 1e-12));
    // The fitted set named for a leg changes nothing.
    const Assessment same = assess(trailer("leg.transit.set = \"B\"\n").complete().setup);
    CHECK(same.fitted.event.peak_oil_degC == plain.fitted.event.peak_oil_degC);
    CHECK(same.fitted.checked.gears.size() == 2);
    // The fast case follows: its likely draw meets the direct chain.
    const Band sure = band(mixed, likely, {.draws = 63, .for_each = one_by_one});
    CHECK(sure.fitted.flank_share.size() == 4);
}

TEST_CASE("sets: two legs with one set wear the same gears, as one leg of both does") {
    const Setup once = trailer("leg.transit.set = \"C\"\n").complete().setup;
    REQUIRE(once.event.legs.front().set == "C");
    Setup twice = once;
    twice.event.legs.push_back(twice.event.legs.front());
    twice.event.legs.back().name = "transit again";
    twice.event.run.push_back(static_cast<int>(twice.event.legs.size()) - 1);
    Setup longer = once;
    longer.event.run.push_back(0);
    const Loads loads = calculate_loads(twice);
    REQUIRE(loads.others.size() == 1);
    CHECK(loads.legs.back().train == loads.legs.front().train);
    const std::vector<GearDamage> gears = gear_damage(twice, loads);
    const std::vector<GearDamage> same = gear_damage(longer, calculate_loads(longer));
    REQUIRE(gears.size() == same.size());
    for (std::size_t i = 0; i < gears.size(); ++i) {
        CHECK(gears[i].set == same[i].set);
        CHECK(gears[i].S_H == rel(same[i].S_H, 1e-12));
        CHECK(within(gears[i].drive.root_share, same[i].drive.root_share, 1e-15));
    }
}

TEST_CASE("sets: the command, its first line and its errors") {
    const std::string file = std::string(CASELOAD_ROOT) + "/docs/examples/trailer.toml";
    const Run run = run_program_as_user("sets " + file + " --draws 63 --top-speed \"165 km/h\"");
    CHECK(run.code == 0);
    CHECK(run.out.find("  KEEP  33/41 (set B): the shortest gearing that reaches 165 km/h") !=
          std::string::npos);
    const Run fast = run_program_as_user("sets " + file + " --draws 63 --top-speed \"215 km/h\"");
    CHECK(fast.code == 2);
    CHECK(fast.out.find("--top-speed 215 km/h: no set in the trailer reaches it; the nearest is C "
                        "with 202 km/h") != std::string::npos);
    const Run unit = run_program_as_user("sets " + file + " --top-speed 165");
    CHECK(unit.code == 2);
    CHECK(unit.out.find("--top-speed \"165\"") != std::string::npos);
    const Run json = run_program_as_user("sets " + file + " --draws 63 --json");
    CHECK(json.code == 0);
    CHECK(json.out.find("\"top_road_speed_mps\":[") != std::string::npos);
}

}  // namespace caseload::sets_tests
