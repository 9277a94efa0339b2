// SPDX-License-Identifier: MIT
#include "caseload/ask/compare.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "program.hpp"
#include "support.hpp"

#include "input/course_power.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <tuple>
#include <vector>

namespace caseload::compare_tests {

namespace {

using test_files::light_file;

/// The light car where nothing but the ground's own resistance loads the case: no
/// air, no gradient that it rolls down, an engine or a grip that never ends.
Setup by_load_only(const std::vector<Change>& changes) {
    Setup setup = examples::setup("light.toml", changes);
    setup.vehicle.drag_area_m2 = 1e-9;
    setup.vehicle.engine_power_W = 1e9;
    setup.vehicle.grip = 100;
    // Friction of slip joints puts an axial load on a ball bearing, whose Y falls as it grows: its
    // equivalent load then rises less than the torque, and the laws are those of radial load.
    for (JointInput& joint : setup.joints) joint.slip_friction = 0;
    for (LegInput& leg : setup.event.legs) leg.course_peaks_per_h = 0;
    return setup;
}

/// Basic life of each bearing against that of another setup: the oil film's part is left out.
std::map<std::string, double> life_ratio(const Setup& before, const Setup& after) {
    const Damage then = assess(before).fitted.damage;
    const Damage now = assess(after).fitted.damage;
    std::map<std::string, double> ratio;
    for (std::size_t b = 0; b < then.bearings.size(); ++b)
        ratio[then.bearings[b].name] =
            then.bearings[b].basic_life_share / now.bearings[b].basic_life_share;
    return ratio;
}

bool is_ball(const std::string& name) {
    return name.find("rear") !=
           std::string::npos;  // of the pattern: balls behind, rollers in front
}

/// A life that goes with a power of k: that of its load, and of the speed.
struct Power {
    const std::string& name;
    double load;
    double speed;
};
/// The factor of play falls as the load grows, with its power 0.2479 x 0.9 (roller) or 0.2439 x 2/3
/// (ball) at most: the load of a life goes with the rest at least.
void check_between(double ratio, double k, const Power& power) {
    const bool ball = is_ball(power.name);
    const double p = ball ? 3.0 : 10.0 / 3;
    const double least = 1 - (ball ? 0.2439 * 2 / 3 : 0.2479 * 0.9);
    const double power_of_k = std::log(ratio) / std::log(k) - power.speed;
    CHECK(power_of_k / (power.load * p) < 1 + 0.01);
    CHECK(power_of_k / (power.load * p) > least);
}

Calculated answer(const std::vector<Change>& changes) {
    return calculated(Document(examples::text("light.toml").value(), "light.toml", examples::text)
                          .complete(changes),
                      {.draws = 63});
}

}  // namespace

// With torque in proportion to a change k, ball life goes with k^-3 and roller life with k^-10/3
// (ISO 281). Shaft weights leave 1 %.
TEST_CASE("compare: load-limited life follows mass to the power of the bearing's exponent") {
    const double k = 2700.0 / 2000.0;
    const auto ratio = life_ratio(by_load_only({{"vehicle.mass", "\"2000 kg\""}}),
                                  by_load_only({{"vehicle.mass", "\"2700 kg\""}}));
    REQUIRE(ratio.size() == 4);
    for (const auto& [name, value] : ratio) {
        CAPTURE(name);
        check_between(value, k, {name, -1, 0});
    }
}

TEST_CASE("compare: a bigger tyre loads the case more and turns it slower") {
    const double k = 40.0 / 37.0;
    const auto ratio = life_ratio(by_load_only({{"vehicle.tyre", "\"37 in\""}}),
                                  by_load_only({{"vehicle.tyre", "\"40 in\""}}));
    for (const auto& [name, value] : ratio) {
        CAPTURE(name);
        check_between(value, k, {name, -1, 1});
    }
}

TEST_CASE("compare: a shorter axle loads the case less and turns it faster") {
    const double k = 5.13 / 4.10;
    const auto ratio = life_ratio(by_load_only({{"vehicle.axle_ratio", "4.10"}}),
                                  by_load_only({{"vehicle.axle_ratio", "5.13"}}));
    for (const auto& [name, value] : ratio) {
        CAPTURE(name);
        check_between(value, k, {name, 1, -1});
    }
}

TEST_CASE("compare: engine-limited damage does not depend on mass, and its share is printed") {
    Setup weak = examples::setup("light.toml");
    CHECK(engine_limited(weak, assess(weak)).share < 1);
    weak.vehicle.engine_power_W = 1000;
    weak.vehicle.grip = 100;
    const Assessment before = assess(weak);
    const EngineLimited all = engine_limited(weak, before);
    CHECK_FALSE(all.entered_bins);
    // Every slice that drives is at the limit; coasting ones, held by the engine's drag, remain.
    CHECK(all.share > 0.9);
    Setup heavy = weak;
    heavy.vehicle.mass_kg *= 1.2;
    const auto ratio = life_ratio(weak, heavy);
    for (const auto& [name, value] : ratio) CHECK(value == rel(1, 0.02));
    weak.vehicle.engine_power_W = 1e9;
    CHECK(engine_limited(weak, assess(weak)).share == 0);
    const Setup entered = examples::with_bins(weak, {{1, 400, 3000, 25}});
    CHECK(engine_limited(entered, assess(entered)).entered_bins);
}

TEST_CASE("compare: a setup compared with itself shows no change") {
    const Calculated same = answer({});
    const Comparison between = compare(same, same);
    CHECK(between.decision == "Nothing changes in what you would do.");
    CHECK(between.differences.empty());
    CHECK(between.moved.empty());
}

TEST_CASE("compare: play when hot is printed of the bearings it differs for, and no other") {
    const auto plays = [](const Comparison& between) {
        std::vector<Moved> found;
        for (const Moved& one : between.moved)
            if (one.words.find("radial play when hot, bearing ") == 0) found.push_back(one);
        return found;
    };
    const std::vector<Moved> moved =
        plays(compare(answer({}), answer({{"bearing.input_front.clearance", "\"CN\""}})));
    REQUIRE(moved.size() == 1);
    CHECK(moved.front().words == "radial play when hot, bearing input_front");
    CHECK(within(moved.front().before, 0.0636, 5e-5));
    CHECK(within(moved.front().after, 0.0386, 5e-5));
    CHECK(moved.front().unit == "mm");
    CHECK(plays(compare(answer({}), answer({{"vehicle.mass", "\"1900 kg\""}}))).empty());
}

TEST_CASE("compare: a changed rule is a changed action, in both directions") {
    const Calculated four = answer({});
    const Calculated three = answer({{"rules.open_case", "\"3 events\""}});
    CHECK(compare(four, three)
              .decision.rfind("Open the case after event 3 instead of 4: your rule", 0) == 0);
    CHECK(compare(three, four).decision.rfind("Open the case after event 4 instead of 3", 0) == 0);
    // The same bearings are loaded alike: no number moves.
    CHECK(compare(four, three).moved.empty());
}

TEST_CASE("compare: of a hotter, heavier build the verdict is printed first") {
    const Calculated before = answer({});
    const Calculated after = answer({{"cooler.fit", "false"}, {"vehicle.mass", "\"2600 kg\""}});
    REQUIRE(before.sure.verdict == "fine");
    REQUIRE(after.sure.verdict != "fine");
    const Comparison between = compare(before, after);
    CHECK(between.decision.rfind("Was FINE, now ", 0) == 0);
    bool oil = false;
    for (const Moved& moved : between.moved) {
        if (moved.words != "oil peak, likely") continue;
        oil = true;
        CHECK(moved.after == after.sure.fitted.peak_oil_degC.p50);
        CHECK(moved.after > moved.before);
    }
    CHECK(oil);
}

TEST_CASE("compare: the first line is the worst change, never a check that became fine") {
    const Calculated same = answer({});
    Calculated worn = answer({});
    REQUIRE_FALSE(worn.likely.fitted.checked.checks.empty());
    const Check& first = worn.likely.fitted.checked.checks.front();
    JudgedCheck watched;
    watched.id = first.id;
    watched.about = first.about;
    watched.verdict = "watch";
    worn.sure.watch.push_back(watched);
    const Comparison mended = compare(worn, same);
    CHECK(mended.decision == "Nothing changes in what you would do.");
    REQUIRE(mended.differences.size() == 1);
    CHECK(mended.differences[0].find("is fine now (watch before)") != std::string::npos);
    CHECK(compare(same, worn).decision.find("goes from fine to watch") != std::string::npos);
    // An earlier action comes before a better verdict and a later action; all are there.
    worn.sure.verdict = "watch";
    Calculated sooner = answer({});
    --sooner.likely.fitted.intervals.open_case.after_events;
    sooner.likely.fitted.intervals.change_oil.after_events += 3;
    const Comparison mixed = compare(worn, sooner);
    CHECK(mixed.decision.rfind("Open the case after event 3 instead of 4", 0) == 0);
    REQUIRE(mixed.differences.size() == 3);
    CHECK(mixed.differences[0].rfind("Was WATCH, now FINE", 0) == 0);
    CHECK(mixed.differences[1].rfind("Change the oil after event 4", 0) == 0);
    CHECK(mixed.differences[2].find("is fine now") != std::string::npos);
}

TEST_CASE("compare: with a stop on either side the verdict is first and no service is planned") {
    Calculated stopped = answer({});
    stopped.sure.verdict = "stop";
    stopped.sure.decides = "too_hot";
    stopped.sure.fitted.fails_share = 1;
    Calculated other = answer({});
    --other.likely.fitted.intervals.open_case.after_events;
    for (const auto& [before, after, words] :
         {std::tuple{&stopped, &other, "Was STOP, now FINE: oil stays below"},
          std::tuple{&other, &stopped, "Was FINE, now STOP: oil passes"}}) {
        const Comparison between = compare(*before, *after);
        CHECK(between.decision.rfind(words, 0) == 0);
        CHECK(between.differences.empty());
    }
}

TEST_CASE("compare: a new check, and watch for a worse reason, are printed") {
    const Run silicone = run_program_as_user("compare " + test_files::light_file +
                                             " --with seal.input.material=VMQ --draws 63");
    CHECK(silicone.out.rfind("Nothing changes", 0) != 0);
    CHECK(silicone.out.find("silicone in EP gear oil") != std::string::npos);
    Calculated may = answer({});
    may.sure.verdict = "watch";
    may.sure.decides = "may_pass";
    Calculated likely = may;
    likely.sure.decides = "likely_above";
    CHECK(compare(may, likely).decision.rfind("Still WATCH, now: ", 0) == 0);
    CHECK(compare(may, may).decision.rfind("Still WATCH", 0) != 0);
}

TEST_CASE("compare: a value with a sign changes the present one, and both are printed") {
    const ReadSetup read =
        Document(examples::text("light.toml").value(), "light.toml", examples::text).complete();
    const auto value = [&](const std::string& key, const std::string& text) {
        return new_value(read, "--with", key, text);
    };
    CHECK(value("vehicle.mass", "+600 kg") == "2350 kg");
    CHECK(value("vehicle.mass", "-250 kg") == "1500 kg");
    CHECK(value("vehicle.mass",
                "\xE2\x88\x92"
                "250 kg") == "1500 kg");
    CHECK(value("vehicle.mass", "3500 kg") == "3500 kg");
    CHECK(value("vehicle.engine_power", "+100 hp") == "530 hp");
    CHECK(value("leg.loop.pace", "-3.6 km/h") == "90 km/h");
    CHECK(value("vehicle.axle_ratio", "-0.3") == "4.83");
    CHECK(value("housing.air_speed_share", "+5 %") == "40 %");
    CHECK(value("cooler.air_warmer_by", "+5 K") == "10 K");
    CHECK(value("event.ambient", "-5 degC") == "-5 degC");
    CHECK(value("event.ambient", "+5 K") == "39 degC");
    CHECK(value("event.ambient", "-5 K") == "29 degC");
    CHECK(value("oil.cleanliness", "-/19/16") == "-/19/16");
    CHECK(value("no.such_key", "+1 kg") == "+1 kg");
    CHECK(value("vehicle.mass", "+600") == "600");  // refused as written: it has no unit
    CHECK_THROWS_AS(value("event.ambient", "+5 degC"), Error);
    CHECK_THROWS_AS(value("housing.mass", "+3 kg"), Error);
    CHECK(changed_key(read, "vehicle.mass", "2350 kg").before == "1750");
    CHECK(changed_key(read, "vehicle.mass", "5000 lb").before == "3858.09");
    CHECK(changed_key(read, "event.ambient", "-5 degC").before == "34");
    CHECK(changed_key(read, "event.ambient", "95 degF").before == "34 degC");
    CHECK(changed_key(read, "housing.mass", "19 kg").before == "not entered");
    CHECK(changed_key(read, "gears.fitted", "[36, 38]").before == "[33, 41]");
}

TEST_CASE("compare: the program takes changes in --with and --grid, and refuses half ones") {
    const auto compared = [](const std::string& words) {
        return run_program_as_user("compare " + light_file + " --draws 63 " + words);
    };
    const Run change = compared("--with 'vehicle.mass=+600 kg'");
    CHECK(change.code == 0);
    CHECK(test_files::has(change.out, "vehicle.mass 1750 -> 2350 kg"));
    CHECK(change.out == compared("--with 'vehicle.mass=2350 kg'").out);
    CHECK(
        test_files::has(compared("--json --with 'vehicle.mass=+600 kg'").out,
                        R"("changed":[{"key":"vehicle.mass","before":"1750","after":"2350 kg"}])"));
    CHECK(compared("--grid 'vehicle.mass=-200 kg:+900 kg:3'").out ==
          compared("--grid 'vehicle.mass=1550 kg:2650 kg:3'").out);
    const Run either = compared("--with 'event.ambient=+5 degC'");
    CHECK(either.code == 2);
    CHECK(test_files::has(either.out, "event.ambient=+5 K"));
    const Run none = compared("--with 'housing.mass=+3 kg'");
    CHECK(none.code == 2);
    CHECK(test_files::has(none.out, "no single value to change"));
    const Run quoted = compared("--with 'vehicle.mass=\"+600 kg\"'");
    CHECK(quoted.code == 2);
    CHECK(test_files::has(quoted.out, "600 kg"));
}

TEST_CASE(
    "compare: more power where the engine is never at its limit changes nothing, with a note on "
    "the pace") {
    const Calculated before = answer({});
    const Calculated after = answer({{"vehicle.engine_power", "\"860 hp\""}});
    const std::vector<std::string> words = compare(before, after).power;
    REQUIRE(words.size() == 1);
    CHECK(words[0].rfind("Engine power does not enter: the pace is fixed", 0) == 0);
    CHECK(words[0].find("on loop, not 94 km/h") != std::string::npos);
    // Twice the power, as hard: the pace at which the course asks for twice the power.
    const Setup& setup = after.read.setup;
    const auto loop = std::find_if(setup.event.legs.begin(), setup.event.legs.end(),
                                   [](const LegInput& leg) { return leg.name == "loop"; });
    const double pace_mps = input::pace_of_power_mps(
        setup, *loop, 2 * input::mean_power_W(setup, *loop, loop->course_pace_mps));
    CHECK(input::mean_power_W(setup, *loop, pace_mps) ==
          rel(2 * input::mean_power_W(setup, *loop, loop->course_pace_mps), 1e-9));
    CHECK(words[0].find(std::to_string(std::lround(pace_mps * 3.6)) + " km/h on loop") !=
          std::string::npos);
    // An engine that is at its limit does enter.
    const Calculated weak = answer({{"vehicle.engine_power", "\"220 hp\""}});
    CHECK(compare(weak, before).power.empty());
    // A heavier car is told where mass no longer counts, and only then.
    const Calculated heavy = answer({{"vehicle.mass", "\"2000 kg\""}});
    CHECK(compare(before, heavy).power.empty());
    const Calculated weak_heavy =
        answer({{"vehicle.engine_power", "\"220 hp\""}, {"vehicle.mass", "\"2000 kg\""}});
    REQUIRE(compare(weak, weak_heavy).power.size() == 1);
    CHECK(compare(weak, weak_heavy).power[0].find("with the engine at its limit") !=
          std::string::npos);
}

TEST_CASE("compare: no pace is named for a power that carries nobody at walking pace") {
    // At 2 km/h a fifth of the power is 0.4 km/h, less than is walked.
    const auto creeping = [](const std::string& power) {
        return answer({{"leg.transit.course", "\"rock\""},
                       {"leg.transit.pace", "\"2 km/h\""},
                       {"leg.loop.course", "\"rock\""},
                       {"leg.loop.pace", "\"2 km/h\""},
                       {"vehicle.engine_power", power}});
    };
    const std::vector<std::string> words =
        compare(creeping("\"2000 hp\""), creeping("\"430 hp\"")).power;
    REQUIRE(words.size() == 1);
    CHECK(words[0].rfind("Engine power does not enter: the pace is fixed", 0) == 0);
    CHECK(words[0].find("driven as hard") == std::string::npos);
}

TEST_CASE("compare: the command, its units and its mistakes") {
    const Run run =
        run_program_as_user("compare " + light_file + " --with 'rules.open_case=2 events'");
    CHECK(run.code == 0);
    CHECK(run.out.rfind("Open the case after event 2 instead of 4", 0) == 0);
    const Run imperial = run_program_as_user("compare " + light_file +
                                             " --units imperial --with 'event.ambient=44 degC'");
    CHECK(imperial.code == 0);
    CHECK(imperial.out.find("degF") != std::string::npos);
    CHECK(imperial.out.find("degC") == std::string::npos);
    const Run json =
        run_program_as_user("compare " + light_file + " --json --with 'vehicle.mass=\"1900 kg\"'");
    CHECK(json.code == 0);
    CHECK(json.out.rfind("{\"schema\":1,\"command\":\"compare\"", 0) == 0);
    CHECK(json.out.find("engine_limited_share") != std::string::npos);
    const Run key = run_program_as_user("compare " + light_file + " --with 'vehicle.mas=1900 kg'");
    CHECK(key.code == 2);
    CHECK(key.out.find("vehicle.mass") != std::string::npos);
    CHECK(key.out.find("--with") != std::string::npos);
    const Run value =
        run_program_as_user("compare " + light_file + " --with 'vehicle.mass=1900 kq'");
    CHECK(value.code == 2);
    CHECK(value.out.find("--with") != std::string::npos);
    CHECK(run_program_as_user("compare " + light_file + " --with 'vehicle.mass'").code == 2);
    CHECK(run_program_as_user("compare " + light_file).code == 2);
    CHECK(run_program_as_user("compare " + light_file + " nowhere.toml").code == 5);
}

TEST_CASE("compare: a ring's fit on its shaft, and its way where it walks in its seat") {
    const std::string seat = "bearing.output_rear.seat.";
    const auto with = [&](const std::string& shaft, const std::string& ring) {
        return answer({{seat + "ring_interference", "\"" + ring + "\""},
                       {seat + "boss_outside", "\"180 mm\""},
                       {seat + "shaft_interference", "\"" + shaft + "\""}});
    };
    const auto moved = [](const Comparison& found, const std::string& words) {
        return std::find_if(found.moved.begin(), found.moved.end(),
                            [&](const Moved& one) { return one.words == words; });
    };
    const std::string fit = "effective fit on the shaft, bearing output_rear";
    const std::string way = "way of the ring in its seat, bearing output_rear";
    const Calculated before = with("0.03 mm", "0.04 mm");
    const Comparison looser = compare(before, with("0.01 mm", "0.04 mm"));
    REQUIRE(moved(looser, fit) != looser.moved.end());
    CHECK(moved(looser, fit)->unit == "um");
    // 20 um of 90 mm, ground to 90/92 of it.
    CHECK(within(moved(looser, fit)->before - moved(looser, fit)->after, 20.0 * 90 / 92, 1e-9));
    CHECK(moved(looser, way) == looser.moved.end());
    const Comparison same = compare(before, before);
    CHECK(moved(same, fit) == same.moved.end());
    // Entered on one side only, nothing moved.
    const Calculated without = answer(
        {{seat + "ring_interference", "\"0.04 mm\""}, {seat + "boss_outside", "\"180 mm\""}});
    const Comparison entered = compare(without, before);
    CHECK(moved(entered, fit) == entered.moved.end());
    // A ring that walks by its gap, on a drive half as long again.
    const Calculated walks = with("0.03 mm", "-0.1 mm");
    REQUIRE(walks.likely.fitted.checked.seats.size() >= 1);
    const Calculated longer = answer({{seat + "ring_interference", "\"-0.1 mm\""},
                                      {seat + "boss_outside", "\"180 mm\""},
                                      {seat + "shaft_interference", "\"0.03 mm\""},
                                      {"leg.transit.duration", "\"2 h\""}});
    const Comparison drive = compare(walks, longer);
    REQUIRE(moved(drive, way) != drive.moved.end());
    CHECK(moved(drive, way)->unit == "m/event");
    CHECK(moved(drive, way)->after != moved(drive, way)->before);
}

}  // namespace caseload::compare_tests
