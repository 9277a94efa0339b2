// SPDX-License-Identifier: MIT
// What a double click and files dropped on the program mean, decided without Windows.
#include "cli/dropped.hpp"

#include <doctest/doctest.h>

#include <optional>
#include <set>
#include <string>
#include <vector>

namespace caseload::dropped_tests {

namespace {

using Words = std::vector<std::string>;

const std::string folder = "C:/caseload/";

std::optional<ShellTask> asked(const Words& words, const std::set<std::string>& files,
                               bool own_window = true) {
    return asked_by_shell({words, folder, own_window},
                          [&](const std::string& name) { return files.count(name) == 1; });
}

}  // namespace

TEST_CASE(
    "dropped: a double click opens the page beside the program, a call without words in a prompt "
    "does not") {
    const std::set<std::string> page{folder + "caseload.html"};
    const auto clicked = asked({}, page);
    REQUIRE(clicked);
    REQUIRE(clicked->runs.size() == 1);
    CHECK(clicked->runs[0].words.empty());
    CHECK(clicked->runs[0].page == folder + "caseload.html");
    CHECK(clicked->first.find("caseload.html is opened") != std::string::npos);
    CHECK_FALSE(asked({}, page, false));  // prints the first commands
    CHECK_FALSE(asked({}, {}));           // no page there: the same
}

TEST_CASE("dropped: each dropped setup gets its page") {
    const auto one = asked({"D:/a car.TOML"}, {"D:/a car.TOML"});
    REQUIRE(one);
    REQUIRE(one->runs.size() == 1);
    CHECK(one->runs[0].words == Words{"assess", "D:/a car.TOML", "--page", "D:/a car.html"});
    CHECK(one->runs[0].page == "D:/a car.html");
    const auto two = asked({"D:/a.toml", "D:/b.toml"}, {"D:/a.toml", "D:/b.toml"}, false);
    REQUIRE(two);
    CHECK(two->runs.size() == 2);
    // The live page is not written over by the answer of a setup of its name.
    const auto same = asked({folder + "caseload.toml"}, {folder + "caseload.toml"});
    REQUIRE(same);
    CHECK(same->runs[0].page == folder + "caseload-answer.html");
}

TEST_CASE("dropped: a phone's track is a log too") {
    const auto one = asked({"D:/day.gpx", "D:/car.toml"}, {"D:/day.gpx", "D:/car.toml"});
    REQUIRE(one);
    REQUIRE(one->runs.size() == 1);
    CHECK(one->runs[0].words ==
          Words{"duty", "D:/day.gpx", "-o", "D:/day-event.toml", "--setup", "D:/car.toml"});
}

TEST_CASE("dropped: a log becomes an event of its own name, and nothing is written over") {
    const auto one = asked({"D:/day.csv"}, {"D:/day.csv", "D:/day.toml"});
    REQUIRE(one);
    REQUIRE(one->runs.size() == 1);
    CHECK(one->runs[0].words == Words{"duty", "D:/day.csv", "-o", "D:/day-event.toml"});
    CHECK(one->runs[0].page.empty());
    CHECK(one->if_refused.find("together with the car's setup") != std::string::npos);
    const auto again =
        asked({"D:/day.csv"}, {"D:/day.csv", "D:/day-event.toml", "D:/day-event-2.toml"});
    REQUIRE(again);
    CHECK(again->runs[0].words.back() == "D:/day-event-3.toml");
}

TEST_CASE("dropped: logs dropped with one setup are read for its car, with two setups for none") {
    const std::set<std::string> files{"D:/1.csv", "D:/2.CSV", "D:/car.toml", "D:/other.toml"};
    const auto both = asked({"D:/1.csv", "D:/car.toml", "D:/2.CSV"}, files);
    REQUIRE(both);
    REQUIRE(both->runs.size() == 2);
    CHECK(both->runs[0].words ==
          Words{"duty", "D:/1.csv", "-o", "D:/1-event.toml", "--setup", "D:/car.toml"});
    CHECK(both->runs[1].words ==
          Words{"duty", "D:/2.CSV", "-o", "D:/2-event.toml", "--setup", "D:/car.toml"});
    CHECK(both->if_refused.empty());
    const auto two = asked({"D:/1.csv", "D:/car.toml", "D:/other.toml"}, files);
    REQUIRE(two);
    CHECK(two->runs.empty());
    CHECK(two->first.find("one setup") != std::string::npos);
}

TEST_CASE("dropped: a command line is not taken for dropped files") {
    const std::set<std::string> files{"car.toml", "assess", "log.csv", "page.html"};
    for (const Words& words : std::vector<Words>{{"assess", "car.toml"},
                                                 {"none.toml"},
                                                 {"none.csv"},
                                                 {"page.html"},
                                                 {"car.toml", "--json"},
                                                 {"--help"},
                                                 {"car.toml", "page.html"}})
        CHECK_FALSE(asked(words, files));
}

}  // namespace caseload::dropped_tests
