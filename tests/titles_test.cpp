// SPDX-License-Identifier: MIT
// Every cited place of a source has a test named after it, and every test has a name that CTest
// can run.
#include "citations.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace titles_tests {

namespace {

using test_files::citations;
using test_files::Read;
using Strings = std::vector<std::string>;

/// Names of the test cases. All are written as string literals, at the start of a line.
Read titles(const std::string& test) {
    static const std::regex start("(^|\n)TEST_CASE[A-Z_]*");
    static const std::regex form("\\(\\s*((\"([^\"\\\\\n]|\\\\.)*\"\\s*)+)\\)");
    static const std::regex seam("\"\\s*\"");
    Read read;
    for (std::sregex_iterator at(test.begin(), test.end(), start), end; at != end; ++at) {
        std::smatch part;
        if (std::regex_search(at->suffix().first, test.end(), part, form,
                              std::regex_constants::match_continuous)) {
            std::string title = std::regex_replace(part.str(1), seam, "");
            title.erase(title.find_last_not_of(" \n") + 1);
            read.found.push_back(title.substr(1, title.size() - 2));
        } else {
            read.problems.push_back(
                "a name that is no literal, line " +
                std::to_string(1 + std::count(test.begin(), at->suffix().first, '\n')));
        }
    }
    return read;
}

/// doctest's CMake script keeps the names in a CMake list. A semicolon cuts a name in two that
/// match no test case and so pass; an unpaired bracket joins names, and a backslash escapes; two
/// equal names run as one. Without these each name doctest lists is one CTest test that runs it,
/// so both count the same.
Strings title_problems(const Strings& all) {
    Strings problems;
    std::set<std::string> seen;
    for (const std::string& title : all) {
        if (title.empty() || title.find_first_of(";[]\\") != std::string::npos)
            problems.push_back("empty, or has one of ; [ ] \\: " + title);
        if (!seen.insert(title).second) problems.push_back("twice: " + title);
    }
    return problems;
}

/// A test is named after a place if its name starts with it; "9.3" is not the start of "9.3.1".
Strings untested(const Strings& cited, const Strings& all) {
    Strings missing;
    for (const std::string& place : cited) {
        const bool found = std::any_of(all.begin(), all.end(), [&](const std::string& title) {
            return title.rfind(place, 0) == 0 &&
                   (title.size() == place.size() ||
                    std::string(" :,").find(title[place.size()]) != std::string::npos);
        });
        if (!found) missing.push_back(place);
    }
    return missing;
}

Strings all_titles() {
    Strings all;
    for (const std::string& file : test_files::below("tests/", {".cpp"})) {
        CAPTURE(file);
        const Read read = titles(test_files::file_text(test_files::root + file));
        for (const std::string& problem : read.problems) FAIL_CHECK(problem);
        all.insert(all.end(), read.found.begin(), read.found.end());
    }
    return all;
}

}  // namespace

TEST_CASE("titles: every cited place of a source has a test named after it") {
    const Strings all = all_titles();
    std::size_t cited = 0;
    for (const std::string& file : test_files::below("include/caseload/formulas/", {".hpp"})) {
        CAPTURE(file);
        const Read read = citations(test_files::file_text(test_files::root + file));
        for (const std::string& problem : read.problems) FAIL_CHECK(problem);
        for (const std::string& place : untested(read.found, all))
            FAIL_CHECK("no test is named: " << place);
        cited += read.found.size();
    }
    CHECK(cited > 100);
}

TEST_CASE("titles: CTest runs every test case, and each once") {
    const Strings all = all_titles();
    CHECK(all.size() > 200);
    for (const std::string& problem : title_problems(all)) FAIL_CHECK(problem);
    // Those it calls long are among them.
    std::size_t called_long = 0;
    for (const std::string& line :
         test_files::lines(test_files::file_text(test_files::root + "tests/long_tests.cmake"))) {
        if (line.rfind("  \"", 0) != 0) continue;
        const std::string title = line.substr(3, line.size() - 4);
        CAPTURE(title);
        CHECK(std::find(all.begin(), all.end(), title) != all.end());
        ++called_long;
    }
    CHECK(called_long > 20);
}

TEST_CASE("titles: the checks find what they are for") {
    const Read places = citations(
        "/// Source   iso-281-2007, 9.3\n/// Source iso-76-2006 4\n"
        "/// Source Booser, page 3\n/// Source a-1, b c\n/// Returns x\n");
    CHECK(places.found == Strings{"iso-281-2007 9.3"});
    CHECK(places.problems.size() == 3);

    const Read names = titles(
        "TEST_CASE(\"a-1 2 one\") {\n    f();\n}\nTEST_CASE(\n    \"two \"\n    \"halves\") {\n}\n"
        "TEST_CASE(name) {\n}\nTEST_CASE_FIXTURE(Type, \"three\") {\n}\n");
    CHECK(names.found == Strings{"a-1 2 one", "two halves"});
    CHECK(names.problems ==
          Strings{"a name that is no literal, line 8", "a name that is no literal, line 10"});

    CHECK(title_problems({"plain", "(0, 1), 50 % and more: fine"}).empty());
    for (const char* bad : {"one; two", "0 < x <= 1]", "[0", "a\\b", ""}) {
        CAPTURE(bad);
        CHECK(title_problems({bad}).size() == 1);
    }
    CHECK(title_problems({"same", "same"}) == Strings{"twice: same"});

    CHECK(untested({"a-1 9.3"}, {"a-1 9.3.1 other", "a-1 9.30", "x a-1 9.3 later"}) ==
          Strings{"a-1 9.3"});
    CHECK(untested({"a-1 9.3"}, {"a-1 9.3 works"}).empty());
    CHECK(untested({"a-1 9.3"}, {"a-1 9.3: works"}).empty());
    CHECK(untested({"a-1 9.3"}, {"a-1 9.3"}).empty());
}

}  // namespace titles_tests
