// SPDX-License-Identifier: MIT
// Serials, words, positions and numbers of parts come from anybody: they are shown, never obeyed,
// and a line end in one makes no line on a screen. They are kept as they are.
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <string>

namespace book_shown_tests {

namespace {

using test_files::has;

// Escape, bell, an 8-bit control (U+009B), delete, a line end that would forge a line of `due`, an
// override of the direction of writing (U+202E) and a line separator (U+2028).
const std::string evil = "A\x1B[31m\x07\xC2\x9B\x7F\nTC-07     NOW, before\xE2\x80\xAE\xE2\x80\xA8";
const std::string in_text_form =
    "A\x1B[31m\x07\xC2\x9B\x7F\\nTC-07     NOW, before\xE2\x80\xAE\xE2\x80\xA8";
const std::string shown =
    "A\\u001B[31m\\u0007\\u009B\\u007F\\u000ATC-07     NOW, before\\u202E\\u2028";

void check_harmless(const std::string& out) {
    CAPTURE(out);
    for (const char c : out)
        CHECK((c == '\n' || (static_cast<unsigned char>(c) >= 0x20 && c != '\x7F')));
    for (const char* obeyed : {"\xC2\x9B", "\xE2\x80\xAE", "\xE2\x80\xA8"})
        CHECK_FALSE(has(out, obeyed));
    CHECK_FALSE(has(out, "\nTC-07"));
}

}  // namespace

TEST_CASE("book shown: control characters of serials, words and parts make no line and no colour") {
    const OwnFolder folder("book_shown");
    const std::string text =
        "caseload book, text form 1\n\n2026-01-01 case " + in_text_form + "\n  id: 1" +
        in_text_form + "\n  program: 0\n  setup: \n\n2026-01-02 part " + in_text_form +
        "\n  id: b\n  program: 0\n  setup: \n  position = bearing.x" + in_text_form + "\n  id = P" +
        in_text_form + "\n  set = S" + in_text_form + "\n\n2026-01-03 finding " + in_text_form +
        "\n  id: c\n  program: 0\n  setup: \n  position = bearing.x" + in_text_form +
        "\n  mode = scuffing\n  words = W" + in_text_form + "\n";
    folder.write("all.txt", text);
    const auto book = [&](const std::string& arguments) {
        return run_program_as_user("book " + arguments + " --book " + folder.path("shop.book"));
    };
    REQUIRE(book("import " + folder.path("all.txt")).code == 0);
    for (const char* arguments : {"due", "show", "show --records", "due --json", "show --json"}) {
        CAPTURE(arguments);
        const Run run = book(arguments);
        CHECK(run.code == 0);
        check_harmless(run.out);
        if (!has(arguments, "json")) CHECK(has(run.out, shown));
    }
    CHECK(has(book("due").out, "W" + shown.substr(0, 20)));
    // Messages: the same.
    for (const std::string& arguments :
         {std::string("due B"), std::string("fleet 'bearing.\x1B\nTC-07'"),
          std::string("add oil '\nTC-07'"), "import " + folder.path("all.txt")}) {
        CAPTURE(arguments);
        check_harmless(book(arguments).out);
    }
    check_harmless(book("add oil '" + evil + "' --date 2026-01-04").out);
    CHECK(has(book("add look '" + evil + "' --date 2026-01-05").out, "look " + shown));
    // What comes out is what went in.
    REQUIRE(book("export " + folder.path("again.txt")).code == 0);
    CHECK(has(file_text(folder.path("again.txt")), "words = W" + in_text_form + "\n"));
    REQUIRE(book("export " + folder.path("again.csv")).code == 0);
    CHECK(has(file_text(folder.path("again.csv")), "W" + evil));
}

TEST_CASE("book shown: a line end in a serial starts no line in the exported setup") {
    const OwnFolder folder("book_shown_readings");
    const auto book = [&](const std::string& arguments) {
        return run_program_as_user("book " + arguments + " --book " + folder.path("shop.book"));
    };
    const std::string serial = "'A\nvehicle.mass = \"9 kg\"'";
    REQUIRE(book("add case " + serial + " --date 2026-01-01").code == 0);
    REQUIRE(
        book("add event " + serial + " " + test_files::light_file + " --date 2026-01-02").code ==
        0);
    REQUIRE(
        book("add reading " + serial +
             " scavenge-line \"118 degC\" --leg loop --ambient \"31 degC\" --at-pace \"50 min\" "
             "--cooler off --date 2026-01-03")
            .code == 0);
    REQUIRE(book("export --readings " + serial + " " + folder.path("a.toml")).code == 0);
    CHECK_FALSE(has(file_text(folder.path("a.toml")), "\nvehicle.mass = \"9 kg\""));
    CHECK(run_program_as_user("calibrate " + folder.path("a.toml")).code == 0);
}

}  // namespace book_shown_tests
