// SPDX-License-Identifier: MIT
#include "caseload/ask/compare.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "program.hpp"
#include "support.hpp"

#include <cmath>
#include <map>
#include <string>
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
        CHECK(value == rel(std::pow(k, is_ball(name) ? -3.0 : -10.0 / 3), 0.01));
    }
}

TEST_CASE("compare: a bigger tyre loads the case more and turns it slower") {
    const double k = 40.0 / 37.0;
    const auto ratio = life_ratio(by_load_only({{"vehicle.tyre", "\"37 in\""}}),
                                  by_load_only({{"vehicle.tyre", "\"40 in\""}}));
    for (const auto& [name, value] : ratio) {
        CAPTURE(name);
        CHECK(value == rel(std::pow(k, 1 - (is_ball(name) ? 3.0 : 10.0 / 3)), 0.01));
    }
}

TEST_CASE("compare: a shorter axle loads the case less and turns it faster") {
    const double k = 5.13 / 4.10;
    const auto ratio = life_ratio(by_load_only({{"vehicle.axle_ratio", "4.10"}}),
                                  by_load_only({{"vehicle.axle_ratio", "5.13"}}));
    for (const auto& [name, value] : ratio) {
        CAPTURE(name);
        CHECK(value == rel(std::pow(k, (is_ball(name) ? 3.0 : 10.0 / 3) - 1), 0.01));
    }
}

TEST_CASE("compare: engine-limited damage does not feel mass, and its share is told") {
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

TEST_CASE("compare: nothing moves against itself") {
    const Calculated same = answer({});
    const Comparison between = compare(same, same);
    CHECK(between.decision == "Nothing changes in what you would do.");
    CHECK(between.differences.empty());
    CHECK(between.moved.empty());
}

TEST_CASE("compare: another rule is another action, the other way round too") {
    const Calculated four = answer({});
    const Calculated three = answer({{"rules.open_case", "\"3 events\""}});
    CHECK(compare(four, three)
              .decision.rfind("Open the case after event 3 instead of 4: your rule", 0) == 0);
    CHECK(compare(three, four).decision.rfind("Open the case after event 4 instead of 3", 0) == 0);
    // The same bearings are loaded alike: no number moves.
    CHECK(compare(four, three).moved.empty());
}

TEST_CASE("compare: a hotter, heavier build is told by its verdict first") {
    const Calculated before = answer({});
    const Calculated after = answer({{"cooler.fit", "false"}, {"vehicle.mass", "\"2600 kg\""}});
    REQUIRE(before.sure.verdict == "fine");
    REQUIRE(after.sure.verdict != "fine");
    const Comparison between = compare(before, after);
    CHECK(between.decision.find("(fine before)") != std::string::npos);
    bool oil = false;
    for (const Moved& moved : between.moved) {
        if (moved.words != "oil peak, likely") continue;
        oil = true;
        CHECK(moved.after == after.sure.fitted.peak_oil_degC.p50);
        CHECK(moved.after > moved.before);
    }
    CHECK(oil);
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

}  // namespace caseload::compare_tests
