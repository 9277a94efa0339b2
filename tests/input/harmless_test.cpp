// SPDX-License-Identifier: MIT
#include "input/harmless.hpp"

#include "caseload/input.hpp"
#include "examples.hpp"
#include "input/value.hpp"
#include "refused.hpp"
#include "show/html.hpp"
#include "show/json_value.hpp"
#include "support.hpp"

#include <cstdio>
#include <string>

namespace caseload::harmless_tests {

using namespace input;

namespace {

/// A character as UTF-8 (Unicode chapter 3, table 3-6), apart from the code under test.
std::string utf8(unsigned code) {
    if (code < 0x80) return std::string(1, static_cast<char>(code));
    if (code < 0x800)
        return {static_cast<char>(0xC0U | (code >> 6U)), static_cast<char>(0x80U | (code & 0x3FU))};
    return {static_cast<char>(0xE0U | (code >> 12U)),
            static_cast<char>(0x80U | ((code >> 6U) & 0x3FU)),
            static_cast<char>(0x80U | (code & 0x3FU))};
}

}  // namespace

TEST_CASE(
    "harmless: characters that a terminal, browser or editor obeys are printed as escapes, the "
    "rest stays") {
    const auto obeyed = [](unsigned code) {
        return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x61C || code == 0x200E ||
               code == 0x200F || (code >= 0x2028 && code <= 0x202E) ||
               (code >= 0x2066 && code <= 0x2069);
    };
    for (unsigned code = 0; code < 0xFFFF; ++code) {
        if (code >= 0xD800 && code < 0xE000) continue;  // no characters
        const std::string text = "a" + utf8(code) + "b";
        CAPTURE(code);
        if (!obeyed(code)) {
            CHECK(harmless(text) == text);
            CHECK(is_harmless(text));
            continue;
        }
        CHECK(!is_harmless(text));
        CHECK(harmless_in_place(text) == (code == '\t' ? "a b" : "a?b"));
        char written[16];
        std::snprintf(written, sizeof written, "a\\u%04Xb", code);
        CHECK(harmless(text) == (code == '\t' ? "a b" : written));
        CHECK(harmless_lines(text) == (code == '\t' || code == '\n' ? text : written));
    }
    CHECK(harmless("\xF0\x9F\x94\xA7") == "\xF0\x9F\x94\xA7");
}

TEST_CASE("harmless: each byte that is not UTF-8 becomes U+FFFD") {
    CHECK(harmless("a\x9B\x80z") == "a\xEF\xBF\xBD\xEF\xBF\xBDz");
    CHECK(harmless("\xE2\x80") == "\xEF\xBF\xBD\xEF\xBF\xBD");  // cut off within a character
    CHECK(harmless("\xC2") == "\xEF\xBF\xBD");
    CHECK(harmless("\xC0\x9B") == "\xEF\xBF\xBD\xEF\xBF\xBD");  // a control, two bytes too long
    CHECK(!is_harmless("\xFF"));
}

TEST_CASE("harmless: JSON and TOML read back what was escaped, HTML shows it") {
    const std::string text = "a\xC2\x9B\xE2\x80\xAEz";
    CHECK(json_value::text(text) == "\"a\\u009B\\u202Ez\"");
    CHECK(escaped(text) == "a\\u009B\\u202Ez");
    CHECK(input::quoted(text) == "\"a\\u009B\\u202Ez\"");
    const Leaves read = parse_leaves("key = " + input::quoted(text + "\"\\\x1B\t"), "test");
    CHECK(read.at("key").value.text == text + "\"\\\x1B\t");
}

TEST_CASE("harmless: a title that turns the direction of writing is refused") {
    for (const char* mark : {"\\u202E", "\\u009B", "\\u2028", "\xE2\x81\xA6"}) {
        CAPTURE(mark);
        const Error error = refused_by([&] {
            (void)read_setup(
                std::string("caseload = 1\nbase = \"pattern:two-gear-185mm\"\ntitle = \"a") + mark +
                    "b\"\n",
                "s.toml", {});
        });
        CHECK(std::string(error.what()).find("direction of writing") != std::string::npos);
    }
}

TEST_CASE("harmless: a long text is cut for an echo between characters, not bytes") {
    CHECK(shortened_to(3, "abc") == "abc");
    CHECK(shortened_to(3, "abcd") == "abc...");
    CHECK(shortened_to(2, "\xC3\xA4\xC3\xB6\xC3\xBC") == "\xC3\xA4\xC3\xB6...");
    CHECK(shortened_to(2, "\xFF\xFF\xFF") == "\xFF\xFF...");
}

}  // namespace caseload::harmless_tests
