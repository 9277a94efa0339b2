// SPDX-License-Identifier: MIT
// docs/method.md names every place the formula headers cite, and no place or function that is gone.
#include "citations.hpp"
#include "formula_use.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace method_tests {

namespace {

using Strings = std::vector<std::string>;

const std::string formulas = "include/caseload/formulas/";

/// Every match of a form's first part, each once.
std::set<std::string> all_of(const std::string& text, const std::regex& form) {
    std::set<std::string> found;
    for (std::sregex_iterator at(text.begin(), text.end(), form), end; at != end; ++at)
        found.insert(at->str(1));
    return found;
}

/// Places cited in the text as [key place].
std::set<std::string> told(const std::string& text) {
    static const std::regex form("\\[([a-z0-9-]+ [A-Za-z0-9.-]+)\\]");
    return all_of(text, form);
}

/// `space::name` in the text.
std::set<std::string> named(const std::string& text) {
    static const std::regex form("`([a-z0-9_]+::[A-Za-z0-9_]+)`");
    return all_of(text, form);
}

Strings missing(const std::set<std::string>& wanted, const std::set<std::string>& from) {
    Strings gone;
    std::set_difference(wanted.begin(), wanted.end(), from.begin(), from.end(),
                        std::back_inserter(gone));
    return gone;
}

}  // namespace

TEST_CASE("method: docs/method.md has every cited place and every function of the formulas") {
    const std::string text = test_files::file_text(test_files::root + "docs/method.md");
    std::set<std::string> places;
    std::set<std::string> functions;
    for (const std::string& file : test_files::below(formulas, {".hpp"})) {
        const std::string header = test_files::file_text(test_files::root + file);
        const Strings cited = test_files::citations(header).found;
        places.insert(cited.begin(), cited.end());
        const std::set<std::string> here = test_files::declared(header);
        functions.insert(here.begin(), here.end());
    }
    CHECK(places.size() > 100);
    CHECK(functions.size() > 100);
    for (const std::string& place : missing(places, told(text)))
        FAIL_CHECK("docs/method.md does not have [" << place << "]");
    for (const std::string& place : missing(told(text), places))
        FAIL_CHECK("docs/method.md has [" << place << "], which no header cites");
    for (const std::string& name : missing(functions, named(text)))
        FAIL_CHECK("docs/method.md does not name " << name);
    for (const std::string& name : missing(named(text), functions))
        FAIL_CHECK("docs/method.md names " << name << ", which no header declares");
}

TEST_CASE("method: the checks find what they are for") {
    CHECK(told("[a-1 5.3] [a-1 5.3h] (a-1 6) [link](b.md) [a b c]") ==
          std::set<std::string>{"a-1 5.3", "a-1 5.3h"});
    CHECK(named("`a_1::f_N` a::g `h` `b::K`") == std::set<std::string>{"a_1::f_N", "b::K"});
    CHECK(test_files::declared(
              "namespace caseload::a {\n[[nodiscard]] std::set<int> f_N(int);\nint g();\n"
              "namespace caseload::b {\n[[nodiscard]] double h(\n") ==
          std::set<std::string>{"a::f_N", "b::h"});
    CHECK(missing({"a", "b"}, {"b", "c"}) == Strings{"a"});
}

}  // namespace method_tests
