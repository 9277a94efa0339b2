// SPDX-License-Identifier: MIT
#include "live/session.hpp"
#include "caseload/show/json.hpp"
#include "caseload/show/page.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "input/shortest.hpp"
#include "json_check.hpp"
#include "live/asked.hpp"
#include "live/fill.hpp"
#include "over_time.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "show/json_value.hpp"

#include <doctest/doctest.h>

#include <filesystem>
#include <stdexcept>
#include <string>

namespace caseload::session_tests {

namespace {

using test_files::has;

/// A live part as small as can be.
const std::string part = "<title>caseload</title><i id=\"given\">null</i><!--head--><!--body-->";

}  // namespace

TEST_CASE("live: the boxes are the entries of a new setup, with the choices of the field table") {
    live::Session session;
    const std::string form = session.answer("open", "our.toml", input_test::shortest());
    CHECK(has(form, "{\"ok\":true,\"yours\":10,"));
    const std::string boxes = form;
    const std::string entries = session.answer("entries", "", "");
    CHECK(has(entries, "{\"ok\":true,\"entries\":[{\"key\":"));
    CHECK(has(entries, "\"key\":\"lubrication.pump.flow\""));
    for (const std::string key :
         {"base", "gears.fitted", "oil.grade", "housing.place", "vehicle.mass", "vehicle.tyre",
          "vehicle.axle_ratio", "vehicle.engine_power", "event.ambient", "event.course",
          "event.duration"})
        CHECK(has(boxes, "{\"key\":\"" + key + "\""));
    CHECK(has(boxes, "\"choices\":[\"open\",\"behind-skid-plate\",\"tunnel\"]"));
    CHECK(has(boxes, "\"value\":\"33, 41\""));
    CHECK(has(boxes, "kg, t, lb"));
}

TEST_CASE("live: the form has how a facing pair is set, where the case has one") {
    live::Session session;
    session.answer("open", "our.toml", input_test::shortest());
    CHECK_FALSE(has(session.answer("entries", "", ""), "end_play"));
    session.answer("open", "idler.toml", examples::text("idler.toml").value());
    const std::string assumed = session.answer("entries", "", "");
    CHECK(has(assumed, R"({"key":"shaft.idler.end_play",)"));
    CHECK(has(assumed, R"({"key":"case.structure_stiffness",)"));
    CHECK(has(session.answer("change", "shaft.idler.end_play", "0.08 mm"),
              R"(shaft.idler.end_play = \"0.08 mm\")"));
    CHECK(has(session.answer("entries", "", ""), R"("key":"shaft.idler.end_play","label")"));
}

TEST_CASE("live: a setup that cannot be calculated keeps its boxes and says what is wrong") {
    live::Session session;
    session.answer("open", "our.toml", input_test::shortest());
    const std::string changed = session.answer("change", "vehicle.mass", "2350");
    CHECK(has(changed, "vehicle.mass = \\\"2350\\\""));
    std::string setup = input_test::shortest();
    setup.replace(setup.find("2350 kg"), 7, "2350");
    const std::string form = session.answer("open", "our.toml", setup);
    CHECK(has(form, "{\"ok\":false,\"boxes\":[{"));
    CHECK(has(form, "\"value\":\"2350\""));
    CHECK(has(form, "\"line\":6"));
    CHECK(has(form, "our.toml:6:"));
    CHECK(has(session.answer("likely", "", ""), "{\"ok\":false"));
    CHECK(has(session.answer("open", "our.toml", "caseload = \n"), "\"boxes\":[],\"problems\""));
    CHECK(has(session.answer("change", "vehicle.colour", "red"), "there is no such key"));
    CHECK(has(session.answer("rubbish", "", ""), "our bug"));
}

TEST_CASE("live: the answers are those of the program") {
    live::Session session;
    const std::string text = examples::text("light.toml").value();
    session.answer("open", "light.toml", text);
    const Document document(text, "light.toml", {});
    const ReadSetup read = document.complete();
    const Assessment likely = assess(read.setup);
    const std::string first = session.answer("likely", "", "");
    CHECK(has(first, json_value::text(likely_html(read, likely))));
    CHECK(has(first, json_value::text(likely_words(read, likely))));
    const Band sure = band(read.setup, likely, {.draws = 63});
    const std::vector<Worth> worth = assumptions_by_worth(document, read);
    const Answer answer{read, likely, sure, worth};
    CHECK(session.answer("json", "63", "") ==
          "{\"ok\":true,\"answer\":" + assessment_json(answer) + "}");
    CHECK(has(session.answer("band", "63", ""), json_value::text(page_head(answer))));
    CHECK(has(session.answer("worth", "", ""), "\"vehicle.grip\":["));
    const std::vector<Moment> moments = moments_of(read.setup, likely, {.draws = 63});
    const std::vector<SeatSweep> seats = seat_sweep(prepare(read.setup), seat_sweep_temps_degC());
    const Reasons reasons(read, likely);
    const PageAnswer page{answer, moments, seats, &reasons};
    const std::string body = page_sections(page) + page_foot();
    CHECK(has(session.answer("page", "", ""), json_value::text(body)));
    CHECK(page_html(page) != "");
    CHECK(has(page_html(page), page_head(answer) + "<main>\n" + page_sections(page)));

    const live::SetupText setup{"light.toml", text, {{"base.toml", "</script>"}}};
    const std::string filled = live::filled_page(part, setup, page);
    CHECK(has(filled, body));
    CHECK(has(filled, json_value::text(text)));
    CHECK_FALSE(has(filled, "</script>"));
    CHECK_THROWS_AS(static_cast<void>(live::filled_page("<p>", setup, page)),
                    std::invalid_argument);
}

TEST_CASE("live: bases are found beside the setup") {
    live::Session session;
    const std::string heavier = "caseload = 1\nbase = \"our.toml\"\nvehicle.mass = \"3000 kg\"\n";
    CHECK(has(session.answer("open", "heavier.toml", heavier), "there is no such file"));
    session.answer("keep", "our.toml", input_test::shortest());
    CHECK(has(session.answer("open", "heavier.toml", heavier), "{\"ok\":true"));
    const std::string deeper = "caseload = 1\nbase = \"cars/our.toml\"\n";
    CHECK(has(session.answer("open", "deeper.toml", deeper), "{\"ok\":true"));
    CHECK(
        has(session.answer("compare", "vehicle.mass", "2000 kg"), "vehicle.mass 2350 -> 2000 kg"));
    CHECK(
        has(session.answer("compare", "vehicle.mass", "-350 kg"), "vehicle.mass 2350 -> 2000 kg"));
    CHECK(has(session.answer("sets", "", ""), "SETS"));
    CHECK(has(session.answer("why", "", ""), "\"addresses\":[\""));
}

TEST_CASE("live: a number of draws that is no count is refused with a message") {
    live::Session session;
    session.answer("open", "our.toml", input_test::shortest());
    for (const std::string draws : {"0", "62", "1048576", "99999999999999999999", "-1", "63 ", "x"})
        CHECK(has(session.answer("band", draws, ""), "must be from 63 to 1048575"));
    CHECK(has(session.answer("line", "63", ""), "{\"ok\":true"));
}

TEST_CASE("live: every answer is JSON, whatever is asked") {
    for (const char* good : {"{}", "[]", "null", "-0.5e+3", "0", "{\"a\":[1,\"\\u00e4\",true]}",
                             "\"\xC3\xA4\\n\"", " { \"a\" : [ ] }\n"})
        CHECK(JsonCheck::valid(good));
    for (const char* bad : {"", "{", "{\"a\"}", "[1,]", "01", "nan", "1.", "\"\\x\"", "\"\n\"",
                            "\"\xE4\"", "\"a", "1 2", "{\"a\":1,}", "\"\\u00g0\"", "+1", "1e"})
        CHECK_FALSE(JsonCheck::valid(bad));
    live::Session alone;
    CHECK(has(alone.answer("change", "K\xE4se", "1"), "K\xEF\xBF\xBDse: there is no such key"));
    int answers = 0;
    for (const std::string& file : test_files::below("tests/golden/asked", {".txt"})) {
        CAPTURE(file);
        live::Session session;
        session.answer("line", "63", "");
        asked::each(
            file_text(test_files::root + file),
            [&](const std::string& question, const std::string& first, const std::string& second) {
                const std::string answer = session.answer(question, first, second);
                CHECK(JsonCheck::valid(answer));
                CHECK_FALSE(has(answer, "our bug"));
                return ++answers < 1000;
            });
    }
    CHECK(answers >= 30);
}

TEST_CASE("program: --live without caseload.html says where it looked, and writes nothing") {
    namespace fs = std::filesystem;
    const OwnFolder own("live");
    const fs::path folder = own.path();
    fs::create_directories(folder / "bin");
    fs::copy_file(CASELOAD_PROGRAM, folder / "bin/caseload");
    const std::string light = test_files::root + "docs/examples/light.toml";
    const std::string page = (folder / "page.html").string();
    const auto run = [&](const std::string& arguments) {
        return run_command((folder / "bin/caseload").string() + " assess " + light + " --draws 63" +
                           arguments);
    };
    const Run alone = run(" --live");
    CHECK(alone.code == 2);
    CHECK(has(alone.out, "--page FILE --live"));
    const Run missing = run(" --live --page " + page);
    CHECK(missing.code == 5);
    CHECK(has(missing.out, "caseload.html"));
    CHECK(has(missing.out, (folder / "share").string()));
    CHECK_FALSE(fs::exists(page));

    std::ofstream(folder / "bin/caseload.html") << "<meta content=\"caseload 0.0.1 live\">";
    CHECK(has(run(" --live --page " + page).out, "is not the live part of caseload"));
    CHECK_FALSE(fs::exists(page));
    std::ofstream(folder / "bin/caseload.html")
        << "<meta name=\"generator\" content=\"caseload 0.2.0 live\">" << part;
    const Run fine = run(" --live --units imperial --page " + page);
    CHECK(fine.code == 0);
    CHECK(has(file_text(page), "units = \\\"imperial\\\""));
    CHECK(has(file_text(page), "class=\"verdict"));
}

}  // namespace caseload::session_tests
