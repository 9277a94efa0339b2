// SPDX-License-Identifier: MIT
// What an answer is not, and what comes first, stands on every answer.
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <string>
#include <vector>

namespace cautions_tests {

namespace {

using test_files::root;
const std::string examples = root + "docs/examples/";

std::string joined(std::string text) {
    for (char& c : text)
        if (c == '\n') c = ' ';
    return text;
}

const std::string json_caution =
    "\"caution\":\"An estimate for planning: it does not replace inspection by a competent person; "
    "symptoms, your eyes and the rule book come first.\"";

bool defers(const std::string& text) {
    return joined(text).find("rule book come first") != std::string::npos;
}

std::string season(const OwnFolder& folder) {
    folder.write("events.toml",
                 "run = [\"hills\"]\n[event.hills]\ncourse = \"graded\"\n"
                 "duration = \"4 h\"\nambient = \"22 degC\"\n");
    return folder.path("events.toml");
}

/// A book with one case, and which it is.
std::string book(const OwnFolder& folder) {
    const std::string file = " --book " + folder.path("shop.book");
    if (!std::filesystem::exists(folder.path("shop.book")))
        CHECK(run_program_as_user("book add case A --date 2026-01-01" + file).code == 0);
    return file;
}

}  // namespace

TEST_CASE("caution: every screen says that symptoms, eyes and rule book come first") {
    const std::string light = examples + "light.toml";
    const OwnFolder folder("caution_screens");
    for (const std::string& line : std::vector<std::string>{
             "assess " + light + " --draws 63", "assess " + light + " --draws 63 --detail",
             "sets " + examples + "trailer.toml", "cooler " + light,
             "bearings " + light + " --position output_rear",
             "compare " + light + " --with 'vehicle.mass=2000 kg'",
             "compare " + light + " --without fan",
             "compare " + light + " --grid 'event.ambient=20 degC:40 degC:2'",
             "season " + light + " " + season(folder), "why " + light,
             "why " + light + " bearing.output_rear.C_N",
             "duty " + root + "tests/golden/logs/gap.csv -o " + folder.path("event.toml"),
             "book show" + book(folder), "book due" + book(folder), "book fleet" + book(folder)}) {
        const Run run = run_program_as_user(line);
        CAPTURE(line);
        CAPTURE(run.out);
        CHECK(run.code == 0);
        CHECK(defers(run.out));
    }
}

TEST_CASE("caution: every JSON document of an answer has the caution") {
    const std::string light = examples + "light.toml";
    const OwnFolder folder("caution_json");
    for (const std::string& line : std::vector<std::string>{
             "assess " + light + " --draws 63 --json", "sets " + examples + "trailer.toml --json",
             "cooler " + light + " --json", "bearings " + light + " --position output_rear --json",
             "compare " + light + " --with 'vehicle.mass=2000 kg' --json",
             "compare " + light + " --without fan --json",
             "compare " + light + " --grid 'event.ambient=20 degC:40 degC:2' --json",
             "season " + light + " " + season(folder) + " --json", "why " + light + " --json",
             "why " + light + " --list --json", "assess " + light + " --curves",
             "duty " + root + "tests/golden/logs/gap.csv --json -o " + folder.path("event.toml"),
             "book show --json" + book(folder), "book due --json" + book(folder),
             "book fleet --json" + book(folder)}) {
        const Run run = run_program_as_user(line);
        CAPTURE(line);
        CHECK(run.code == 0);
        CHECK(run.out.find(json_caution) != std::string::npos);
    }
}

TEST_CASE("caution: every line of many variations has the caution, refused ones too") {
    const OwnFolder folder("caution_lines");
    folder.write("variations.csv", "vehicle.mass\n1700 kg\n1900 kq\n");
    const Run run = run_program_as_user("assess " + examples + "light.toml --draws 63 --each " +
                                        folder.path("variations.csv") + " --json-lines");
    CAPTURE(run.out);
    CHECK(run.code == 0);
    std::size_t lines = 0;
    for (std::size_t from = 0; from < run.out.size(); ++lines) {
        const std::size_t end = run.out.find('\n', from);
        CHECK(run.out.substr(from, end - from).find(json_caution) != std::string::npos);
        from = end + 1;
    }
    CHECK(lines == 2);
}

TEST_CASE("caution: every sheet has its warnings, and says what comes before it") {
    const OwnFolder folder("caution_sheets");
    const auto path = [&](const std::string& name) { return folder.path(name); };
    const Run run = run_program_as_user("assess " + examples + "light.toml --draws 63 --page " +
                                        path("page.html") + " --card " + path("card.html") +
                                        " --teardown " + path("sheet.html"));
    CHECK(run.code == 0);
    for (const std::string name : {"page.html", "sheet.html"}) {
        const std::string text = joined(file_text(path(name)));
        CAPTURE(name);
        CHECK(text.find("It does not replace an inspection by a competent person") !=
              std::string::npos);
        CHECK(text.find("Never work under a vehicle on a jack") != std::string::npos);
        CHECK(text.find("scalds") != std::string::npos);
    }
    const std::string card = joined(file_text(path("card.html")));
    CHECK(card.find("competent inspector come first") != std::string::npos);
    CHECK(card.find("calds") != std::string::npos);
}

}  // namespace cautions_tests
