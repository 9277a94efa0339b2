// SPDX-License-Identifier: MIT
#include "live/edit.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "input/shortest.hpp"
#include "input/value.hpp"
#include "refused.hpp"

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

namespace caseload::edit_tests {

using live::typed_form;
using live::typed_toml;
using live::with_value;
using live::without_value;

namespace {

const input::Field& field(std::string_view key) {
    return *input::find_field(key);
}

bool refused(const std::string& text, const std::string& key, const std::string& toml) {
    const auto error = error_of([&] { static_cast<void>(with_value(text, key, toml)); });
    return error ? error->problems().front().text.starts_with(key) : false;
}

}  // namespace

TEST_CASE("live: a value is replaced in its place, comment and layout stay") {
    const std::string text =
        "caseload = 1\nvehicle.mass   = \"2350 kg\"   # with crew\n"
        "cooler.rating = { heat = \"6 kW\", difference = \"60 K\" }\n[event]\n  ambient=\"38 "
        "degC\"";
    CHECK(with_value(text, "vehicle.mass", "\"2600 kg\"") ==
          "caseload = 1\nvehicle.mass   = \"2600 kg\"   # with crew\n"
          "cooler.rating = { heat = \"6 kW\", difference = \"60 K\" }\n[event]\n  "
          "ambient=\"38 degC\"");
    CHECK(with_value(text, "event.ambient", "\"40 degC\"").ends_with("  ambient=\"40 degC\""));
    CHECK(with_value(text, "cooler.rating.heat", "\"7 kW\"")
              .find("{ heat = \"7 kW\", difference = \"60 K\" }") != std::string::npos);
}

TEST_CASE("live: a new key goes under its heading, else before the first one") {
    CHECK(with_value("caseload = 1\n", "oil.fill", "\"3 L\"") ==
          "caseload = 1\noil.fill = \"3 L\"\n");
    CHECK(with_value("caseload = 1\n\n[event]\nambient = \"38 degC\"\n\n[leg.a]\n",
                     "event.altitude", "\"600 m\"") ==
          "caseload = 1\n\n[event]\nambient = \"38 degC\"\naltitude = \"600 m\"\n\n[leg.a]\n");
    CHECK(with_value("caseload = 1\n\n[event]\n", "oil.fill", "\"3 L\"") ==
          "caseload = 1\noil.fill = \"3 L\"\n\n[event]\n");
    // The line ends and the mark of the text stay.
    CHECK(with_value("\xEF\xBB\xBF"
                     "caseload = 1\r\n",
                     "oil.fill", "\"3 L\"") ==
          "\xEF\xBB\xBF"
          "caseload = 1\r\noil.fill = \"3 L\"\r\n");
    CHECK(with_value("caseload = 1", "oil.fill", "\"3 L\"") ==
          "caseload = 1\noil.fill = \"3 L\"\n");
}

TEST_CASE("live: a value over several lines is replaced and taken out whole") {
    const std::string rows =
        "leg.a.bins = [\n  { share = 1.0 }, # ] of it\n]  # all\noil.fill = \"3 L\"\n";
    CHECK(with_value(rows, "leg.a.bins", "[]") == "leg.a.bins = []  # all\noil.fill = \"3 L\"\n");
    CHECK(without_value(rows, "leg.a.bins") == "oil.fill = \"3 L\"\n");
    CHECK(with_value("gears.fitted = [\r\n33,\r\n41]\r\n", "gears.fitted", "[30, 40]") ==
          "gears.fitted = [30, 40]\r\n");
    CHECK(without_value("title = \"\"\"\n[oil] \"x\"\n\"\"\"\noil.fill = \"3 L\"\n", "title") ==
          "oil.fill = \"3 L\"\n");
}

TEST_CASE("live: a list too long for a line goes over several, and is replaced again") {
    std::string rows;
    for (int i = 0; i < 120; ++i)
        rows += std::string(i == 0 ? "[" : ", ") + "{ share = 0.01, torque = \"300 N m\" }";
    rows += "]";
    REQUIRE(rows.size() > 4096);
    for (const std::string& before :
         {std::string("caseload = 1\n"), std::string("caseload = 1\r\nleg.a.bins = []\r\n"),
          std::string("caseload = 1\nleg = { a = { bins = [] } }\n"),
          std::string("caseload = 1\n[leg.a]\nduration = \"1 h\"\n")}) {
        CAPTURE(before);
        const std::string after = with_value(before, "leg.a.bins", rows);
        const auto leaves = input::parse_leaves(after, "after");
        CHECK(leaves.at("leg.a.bins").value.items.size() == 120);
        CHECK((after.find("\r\n  {") != std::string::npos) ==
              (before.find('\r') != std::string::npos));
        CHECK(with_value(after, "leg.a.bins", "[]").size() < before.size() + 30);
    }
}

TEST_CASE("live: a ratio without quotes is replaced, and its comment stays") {
    const std::string text = "gears = { fitted = 31/43, module = \"5 mm\" }  # 31/43\n";
    CHECK(with_value(text, "gears.fitted", "[33, 41]") ==
          "gears = { fitted = [33, 41], module = \"5 mm\" }  # 31/43\n");
    CHECK(with_value(text, "gears.module", "\"4 mm\"") ==
          "gears = { fitted = 31/43, module = \"4 mm\" }  # 31/43\n");
    CHECK(without_value(text, "gears.fitted") == "gears = { module = \"5 mm\" }  # 31/43\n");
    CHECK(with_value("gears.fitted = 31 / 43 # it's\n", "gears.fitted", "[33, 41]") ==
          "gears.fitted = [33, 41] # it's\n");
    CHECK(with_value("caseload = 1\ngears.fitted = 31/43\n", "gears.fitted",
                     typed_toml(field("gears.fitted"), "30/44")) ==
          "caseload = 1\ngears.fitted = [30, 44]\n");
    CHECK(typed_form(field("gears.fitted"), "\"31/43\"") == "31/43");
}

TEST_CASE("live: an inline table takes a key and gives one back") {
    const std::string core = "cooler.rating = { heat = \"6 kW\", difference = \"60 K\" } # bench\n";
    CHECK(with_value(core, "cooler.rating.oil_flow", "\"8 L/min\"") ==
          "cooler.rating = { heat = \"6 kW\", difference = \"60 K\", oil_flow = \"8 L/min\" } # "
          "bench\n");
    CHECK(without_value(core, "cooler.rating.heat") ==
          "cooler.rating = { difference = \"60 K\" } # bench\n");
    CHECK(without_value(core, "cooler.rating.difference") ==
          "cooler.rating = { heat = \"6 kW\" } # bench\n");
    // With its last key it goes too.
    CHECK(without_value("cooler.rating = { heat = \"6 kW\" }\n", "cooler.rating.heat").empty());
    // A comma or a bracket inside a text is neither.
    CHECK(without_value("oil = { grade = \"a], }b\", fill = \"3 L\" }\n", "oil.grade") ==
          "oil = { fill = \"3 L\" }\n");
}

TEST_CASE("live: a key that cannot be changed alone is refused, and the text stays") {
    CHECK(refused("cooler.rating = {}\n", "cooler.rating.oil_flow", "\"8 L/min\""));
    CHECK(refused("cooler.rating = { heat = \"6 kW\" }\n", "cooler.rating", "\"6 kW"));
    CHECK_THROWS_AS(static_cast<void>(with_value("oil.fill = \n", "oil.fill", "\"3 L\"")), Error);
    // A text that looks like a heading is none.
    CHECK(with_value("title = \"\"\"\n[oil]\n\"\"\"\n", "oil.fill", "\"3 L\"") ==
          "title = \"\"\"\n[oil]\n\"\"\"\n[oil]\nfill = \"3 L\"\n");
}

TEST_CASE("live: removing a line leaves the rest of the text") {
    CHECK(without_value("caseload = 1\noil.fill = \"3 L\"  # full\n[event]\n", "oil.fill") ==
          "caseload = 1\n[event]\n");
    CHECK(without_value("caseload = 1\n", "oil.fill") == "caseload = 1\n");
}

TEST_CASE("live: what is typed becomes a value, or a text the reader explains") {
    CHECK(typed_toml(field("vehicle.mass"), " 2350 kg ") == "\"2350 kg\"");
    CHECK(typed_toml(field("vehicle.mass"), "2350") == "\"2350\"");
    CHECK(typed_toml(field("vehicle.axle_ratio"), "5.43") == "5.43");
    CHECK(typed_toml(field("vehicle.axle_ratio"), "5,43") == "\"5,43\"");
    CHECK(typed_toml(field("vehicle.axle_ratio"), "1\nx = 2") == "\"1\\u000Ax = 2\"");
    CHECK(typed_toml(field("gears.fitted"), "33, 41") == "[33, 41]");
    CHECK(typed_toml(field("gears.fitted"), "33/41") == "[33, 41]");
    CHECK(typed_toml(field("gears.fitted"), "[33, 41]") == "[33, 41]");
    CHECK(typed_toml(field("gears.fitted"), "B") == "\"B\"");
    CHECK(typed_toml(field("vehicle.gearbox"), "2.48, 1.48") == "[2.48, 1.48]");
    CHECK(typed_toml(field("gears.profile_shift"), "0.2, -0.2") == "[0.2, -0.2]");
    CHECK(typed_toml(field("gears.tip_diameter"), "[\"176 mm\", \"213 mm\"]") ==
          "[\"176 mm\", \"213 mm\"]");
    CHECK(typed_toml(field("leg.a.front_drive"), "true") == "true");
    CHECK(typed_toml(field("oil.grade"), "a \" b") == "\"a \\\" b\"");
    for (const auto& [key, typed] :
         std::vector<std::pair<std::string, std::string>>{{"vehicle.mass", "2350 kg"},
                                                          {"gears.fitted", "33, 41"},
                                                          {"gears.profile_shift", "0.2, -0.2"},
                                                          {"vehicle.grip", "0.6"},
                                                          {"leg.a.front_drive", "true"},
                                                          {"event.run", "[\"a\", \"2 x b\"]"}})
        CHECK(typed_form(field(key), typed_toml(field(key), typed)) == typed);
}

TEST_CASE("live: every entry of every example can be written into its text") {
    std::vector<std::string> texts{input_test::shortest()};
    for (const std::string& path : test_files::below("docs/examples", {".toml"}))
        if (path.find("/parts/") == std::string::npos)  // a library is no setup
            texts.push_back(test_files::file_text(test_files::root + path));
    texts.push_back(test_files::file_text(test_files::root + "tests/golden/full.toml"));
    int written = 0;
    std::vector<std::pair<std::string, std::string>> left;
    for (const std::string& text : texts) {
        const Document document(text, "setup.toml", examples::text);
        const auto leaves = input::parse_leaves(text, "setup.toml");
        for (const Entry& entry : document.complete().entries) {
            const input::Field& of = field(entry.key);
            const std::string toml = typed_toml(of, typed_form(of, entry.toml));
            CAPTURE(entry.key);
            try {
                const std::string changed = with_value(text, entry.key, toml);
                ++written;
                if (leaves.count(entry.key) == 0 && entry.origin != Origin::yours) {
                    const auto again = input::parse_leaves(without_value(changed, entry.key), "x");
                    CHECK(again.size() == leaves.size());
                }
            } catch (const Error&) {
                left.emplace_back(text, entry.key);
            }
        }
    }
    CHECK(written > 800);
    CHECK(left == std::vector<std::pair<std::string, std::string>>{});
}

}  // namespace caseload::edit_tests
