// SPDX-License-Identifier: MIT
// What is somebody else's is named, and examples are nobody's.
#include "files.hpp"

#include <doctest/doctest.h>

#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace provenance_tests {

namespace {

using test_files::file_text;
using test_files::has;
using test_files::root;

/// First part of an included header's path to the software it is of; standard headers have none.
const std::map<std::string, std::string>& software() {
    static const std::map<std::string, std::string> all{
        {"boost/", "Boost"},           {"fmt/", "fmt"},   {"toml++/", "toml++"},
        {"fast_float/", "fast_float"}, {"CLI/", "CLI11"}, {"sqlite3.h", "SQLite"}};
    return all;
}

/// Included headers that are neither the project's nor of the languages or systems.
std::set<std::string> foreign_headers(const std::string& text) {
    static const std::regex form("#\\s*include\\s*<([^>]+)>");
    static const std::set<std::string> systems{"sys/",      "unistd.h",   "fcntl.h", "math.h",
                                               "windows.h", "shellapi.h", "io.h",    "emmintrin.h"};
    std::set<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), form), end; at != end; ++at) {
        const std::string header = at->str(1);
        const std::string first = header.substr(0, header.find('/') + 1);
        const std::string key = first.empty() ? header : first;
        const bool standard = first.empty() && !has(header, ".");
        if (!standard && key != "caseload/" && systems.count(key) == 0) found.insert(key);
    }
    return found;
}

}  // namespace

TEST_CASE("provenance: THIRD-PARTY.txt names every software whose headers the source includes") {
    const std::string notices = file_text(root + "THIRD-PARTY.txt");
    std::set<std::string> seen;
    for (const std::string folder : {"src", "include/caseload"})
        for (const std::string& file : test_files::below(folder, {".cpp", ".hpp"}))
            for (const std::string& header : foreign_headers(file_text(root + file))) {
                CAPTURE(file);
                CAPTURE(header);
                REQUIRE(software().count(header) == 1);
                CHECK(has(notices, "\n" + software().at(header)));
                seen.insert(header);
            }
    CHECK(seen.size() == software().size());
    // What the compilers of the other systems link.
    for (const char* name : {"GNU C library", "libstdc++", "winpthreads", "mingw-w64", "Emscripten",
                             "musl", "libc++", "compiler-rt", "dlmalloc"})
        CHECK(has(notices, name));
    CHECK(foreign_headers("#include <vector>\n#include \"a/b.hpp\"\n#include <x/y.hpp>\n"
                          "#include <caseload/a.hpp>\n#include <z.h>\n") ==
          std::set<std::string>{"x/", "z.h"});
}

TEST_CASE("provenance: every example says that it is fictional, in its first line") {
    int examples = 0;
    for (const std::string& file : test_files::below("docs/examples", {".toml"})) {
        CAPTURE(file);
        CHECK(has(test_files::lines(file_text(root + file)).front(), "Fictional"));
        ++examples;
    }
    CHECK(examples >= 6);
}

TEST_CASE("provenance: sources can be looked up, courses are judged at a pace in km per hour") {
    const std::regex unnamed(
        "\\b(an? (open|student|stored|haulage|road-load|lecture)|open-source|"
        "lecture|open library|course script)\\b");
    CHECK(std::regex_search("seen in an open-source library", unnamed));
    CHECK(std::regex_search("a road-load lecture", unnamed));
    std::vector<std::string> files = test_files::below("tables/courses", {".toml"});
    for (const std::string& file : files) {
        CAPTURE(file);
        const std::string text = file_text(root + file);
        CHECK(has(text, "judgement"));
        CHECK(std::regex_search(text, std::regex("\npace = \\[\"[0-9.]+ km/h\"")));
    }
    files.insert(files.end(), {"tables/sources.toml", "tables/published.toml"});
    for (const std::string& file : files)
        for (const std::string& line : test_files::lines(file_text(root + file))) {
            CAPTURE(line);
            CHECK_FALSE(std::regex_search(line, unnamed));
        }
}

}  // namespace provenance_tests
