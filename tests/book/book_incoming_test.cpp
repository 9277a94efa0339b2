// SPDX-License-Identifier: MIT
// What comes into a book from files and other books, and what goes out for other programs.
#include "caseload/book/state.hpp"
#include "caseload/error.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace caseload::book_incoming_tests {

namespace {

using test_files::root;

/// Books in a folder of their own.
class Shelf : public OwnFolder {
public:
    using OwnFolder::OwnFolder;
    [[nodiscard]] Run book(const std::string& arguments,
                           const std::string& file = "shop.book") const {
        return run_program_as_user("book " + arguments + " --book " + path(file));
    }
};

using test_files::has;
using test_files::light_file;

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

book::Record entry(const std::string& id, const std::string& date, const std::string& kind,
                   const std::vector<std::pair<std::string, std::string>>& fields = {}) {
    return {id, date, kind, "A", "", "0", fields};
}

}  // namespace

TEST_CASE(
    "book incoming: dates that run back are refused at their line, and accepted with --late") {
    const Shelf shelf("book_order");
    REQUIRE(shelf.book("add case A --date 2026-01-01").code == 0);
    REQUIRE(shelf.book("add oil A --date 2026-01-05").code == 0);
    REQUIRE(shelf.book("add look A --date 2026-01-09").code == 0);
    REQUIRE(shelf.book("export " + shelf.path("all.txt")).code == 0);
    const std::string text = file_text(shelf.path("all.txt"));
    shelf.write("back.txt", replaced(text, "2026-01-09 look", "2026-01-04 look"));
    const Run back = shelf.book("import " + shelf.path("back.txt"), "new.book");
    CHECK(back.code == 2);
    CHECK(has(back.out, "back.txt:13:1: error: record "));
    CHECK(has(back.out, "2026-01-04 lies before the oil of 2026-01-05"));
    CHECK(has(back.out, "add --late"));
    CHECK(has(shelf.book("import --late " + shelf.path("back.txt"), "new.book").out,
              "3 of 3 records added"));
    // What was written up late goes out in the order of the days, and comes in without a word.
    REQUIRE(shelf.book("add opening A --date 2026-01-03 --late").code == 0);
    REQUIRE(shelf.book("export " + shelf.path("late.txt")).code == 0);
    CHECK(shelf.book("import " + shelf.path("late.txt"), "third.book").code == 0);
    REQUIRE(shelf.book("export " + shelf.path("late.csv")).code == 0);
    CHECK(shelf.book("import " + shelf.path("late.csv"), "fourth.book").code == 0);
    CHECK(shelf.book("show", "third.book").out == shelf.book("show").out);
    CHECK(shelf.book("show", "fourth.book").out == shelf.book("show").out);
    // Into a book that went on meanwhile.
    REQUIRE(shelf.book("add oil A --date 2026-02-01", "new.book").code == 0);
    CHECK(shelf.book("import " + shelf.path("all.txt"), "new.book").code == 2);
}

TEST_CASE("book incoming: a part or finding where the case has no such place is refused") {
    const Shelf shelf("book_positions");
    REQUIRE(shelf.book("add case A --date 2026-01-01").code == 0);
    REQUIRE(shelf.book("add event A " + light_file + " --date 2026-01-02").code == 0);
    REQUIRE(shelf.book("add part A bearing.output_rear B-1 --date 2026-01-03").code == 0);
    REQUIRE(shelf.book("add finding A bearing.input_front abrasive-wear --date 2026-01-04").code ==
            0);
    REQUIRE(shelf.book("export " + shelf.path("all.txt")).code == 0);
    const std::string text = file_text(shelf.path("all.txt"));
    shelf.write("part.txt",
                replaced(text, "position = bearing.output_rear", "position = bearing.ouput_rear"));
    const Run part = shelf.book("import " + shelf.path("part.txt"), "new.book");
    CHECK(part.code == 2);
    CHECK(has(part.out, "no position \"bearing.ouput_rear\" in A"));
    CHECK(has(part.out, "did you mean bearing.output_rear?; nothing was added"));
    shelf.write("found.txt",
                replaced(text, "position = bearing.input_front", "position = wheel.left"));
    CHECK(has(shelf.book("import " + shelf.path("found.txt"), "new.book").out,
              "no position \"wheel.left\" in A"));
    shelf.write("case.txt", replaced(text, "position = bearing.input_front", "position = case"));
    CHECK(shelf.book("import " + shelf.path("case.txt"), "new.book").code == 2);
    CHECK(shelf.book("import " + shelf.path("all.txt"), "new.book").code == 0);
    CHECK(shelf.book("add part A bearing.ouput_rear B-2 --date 2026-01-05").code == 2);
    CHECK(shelf.book("add finding A case noise --date 2026-01-05").code == 0);
}

TEST_CASE("book incoming: a case begun in two books becomes one case on merge, with a note") {
    const Shelf shelf("book_twice");
    REQUIRE(shelf.book("add case A --date 2026-01-01 --words shop").code == 0);
    REQUIRE(shelf.book("add oil A --date 2026-01-02").code == 0);
    REQUIRE(shelf.book("add case A --date 2026-01-03 --words trailer", "trailer.book").code == 0);
    REQUIRE(shelf.book("add event A " + light_file + " --date 2026-01-04", "trailer.book").code ==
            0);
    const Run merged = shelf.book("merge " + shelf.path("trailer.book"));
    CHECK(merged.code == 0);
    CHECK(has(merged.out, "3 of 3 records added"));
    CHECK(has(merged.out, "case A: begun in both; taken as one case"));
    const Run shown = shelf.book("show");
    CHECK(has(shown.out, "A: 1 event,"));
    CHECK(shown.out.find("A: 1 event,") == shown.out.rfind("A: "));
    // Both records stay, and the same again adds and says nothing.
    const std::string records = shelf.book("show --records").out;
    CHECK(records.find(" case ") != records.rfind(" case "));
    const Run again = shelf.book("merge " + shelf.path("trailer.book"));
    CHECK(has(again.out, "0 of 3 records added"));
    CHECK_FALSE(has(again.out, "begun in both"));
    // A typo names the case once.
    const Run typo = shelf.book("due B");
    CHECK(typo.code == 2);
    CHECK_FALSE(has(typo.out, "A, A"));
    // The shop's own new case beside the trailer's of other days: no order between two books.
    REQUIRE(shelf.book("add look A --date 2026-01-02", "trailer.book").code == 2);
    REQUIRE(shelf.book("add look A --date 2026-01-03 --late", "trailer.book").code == 0);
    CHECK(has(shelf.book("merge " + shelf.path("trailer.book")).out, "1 of 4 records added"));
}

TEST_CASE("book incoming: corrections count by their day, however the books came together") {
    const book::Records records{
        entry("a", "2026-01-01", "case"), entry("b", "2026-01-02", "oil"),
        entry("d", "2026-01-09", "correct", {{"record", "b"}, {"date", "2026-01-05"}}),
        entry("c", "2026-01-08", "correct", {{"record", "b"}, {"date", "2026-01-04"}})};
    CHECK(book::corrected(records).back().date == "2026-01-05");
    CHECK(book::corrected(book::by_date(records)) == book::corrected(records));
    const Shelf shelf("book_corrections");
    REQUIRE(shelf.book("add case A --date 2026-01-01").code == 0);
    const Run oil = shelf.book("add oil A --date 2026-01-02");
    const std::string id = oil.out.substr(6, oil.out.find(':') - 6);
    REQUIRE(shelf.book("correct " + id + " --with date=2026-01-03 --date 2026-01-09").code == 0);
    const Run before = shelf.book("correct " + id + " --with date=2026-01-04 --date 2026-01-08");
    CHECK(before.code == 2);
    CHECK(has(before.out, "2026-01-08 lies before the correction of 2026-01-09"));
}

TEST_CASE("book readings: a reading entered with leg, ambient and time is exported for calibrate") {
    const Shelf shelf("book_readings");
    REQUIRE(shelf.book("add case A --date 2026-01-01").code == 0);
    const std::string oil =
        "add reading A scavenge-line \"128 degC\" --leg loop --ambient "
        "\"31 degC\" --at-pace \"50 min\" --cooler off --date ";
    const Run early = shelf.book(oil + "2026-01-02");
    CHECK(early.code == 2);
    CHECK(has(early.out, "no event of A in the book yet"));
    REQUIRE(shelf.book("add event A " + light_file + " --date 2026-01-02").code == 0);
    const Run none = shelf.book("export --readings A " + shelf.path("a.toml"));
    CHECK(none.code == 2);
    CHECK(has(none.out, "no reading of A that calibrate takes"));
    REQUIRE(shelf.book(oil + "2026-01-03").code == 0);
    REQUIRE(
        shelf
            .book("add reading A housing-below-oil \"104 degC\" --clear \"110 degC\" --leg loop "
                  "--ambient \"31 degC\" --at-pace \"50 min\" --cooler off --date 2026-01-03")
            .code == 0);
    CHECK(shelf.book("add reading A oil-bath \"90 degC\" --date 2026-01-03").code == 0);  // a note
    CHECK(shelf.book("add reading A end-play \"0.12 mm\" --date 2026-01-03").code == 0);
    const auto refused = [&](const std::string& arguments, const std::string& words) {
        const Run run = shelf.book("add reading A " + arguments + " --date 2026-01-04");
        CAPTURE(run.out);
        CHECK(run.code == 2);
        CHECK(has(run.out, words));
    };
    refused("oil-bath \"90 degC\" --leg lop --ambient \"31 degC\" --at-pace \"50 min\"",
            "did you mean \"loop\"?");
    refused("oil-bath 90 --leg loop --ambient \"31 degC\" --at-pace \"50 min\"", "temp = \"90\"");
    refused("oil-bath \"20 degC\" --leg loop --ambient \"31 degC\" --at-pace \"50 min\"",
            "20 degC at pace is not above the ambient");
    refused("oil-bath \"90 degC\" --leg loop", "ambient is missing");
    const Run out = shelf.book("export --readings A " + shelf.path("a.toml"));
    REQUIRE(out.code == 0);
    CHECK(has(out.out, "2 readings; then: caseload calibrate "));
    const Run found = run_program_as_user("calibrate " + shelf.path("a.toml"));
    CHECK(found.code == 0);
    CHECK(has(found.out, "2 temperatures of 2 readings"));
    CHECK(has(found.out, "book-2026-01-03-2"));
    // Under another setup since: those readings are not of it.
    REQUIRE(
        shelf.book("add event A " + root + "/docs/examples/trailer.toml --date 2026-01-05").code ==
        0);
    CHECK(has(shelf.book("export --force --readings A " + shelf.path("a.toml")).out,
              "that calibrate takes under its last setup"));
    REQUIRE(shelf.book(oil + "2026-01-06").code == 0);
    CHECK(has(shelf.book("export --force --readings A " + shelf.path("a.toml")).out,
              "1 reading, 2 of another setup left out"));
    // The setup that was exported is driven, and measured again the same day.
    REQUIRE(shelf.book("add event A " + shelf.path("a.toml") + " --date 2026-01-06").code == 0);
    REQUIRE(shelf.book(oil + "2026-01-06").code == 0);
    REQUIRE(shelf.book("export --readings A " + shelf.path("b.toml")).code == 0);
    const Run again = run_program_as_user("calibrate " + shelf.path("b.toml"));
    CAPTURE(again.out);
    CHECK(again.code == 0);
    CHECK(has(again.out, "book-2026-01-06-2"));
}

TEST_CASE("book fleet: lives of all cases change the range of what is due") {
    // Twenty events, each a twentieth of the output bearing's calculated life, in every case.
    const Shelf shelf("book_fleet_band");
    const auto ran = [&](const std::string& serial, const std::string& file) {
        REQUIRE(shelf.book("add case " + serial + " --date 2026-01-01", file).code == 0);
        const Run event = shelf.book(
            "add event " + serial + " " + light_file + " --times 20 --date 2026-01-02", file);
        REQUIRE(event.code == 0);
        const std::size_t at = event.out.rfind("added ") + 6;
        const std::string id = event.out.substr(at, event.out.find(':', at) - at);
        REQUIRE(shelf.book("correct " + id + " --with bearing.output_rear.share=0.05", file).code ==
                0);
    };
    ran("A", "shop.book");
    const auto fatigue = [&](const std::string& file) {
        const std::string out = shelf.book("due A --json", file).out;
        const std::size_t at = out.find("\"fatigue_events\":{\"low\":");
        REQUIRE(at != std::string::npos);
        const auto number = [&](const std::string& key) {
            return std::stod(out.substr(out.find('"' + key + "\":", at) + key.size() + 3));
        };
        return std::array<double, 3>{number("low"), number("likely"), number("high")};
    };
    const auto likely_life = [&](const std::string& file) {
        const std::string out = shelf.book("fleet --json", file).out;
        return std::stod(out.substr(out.find("\"p50\":") + 6));
    };
    const auto alone = fatigue("shop.book");
    const double alone_life = likely_life("shop.book");
    REQUIRE(shelf.book("backup " + shelf.path("bad.book")).code == 0);
    REQUIRE(shelf.book("backup " + shelf.path("good.book")).code == 0);
    // Six sister cases: the weakest bearing pitted in each, or sound in each.
    for (int k = 0; k < 6; ++k) {
        const std::string serial = "B-" + std::to_string(k);
        for (const std::string file : {"bad.book", "good.book"}) ran(serial, file);
        REQUIRE(shelf
                    .book("add finding " + serial +
                              " bearing.output_rear surface-fatigue --date 2026-01-03",
                          "bad.book")
                    .code == 0);
    }
    CHECK(likely_life("bad.book") < 0.9 * alone_life);
    CHECK(likely_life("good.book") > 1.1 * alone_life);
    const auto bad = fatigue("bad.book");
    const auto good = fatigue("good.book");
    CAPTURE(alone[1]);
    CAPTURE(bad[1]);
    CAPTURE(good[1]);
    CHECK(bad[1] < alone[1]);
    CHECK(good[1] > alone[1]);
    CHECK(bad[2] < alone[2]);
    CHECK(has(shelf.book("fleet", "bad.book").out, "6 found with fatigue"));
}

TEST_CASE("book json: show, due and fleet as documents") {
    const Shelf shelf("book_json");
    REQUIRE(shelf.book("add case A --date 2026-01-01").code == 0);
    const auto begins = [](const Run& run, const std::string& command) {
        CHECK(run.code == 0);
        CHECK(run.out.rfind("{\"schema\":1,\"command\":\"book " + command + "\",", 0) == 0);
        CHECK(std::count(run.out.begin(), run.out.end(), '{') ==
              std::count(run.out.begin(), run.out.end(), '}'));
        CHECK(run.out.back() == '\n');
    };
    CHECK(has(shelf.book("due --json").out, "\"fatigue_events\":null"));
    REQUIRE(shelf.book("add event A " + light_file + " --date 2026-01-02").code == 0);
    REQUIRE(
        shelf.book("add finding A case chips --words 'a \"long\" sliver' --date 2026-01-03").code ==
        0);
    REQUIRE(shelf.book("add part A bearing.output_rear B-1 --date 2026-01-04").code == 0);
    // A prompt that is not UTF-8: kept as it is, told as JSON can.
    REQUIRE(shelf.book("add finding A case noise --words 'Ger\xE4usch' --date 2026-01-04").code ==
            0);
    const Run shown = shelf.book("show --json");
    begins(shown, "show");
    CHECK(has(shown.out, "\"words\":\"Ger\xEF\xBF\xBDusch\""));
    CHECK(has(shown.out, "\"words\":\"a \\\"long\\\" sliver\",\"weight\":\"open_now\""));
    CHECK(has(shown.out, "\"shelf\":[{\"id\":\"first bearing.output_rear of A\""));
    const Run due = shelf.book("due A --json");
    begins(due, "due");
    CHECK(has(due.out, "{\"after_events\":0,\"action\":\"open_case\",\"part\":\"case\""));
    const Run fleet = shelf.book("fleet bearing.output_rear --shape 2 --json");
    begins(fleet, "fleet");
    CHECK(has(fleet.out, "\"bearings\":1,\"failures\":0"));
    CHECK(has(fleet.out, "\"given_slope\":2,\"ten_percent_at\":null"));
}

}  // namespace caseload::book_incoming_tests
