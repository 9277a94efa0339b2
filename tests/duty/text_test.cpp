// SPDX-License-Identifier: MIT
// Which encoding a log is in, where its text is cut, and characters counted.
#include "duty/text.hpp"

#include "input/letters.hpp"
#include "support.hpp"

#include <string>

namespace caseload::text_tests {

namespace {

duty::Encoding voted(const std::string& head) {
    duty::Windows windows;
    windows.head = head;
    return duty::vote_encoding(windows);
}

}  // namespace

TEST_CASE("log text: UTF-8 cut anywhere stays UTF-8, and what is no character of it is Latin-1") {
    // Two, three and four bytes: Unicode chapter 3, table 3-7.
    const std::string text = "\xC3\x96l,\xE2\x82\xAC,\xF0\x9F\x9A\x97";
    for (std::size_t from = 0; from < text.size(); ++from)
        for (std::size_t count = 1; from + count <= text.size(); ++count) {
            CAPTURE(from);
            CAPTURE(count);
            CHECK(voted(text.substr(from, count)) == duty::Encoding::utf8);
        }
    CHECK(voted("\xD6l,1") == duty::Encoding::latin1);
    // The same table has none of these: an e with accent and a dash in the code page of Windows, a
    // half of a pair, beyond the last character.
    for (const char* none :
         {"\xE0\x80\x96,1", "\xED\xA0\x80,1", "\xF4\x90\x80\x80,1", "\xC0\xAF,1"})
        CHECK(voted(none) == duty::Encoding::latin1);
}

TEST_CASE("letters: columns count characters, not bytes") {
    const std::string text = "\xC3\x96l\xE2\x82\xAC!";
    CHECK(input::count_characters(text) == 4);
    CHECK(input::byte_of_character(text, 0) == 0);
    CHECK(input::byte_of_character(text, 1) == 2);
    CHECK(input::byte_of_character(text, 2) == 3);
    CHECK(input::byte_of_character(text, 3) == 6);
    CHECK(input::byte_of_character(text, 4) == text.size());
    CHECK(input::byte_of_character(text, 99) == text.size());
}

}  // namespace caseload::text_tests
