// SPDX-License-Identifier: MIT
#include "caseload/show/problems.hpp"
#include "support.hpp"

#include <string>

namespace caseload::problems_tests {

TEST_CASE("problem report: place, caret, hint, count") {
    const Error error(Error::Kind::input,
                      {{{"setup.toml", 14, 17, 10, "viscosity_40C = \"-150 cSt\""},
                        "oil.viscosity_40C = \"-150 cSt\": must be above 0 mm2/s",
                        "kinematic viscosity at 40 degC, for example 150 cSt"},
                       {{"setup.toml", 0, 0, 0, ""}, "vehicle.mass is missing", ""}});
    CHECK(problem_report(error) ==
          "setup.toml:14:17: error: oil.viscosity_40C = \"-150 cSt\": must be above 0 mm2/s\n"
          "   14 | viscosity_40C = \"-150 cSt\"\n"
          "      |                 ^^^^^^^^^^\n"
          "  hint: kinematic viscosity at 40 degC, for example 150 cSt\n"
          "setup.toml: error: vehicle.mass is missing\n"
          "2 errors; nothing was calculated\n");
    CHECK(problem_report(Error(Error::Kind::domain, "n_rpm = 0 r/min: must be > 0")) ==
          "error: n_rpm = 0 r/min: must be > 0\n1 error; nothing was calculated\n");
}

TEST_CASE("problem report: carets stand under characters, not bytes") {
    const Error error(Error::Kind::input, {{{"s.toml", 3, 6, 2, "ä = öü"}, "x", ""}});
    CHECK(problem_report(error).find("    3 | ä = öü\n      |      ^\n") != std::string::npos);
}

TEST_CASE("problem report: a long line is cut round the caret") {
    std::string line(5000, 'a');
    line[3000] = 'B';
    const std::string report =
        problem_report(Error(Error::Kind::input, {{{"s.toml", 1, 3001, 1, line}, "x", ""}}));
    const std::size_t shown = report.find("| ");
    const std::size_t second = report.find("| ", shown + 2);
    const std::string first_line = report.substr(shown + 2, report.find('\n', shown) - shown - 2);
    CHECK(first_line.size() == 100);
    const std::size_t caret = report.find('^', second) - second - 2;
    CHECK(first_line[caret] == 'B');
}

TEST_CASE("problem report: nothing in a file reaches the terminal as a command") {
    const std::string report = problem_report(
        Error(Error::Kind::input,
              {{{"a\x1B[31m.toml", 1, 1, 1, "\x1B[2J\tx = 1"}, "bad \x07", "hint \x1B"}}));
    for (const char c : report) CHECK((static_cast<unsigned char>(c) >= 0x20 || c == '\n'));
}

}  // namespace caseload::problems_tests
