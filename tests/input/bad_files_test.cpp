// SPDX-License-Identifier: MIT
// Every entry of tests/golden/bad.txt is an edit of a setup that is read, and every file of
// tests/golden/bad is wrong as a whole; each gets exactly its text.
#include "input/bad_setups.hpp"
#include "input/quantity.hpp"
#include "input/setup_files.hpp"
#include "refused.hpp"
#include "support.hpp"

#include "caseload/show/problems.hpp"

#include <set>
#include <string>

namespace caseload::bad_files_tests {

using namespace caseload::input_test;

namespace {

/// The report of a setup that is refused; empty if it is not.
std::string refusal_of(const std::string& text, const std::string& name) {
    const auto error = error_of([&] { static_cast<void>(read_setup(text, name, find_bad_base)); });
    if (error) CHECK(error->kind() == Error::Kind::input);
    return error ? problem_report(*error) : std::string();
}

}  // namespace

TEST_CASE("bad input: every setup gets its exact text") {
    std::set<std::string> sentences;
    // No two say the same first sentence.
    const auto check = [&](const std::string& name, const std::string& setup,
                           const std::string& refusal) {
        CAPTURE(name);
        const std::string report = refusal_of(setup, name);
        CHECK(report == refusal);
        const std::size_t at = report.find("error: ");
        REQUIRE(at != std::string::npos);
        CHECK(sentences.insert(report.substr(at, report.find('\n', at) - at)).second);
    };
    for (const bad_setups::BadSetup& bad : bad_setups::entries())
        check(bad.name + ".toml", bad.setup, bad.refusal);
    // Another encoding or end of line, which no edit gives.
    for (const auto& one : std::filesystem::directory_iterator(golden_folder() + "bad")) {
        std::filesystem::path path = one.path();
        if (path.extension() != ".toml") continue;
        const std::string name = path.filename().string();
        const std::string setup = file_text(path.string());
        check(name, setup, file_text(path.replace_extension(".txt").string()));
    }
    CHECK(sentences.size() >= 241);
}

TEST_CASE(
    "bad input: each bad setup is valid without its edits, and its message names an edited line") {
    // Two lines at odds: the other one, or the list they belong to, is named.
    const std::set<std::string> at_odds{
        "leg_no_duty",           "joint_end_missing", "bearing_one",
        "viscosities_exchanged", "no_pump",           "seat_fit_below_80",
        "bearing_pair_same_way", "bins_share_sum",    "both_bins_and_course",
        "bins_beyond_engine"};
    std::set<std::string> bases;
    int no_line = 0;
    for (const bad_setups::BadSetup& bad : bad_setups::entries()) {
        CAPTURE(bad.name);
        if (bases.insert(bad.base).second) {
            bad_setups::BadSetup unchanged{bad.name, bad.base, {}, {}, {}};
            bad_setups::apply_edits({}, unchanged);
            CHECK(refusal_of(unchanged.setup, "unchanged.toml") == "");
        }
        const std::string file = bad.name + ".toml:";
        const bool in_base_file = bad.refusal.find(file) == std::string::npos;
        if (in_base_file || bad.refusal.rfind(file + " ", 0) == 0 ||
            bad.name.rfind("missing_", 0) == 0) {
            ++no_line;
            continue;
        }
        bool named = false;
        for (const int line : bad.changed)
            named =
                named || bad.refusal.find(file + std::to_string(line) + ":") != std::string::npos;
        CHECK(named == (at_odds.count(bad.name) == 0));
    }
    CHECK(no_line <= 26);
}

TEST_CASE("bad input: every kind of unit occurs in a message") {
    std::string all;
    for (const bad_setups::BadSetup& bad : bad_setups::entries()) all += bad.refusal;
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
