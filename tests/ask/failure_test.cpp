// SPDX-License-Identifier: MIT
#include "caseload/ask/failure.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "program.hpp"
#include "support.hpp"

#include <string>

namespace caseload::failure_tests {

namespace {

using test_files::light_file;

Failure fails(const Setup& setup, const std::string& what) {
    return failure(setup, assess(setup), what);
}

}  // namespace

TEST_CASE("failure: a dead pump starts from the temperatures in the middle of the hottest leg") {
    const Setup setup = examples::setup("light.toml");
    const Assessment likely = assess(setup);
    const Failure found = failure(setup, likely, "pump");
    CHECK(found.leg == "loop");
    CHECK(found.oil_degC <= likely.fitted.event.peak_oil_degC);
    CHECK(found.oil_degC > setup.event.ambient_degC);
    if (!found.dry && found.watch_after_s > 0 && found.stop_after_s > 0)
        CHECK(found.stop_after_s > found.watch_after_s);
}

TEST_CASE("failure: the pace found settles at the watch limit, a slower one below it") {
    // A core that is hardly enough, in the heavier car on a hot day.
    Setup setup = examples::setup("heavy.toml", {{"event.ambient", "\"46 degC\""}});
    setup.cooler.width_mm /= 40;
    setup.cooler.rating.heat_W /= 40;
    const Failure found = fails(setup, "half_core");
    REQUIRE(found.pace_share > least_pace_share);
    REQUIRE(found.pace_share < 1);
    const auto oil_at = [&](double share) {
        Setup slower = setup;
        slower.cooler.width_mm /= 2;
        slower.cooler.rating.heat_W /= 2;
        std::size_t leg = 0;
        while (slower.event.legs[leg].name != found.leg) ++leg;
        slower.event.legs[leg].course_pace_mps *= share;
        const Prepared prepared = prepare(slower);
        return steady(prepared, leg, {}).nodes.oil_degC;
    };
    CHECK(within(oil_at(found.pace_share), setup.limits.oil_watch_degC, 0.1));
    CHECK(oil_at(found.pace_share + 0.02) > setup.limits.oil_watch_degC);
    // Minutes against the event's own integration: the failed setup, warm and long.
    CHECK(found.watch_after_s >= 0);
}

TEST_CASE("failure: parts that still work keep working, and a warmer day leaves less time") {
    const Setup setup = examples::setup("light.toml");
    const Failure fan = fails(setup, "fan");
    CHECK(fan.pace_share == 1);
    CHECK(fan.watch_after_s == -1);
    CHECK(fan.decision.rfind("Drive on without the fan", 0) == 0);
    Setup hot = examples::setup("heavy.toml");
    hot.cooler.width_mm /= 40;
    hot.cooler.rating.heat_W /= 40;
    hot.event.ambient_degC += 5;
    Setup hotter = hot;
    hotter.event.ambient_degC += 5;
    const Failure one = fails(hot, "half_core");
    const Failure two = fails(hotter, "half_core");
    CHECK(two.pace_share <= one.pace_share);
    if (one.watch_after_s >= 0) CHECK(two.watch_after_s <= one.watch_after_s);
}

TEST_CASE("failure: a front shaft changes the bearings, not the torque at the input") {
    const Failure found = fails(examples::setup("light.toml"), "front_shaft");
    CHECK(found.pace_share == 1);
}

TEST_CASE("failure: no pace is given for a case that a check stops already") {
    const Setup setup = examples::setup("light.toml");
    Assessment stopped = assess(setup);
    stopped.stopped_by = "a seat is loose";
    const std::string words = failure(setup, stopped, "front_shaft").decision;
    CHECK(words.rfind("Do not run it, without the front shaft or not", 0) == 0);
    CHECK(words.find("pace") == std::string::npos);
}

TEST_CASE("failure: what is not fitted cannot fail") {
    const Setup dip = examples::setup("dip.toml");
    CHECK_THROWS_WITH(fails(dip, "pump"), "--without pump: the setup has no pump");
    CHECK_THROWS_WITH(fails(dip, "fan"), "--without fan: the setup has no fan");
    CHECK_THROWS_WITH(fails(dip, "half_core"), "--without half_core: the setup has no cooler");
    CHECK_THROWS_WITH(fails(dip, "engine"), "--without engine: not known");
    const Run run = run_program_as_user("compare " + light_file + " --without gearbox");
    CHECK(run.code == 2);
    CHECK(run.out.find("front_shaft") != std::string::npos);
    const Run json = run_program_as_user("compare " + light_file + " --json --without pump");
    CHECK(json.code == 0);
    CHECK(json.out.find("\"without\":\"pump\"") != std::string::npos);
}

}  // namespace caseload::failure_tests
