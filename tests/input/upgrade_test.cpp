// SPDX-License-Identifier: MIT
// Files of versions that never were, since the first is today's: the mechanism, not history.
#include "caseload/upgrade.hpp"

#include "caseload/error.hpp"
#include "input/shortest.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <string>

namespace caseload::upgrade_tests {

namespace {

constexpr Renamed from_1[] = {{"oil.kind", "grade"}, {"bearing.*.place", "at"}};
constexpr Renamed from_2[] = {{"oil.grade", "sort"}};
const FormatStep steps[] = {{1, from_1}, {2, from_2}};

}  // namespace

TEST_CASE("upgrade: keys get their new names over several versions, comments and layout stay") {
    const std::string old =
        "# kind: a comment\ncaseload = 1  # of 1\n[oil]\n  kind = \"kind of oil\" # kind\n"
        "[bearing.place]\nplace = \"2 mm\"\nbearing.b.place = 3\n";
    const Upgraded now = upgraded(old, "old.toml", {3, steps});
    CHECK(now.from == 1);
    CHECK(now.to == 3);
    CHECK(now.text ==
          "# kind: a comment\ncaseload = 3  # of 1\n[oil]\n  sort = \"kind of oil\" # kind\n"
          "[bearing.place]\nat = \"2 mm\"\nbearing.b.place = 3\n");
    CHECK(now.changes.size() == 3);
    CHECK(upgraded("caseload = 1\nbearing.b.place = 3\n", "dotted.toml", {2, steps}).text ==
          "caseload = 2\nbearing.b.at = 3\n");
    CHECK(upgraded("caseload = 2\n", "half.toml", {3, steps}).text == "caseload = 3\n");
}

TEST_CASE("upgrade: today's version is current, a later or unknown one is refused") {
    const std::string today = input_test::shortest();
    CHECK(upgraded(today, "today.toml").text == today);
    CHECK(upgraded(today, "today.toml").changes.empty());
    CHECK_THROWS_AS(upgraded("caseload = 2\n", "later.toml"), Error);
    CHECK_THROWS_AS(upgraded("caseload = 0\n", "before.toml", {3, steps}), Error);
    CHECK_THROWS_AS(upgraded("title = \"x\"\n", "none.toml"), Error);
    CHECK_THROWS_AS(upgraded("caseload = \"1\"\n", "text.toml"), Error);
}

TEST_CASE("upgrade: the program leaves current and later files as they are") {
    const std::string root = CASELOAD_ROOT;
    const Run current = run_program_as_user("upgrade " + root + "/docs/examples/dip.toml");
    CHECK(current.code == 0);
    CHECK(current.out.find("version 1, current") != std::string::npos);
    const OwnFolder folder("later_version");
    const std::string before =
        "caseload = 2" + input_test::shortest().substr(std::string("caseload = 1").size());
    folder.write("version_2.toml", before);
    const std::string later = folder.path("version_2.toml");
    const Run refused = run_program_as_user("upgrade " + later);
    CHECK(refused.code == 2);
    CHECK(refused.out.find("knows versions up to 1") != std::string::npos);
    CHECK(file_text(later) == before);
    CHECK(run_program_as_user("upgrade not-there.toml").code == 5);
}

}  // namespace caseload::upgrade_tests
