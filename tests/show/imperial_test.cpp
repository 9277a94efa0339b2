// SPDX-License-Identifier: MIT
// Screens in imperial units, and no temperature above the ceiling in any of them.
#include "caseload/show/json.hpp"
#include "caseload/show/text.hpp"
#include "examples.hpp"
#include "show/units_shown.hpp"
#include "support.hpp"

#include <algorithm>
#include <regex>
#include <sstream>
#include <string>

namespace caseload::imperial_tests {

namespace {

std::string screens(const std::string& name, const std::vector<Change>& changes, bool imperial,
                    std::string* json = nullptr) {
    const Document document(examples::text(name).value(), name, examples::text);
    ReadSetup read = document.complete(changes);
    read.setup.imperial = imperial;
    const Assessment likely = assess(read.setup);
    const Band sure = band(read.setup, likely, {.draws = 63, .for_each = one_by_one});
    const std::vector<Worth> worth = assumptions_by_worth(document, read);
    const Answer answer{read, likely, sure, worth};
    if (json != nullptr) *json = assessment_json(answer);
    return first_screen(answer) + detail_screen(answer);
}

}  // namespace

TEST_CASE("imperial: quantities inside sentences are converted") {
    const Units units(true);
    CHECK(units.text("oil at 121 degC") == "oil at 250 degF");
    CHECK(units.text("starts at -20 degC, then 60 K more") == "starts at -4 degF, then 108 F more");
    CHECK(units.text("core 280x150x45 mm, 12 mm deep") == "core 11x5.91x1.77 in, 0.472 in deep");
    CHECK(units.text("drives 85 km at 25 m/s or 90 km/h, 600 m up") ==
          "drives 52.8 mi at 55.9 mph or 55.9 mph, 1969 ft up");
    CHECK(units.text("267 kW, 60 W, 650 N m, 12.5 kN, 800 N, 2350 kg, 9 L/min") ==
          "358 hp, 0.0805 hp, 479 lb ft, 2810 lbf, 180 lbf, 5181 lb, 2.38 gpm");
    // What only looks like one.
    for (const std::string same :
         {"100 N/mm", "15 mm2/s", "200 W/m2K", "868 kg/m3", "-/19/16", "33/41", "0.35", "75W-90",
          "4000 r/min", "leg2 K", "10 more", "bearing 2 mma", "nothing"})
        CHECK(units.text(same) == same);
    CHECK(Units(false).text("oil at 121 degC") == "oil at 121 degC");
}

TEST_CASE("imperial: single quantities are converted") {
    const Units units(true);
    CHECK(units.line({"x", 745.69987, "W"}).find("1 hp") != std::string::npos);
    CHECK(units.line({"x", 1.3558179, "N m"}).find("1 lb ft") != std::string::npos);
    CHECK(units.line({"x", 1609.344, "m"}).find("1 mi") != std::string::npos);
    CHECK(units.line({"x", 50.8, "mm"}).find("2 in") != std::string::npos);
    CHECK(units.line({"x", 0.3048, "m"}).find("1 ft") != std::string::npos);
    CHECK(units.line({"x", 0.3048, "m/event"}).find("1 ft/event") != std::string::npos);
    CHECK(units.value(25.4, "um") == "0.001 in");
    CHECK(units.line({"x", 4.4482216, "N"}).find("1 lbf") != std::string::npos);
    CHECK(units.line({"x", 0.45359237, "kg"}).find("1 lb") != std::string::npos);
    CHECK(units.line({"x", 10, "K"}).find("18 F") != std::string::npos);
    CHECK(units.line({"x", 44.704, "m/s"}).find("100 mph") != std::string::npos);
    CHECK(units.line({"x", 3.785411784, "L/min"}).find("1 gpm") != std::string::npos);
    CHECK(units.line({"x", 1342.2598, "W/K"}).find("1 hp/F") != std::string::npos);
    CHECK(units.line({"x", 100, "degC"}).find("212 degF") != std::string::npos);
    CHECK(units.line({"x", 161, "degC"}).find("above 320") != std::string::npos);
    CHECK(units.power(7456.9987) == "10.0 hp");
    CHECK(Units(false).power(7456.9987) == "7.5 kW");
    CHECK(units.short_by({7456.9987, 134.22598}) == "10.0 hp more cooling needed (0.1 hp per F)");
    CHECK(Units(false).short_by({640, 9.2}) == "640 W more cooling needed (9 W per K)");
}

TEST_CASE("imperial: no metric unit is left on any screen") {
    // Words of the setup that stay as entered: film coefficients, viscosities, densities, um,
    // areas.
    const std::regex metric(
        R"([0-9] (degC|K|mm|m|km|N m|N|kN|kg|W|kW|W/K|m/s|km/h|L/min)(?![A-Za-z0-9/]))");
    for (const std::string name : {"light.toml", "dip.toml"}) {
        const std::string shown = screens(name, {}, true);
        std::smatch found;
        CAPTURE(name);
        const bool any = std::regex_search(shown, found, metric);
        const std::string before = any ? found.prefix().str() + found.str() : std::string();
        CAPTURE(before.substr(before.size() - std::min<std::size_t>(before.size(), 60)));
        CHECK(!any);
    }
    CHECK(std::regex_search(screens("dip.toml", {}, false), metric));
}

TEST_CASE("ceiling: no temperature above 160 degC is printed, in any units or form") {
    const std::vector<Change> hot{{"cooler.fit", "false"},
                                  {"housing.exhaust", "\"near-bare\""},
                                  {"housing.place", "\"tunnel\""},
                                  {"event.ambient", "\"55 degC\""},
                                  {"housing.dirt", "\"mud\""}};
    const std::vector<Change> deep{{"lubrication.depth", "\"150 mm\""}};
    for (const std::string name : {"heavy.toml", "dip.toml"})
        for (const bool imperial : {false, true}) {
            CAPTURE(name);
            CAPTURE(imperial);
            std::string json;
            std::vector<Change> changes = hot;
            if (name == "dip.toml") changes.insert(changes.end(), deep.begin(), deep.end());
            const std::string shown = screens(name, changes, imperial, &json);
            CHECK(shown.find("the oil does not settle below " +
                             std::string(imperial ? "320 degF" : "160 degC")) != std::string::npos);
            CHECK(shown.find(imperial ? "above 320" : "above 160") != std::string::npos);
            // Contact, tooth, scuffing, release and lip temperatures are what a formula states of a
            // point at oil of 160 degC at most,
            // not what the oil or a part reaches.
            const std::regex points(
                R"(contact temperature|behind the contact|loose above|hottest lip)");
            const std::regex degrees(R"(([0-9.]+) deg[CF])");
            std::istringstream lines(shown);
            for (std::string line; std::getline(lines, line);) {
                if (std::regex_search(line, points)) continue;
                for (auto it = std::sregex_iterator(line.begin(), line.end(), degrees);
                     it != std::sregex_iterator(); ++it)
                    CHECK(std::stod((*it)[1]) <= (imperial ? 320 : 160));
            }
            const std::regex of_json(
                R"re("(?!contact|tooth|film_tooth|scuffing|loose_above)[a-zA-Z_0-9]*degC":(-?[0-9.e+]+))re");
            int numbers = 0;
            for (auto it = std::sregex_iterator(json.begin(), json.end(), of_json);
                 it != std::sregex_iterator(); ++it, ++numbers)
                CHECK(std::stod((*it)[1]) <= 160);
            CHECK(numbers > 20);
        }
}

}  // namespace caseload::imperial_tests
