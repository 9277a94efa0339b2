// SPDX-License-Identifier: MIT
#include "caseload/splines.hpp"

#include "caseload/ask/compare.hpp"
#include "caseload/spline_data.hpp"

#include "caseload/assess.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "intervals/due.hpp"
#include "support.hpp"

#include <cmath>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

namespace caseload::splines_tests {
namespace {

std::vector<Change> hub(const std::vector<Change>& more = {}) {
    std::vector<Change> changes{{"spline.hub.shaft", "\"output\""},
                                {"spline.hub.teeth", "32"},
                                {"spline.hub.pitch_diameter", "\"64 mm\""},
                                {"spline.hub.length", "\"42 mm\""},
                                {"spline.hub.fit", "\"loose\""}};
    changes.insert(changes.end(), more.begin(), more.end());
    return changes;
}

Setup setup_of(const std::vector<Change>& changes) {
    return Document(new_setup_text(), "ten.toml", {}).complete(changes).setup;
}

SplineResult of(const Setup& setup) {
    return spline_results(setup, calculate_loads(setup)).front();
}

SplineResult of(const std::vector<Change>& changes) {
    return of(setup_of(changes));
}

/// One bin of 766 N m at the case input for an hour, no overload.
std::vector<Change> one_bin(const std::vector<Change>& more = {}) {
    std::vector<Change> changes = hub({{"spline.hub.shaft", "\"input\""},
                                       {"event.run", "[\"loop\"]"},
                                       {"leg.loop.duration", "\"1 h\""},
                                       {"leg.loop.overload", "1.0"}});
    changes.push_back({"leg.loop.bins",
                       "[{ share = 1.0, torque = \"766 N m\", speed = \"3000 rpm\", road_speed = "
                       "\"60 km/h\" }]"});
    changes.insert(changes.end(), more.begin(), more.end());
    return changes;
}

}  // namespace

TEST_CASE("spline: a loose hub for an hour at 3000 r/min, worked by hand") {
    // K_m 1.86, S_c 18.4 MPa, case-hardened: 6.4e9 turns; 180 000 turns in the hour.
    const SplineResult result = of(one_bin());
    CHECK(result.distribution == rel(1.863, 1e-3));
    CHECK(result.S_c_MPa == rel(18.4, 3e-3));
    CHECK(result.wear_share == rel(180000 / 6.4e9, 0.02));
    CHECK(result.peak_share == rel(18.43 / (9 * 1.8 * 34.47), 2e-3));
}

TEST_CASE("spline: half the torque wears a hundredth, overload counts once") {
    const double one = of(one_bin()).wear_share;
    CHECK(of(one_bin({{"leg.loop.bins",
                       "[{ share = 1.0, torque = \"383 N m\", speed = \"3000 rpm\", road_speed = "
                       "\"60 km/h\" }]"}}))
                  .wear_share /
              one ==
          rel(0.01, 1e-9));
    CHECK(of(one_bin({{"leg.loop.overload", "1.25"}})).wear_share / one ==
          rel(std::pow(1.25, 6.6438561897747244), 1e-9));
    Setup loaded = setup_of(one_bin());
    loaded.factors.load = 1.25;
    CHECK(of(loaded).wear_share / one == rel(wear_by_load(1.25), 1e-9));
}

TEST_CASE("spline: a bin split in two wears the same, coast as drive") {
    const double one = of(one_bin()).wear_share;
    CHECK(of(one_bin({{"leg.loop.bins",
                       "[{ share = 0.5, torque = \"766 N m\", speed = \"3000 rpm\", road_speed = "
                       "\"60 km/h\" }, "
                       "{ share = 0.5, torque = \"-766 N m\", speed = \"3000 rpm\", road_speed = "
                       "\"60 km/h\" }]"}}))
              .wear_share == rel(one, 1e-12));
}

TEST_CASE("spline: a piloted one does not wear, a dry one wears five times as fast") {
    const double one = of(one_bin()).wear_share;
    CHECK(of(one_bin({{"spline.hub.fit", "\"piloted\""}})).wear_share == 0);
    CHECK(of(one_bin({{"spline.hub.fit", "\"piloted\""}})).distribution == 1);
    CHECK(of(one_bin({{"spline.hub.oiled", "false"}})).wear_share / one == rel(5, 1e-12));
    // Soft where it slides, case-hardened for hubs: (5000 / 3000)^6.644, and K_m of 2 mm/m.
    const double soft = of(one_bin({{"spline.hub.hardness", "\"soft\""}})).wear_share;
    CHECK(soft / one == rel(std::pow(5.0 / 3, 6.6438561897747244), 1e-9));
    const SplineResult sliding = of(one_bin({{"spline.hub.fit", "\"sliding\""}}));
    CHECK(sliding.wear_share ==
          rel(soft * std::pow(sliding.distribution / 1.8629, 6.6438561897747244), 1e-3));
}

TEST_CASE("spline: it passes the torque of its shaft, and of its joint where that has its name") {
    const Setup whole = setup_of(hub({{"spline.hub.shaft", "\"output\""}}));
    const Loads loads = calculate_loads(whole);
    const double ratio = loads.train.shafts.back().torque_ratio;
    const SplineResult output = spline_results(whole, loads).front();
    const SplineResult input = of(hub({{"spline.hub.shaft", "\"input\""}}));
    CHECK(output.S_c_MPa / input.S_c_MPa == rel(ratio, 1e-12));
    std::vector<Change> rear = hub();
    for (Change& change : rear) change.key.replace(7, 3, "rear");
    rear.push_back({"joint.rear.shaft", "\"output\""});
    rear.push_back({"joint.rear.torque_share", "0.5"});
    CHECK(of(rear).S_c_MPa == rel(output.S_c_MPa / 2, 1e-12));
    rear.push_back({"joint.front.shaft", "\"output\""});
    rear.push_back({"joint.front.torque_share", "0.5"});
    Setup off = setup_of(rear);
    for (LegInput& leg : off.event.legs) leg.front_drive = false;
    CHECK(of(off).S_c_MPa == rel(output.S_c_MPa, 1e-12));
}

namespace {

/// A soft, dry hub at 300 r/min for an hour, with the torque that uses this share of its wear life.
Setup worn_by(double share, const std::vector<Change>& more = {}) {
    std::vector<Change> changes =
        one_bin({{"spline.hub.hardness", "\"soft\""}, {"spline.hub.oiled", "false"}});
    const double one = of(changes).wear_share / 10;  // of 766 N m at 300 r/min
    const double torque_Nm = 766 * std::pow(share / one, 1 / 6.6438561897747244);
    changes.push_back(
        {"leg.loop.bins", "[{ share = 1.0, torque = \"" + std::to_string(torque_Nm) +
                              " N m\", speed = \"300 rpm\", road_speed = \"10 km/h\" }]"});
    changes.insert(changes.end(), more.begin(), more.end());
    return setup_of(changes);
}

}  // namespace

TEST_CASE("spline: looked at from a fifth of its wear life, watched from a whole one") {
    const auto verdict = [](double share) {
        const Assessment answer = assess(worn_by(share));
        for (const Check& check : answer.fitted.checked.checks)
            if (check.id == CheckId::spline_wear) {
                CHECK(check.value == rel(share, 1e-4));
                CHECK(check.about == "spline.hub");
                return check.verdict;
            }
        return std::string("none");
    };
    CHECK(verdict(0.19) == "fine");
    CHECK(verdict(0.21) == "look");
    CHECK(verdict(0.99) == "look");
    CHECK(verdict(1.01) == "watch");
}

TEST_CASE("spline: the case is opened before one is worn out") {
    for (const auto& [share, events] : {std::pair{0.3, 3}, std::pair{0.45, 2}, std::pair{1.7, 1}}) {
        const Setup setup = worn_by(share, {{"rules.open_case", "\"20 events\""}});
        const Assessment answer = assess(setup);
        CHECK(answer.fitted.intervals.open_case.after_events <= events);
        Wear wear =
            wear_of(setup, answer.fitted.event, answer.fitted.damage, answer.fitted.checked);
        for (double& bearing : wear.bearing_share) bearing = 0;
        for (ToothSide& tooth : wear.teeth) tooth = {};
        wear.seal_over_limit = false;
        CHECK(actions_due(setup, wear).open_case.after_events == events);
    }
}

TEST_CASE("spline: what is not entered follows its fit") {
    SplineInput spline;
    spline.teeth = 32;
    spline.pitch_diameter_mm = 64;
    spline.length_mm = 42;
    for (const auto& [fit, slope_mmpm, hardness] :
         {std::tuple{SplineFit::piloted, 1.0, SplineHardness::case_hard},
          std::tuple{SplineFit::loose, 4.0, SplineHardness::case_hard},
          std::tuple{SplineFit::sliding, 2.0, SplineHardness::soft}}) {
        spline.fit = fit;
        CHECK(misalignment_mmpm(spline) == slope_mmpm);
        CHECK(hardness_of(spline) == hardness);
    }
    CHECK(teeth_of(spline).height_mm == rel(1.8, 1e-12));  // 0.9 of its module, 2 mm
    spline.height_mm = 2.1;
    spline.misalignment_mmpm = 3;
    spline.hardness = SplineHardness::surface;
    CHECK(teeth_of(spline).height_mm == 2.1);
    CHECK(misalignment_mmpm(spline) == 3);
    CHECK(hardness_of(spline) == SplineHardness::surface);
}

TEST_CASE("spline: compare shows wear and largest torque of each that moved") {
    const auto answer = [](const std::vector<Change>& changes) {
        return calculated(Document(new_setup_text(), "ten.toml", {}).complete(changes),
                          {.draws = 63});
    };
    const auto moved = [](const Comparison& between, const std::string& words) {
        for (const Moved& one : between.moved)
            if (one.words == words) return one;
        return Moved{};
    };
    const std::string wear = "wear life used an event, spline hub";
    const std::string blow = "largest torque over what it takes, spline hub";
    // A bin of its own, so that nothing of the road or the engine limits the torque.
    const auto with_torque = [&](const char* torque) {
        std::vector<Change> changes = one_bin();
        for (Change& change : changes)
            if (change.key == "leg.loop.bins")
                change.toml.replace(change.toml.find("766 N m"), 7, torque);
        return changes;
    };
    const Calculated one = answer(with_torque("300 N m"));
    const Calculated twice = answer(with_torque("600 N m"));
    const Comparison between = compare(one, twice);
    const Moved worn = moved(between, wear);
    CHECK(worn.unit == "%");
    CHECK(worn.before > 0);
    CHECK(worn.after / worn.before == rel(100, 1e-9));
    const Moved struck = moved(between, blow);
    CHECK(struck.after / struck.before == rel(2, 1e-9));
    CHECK(moved(compare(one, one), wear).words.empty());
    // A piloted one does not wear.
    std::vector<Change> piloted = with_torque("300 N m");
    piloted.push_back({"spline.hub.fit", "\"piloted\""});
    CHECK(moved(compare(one, answer(piloted)), wear).after == 0);
    // Another drop set: the road asks the same of the output, less of an input that turns faster.
    const auto with_set = [&](const char* shaft, const char* teeth) {
        return answer(hub({{"spline.hub.shaft", shaft}, {"gears.fitted", teeth}}));
    };
    for (const char* shaft : {"\"input\"", "\"output\""}) {
        const Comparison other = compare(with_set(shaft, "[37, 37]"), with_set(shaft, "[33, 41]"));
        const Moved set = moved(other, wear);
        const bool input = std::string(shaft) == "\"input\"";
        CHECK(set.words.empty() != input);
        // Torque to the power of 6.644 times turns.
        if (input) CHECK(set.after / set.before == rel(std::pow(33.0 / 41, 5.644), 0.05));
    }
    // More power where the engine is what limits: more torque on the input hub.
    const auto with_power = [&](double power_W) {
        ReadSetup read = Document(new_setup_text(), "ten.toml", {})
                             .complete(hub({{"spline.hub.shaft", "\"input\""}}));
        read.setup.vehicle.engine_power_W = power_W;
        return calculated(std::move(read), {.draws = 63});
    };
    const Comparison stronger = compare(with_power(60e3), with_power(120e3));
    CHECK(moved(stronger, wear).after > 1.5 * moved(stronger, wear).before);
    CHECK(moved(stronger, wear).before > 0);
}

}  // namespace caseload::splines_tests
