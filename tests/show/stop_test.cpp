// SPDX-License-Identifier: MIT
// A setup that must not run: no screen, sheet or document says anything else. And the sentence on
// top agrees with the range below it.
#include "caseload/ask/verdict.hpp"
#include "caseload/show/text.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "live/session.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <string>

namespace caseload::stop_tests {

namespace {

using test_files::has;

const std::string hot = test_files::root + "tests/browser/hot.toml";

}  // namespace

TEST_CASE("stop: the first screen says not to run it, and plans no event after it") {
    const Run screen = run_program_as_user("assess " + hot + " --draws 63");
    CHECK(screen.code == 0);
    CHECK(has(screen.out,
              "  2 NEXT          do not run this: bearing.input_rear: a torque peak can dent"));
    CHECK(has(screen.out, "nothing tried makes it run: a core of "));
    for (const char* planned : {"open the case", "after event", "20 events", "after this event"})
        CHECK_MESSAGE(!has(screen.out, planned), std::string(planned));
    for (const std::string& line : test_files::lines(screen.out)) CHECK(line.size() <= 100);
}

TEST_CASE("stop: page, JSON and teardown sheet show STOP and what was tried") {
    const OwnFolder folder("stop_page");
    const Run run =
        run_program_as_user("assess " + hot + " --draws 63 --json --page " +
                            folder.path("page.html") + " --teardown " + folder.path("sheet.html"));
    CHECK(run.code == 0);
    CHECK(has(file_text(folder.path("sheet.html")),
              "do not run it before: bearing.input_rear: a torque peak can dent"));
    CHECK(has(run.out, "\"remedy\":{\"do_not_run\":\"bearing.input_rear: a torque peak can dent"));
    CHECK(has(run.out, "\"what\":\"colder_air\""));
    const std::string page = file_text(folder.path("page.html"));
    const std::string next = page.substr(page.find("<h2>Next</h2>"), 900);
    CHECK(has(next, "Do not run this: input rear: a torque peak can dent"));
    CHECK(has(next, "Nothing tried makes it run"));
    CHECK(!has(next, "open the case</"));
    CHECK(!has(page, "20 events or 200 h"));
    const Run fine = run_program_as_user("assess " + test_files::light_file + " --draws 63 --json");
    CHECK(has(fine.out, "\"remedy\":{\"do_not_run\":\"\",\"tried\":[]}"));
}

TEST_CASE("stop: the live page shows STOP with its first answer and with its last") {
    live::Session session;
    session.answer("open", "hot.toml", file_text(hot));
    const std::string first = session.answer("likely", "", "");
    CHECK(has(first, "Do not run this"));
    CHECK(!has(first, "open the case"));
    session.answer("band", "63", "");
    const std::string page = session.answer("page", "", "");
    CHECK(has(page, "Do not run this: input rear: a torque peak"));
    CHECK(has(page, "Nothing tried makes it run"));
    CHECK(has(session.answer("json", "63", ""), "\"do_not_run\":\"bearing.input_rear: a torque"));
    // Another setup in its place is not answered with the old one's.
    session.answer("open", "light.toml", examples::text("light.toml").value());
    CHECK(has(session.answer("json", "63", ""), "\"do_not_run\":\"\""));
}

TEST_CASE("stop: the book says not to run it again, and keeps what is due now") {
    const OwnFolder folder("stop_book");
    const auto book = [&](const std::string& arguments) {
        return run_program_as_user("book " + arguments + " --book " + folder.path("shop.book"));
    };
    REQUIRE(book("add case A --date 2026-01-01").code == 0);
    REQUIRE(book("add event A " + hot + " --date 2026-01-02").code == 0);
    const Run due = book("due");
    CHECK(due.out.rfind("A         NOW, before the next event: do not run it again: ", 0) == 0);
    CHECK(has(due.out, "bearing.input_rear: a torque peak can dent"));
    CHECK(has(due.out, "NOW, before the next event: change the oil: oil"));
    CHECK(!has(due.out, "more events:"));
    CHECK(!has(due.out, "more than 20"));
    for (const std::string& line : test_files::lines(due.out)) CHECK(line.size() <= 100);
    CHECK(has(book("due --json").out, "\"do_not_run\""));
    // What was seen is looked at now, too.
    REQUIRE(book("add finding A bearing.output_rear abrasive-wear --date 2026-01-03").code == 0);
    CHECK(has(book("due").out, "NOW, before the next event: drain and look: bearing.output_rear"));
}

TEST_CASE("book: an action is due in one line, with every reason it is due then") {
    const OwnFolder folder("due_once");
    const auto book = [&](const std::string& arguments) {
        return run_program_as_user("book " + arguments + " --book " + folder.path("shop.book"));
    };
    // Above its stop limit in the run with the uncertain inputs at their middle too.
    folder.write("warm.toml", "caseload = 1\nbase = \"" + test_files::root +
                                  "docs/examples/dip.toml\"\nlimits.oil_watch = \"77 degC\"\n"
                                  "limits.oil_stop = \"81 degC\"\n");
    REQUIRE(book("add case A --date 2026-01-01").code == 0);
    REQUIRE(book("add event A " + folder.path("warm.toml") + " --date 2026-01-02").code == 0);
    const std::string due = book("due").out;
    CHECK(due.rfind("A         NOW, before the next event: do not run it again: ", 0) == 0);
    CHECK(has(due, "NOW, before the next event: change the oil: oil\n"));
    CHECK(has(due, "why: common practice; oil was above its stop limit"));
    std::size_t lines = 0;
    for (const std::string& line : test_files::lines(due))
        lines += has(line, "change the oil") ? 1 : 0;
    CHECK(lines == 1);
}

TEST_CASE("verdict: the sentence on top agrees with the likely value below it") {
    // Between the run with every uncertain input at its middle and the middle of the range there
    // are kelvins; the limit is put between them, watch and stop in turn.
    const Document document(examples::text("idler.toml").value(), "idler.toml", examples::text);
    ReadSetup read = document.complete();
    const Assessment middle = assess(read.setup);
    const Band before = band(read.setup, middle, {.draws = 63});
    const double one_run_degC = middle.fitted.event.peak_oil_degC;
    const double likely_degC = before.fitted.peak_oil_degC.p50;
    REQUIRE(likely_degC > one_run_degC + 1);
    const auto screen = [&](double watch_degC, double stop_degC) {
        read.setup.limits = {.oil_watch_degC = watch_degC, .oil_stop_degC = stop_degC};
        const Assessment likely = assess(read.setup);
        const Band sure = band(read.setup, likely, {.draws = 63});
        const std::vector<Worth> worth;
        return first_screen({read, likely, sure, worth});
    };
    const double between_degC = std::round((one_run_degC + likely_degC) / 2);
    const std::string limit = std::to_string(static_cast<int>(between_degC)) + " degC";
    CHECK(has(screen(between_degC, 150), "WATCH    Oil likely passes " + limit));
    CHECK(has(screen(between_degC - 20, between_degC), "STOP     Oil likely passes " + limit));
    CHECK(has(screen(std::ceil(likely_degC), 150), "WATCH    Oil may pass "));
}

TEST_CASE("verdict: the sentence on the oil on both sides of every border") {
    const LimitsInput limits{.oil_watch_degC = 121, .oil_stop_degC = 135};
    Band band;
    const auto words = [&](double likely_degC, double holds_share, double fails_share) {
        band.fitted.peak_oil_degC.p50 = likely_degC;
        band.fitted.holds_share = holds_share;
        band.fitted.fails_share = fails_share;
        return oil_words(limits, band);
    };
    CHECK(words(100, 0.9, 0) == "oil stays below 121 degC, 9 chances in 10");
    CHECK(words(121, 0.89, 0) == "oil may pass 121 degC");
    CHECK(words(121.1, 0.49, 0) == "oil likely passes 121 degC");
    CHECK(words(135, 0.1, 0.499) == "oil likely passes 121 degC");
    CHECK(words(135, 0.1, 0.5) == "oil likely passes 135 degC");
    CHECK(words(135.1, 0.1, 0.51) == "oil likely passes 135 degC");
    CHECK(words(150, 0, 0.9) == "oil passes 135 degC, 9 chances in 10");
}

TEST_CASE("verdict: a check printed beside the likely oil says which calculation each is from") {
    const Run screen = run_program_as_user("assess " + test_files::light_file + " --draws 63");
    CHECK(has(screen.out, "  3 HEAT          loop: "));
    CHECK(has(screen.out, "at most 600000"));
    CHECK(!has(screen.out, " draws"));
}

}  // namespace caseload::stop_tests
