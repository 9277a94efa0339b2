// SPDX-License-Identifier: MIT
// The service book from the command line: what is refused, and exit codes.
#include "files.hpp"
#include "held.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <filesystem>
#include <fstream>
#include <string>

namespace book_program_tests {

namespace {

using test_files::root;

/// A book in a folder of its own.
class Bench : public OwnFolder {
public:
    using OwnFolder::OwnFolder;
    [[nodiscard]] Run book(const std::string& arguments) const {
        return run_program_as_user("book " + arguments + " --book " + path("shop.book"));
    }
};

using test_files::has;

}  // namespace

TEST_CASE("book: a date in the future is refused by every way in") {
    const Bench bench("book_future");
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
    const Run late = bench.book("add oil A --date 2926-01-01");
    CHECK(late.code == 2);
    CHECK(has(late.out, "2926-01-01 lies in the future"));
    const Run added = bench.book("add oil A --date 2026-01-02");
    const std::string id = added.out.substr(6, added.out.find(':') - 6);
    CHECK(bench.book("correct " + id + " --with date=2926-01-01").code == 2);
    CHECK(bench.book("export " + bench.path("all.txt")).code == 0);
    std::string text = file_text(bench.path("all.txt"));
    text.replace(text.find("2026-01-02"), 4, "2926");
    std::ofstream(bench.path("all.txt"), std::ios::binary) << text;
    CHECK(bench.book("import " + bench.path("all.txt")).code == 2);
}

TEST_CASE("book: a correction or an import that names what is not there is refused") {
    const Bench bench("book_references");
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
    const Run added = bench.book("add part A bearing.input_front B-1 --date 2026-01-02");
    REQUIRE(added.code == 0);
    const std::string id = added.out.substr(6, added.out.find(':') - 6);
    const Run typo = bench.book("correct " + id + " --with positoin=bearing.output_rear");
    CHECK(typo.code == 2);
    CHECK(has(typo.out, "--with positoin: a part has no such key"));
    CHECK(has(typo.out, "did you mean position?"));
    CHECK(bench.book("correct " + id + " --with position=bearing.output_rear").code == 0);
    CHECK(bench.book("export " + bench.path("all.txt")).code == 0);
    const std::string text = file_text(bench.path("all.txt"));
    const auto import_with = [&](const std::string& from, const std::string& to) {
        std::string other = text;
        for (std::size_t at = 0; (at = other.find(from, at)) != std::string::npos; at += to.size())
            other.replace(at, from.size(), to);
        std::ofstream(bench.path("other.txt"), std::ios::binary) << other;
        return run_program_as_user("book import " + bench.path("other.txt") + " --book " +
                                   bench.path("new.book"));
    };
    const Run lost = import_with("record = " + id, "record = nothing-1");
    CHECK(lost.code == 2);
    CHECK(has(lost.out, "there is no record \"nothing-1\""));
    CHECK(import_with("record = " + id, "record = " + id).code == 0);
}

TEST_CASE("book: replay ends with 1 when a number differs, with 0 when all agree") {
    const Bench bench("book_replay");
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
    const Run added =
        bench.book("add event A " + root + "/docs/examples/light.toml --date 2026-01-02");
    REQUIRE(added.code == 0);
    CHECK(bench.book("replay").code == 0);
    const std::size_t at = added.out.rfind("added ") + 6;
    const std::string id = added.out.substr(at, added.out.find(':', at) - at);
    CHECK(bench.book("correct " + id + " --with driving_h=3").code == 0);
    const Run other = bench.book("replay");
    CHECK(other.code == 1);
    CHECK(has(other.out, "1 number differs"));
}

TEST_CASE("book: an export never takes the place of the book itself") {
    const Bench bench("book_itself");
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
    const std::string before = file_text(bench.path("shop.book"));
    const Run over = bench.book("export --force " + bench.path("shop.book"));
    CHECK(over.code == 2);
    CHECK(has(over.out, "this file is read by this run"));
    CHECK(file_text(bench.path("shop.book")) == before);
    CHECK(bench.book("show").code == 0);
}

TEST_CASE("book: export and backup overwrite nothing unasked, and a backup is a book") {
    const Bench bench("book_export");
    CHECK(bench.book("add case A --date 2026-01-01").code == 0);
    CHECK(bench.book("export " + bench.path("all.csv")).code == 0);
    CHECK(bench.book("export " + bench.path("all.csv")).code == 5);
    CHECK(bench.book("export --force " + bench.path("all.csv")).code == 0);
    CHECK(bench.book("backup " + bench.path("copy.book")).code == 0);
    CHECK(bench.book("backup " + bench.path("copy.book")).code == 5);
    const Run copy = run_program_as_user("book show --records --book " + bench.path("copy.book"));
    CHECK(copy.code == 0);
    CHECK(copy.out == bench.book("show --records").out);
}

TEST_CASE("book: its text form and CSV are read like the book itself, and never written into") {
    const Bench bench("book_as_text");
    const std::string setup = test_files::light_file;
    REQUIRE(bench.book("add case A --date 2026-01-01").code == 0);
    REQUIRE(bench.book("add event A " + setup + " --date 2026-01-02").code == 0);
    REQUIRE(bench.book("add finding A bearing.output_rear abrasive-wear --date 2026-01-03").code ==
            0);
    REQUIRE(bench.book("add part A bearing.output_rear B-1 --date 2026-01-04").code == 0);
    REQUIRE(bench
                .book("add reading A scavenge-line \"118 degC\" --leg loop --ambient \"31 degC\" "
                      "--at-pace \"50 min\" --cooler off --date 2026-01-04")
                .code == 0);
    for (const std::string name : {"all.txt", "all.csv"})
        REQUIRE(bench.book("export " + bench.path(name)).code == 0);
    const std::string text = file_text(bench.path("all.txt"));
    std::string windows;
    for (const char c : text) windows += c == '\n' ? "\r\n" : std::string(1, c);
    std::ofstream(bench.path("WINDOWS.TXT"), std::ios::binary) << windows;
    const auto of = [&](const std::string& name, const std::string& arguments) {
        return run_program_as_user("book " + arguments + " --book " + bench.path(name));
    };
    for (const std::string name : {"all.txt", "all.csv", "WINDOWS.TXT"}) {
        CAPTURE(name);
        for (const std::string arguments :
             {"due", "due A --json", "show", "show --json", "show --records", "fleet", "replay"}) {
            CAPTURE(arguments);
            const Run read = of(name, arguments);
            CHECK(read.code == 0);
            CHECK(read.out == bench.book(arguments).out);
        }
        for (const std::string form : {".txt", ".csv"}) {
            const std::string again = bench.path("again" + form);
            CHECK(of(name, "export --force " + again).code == 0);
            CHECK(file_text(again) == file_text(bench.path("all" + form)));
        }
        CHECK(of(name, "export --force --readings A " + bench.path("a.toml")).code == 0);
        CHECK(has(file_text(bench.path("a.toml")), "118 degC"));
        CHECK(has(of(name, "export --force " + bench.path(name)).out,
                  "this file is read by this run"));
        const std::string before = file_text(bench.path(name));
        for (const std::string& arguments :
             {std::string("add oil A"), std::string("add case B"),
              std::string("correct x --strike"), "import " + bench.path("all.csv"),
              "merge " + bench.path("shop.book"), "backup " + bench.path("copy.book")}) {
            CAPTURE(arguments);
            const Run written = of(name, arguments);
            CHECK(written.code == 2);
            CHECK(has(written.out, name + ": a book in text form is only read"));
            CHECK(has(written.out, "caseload book import "));
            CHECK(file_text(bench.path(name)) == before);
        }
    }
    CHECK_FALSE(std::filesystem::exists(bench.path("copy.book")));
    CHECK(has(bench.book("merge " + bench.path("all.txt")).out, "caseload book import "));
    CHECK(of("none.txt", "due").code == 5);
    // Checked as import checks it.
    std::string moved = text;
    moved.replace(moved.find("position = bearing.output_rear"), 30,
                  "position = bearing.ouput_rear ");
    std::ofstream(bench.path("moved.txt"), std::ios::binary) << moved;
    const Run wrong = of("moved.txt", "due");
    CHECK(wrong.code == 2);
    CHECK(has(wrong.out, "no position \"bearing.ouput_rear \" in A"));
    std::string lost = text;
    lost.replace(lost.find(" case A\n"), 8, " case B\n");
    std::ofstream(bench.path("lost.txt"), std::ios::binary) << lost;
    CHECK(has(of("lost.txt", "show").out, "there is no case \"A\""));
}

TEST_CASE("book: a large book is read once in memory, and a record added without it") {
    const Bench bench("book_large");
    std::string text = "caseload book, text form 1\n";
    const int cases = 100;
    for (int c = 0; c < cases; ++c)
        text += "\n2026-01-01 case C" + std::to_string(c) + "\n  id: c-" + std::to_string(c) +
                "\n  program: 0\n  setup: \n";
    for (int i = 0; i < 20000; ++i) {
        text += "\n2026-01-02 finding C" + std::to_string(i % cases) + "\n  id: f-" +
                std::to_string(i) + "\n  program: 0\n  setup: \n  position = case\n  mode = good\n";
        for (int k = 0; k < 12; ++k)
            text += "  note-" + std::to_string(k) + " = as a book holds of many an event\n";
    }
    bench.write("all.txt", text);
    REQUIRE(bench.book("import " + bench.path("all.txt")).code == 0);
    const std::string book = bench.path("shop.book");
    const ::Held due = run_held({"book", "due", "--book", book});
    CHECK(due.code == 0);
    CHECK(due.most_KiB < 64 * 1024);
    const ::Held added = run_held({"book", "add", "oil", "C7", "--book", book});
    CHECK(added.code == 0);
    CHECK(added.most_KiB < 20 * 1024);
    CHECK(has(bench.book("show --records").out, " oil      C7"));
}

TEST_CASE("book: a record that a correction moved to another case counts there for what is added") {
    const Bench bench("book_moved");
    const std::string setup = root + "/docs/examples/light.toml";
    for (const char* serial : {"A", "B"})
        REQUIRE(bench.book(std::string("add case ") + serial + " --date 2026-01-01").code == 0);
    const Run event = bench.book("add event A " + setup + " --date 2026-02-01");
    const std::size_t at = event.out.rfind("added ") + 6;
    const std::string id = event.out.substr(at, event.out.find(':', at) - at);
    const std::string reading =
        " scavenge-line \"80 degC\" --leg loop --ambient \"20 degC\" "
        "--at-pace \"50 min\" --date 2026-02-02";
    const Run before = bench.book("add reading B" + reading);
    CHECK(before.code == 2);
    CHECK(has(before.out, "no event of B in the book yet"));
    REQUIRE(bench.book("correct " + id + " --with case=B --date 2026-02-02").code == 0);
    // The event, its day, its positions and its setup are B's now, and A has none.
    const Run early = bench.book("add oil B --date 2026-01-15");
    CHECK(early.code == 2);
    CHECK(has(early.out, "2026-01-15 lies before the event of 2026-02-01 in the book (" + id));
    const Run nowhere = bench.book("add finding B bearing.input_reer good --date 2026-02-03");
    CHECK(nowhere.code == 2);
    CHECK(has(nowhere.out, "did you mean bearing.input_rear?"));
    const Run after = bench.book("add reading B" + reading);
    CAPTURE(after.out);
    CHECK(after.code == 0);
    CHECK(bench.book("add oil A --date 2026-01-15").code == 0);
    CHECK(bench.book("add reading A" + reading).code == 2);
}

TEST_CASE("book: nothing is added to a damaged book") {
    const Bench bench("book_damaged");
    REQUIRE(bench.book("add case A --date 2026-01-01").code == 0);
    for (const char* words : {"one", "two"})
        REQUIRE(bench.book(std::string("add oil A --date 2026-01-02 --words ") + words).code == 0);
    std::string bytes = file_text(bench.path("shop.book"));
    const std::size_t at = bytes.find("words = one");
    REQUIRE(at != std::string::npos);
    bytes[at + 8] = 'a';
    bench.write("shop.book", bytes);
    for (const char* more : {"add oil A", "add case B", "show"}) {
        const Run refused = bench.book(more);
        CHECK(refused.code == 5);
        CHECK(has(refused.out, "is damaged"));
    }
    CHECK(file_text(bench.path("shop.book")) == bytes);
}

}  // namespace book_program_tests
