// SPDX-License-Identifier: MIT
// Every log of tests/golden/logs gets exactly the text beside it, and a refused one no event.
#include "own_folder.hpp"
#include "program.hpp"

#include <algorithm>
#include <filesystem>
#include <set>
#include <string>
#include <vector>

namespace trap_files_tests {

namespace {

const std::string folder = test_files::root + "tests/golden/logs";

/// Where an event may be written; gone with the test.
class Place : public OwnFolder {
public:
    Place() : OwnFolder("traps") {}
    [[nodiscard]] std::string event() const { return path("event.toml"); }
    [[nodiscard]] bool empty() const { return std::filesystem::is_empty(path()); }
};

std::string with_place_as(std::string text, const std::string& place, const std::string& shown) {
    for (std::size_t at = 0; (at = text.find(place, at)) != std::string::npos; at += shown.size())
        text.replace(at, place.size(), shown);
    return text;
}

}  // namespace

TEST_CASE("duty: every trap log gets its exact text, exit code 2 and no event where refused") {
    std::vector<std::filesystem::path> logs;
    for (const auto& one : std::filesystem::directory_iterator(folder))
        if (one.path().extension() == ".csv") logs.push_back(one.path());
    std::sort(logs.begin(), logs.end());
    std::set<std::string> texts;
    for (std::filesystem::path log : logs) {
        CAPTURE(log.filename().string());
        const Place place;
        const Run run = run_program_as_user("duty " + log.string() + " -o " + place.event());
        const bool refused = run.out.find(": error: ") != std::string::npos;
        CHECK(run.code == (refused ? 2 : 0));
        CHECK(place.empty() == refused);
        CHECK(with_place_as(run.out, place.event(), "event.toml") ==
              file_text(log.replace_extension(".txt").string()));
        texts.insert(run.out);
    }
    CHECK(texts.size() == logs.size());
    CHECK(logs.size() >= 22);
}

TEST_CASE("duty: a folder, a missing log and an event that cannot be written") {
    const Place place;
    const std::string end = "1 error; nothing was calculated\n";
    const Run of_folder = run_program_as_user("duty " + folder + " -o " + place.event());
    CHECK(of_folder.out == "error: " + folder + ": this is a folder; name a log in it\n" + end);
    CHECK(of_folder.code == 5);
    const Run missing = run_program_as_user("duty " + folder + "/none.csv -o " + place.event());
    CHECK(missing.out == "error: " + folder + "/none.csv: cannot be read\n" + end);
    CHECK(missing.code == 5);
    CHECK(place.empty());
    const Run unwritable =
        run_program_as_user("duty " + folder + "/time_runs_back.csv -o " + folder + "/none/e.toml");
    CHECK(unwritable.code == 5);
    CHECK(unwritable.out == "error: " + folder +
                                "/none/e.toml: cannot be written; is there such a folder, and may "
                                "you write there?\n" +
                                end);
}

}  // namespace trap_files_tests
