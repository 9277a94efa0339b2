// SPDX-License-Identifier: MIT
#include "caseload/ask/season.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <algorithm>
#include <string>

namespace caseload::season_tests {

namespace {

using test_files::light_file;

const std::string three =
    "run = [\"hills\", \"canyon\", \"hills\"]\n"
    "[event.hills]\n"
    "date = \"14 March\"\n"
    "ambient = \"22 degC\"\n"
    "[event.canyon]\n"
    "course = \"rock\"\n"
    "duration = \"5 h\"\n"
    "vehicle.mass = \"1850 kg\"\n";

Season season_of(const std::string& list) {
    const Document document(examples::text("light.toml").value(), "light.toml", examples::text);
    return season(document, read_events(list, "events.toml"), {.draws = 63});
}

std::string after(const SeasonEvent& event) {
    std::string names;
    for (const SeasonAction& action : event.actions) names += action.name + " ";
    return names;
}

std::string problem_of(const std::string& list) {
    try {
        static_cast<void>(season_of(list));
    } catch (const Error& error) {
        const Problem& first = error.problems().front();
        return std::to_string(first.where.line) + ": " + first.text;
    }
    return "";
}

}  // namespace

TEST_CASE("season: the list is read in the order of run, each change with its line") {
    const auto coming = read_events(three, "events.toml");
    REQUIRE(coming.size() == 3);
    CHECK(coming[0].name == "hills");
    CHECK(coming[0].date == "14 March");
    REQUIRE(coming[0].changes.size() == 1);
    CHECK(coming[0].changes[0].key == "event.ambient");
    REQUIRE(coming[1].changes.size() == 3);
    CHECK(coming[1].changes[2].key == "vehicle.mass");
    CHECK(coming[1].places[2].line == 8);
}

TEST_CASE("season: used life adds up until the case is opened") {
    const Season whole = season_of(three);
    REQUIRE(whole.events.size() == 3);
    double sum = 0;
    for (const SeasonEvent& event : whole.events) {
        double worst = 0;
        for (const double share : event.wear.bearing_share) worst = std::max(worst, share);
        sum += worst;
        CHECK(event.used_share <= sum * (1 + 1e-12));
        CHECK(event.used_share > 0);
    }
    CHECK(whole.events[2].used_share > whole.events[1].used_share);
    CHECK(whole.events[0].wear.bearing_share == whole.events[2].wear.bearing_share);
    CHECK(whole.events[2].hours == rel(2 * whole.events[0].wear.driving_h + 5, 1e-9));
}

TEST_CASE("season: rules count, and an opening starts all of them again") {
    const std::string rules =
        "rules.change_oil = \"1 event\"\nrules.look = \"2 events\"\nrules.open_case = \"3 "
        "events\"\n";
    const Season whole =
        season_of("run = [\"a\", \"a\", \"a\", \"a\", \"a\", \"a\"]\n[event.a]\n" + rules);
    CHECK(after(whole.events[0]) == "change_oil ");
    CHECK(after(whole.events[1]) == "change_oil look ");
    CHECK(after(whole.events[2]) == "open_case change_oil ");
    CHECK(after(whole.events[3]) == "change_oil ");
    CHECK(after(whole.events[4]) == "change_oil look ");
    CHECK(after(whole.events[5]) == "open_case change_oil ");
    CHECK(whole.events[3].used_share == whole.events[0].used_share);
    CHECK(whole.decision ==
          "After event 1 (a) change the oil: your rule; the case comes apart after event 3 (a).");
}

TEST_CASE("season: the decision is the first thing to do, in its own words") {
    const auto decision = [](int open_case, int look) {
        return season_of("run = [\"a\", \"a\", \"a\"]\n[event.a]\nrules.open_case = \"" +
                         std::to_string(open_case) + " events\"\nrules.look = \"" +
                         std::to_string(look) + " events\"\nrules.change_oil = \"9 events\"\n")
            .decision;
    };
    CHECK(decision(2, 9) ==
          "After event 2 (a) open the case: your rule; the case comes apart after event 2 (a).");
    CHECK(decision(9, 3) ==
          "After event 3 (a) drain and read the magnet: your rule; no opening falls in these "
          "events.");
    CHECK(decision(9, 9) == "Nothing falls due in these 3 events.");
}

TEST_CASE("season: one event repeated opens the case when the assessment does") {
    // Bearings rated so low that fatigue governs.
    const std::vector<Change> weak{{"bearing.output_rear.dynamic_rating", "\"8 kN\""},
                                   {"rules.open_case", "\"20 events\""},
                                   {"rules.look", "\"20 events\""},
                                   {"rules.change_oil", "\"20 events\""}};
    const Setup setup = examples::setup("light.toml", weak);
    const Intervals alone = assess(setup).fitted.intervals;
    REQUIRE_FALSE(alone.fatigue_beyond);
    REQUIRE(alone.open_case.after_events >= 1);
    REQUIRE(alone.open_case.after_events < 19);
    std::string run = "run = [";
    for (int i = 0; i < 20; ++i) run += i == 0 ? "\"a\"" : ", \"a\"";
    run += "]\n[event.a]\n";
    for (const Change& change : weak) run += change.key + " = " + change.toml + "\n";
    const Season whole = season_of(run);
    int opened = 0;
    for (std::size_t i = 0; i < whole.events.size() && opened == 0; ++i)
        for (const SeasonAction& action : whole.events[i].actions)
            if (action.name == "open_case") opened = static_cast<int>(i) + 1;
    CHECK(opened == alone.open_case.after_events);
}

TEST_CASE("season: an event with STOP is not run, and nothing is planned after it") {
    const Season whole = season_of(
        "run = [\"mild\", \"hot\", \"mild\"]\n[event.mild]\n[event.hot]\nambient = \"48 degC\"\n"
        "cooler.fit = false\nhousing.place = \"tunnel\"\n");
    REQUIRE(whole.events.size() == 3);
    REQUIRE(whole.events[1].verdict == "stop");
    CHECK(whole.decision.rfind("Do not run event 2 (hot)", 0) == 0);
    CHECK(whole.events[1].actions.empty());
    REQUIRE(whole.events[1].before.size() == 1);
    CHECK(whole.events[1].before.front().name == "do_not_run");
    // The events beside it are planned as if it were not in the list.
    const Season without = season_of("run = [\"mild\", \"mild\"]\n[event.mild]\n");
    CHECK(whole.events[1].used_share == whole.events[0].used_share);
    CHECK(whole.events[2].used_share == without.events[1].used_share);
    CHECK(whole.events[2].hours == without.events[1].hours);
    REQUIRE(whole.events[0].actions.size() == without.events[0].actions.size());
}

TEST_CASE("season: a seal a little above the limit of its sump is looked at after each event") {
    // Nitrile is meant for 90 degC in such an oil; with this air the thermostat keeps a few more.
    const Season whole = season_of(
        "run = [\"a\", \"a\"]\n[event.a]\nseal.input.material = \"NBR\"\n"
        "cooler.thermostat_opens = \"92 degC\"\nambient = \"48 degC\"\nrules.look = \"5 "
        "events\"\n");
    REQUIRE(whole.events.size() == 2);
    REQUIRE(whole.events[0].wear.seal_to_look_at);
    REQUIRE_FALSE(whole.events[0].wear.seal_over_limit);
    for (const SeasonEvent& event : whole.events)
        CHECK(std::any_of(event.actions.begin(), event.actions.end(), [](const auto& action) {
            return action.name == "look" && action.reason == "a seal above its limit";
        }));
}

TEST_CASE("season: a bearing without play is named at the events it puts on watch") {
    // CN has 12 to 36 um; 0.06 mm on the shaft take 53 um, an inner ring 5 K warmer 7 um, and the
    // seat slides.
    const auto with_fit = [&](const std::string& fit) {
        const std::string tight =
            "\n[bearing.output_rear]\nclearance = \"CN\"\n"
            "seat = { ring_interference = \"0 mm\", boss_outside = \"190 mm\", "
            "shaft_interference = \"" +
            fit + "\" }\n";
        const Document document(examples::text("light.toml").value() + tight, "tight.toml",
                                examples::text);
        return season(document, read_events(three, "events.toml"), {.draws = 63});
    };
    for (const SeasonEvent& event : with_fit("0.06 mm").events) {
        REQUIRE(event.without_play.size() == 1);
        CHECK(event.without_play.front().find("bearing.output_rear: the bearing can run "
                                              "without play and seize") == 0);
        CHECK(event.verdict != "fine");
    }
    for (const SeasonEvent& event : with_fit("0.005 mm").events) CHECK(event.without_play.empty());
    for (const SeasonEvent& event : season_of(three).events) CHECK(event.without_play.empty());
}

TEST_CASE("season: mistakes in the list, each with its line") {
    CHECK(problem_of("[event.a]\n") == "0: the list has no run");
    CHECK(problem_of("run = \"a\"\n") == "1: run must be a list of event names");
    CHECK(problem_of("run = []\n") == "1: run must be a list of event names");
    CHECK(problem_of("run = [\"b\"]\n[event.a]\n") == "1: no event is called \"b\"");
    CHECK(problem_of("run = [3]\n") == "1: a name in run must be text");
    CHECK(problem_of("run = [\"a\"]\nvehicle.mass = \"1 kg\"\n[event.a]\n") ==
          "2: vehicle.mass is not a key of a list of events");
    CHECK(problem_of("run = [\"a\"]\n[event]\na = 3\n") == "3: event.a must be a heading");
    CHECK(problem_of("run = [\"a\"]\n[event.a]\ndate = 3\n") == "3: event.a.date must be text");
    CHECK(problem_of("run = [\"a\"]\n[event.a]\n\nambient = \"22 kg\"\n").rfind("4: event a:", 0) ==
          0);
    CHECK(problem_of("run = [\"a\"]\n[event.a]\nambinet = \"22 degC\"\n").rfind("3: event a:", 0) ==
          0);
    CHECK(problem_of("run = [\"a\"\n") != "");
    CHECK(problem_of("run = [\"a\", \"b\"]\n[event.a]\n[event.b]\ngears.fitted = [34, 40]\n") ==
          "");
    CHECK(problem_of("run = [\"a\", \"b\"]\n[event.a]\n[event.b]\n"
                     "bearing.output_rear.size = \"80x125x22 mm\"\n")
              .find("other bearings or gears") != std::string::npos);
    std::string many = "run = [";
    for (int i = 0; i < 21; ++i) many += i == 0 ? "\"a\"" : ", \"a\"";
    CHECK(problem_of(many + "]\n[event.a]\n").find("at most 20") != std::string::npos);
}

TEST_CASE("season: the command") {
    const OwnFolder folder("season");
    const std::string path = folder.path("caseload_season.toml");
    folder.write("caseload_season.toml", three);
    const Run run = run_program_as_user("season " + light_file + " " + path + " --draws 63");
    CHECK(run.code == 0);
    CHECK(run.out.rfind("After event 1 (hills)", 0) == 0);
    CHECK(run.out.find("14 March") != std::string::npos);
    const Run json =
        run_program_as_user("season " + light_file + " " + path + " --draws 63 --json");
    CHECK(json.code == 0);
    CHECK(json.out.find("\"command\":\"season\"") != std::string::npos);
    const Run imperial =
        run_program_as_user("season " + light_file + " " + path + " --draws 63 --units imperial");
    CHECK(imperial.out.find("degF") != std::string::npos);
    CHECK(run_program_as_user("season " + light_file + " nowhere.toml").code == 5);
    folder.write("caseload_season.toml", "run = [\"b\"]\n[event.a]\n");
    const Run bad = run_program_as_user("season " + light_file + " " + path);
    CHECK(bad.code == 2);
    CHECK(bad.out.find("caseload_season.toml:1") != std::string::npos);
}

}  // namespace caseload::season_tests
