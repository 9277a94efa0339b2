// SPDX-License-Identifier: MIT
// Entries that cannot be are refused with one that can; those more likely a slip are asked about
// before the verdict.
#include "caseload/assess.hpp"

#include "examples.hpp"
#include "input/course_power.hpp"
#include "input/setup_files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <vector>

namespace caseload::plausible_tests {

namespace {

/// The truck the worked values are of.
const std::string truck =
    "caseload = 1\nbase = \"pattern:two-gear-215mm\"\ngears.fitted = [37, 49]\n"
    "oil.grade = \"75W-140 synthetic\"\nhousing.place = \"behind-skid-plate\"\n"
    "vehicle.mass = \"2900 kg\"\nvehicle.tyre = \"40 in\"\nvehicle.axle_ratio = 5.43\n"
    "vehicle.engine_power = \"850 hp\"\nevent.ambient = \"40 degC\"\n"
    "event.course = \"rough-desert\"\nevent.pace = \"26 m/s\"\nevent.duration = \"2 h\"\n"
    "cooler.core = \"250x120x50 mm\"\noil.fill = \"3.2 L\"\n";

struct Outcome {
    std::vector<std::string> asked;  ///< ids of the questions
    std::string refused;             ///< first problem and its hint; "" when it is taken
};

Outcome outcome(const std::string& text, const std::vector<Change>& changes) {
    Outcome result;
    try {
        const ReadSetup read = Document(text, "truck.toml", examples::text).complete(changes);
        for (const Note& note : read.notes)
            if (note.id.rfind("ask.", 0) == 0) result.asked.push_back(note.id);
    } catch (const Error& error) {
        result.refused = error.problems().front().text + " / " + error.problems().front().hint;
    }
    return result;
}

Outcome of_truck(const std::string& key, const std::string& value) {
    return outcome(truck, {{key, "\"" + value + "\""}});
}

bool asked(const Outcome& one, const std::string& id) {
    for (const std::string& found : one.asked)
        if (found == id) return true;
    return false;
}

}  // namespace

TEST_CASE("plausible: nothing is asked about the truck, the examples and a new setup") {
    CHECK(outcome(truck, {}).refused.empty());
    CHECK(outcome(truck, {}).asked.empty());
    CHECK(outcome(new_setup_text(), {}).asked.empty());
    for (const std::string name :
         {"light.toml", "heavy.toml", "idler.toml", "shelf.toml", "trailer.toml", "dip.toml"}) {
        INFO(name);
        const Outcome one = outcome(examples::text(name).value(), {});
        CHECK(one.refused.empty());
        CHECK(one.asked.empty());
    }
}

// Core 250x120x50: 15 rows x 250 x 44 x 2.4 mm are 0.396 L; hoses 3 m of 11 mm 0.285 L.
TEST_CASE("plausible: a fill must leave some oil beside core and hoses") {
    CHECK(
        test_files::has(of_truck("oil.fill", "0.4 L").refused, "core and hoses alone hold 0.68 L"));
    CHECK(test_files::has(of_truck("oil.fill", "0.4 L").refused, "did you mean \"4 L\"?"));
    CHECK(test_files::has(of_truck("oil.fill", "0.97 L").refused, "alone hold"));
    CHECK(of_truck("oil.fill", "0.99 L").refused.empty());
    CHECK(outcome(truck, {{"oil.fill", "\"0.61 L\""}, {"cooler.fit", "false"}}).refused.empty());
}

// 9 L/min: 1.6 L in 10.7 s, 3.2 L in 21 s; 12 s are 1.8 L, 4 s 0.6 L.
TEST_CASE("plausible: the pump takes four seconds or more to send the fill round") {
    CHECK(asked(of_truck("oil.fill", "1.6 L"), "ask.fill_round"));
    CHECK(asked(of_truck("oil.fill", "1.79 L"), "ask.fill_round"));
    CHECK_FALSE(asked(of_truck("oil.fill", "1.81 L"), "ask.fill_round"));
    CHECK(test_files::has(of_truck("lubrication.pump.flow", "48.1 L/min").refused, "in 4 s"));
    CHECK(of_truck("lubrication.pump.flow", "47.9 L/min").refused.empty());
    // Without a cooler only the pump bounds it: what is offered is taken.
    const std::vector<Change> bare{{"cooler.fit", "false"}, {"oil.fill", "\"0.59 L\""}};
    CHECK(test_files::has(outcome(truck, bare).refused, "at least \"0.6 L\" is taken"));
    // 6 m/s in 11 mm.
    CHECK(asked(of_truck("lubrication.pump.flow", "34.3 L/min"), "ask.ports"));
    CHECK_FALSE(asked(of_truck("lubrication.pump.flow", "34.1 L/min"), "ask.ports"));
}

// Inside 163 x 278 x 493 mm 22.3 L, steel 4.3 L: 18.1 L; three tenths are 5.42 L.
TEST_CASE("plausible: a fill has room beside the gears") {
    CHECK(test_files::has(of_truck("oil.fill", "25 L").refused, "has room for 18.1 L"));
    CHECK(test_files::has(of_truck("oil.fill", "18.2 L").refused, "oil.fill = \"18 L\""));
    CHECK(of_truck("oil.fill", "18 L").refused.empty());
    CHECK(asked(of_truck("oil.fill", "5.5 L"), "ask.fill_large"));
    CHECK_FALSE(asked(of_truck("oil.fill", "5.35 L"), "ask.fill_large"));
    CHECK(test_files::has(of_truck("case.steel_mass", "200 kg").refused, "have no room"));
}

TEST_CASE("plausible: single entries just inside and just outside their bounds") {
    const auto bound = [](const std::string& key, const std::string& inside,
                          const std::string& outside, const std::string& id) {
        INFO(key);
        CHECK_FALSE(asked(of_truck(key, inside), id));
        CHECK(asked(of_truck(key, outside), id));
    };
    bound("event.ambient", "50 degC", "50.5 degC", "ask.ambient");
    bound("event.ambient", "-30 degC", "-30.5 degC", "ask.ambient");
    bound("cooler.fan_face_speed", "12 m/s", "12.1 m/s", "ask.fan");
    bound("event.oil_at_start", "121 degC", "121.5 degC", "ask.oil_at_start");
    // 850 hp: 1.5 kg a horsepower are 1275 kg, 15 are 12750 kg.
    bound("vehicle.mass", "1280 kg", "1270 kg", "ask.mass_per_power");
    const std::vector<Change> strong{{"vehicle.engine_power", "\"1300 hp\""},
                                     {"event.pace", "\"15 m/s\""}};
    std::vector<Change> heavy = strong;
    heavy.push_back({"vehicle.mass", "\"19600 kg\""});
    CHECK(asked(outcome(truck, heavy), "ask.mass_per_power"));
    heavy.back().toml = "\"19400 kg\"";
    CHECK_FALSE(asked(outcome(truck, heavy), "ask.mass_per_power"));
    // 280x150 mm and 60 K: 7 kW for each m2 and K are 17.6 kW, 1 is 2.5 kW.
    const std::string light = examples::text("light.toml").value();
    for (const auto& [heat, id] :
         {std::pair{"17.5 kW", false}, {"17.8 kW", true}, {"2.6 kW", false}, {"2.5 kW", true}}) {
        INFO(heat);
        CHECK(asked(outcome(light, {{"cooler.rating.heat", fmt::format("\"{}\"", heat)}}),
                    "ask.rating") == id);
    }
}

// 2000 kg, 0.2, 20 m/s, 2.4 m2 in standard air of 1.225 kg/m3: (3922.66 + 588) N x 20 m/s.
TEST_CASE("plausible: mean power of a course is road load times speed, and rises with the pace") {
    Setup setup = examples::setup("light.toml");
    setup.vehicle.mass_kg = 2000;
    setup.vehicle.drag_area_m2 = 2.4;
    setup.vehicle.grip = 0.6;
    setup.event.ambient_degC = 15;
    setup.event.altitude_m = 0;
    LegInput leg;
    leg.course_lines = {{1, 1, 0.2, 0, 0}};
    CHECK(input::mean_power_W(setup, leg, 20) == rel(90213.2, 1e-5));
    // Downhill nothing is driven, and no force passes the grip of the tyres.
    leg.course_lines = {{0.5, 1, 0.2, 0, 0}, {0.5, 1, 0.1, -0.3, 0}};
    CHECK(input::mean_power_W(setup, leg, 20) == rel(90213.2 / 2, 1e-5));
    leg.course_lines = {{1, 1, 0.2, 0, 20}};
    CHECK(input::mean_power_W(setup, leg, 20) == rel(0.6 * 2000 * 9.80665 * 20, 1e-12));
    leg.course_lines = {{1, 1, 0.2, 0, 0}};
    double last_W = 0;
    for (double pace_mps = 1; pace_mps < 70; pace_mps += 1) {
        const double power_W = input::mean_power_W(setup, leg, pace_mps);
        CHECK(power_W > last_W);
        CHECK(input::pace_of_power_mps(setup, leg, power_W) == rel(pace_mps, 1e-9));
        last_W = power_W;
    }
}

TEST_CASE("plausible: a pace the engine cannot drive is refused with one it can") {
    const std::vector<Change> slow_car{{"vehicle.engine_power", "\"250 hp\""},
                                       {"event.pace", "\"200 km/h\""}};
    const Outcome refused = outcome(truck, slow_car);
    CHECK(test_files::has(refused.refused, "event: rough-desert at 200 km/h takes"));
    const std::string words = "this car can hold ";
    const std::size_t at = refused.refused.find(words);
    REQUIRE(at != std::string::npos);
    const int kmph = std::stoi(refused.refused.substr(at + words.size()));
    const auto at_pace = [&](int pace_kmph) {
        return outcome(truck, {slow_car[0], {"event.pace", fmt::format("\"{} km/h\"", pace_kmph)}});
    };
    CHECK(at_pace(kmph).refused.empty());
    CHECK(asked(at_pace(kmph), "ask.power"));
    CHECK_FALSE(at_pace(kmph + 1).refused.empty());
    // Six tenths of 850 hp x 0.85 at the wheels.
    const Setup setup = Document(truck, "truck.toml", {}).complete().setup;
    const LegInput& leg = setup.event.legs.front();
    const double asked_mps =
        input::pace_of_power_mps(setup, leg, 0.6 * 0.85 * setup.vehicle.engine_power_W);
    CHECK_FALSE(
        asked(of_truck("event.pace", fmt::format("{:.4f} m/s", asked_mps - 0.01)), "ask.power"));
    CHECK(asked(of_truck("event.pace", fmt::format("{:.4f} m/s", asked_mps + 0.01)), "ask.power"));
}

TEST_CASE("plausible: an engine at its limit for a third of the time is asked about") {
    const auto asks = [](const std::string& pace) {
        const Document document(truck, "truck.toml", {});
        const Assessment answer =
            assess(document
                       .complete(std::vector<Change>{{"vehicle.engine_power", "\"560 hp\""},
                                                     {"event.pace", "\"" + pace + "\""}})
                       .setup);
        return examples::has_note(answer.notes, "ask.engine_limited", "leg.rough-desert");
    };
    CHECK(asks("150 km/h"));
    CHECK_FALSE(asks("94 km/h"));
}

TEST_CASE("plausible: the program asks before the verdict, in JSON and on the page, and goes on") {
    const OwnFolder own("plausible");
    own.write("truck.toml", truck + "lubrication.pump.flow = \"18 L/min\"\n");
    const std::string file = own.path("truck.toml");
    const Run screen = run_program_as_user("assess " + file + " --draws 63");
    CHECK(screen.code == 0);
    const std::size_t question = screen.out.find("ENTRY?   oil.fill = \"3.2 L\"");
    REQUIRE(question != std::string::npos);
    CHECK(question < screen.out.find("FINE  "));
    CHECK(test_files::has(run_program_as_user("assess " + file + " --draws 63 --json").out,
                          "\"ask.fill_round\""));
    const std::string page = own.path("truck.html");
    CHECK(run_program_as_user("assess " + file + " --draws 63 --page " + page).code == 0);
    const std::string html = file_text(page);
    CHECK(html.find("Is this entry right?") < html.find("class=\"verdict"));
    own.write("rows.csv", "vehicle.engine_power,event.pace\n250 hp,200 km/h\n850 hp,26 m/s\n");
    const Run each =
        run_program_as_user("assess " + file + " --draws 63 --each " + own.path("rows.csv"));
    CHECK(each.code == 0);
    const std::vector<std::string> rows = test_files::lines(each.out);
    REQUIRE(rows.size() == 2);
    CHECK(test_files::has(rows[0], "this car can hold"));
    CHECK(test_files::has(rows[1], "\"error\":null"));
    CHECK(run_program_as_user("compare " + file +
                              " --with 'vehicle.engine_power=250 hp' --with 'event.pace=200 km/h'")
              .code == 2);
}

}  // namespace caseload::plausible_tests
