// SPDX-License-Identifier: MIT
// The page, the pit card and the teardown sheet as text; tests/pages.py holds their markup and
// numbers against the JSON, tests/browser how they look.
#include "caseload/show/page.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "over_time.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "show/html.hpp"
#include "show/svg.hpp"
#include "support.hpp"

#include <cmath>
#include <filesystem>
#include <string>

namespace caseload::page_tests {

namespace {

struct Sheets {
    std::string page;
    std::string card;
    std::string teardown;
};

Sheets sheets_of(const ReadSetup& read) {
    const BandOptions few{.draws = 63};
    const Assessment likely = assess(read.setup);
    const Band sure = band(read.setup, likely, few);
    const std::vector<Worth> worth;
    const Answer answer{read, likely, sure, worth};
    return {page_html({answer, moments_of(read.setup, likely, few),
                       seat_sweep(prepare(read.setup), seat_sweep_temps_degC())}),
            card_html(answer, pit_card(read.setup, likely, sure, few)), teardown_html(answer)};
}

Sheets sheets(const std::string& name, const std::vector<Change>& changes, bool imperial = false) {
    const Document document(examples::text(name).value(), name, examples::text);
    ReadSetup read = document.complete(changes);
    read.setup.imperial = imperial;
    return sheets_of(read);
}

using test_files::has;

}  // namespace

TEST_CASE("page: text is escaped") {
    CHECK(escaped("<a href=\"x\">'&'</a>") ==
          "&lt;a href=&quot;x&quot;&gt;&#39;&amp;&#39;&lt;/a&gt;");
    CHECK(escaped("plain 5 mm\n") == "plain 5 mm\n");
    CHECK(escaped(std::string("a\x01\x7f\0z", 5)) == "a\\u0001\\u007F\\u0000z");
    CHECK(escaped("\xc3\xa4") == "\xc3\xa4");
}

TEST_CASE("page: a title with markup is printed as text on every sheet") {
    const Sheets all = sheets("dip.toml", {{"title", "\"<script>x</script>\""}});
    for (const std::string& sheet : {all.page, all.card, all.teardown}) {
        CHECK(!has(sheet, "<script"));
        CHECK(has(sheet, "&lt;script&gt;x&lt;/script&gt;"));
    }
}

TEST_CASE("page: every sheet says that symptoms, eyes and rule book come first") {
    const Sheets all = sheets("dip.toml", {});
    for (const std::string& sheet : {all.page, all.teardown}) {
        CHECK(has(sheet, "sanctioning body and local codes come first"));
        CHECK(has(sheet, "licensed inspector or engineer"));
        CHECK(has(sheet, "scalds"));
        CHECK(has(sheet, "under a vehicle on a jack"));
        CHECK(has(sheet, "compressed air"));
    }
    CHECK(has(all.card, "The rule book and a competent inspector come first"));
    CHECK(has(all.card, "Chips, new noise"));
    CHECK(has(all.card, "scalds"));
}

TEST_CASE("page: the card limits GO to the minutes before the next leg passes the stop limit") {
    const std::vector<Change> low{{"limits.oil_watch", "\"88 degC\""},
                                  {"limits.oil_stop", "\"90 degC\""}};
    const std::string card = sheets("dip.toml", low).card;
    CHECK(has(card, "DO NOT RUN: oil likely passes 90 degC."));
    CHECK(!has(card, "<b>GO"));
    // Hotter air than the day's may be too much where the day's is not. Minutes are rounded down.
    const std::vector<Change> near{{"limits.oil_watch", "\"90 degC\""},
                                   {"limits.oil_stop", "\"99 degC\""}};
    const Setup setup = examples::setup("dip.toml", near);
    const Assessment likely = assess(setup);
    const BandOptions few{.draws = 63};
    const std::vector<CardRow> rows = pit_card(setup, likely, band(setup, likely, few), few).rows;
    REQUIRE(!rows.empty());
    const CardRow row = rows.back();
    REQUIRE(!row.leaves);
    CHECK(has(sheets("dip.toml", near).card,
              std::to_string(static_cast<int>(row.stop_after_s / 60)) + "\u00a0min\u00a0only"));
    CHECK(has(sheets("dip.toml", {}).card, "<dd><b>GO</b></dd>"));
}

TEST_CASE("page: the card has the expected oil, and what to check where the oil is outside it") {
    const std::string card = sheets("dip.toml", {}).card;
    const Setup setup = examples::setup("dip.toml");
    const Assessment likely = assess(setup);
    const BandOptions few{.draws = 63};
    const CardRow row = pit_card(setup, likely, band(setup, likely, few), few).rows[1];
    const auto down = [](double temp_degC) {
        return std::to_string(static_cast<int>(std::floor(temp_degC)));
    };
    const std::size_t cold =
        card.find("below " + down(row.cold_degC) + " degC</dt><dd><b>CHECK</b>");
    const std::size_t go = card.find(down(row.cold_degC) + " to " + down(row.go_degC) +
                                     " degC</dt><dd><b>GO</b></dd>");
    const std::size_t check = card.find("above that, to 121 degC</dt><dd><b>CHECK</b> the list");
    const std::size_t wait = card.find("above that, to 135 degC</dt><dd><b>SLOW</b> to ");
    const std::size_t open = card.find("above 135 degC</dt><dd><b>OPEN OR RETIRE");
    CHECK(cold < go);
    CHECK(go < check);
    CHECK(check < wait);
    CHECK(wait < open);
    CHECK(open != std::string::npos);
    CHECK(has(card, "<li>breather, milky oil</li>"));
    CHECK(!has(card, "core"));
    CHECK(!has(card, "it needs a cooler"));
    // Expected about the limit: no row between GO and the limit, and the card says why.
    const std::string warm = sheets("idler.toml", {{"event.ambient", "\"40 degC\""}}).card;
    CHECK(has(warm, "This build may pass 121 degC: it needs a cooler or less pace."));
    CHECK(!has(warm, "</b> the list"));
    CHECK(has(warm, "to 121 degC</dt><dd><b>GO</b></dd>"));
}

TEST_CASE("page: the card of a setup at STOP says do not run") {
    const std::string card = sheets("dip.toml", {{"limits.oil_watch", "\"60 degC\""},
                                                 {"limits.oil_stop", "\"65 degC\""}})
                                 .card;
    CHECK(has(card, "DO NOT RUN: oil passes 65 degC, 9 chances in 10."));
    CHECK(has(card, "Hot oil scalds"));
    for (const char* sent : {"GO", "WAIT", "Expected", "<table"})
        CHECK_MESSAGE(!has(card, sent), std::string(sent));
}

TEST_CASE(
    "page: a card says where the oil is expected above its limits, and has no rows above 160 "
    "degC") {
    const std::vector<Change> low{{"limits.oil_watch", "\"88 degC\""},
                                  {"limits.oil_stop", "\"90 degC\""}};
    CHECK(has(sheets("dip.toml", low).card, "DO NOT RUN: oil likely passes 90 degC."));
    // Likely above 160: at STOP, and no temperature to go by.
    const std::string boiling = sheets("dip.toml", {{"limits.oil_watch", "\"150 degC\""},
                                                    {"limits.oil_stop", "\"158 degC\""},
                                                    {"event.ambient", "\"50 degC\""},
                                                    {"housing.place", "\"tunnel\""},
                                                    {"housing.dirt", "\"mud\""},
                                                    {"housing.exhaust", "\"near-bare\""},
                                                    {"housing.neighbour", "\"none\""},
                                                    {"vehicle.mass", "\"1900 kg\""}})
                                    .card;
    CHECK(has(boiling, "DO NOT RUN: oil "));
    for (const char* sent : {"at most above", "not above", "GO<", "WAIT", "<table"})
        CHECK_MESSAGE(!has(boiling, sent), std::string(sent));
}

TEST_CASE("page: a seat has its picture, entered or assumed") {
    CHECK(has(sheets("dip.toml", {}).page, "<p>Assumed: rings straight in the aluminium (N7): "));
    const std::string page =
        sheets("dip.toml", {{"bearing.output_rear.seat.ring_interference", "\"0.03 mm\""},
                            {"bearing.output_rear.seat.boss_outside", "\"180 mm\""}})
            .page;
    CHECK(has(page, "Rings in their seats"));
    CHECK(has(page, "Seat of output rear, straight in the housing"));
}

TEST_CASE("page: the play a bearing runs with stands at its part, on the page and for the bench") {
    const Sheets all = sheets("light.toml", {});
    for (const std::string& sheet : {all.page, all.teardown}) {
        CHECK(has(sheet,
                  "Hot it runs with 0.064 mm of play (0.046 mm to 0.081 mm), its rollers "
                  "carry over 73 deg"));
        CHECK(has(sheet, "its balls carry over 15"));
    }
    const Sheets tight = sheets("light.toml", {{"bearing.input_rear.clearance", "\"C2\""}});
    CHECK(has(tight.page, "Hot it runs preloaded by 0.02 mm (play -0.028 mm to -0.011 mm), its "));
    const Sheets inches = sheets("light.toml", {}, true);
    CHECK(has(inches.teardown,
              "Hot it runs with 0.0025 in of play (0.0018 in to 0.0032 in), its rollers"));
    CHECK(!has(sheets("idler.toml", {{"bearing.input_front.type", "\"cylindrical-roller\""}}).page,
               "of play (0 mm to 0 mm)"));
}

TEST_CASE("page: imperial sheets have no metric number") {
    const Sheets all = sheets("dip.toml", {}, true);
    for (const std::string& sheet : {all.page, all.card, all.teardown}) {
        std::string body = sheet.substr(sheet.find("<body"));
        // Speed of a cage is a number of its own, in no system of units.
        for (std::size_t at = 0; (at = body.find("r/min mm")) != std::string::npos;)
            body.erase(at, 8);
        for (const char* unit : {" mm<", " N<", " W<", " kW", " km<", " mm,", "degC<", "degC."})
            CHECK_MESSAGE(!has(body, unit), std::string(unit));
    }
    CHECK(has(all.card, "above that, to 249 degF"));  // 121 degC is 249.8: never rounded up
}

TEST_CASE("page: no temperature above 160 degC is printed") {
    const Sheets all = sheets("dip.toml", {{"housing.place", "\"tunnel\""},
                                           {"event.ambient", "\"50 degC\""},
                                           {"housing.exhaust", "\"near-bare\""},
                                           {"housing.dirt", "\"mud\""},
                                           {"vehicle.engine_power", "\"900 hp\""},
                                           {"vehicle.mass", "\"3500 kg\""}});
    CHECK(has(all.page, "above 160"));
    CHECK(has(all.page, "the oil does not settle below 160 degC"));
    for (const char* above : {">161<", ">170<", ">180<", ">200<"}) CHECK(!has(all.page, above));
}

TEST_CASE("page: an event of stops alone still has its sheets") {
    const Document document(examples::text("dip.toml").value(), "dip.toml", examples::text);
    ReadSetup read = document.complete();
    LegInput stop;
    stop.name = "stand";
    stop.kind = LegKind::stop;
    stop.duration_s = 900;
    read.setup.event.legs = {stop};
    read.setup.event.run = {0};
    const Sheets parked = sheets_of(read);
    CHECK(has(parked.card, "Nothing is driven in this event: no temperatures to go by."));
    CHECK(has(parked.card, "Chips, new noise, lost oil or a sudden rise always win"));
    CHECK(has(parked.card, "Hot oil scalds"));
    for (const char* told : {"Oil when you arrive", "GO", "WAIT", "<table"})
        CHECK(!has(parked.card, told));
    CHECK(has(parked.page, "</html>"));
    CHECK(has(parked.teardown, "</html>"));
}

TEST_CASE("page: axes have round numbers") {
    CHECK(round_ticks({0, 10, 0, 1}, 5) == std::vector<double>{0, 2, 4, 6, 8, 10});
    CHECK(round_ticks({33, 141, 0, 1}, 7) == std::vector<double>{40, 60, 80, 100, 120, 140});
    CHECK(round_ticks({-20, 160, 0, 1}, 10).front() == -20);
    for (const double tick : round_ticks({-1, 1, 0, 1}, 4))
        CHECK((tick != 0 || !std::signbit(tick)));
}

TEST_CASE("page: labels keep their distance and stay above the lowest place") {
    const std::vector<double> at = spread({10, 11, 50, 100, 99}, {15, 100});
    CHECK(at[1] - at[0] == 15);
    CHECK(at[2] == 50);
    CHECK(at[3] == 100);
    CHECK(at[4] == 85);
    CHECK(spread({}, {15, 100}).empty());
}

TEST_CASE("page: clock positions on the drawing, 0 up, 90 right") {
    CHECK(within(at_clock({{0, 0}, 10}, 0).y, -10, 1e-9));
    CHECK(within(at_clock({{0, 0}, 10}, 90).x, 10, 1e-9));
    CHECK(within(at_clock({{0, 0}, 10}, 180).y, 10, 1e-9));
}

TEST_CASE(
    "page: a file is written whole or not at all, and an impossible name is refused before the "
    "work") {
    const std::string setup = std::string(CASELOAD_ROOT) + "/docs/examples/dip.toml ";
    const OwnFolder own("page");
    const std::string folder = own.path();
    const Run none = run_program_as_user("assess " + setup + "--draws 63 --page " + folder +
                                         "/no/such/folder/x.html");
    CHECK(none.code == 5);
    CHECK(has(none.out, "x.html: cannot be written"));
    CHECK(!has(none.out, "1 OIL"));
    const std::string path = folder + "/caseload-page-test.html";
    const Run one = run_program_as_user("assess " + setup + "--draws 63 --card " + path);
    CHECK(one.code == 0);
    CHECK(has(one.out, "Written: " + path));
    CHECK(std::filesystem::exists(path));
    CHECK(!std::filesystem::exists(path + ".part"));
    // The same setup gives the same bytes.
    const std::string first = file_text(path);
    run_program_as_user("assess " + setup + "--draws 63 --threads 2 --card " + path);
    CHECK(file_text(path) == first);
    std::filesystem::remove(path);
    const std::string copy = folder + "/caseload-page-test.toml";
    std::filesystem::copy_file(std::string(CASELOAD_ROOT) + "/docs/examples/dip.toml", copy,
                               std::filesystem::copy_options::overwrite_existing);
    const std::string before = file_text(copy);
    const Run over = run_program_as_user("assess " + copy + " --page " + copy);
    CHECK(over.code == 2);
    CHECK(has(over.out, "this file is read by this run"));
    CHECK(file_text(copy) == before);
    const Run twice = run_program_as_user("assess " + setup + "--page " + path + " --card " + path);
    CHECK(twice.code == 2);
    CHECK(has(twice.out, "--page " + path + " is written there"));
    CHECK(!std::filesystem::exists(path));
    for (const char* sheet : {"--page", "--card", "--teardown"}) {
        CHECK(run_program_as_user("assess " + setup + sheet + " x.html --each y.csv").code == 2);
        CHECK(run_program_as_user("assess " + setup + sheet + " x.html --curves").code == 2);
    }
    CHECK(!std::filesystem::exists("x.html"));
}

}  // namespace caseload::page_tests
