// SPDX-License-Identifier: MIT
// Every file of tests/golden/bad differs from a valid one in the lines its first comment names, and
// gets exactly the text beside it.
#include "input/quantity.hpp"
#include "input/setup_files.hpp"
#include "support.hpp"

#include "caseload/show/problems.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace caseload::bad_files_tests {

using namespace caseload::input_test;

namespace {

std::vector<std::filesystem::path> bad_files() {
    std::vector<std::filesystem::path> files;
    for (const auto& one : std::filesystem::directory_iterator(golden_folder() + "bad"))
        if (one.path().extension() == ".toml") files.push_back(one.path());
    std::sort(files.begin(), files.end());
    return files;
}

std::string expected_text(std::filesystem::path path) {
    return file_text(path.replace_extension(".txt").string());
}

/// "# line 8 was: X", "# lines 8 to 9 were: X", "# line 8 was not there".
struct Undo {
    int first = 0;
    int last = 0;
    std::string was;
};

Undo undo_of(const std::string& comment) {
    Undo undo;
    const bool several = comment.rfind("# lines ", 0) == 0;
    if (!several && comment.rfind("# line ", 0) != 0) return undo;
    undo.first = std::stoi(comment.substr(several ? 8 : 7));
    undo.last = several ? std::stoi(comment.substr(comment.find(" to ") + 4)) : undo.first;
    const std::size_t colon = comment.find(": ");
    if (comment.find(" not there") == std::string::npos) undo.was = comment.substr(colon + 2);
    return undo;
}

std::string repaired(const std::string& text, const Undo& undo) {
    std::string out;
    int number = 0;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t end = std::min(text.find('\n', at), text.size());
        ++number;
        if (number == undo.first) out += undo.was + "\n";
        if (number < undo.first || number > undo.last) out += text.substr(at, end - at) + "\n";
        at = end + 1;
    }
    return out;
}

}  // namespace

TEST_CASE("bad input: every file gets its exact text") {
    std::set<std::string> sentences;
    for (const auto& path : bad_files()) {
        const std::string name = path.filename().string();
        CAPTURE(name);
        std::string report;
        try {
            static_cast<void>(read_setup(file_text(path.string()), name, find_bad_base));
        } catch (const Error& error) {
            CHECK(error.kind() == Error::Kind::input);
            report = problem_report(error);
        }
        CHECK(report == expected_text(path));
        // No two files say the same first sentence.
        const std::size_t at = report.find("error: ");
        REQUIRE(at != std::string::npos);
        CHECK(sentences.insert(report.substr(at, report.find('\n', at) - at)).second);
    }
    CHECK(sentences.size() >= 150);
}

TEST_CASE("bad input: each file is right again when its bad lines are undone") {
    int count = 0;
    for (const auto& path : bad_files()) {
        CAPTURE(path.filename().string());
        const std::string text = file_text(path.string());
        const Undo undo = undo_of(text.substr(0, text.find('\n')));
        if (undo.first == 0) continue;  // wrong as a whole: another encoding, several mistakes
        ++count;
        CHECK_NOTHROW(
            static_cast<void>(read_setup(repaired(text, undo), "repaired.toml", find_bad_base)));
    }
    CHECK(count + 4 == static_cast<int>(bad_files().size()));
}

TEST_CASE("bad input: each file names its bad line") {
    // Two lines at odds: the other one, or the list they belong to, is named.
    const std::set<std::string> at_odds{"leg_no_duty.toml",       "joint_end_missing.toml",
                                        "bearing_one.toml",       "viscosities_exchanged.toml",
                                        "no_pump.toml",           "cooler_half_rating.toml",
                                        "seat_fit_below_80.toml", "bearing_pair_same_way.toml",
                                        "bins_share_sum.toml",    "both_bins_and_course.toml",
                                        "bins_beyond_engine.toml"};
    for (const auto& path : bad_files()) {
        const std::string name = path.filename().string();
        CAPTURE(name);
        const std::string text = file_text(path.string());
        const Undo undo = undo_of(text.substr(0, text.find('\n')));
        const std::string report = expected_text(path);
        if (undo.first == 0 || report.find(name + ":") == std::string::npos) continue;
        if (name.rfind("missing_", 0) == 0 || report.rfind(name + ": ", 0) == 0)
            continue;  // no line to name
        bool named = false;
        for (int line = undo.first; line <= undo.last; ++line)
            named =
                named || report.find(name + ":" + std::to_string(line) + ":") != std::string::npos;
        CHECK((named || at_odds.count(name) == 1));
    }
}

TEST_CASE("bad input: every kind of unit is met") {
    std::string all;
    for (const auto& path : bad_files()) all += expected_text(path);
    for (int m = static_cast<int>(input::Measure::torque_Nm);
         m <= static_cast<int>(input::Measure::pitch_per_in); ++m) {
        const auto& words = input::words_of(static_cast<input::Measure>(m));
        if (words.kind == input::Kind::difference || words.kind == input::Kind::temperature ||
            words.kind == input::Kind::time)
            continue;  // have sentences of their own
        CAPTURE(words.accepted);
        CHECK(all.find("units accepted: " + std::string(words.accepted)) != std::string::npos);
    }
}

}  // namespace caseload::bad_files_tests
