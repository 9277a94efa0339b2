// SPDX-License-Identifier: MIT
// Where values come from: file, base, pattern, words, standards, command line; and the way back.
// Long: one way at a time.
#include "input/fields.hpp"
#include "input/presets.hpp"
#include "input/setup_files.hpp"
#include "refused.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <map>
#include <set>

namespace caseload::document_tests {

using namespace caseload::input_test;

namespace {

FindBase files(std::map<std::string, std::string> texts) {
    return [texts = std::move(texts)](const std::string& name) -> std::optional<std::string> {
        const auto found = texts.find(name);
        if (found == texts.end()) return std::nullopt;
        return found->second;
    };
}

std::vector<std::pair<std::string, std::string>> values(const ReadSetup& read) {
    std::vector<std::pair<std::string, std::string>> list;
    for (const Entry& one : read.entries) list.emplace_back(one.key, one.toml);
    return list;
}

}  // namespace

TEST_CASE("origins: each value has its origin") {
    const std::string base = shortest() + "vehicle.grip = 0.7\n";
    const Document document("caseload = 1\nbase = \"base.toml\"\nvehicle.mass = \"2600 kg\"\n",
                            "heavy.toml", files({{"base.toml", base}}));
    const Change change{"event.ambient", "\"45 degC\""};
    const ReadSetup result = document.complete({&change, 1});
    const Entry& mass = entry(result, "vehicle.mass");
    CHECK(mass.origin == Origin::yours);
    CHECK(mass.where.file == "heavy.toml");
    CHECK(mass.where.line == 3);
    CHECK(mass.where.column == 9);
    CHECK(mass.where.source_line == "vehicle.mass = \"2600 kg\"");
    CHECK(mass.number == "2600 kg");
    CHECK(mass.toml == "\"2600 kg\"");
    const Entry& grip = entry(result, "vehicle.grip");
    CHECK(grip.origin == Origin::base_file);
    CHECK(grip.where.file == "base.toml");
    CHECK(grip.where.line == 13);
    CHECK(entry(result, "gears.module").origin == Origin::pattern);
    CHECK(entry(result, "gears.module").where.file == "pattern:two-gear-185mm");
    CHECK(entry(result, "housing.air_speed_share").origin == Origin::preset);
    CHECK(entry(result, "housing.air_speed_share").source ==
          "housing.place = \"behind-skid-plate\", judgement");
    CHECK(entry(result, "oil.viscosity_40C").origin == Origin::preset);
    CHECK(entry(result, "housing.wall").origin == Origin::standard);
    CHECK(entry(result, "event.ambient").origin == Origin::changed);
    CHECK(result.setup.event.ambient_degC == 45);
    CHECK(result.count_yours == 10);  // one here, nine in the base beside it
    CHECK(result.count_yours + result.count_assumed + 2 == static_cast<int>(result.entries.size()));
}

TEST_CASE("origins: the ten entries of the shortest file count as entered") {
    CHECK(read(shortest()).count_yours == 10);
}

TEST_CASE("merge: tables key by key, everything else replaced") {
    const std::string base = shortest() +
                             "set.A.teeth = [34, 40]\nvehicle.gearbox = [2.5, 1.5, 1.0]\n"
                             "lubrication.pump = { flow = \"7 L/min\", pressure = \"3 bar\" }\n";
    const Setup s = read_setup(
                        "caseload = 1\nbase = \"b.toml\"\nset.B.teeth = [32, 42]\nvehicle.gearbox "
                        "= [3.0, 1.0]\n"
                        "lubrication.pump.flow = \"8 L/min\"\n",
                        "s.toml", files({{"b.toml", base}}))
                        .setup;
    CHECK(s.sets.size() == 2);
    CHECK(s.vehicle.gearbox == std::vector<double>{3.0, 1.0});
    CHECK(s.lubrication.pump->flow_Lpmin == 8);
    CHECK(s.lubrication.pump->pressure_Pa == 3e5);
}

TEST_CASE("merge: a newer word or part drops what belonged to the older one") {
    const std::string base = shortest() + R"(
housing.air_speed_share = 0.5
housing.emissivity = 0.3
oil.viscosity_40C = "90 cSt"
bearing.output_rear.dynamic_rating = "58 kN"
cooler.fit = true
cooler.core = "280x150x45 mm"
cooler.rating = { heat = "6 kW", difference = "60 K", oil_flow = "8 L/min", face_speed = "8 m/s" }
)";
    const auto over = [&](const std::string& line) {
        return read_setup("caseload = 1\nbase = \"b.toml\"\n" + line, "s.toml",
                          files({{"b.toml", base}}))
            .setup;
    };
    const Setup same = over("");
    CHECK(same.housing.air_speed_share == 0.5);
    CHECK(same.oil.viscosity_40C_mm2ps == 90);
    CHECK_FALSE(same.cooler.rating_estimated);
    CHECK(over("housing.place = \"open\"").housing.air_speed_share == 0.60);
    CHECK(over("housing.dirt = \"mud\"").housing.emissivity == 0.90);
    CHECK(over("oil.grade = \"75W-140 synthetic\"").oil.viscosity_40C_mm2ps == 180);
    CHECK_FALSE(over("bearing.output_rear.size = \"95x145x24 mm\"").bearings[3].dynamic_rating_N);
    CHECK(over("bearing.output_rear.clearance = \"C4\"").bearings[3].dynamic_rating_N);
    CHECK(over("cooler.core = \"200x150x45 mm\"").cooler.rating_estimated);
    CHECK(over("cooler.duct = \"open\"").cooler.rating.heat_W == 6000);
    CHECK(over("vehicle.wheel_turns = \"353 /km\"").vehicle.rolling_radius_m ==
          rel(0.4508636, 1e-6));
    // The new file may give word and number together; the number counts.
    CHECK(over("housing.place = \"open\"\nhousing.air_speed_share = 0.4").housing.air_speed_share ==
          0.4);
    const Setup run =
        over("event.run = [\"a\"]\nleg.a = { duration = \"1 h\", course = \"sand\" }\n");
    CHECK(run.event.legs.size() == 1);
    CHECK(run.event.legs[0].course == "sand");
}

TEST_CASE("merge: a ninth base and a circle of bases are refused") {
    const auto chain = [](int length) {
        std::map<std::string, std::string> texts;
        for (int i = 1; i < length; ++i)
            texts["b" + std::to_string(i)] =
                "caseload = 1\nbase = \"b" + std::to_string(i + 1) + "\"\n";
        texts["b" + std::to_string(length)] = shortest();
        return files(texts);
    };
    CHECK_NOTHROW(static_cast<void>(read_setup("caseload = 1\nbase = \"b1\"\n", "s", chain(8))));
    CHECK_THROWS_AS(static_cast<void>(read_setup("caseload = 1\nbase = \"b1\"\n", "s", chain(9))),
                    Error);
    CHECK_THROWS_AS(static_cast<void>(read_setup("caseload = 1\nbase = \"s\"\n", "s",
                                                 files({{"s", "caseload = 1\nbase = \"s\"\n"}}))),
                    Error);
}

TEST_CASE("changes: --with changes any key, and nothing else") {
    const Document document(shortest(), "s.toml", {});
    const ReadSetup base = document.complete();
    const auto with = [&](const std::string& key, const std::string& toml) {
        const Change change{key, toml};
        return document.complete({&change, 1});
    };
    CHECK(with("housing.place", "\"open\"").setup.housing.air_speed_share == 0.60);
    CHECK(with("lubrication.pump", "{ flow = \"12 L/min\" }").setup.lubrication.pump->flow_Lpmin ==
          12);
    CHECK(with("gears.fitted", "[34, 40]").setup.gears.teeth == std::vector<int>{34, 40});
    CHECK(document.complete().setup == base.setup);  // nothing stays behind
    for (const Change& bad :
         {Change{"housing.place", "open"}, Change{"housing.plaice", "\"open\""},
          Change{"vehicle.mass", "2350"}, Change{"vehicle.mass", "\"1 kg\"\nx = 1"},
          Change{"", "1"}, Change{"a b", "1"}, Change{"vehicle.mass", ""}}) {
        CAPTURE(bad.key);
        CAPTURE(bad.toml);
        CHECK_THROWS_AS(static_cast<void>(document.complete({&bad, 1})), Error);
    }
}

TEST_CASE("changes: the order of changes does not matter") {
    const Document document(shortest(), "shortest.toml", {});
    const Change angle{"bearing.output_rear.contact_angle", "\"25 deg\""};
    const Change type{"bearing.output_rear.type", "\"four-point-ball\""};
    const std::vector<Change> one{angle, type};
    const std::vector<Change> other{type, angle};
    const ReadSetup first = document.complete(one);
    CHECK(entry(first, "bearing.output_rear.contact_angle").number == "25 deg");
    CHECK(first.setup == document.complete(other).setup);
    // Of one key given twice the last counts.
    const std::vector<Change> twice{{"vehicle.mass", "\"2 t\""}, {"vehicle.mass", "\"3 t\""}};
    CHECK(document.complete(twice).setup.vehicle.mass_kg == 3000);
}

TEST_CASE("ranges: both ends of every assumed value can be entered, and are plausible") {
    const Document document(shortest() + "cooler.fit = true\ncooler.core = \"280x150x45 mm\"\n",
                            "s.toml", {});
    const ReadSetup base = document.complete();
    int count = 0;
    for (const Entry& one : base.entries) {
        CHECK(one.low.empty() == one.high.empty());
        if (one.low.empty()) continue;
        ++count;
        CAPTURE(one.key);
        CHECK(one.origin != Origin::yours);
        bool moves = false;
        for (const std::string& end : {one.low, one.high}) {
            const Change change{one.key, end};
            const ReadSetup changed = document.complete({&change, 1});
            CHECK(entry(changed, one.key).toml == end);
            moves = moves || !(changed.setup == base.setup);
        }
        CHECK(moves);
    }
    CHECK(count > 30);
    // The factors of the uncertainty band.
    CHECK(entry(base, "housing.air_speed_share").low == "0.1505");  // 0.35 x 0.43
    CHECK(entry(base, "housing.air_speed_share").high == "0.7");    // 0.35 x 2
    CHECK(entry(base, "cooler.face_speed_share").low == "0.1");     // 0.20 x 0.5
    CHECK(entry(base, "cooler.face_speed_share").high == "0.34");   // 0.20 x 1.7
    CHECK(entry(base, "lubrication.oil_rehit").low == "1.2");       // of an unknown drain
    CHECK(entry(base, "lubrication.oil_rehit").high == "3.0");
    CHECK(entry(base, "oil.cleanliness").low == "\"-/17/14\"");
    CHECK(entry(base, "oil.cleanliness").high == "\"-/21/18\"");
    CHECK(entry(base, "housing.exhaust").low.empty());  // its number has the ends
    CHECK(entry(base, "housing.exhaust_heat").high == "\"500 W\"");
    CHECK(entry(base, "gears.module").low.empty());
    // A word the user chose keeps its number's range.
    const ReadSetup chosen = read(shortest() + "housing.exhaust = \"near-shielded\"\n");
    CHECK(entry(chosen, "housing.exhaust").low.empty());
    CHECK(entry(chosen, "housing.exhaust_heat").high == "\"600 W\"");
    // A number the user typed has none.
    const ReadSetup typed = read(shortest() + "housing.air_speed_share = 0.3\n");
    CHECK(entry(typed, "housing.air_speed_share").low.empty());
}

TEST_CASE("completed text: reads back to the same setup") {
    for (const std::string& text :
         {shortest(), shortest() + "cooler.fit = true\ncooler.core = \"280x150x45 mm\"\n",
          shortest() + "rules.look = \"2 events\"\nbearing.input_rear.seat.ring_fit = \"N7\"\n",
          file_text(golden_folder() + "full.toml"), file_text(golden_folder() + "idler.toml"),
          new_setup_text()}) {
        const ReadSetup first = read(text);
        const std::string completed = completed_text(first);
        const ReadSetup second = read(completed);
        CHECK(second.setup == first.setup);
        const auto entered = [](const ReadSetup& result) {
            std::vector<std::pair<std::string, std::string>> list;
            for (const auto& pair : values(result))
                if (entry(result, pair.first).origin != Origin::estimated) list.push_back(pair);
            return list;
        };
        CHECK(entered(second) == entered(first));
        CHECK(read(completed_text(second)).setup == first.setup);
        CHECK(second.count_assumed <=
              3 + 4 + 5 + 4 * 6);  // estimates, common practice, unknown and assumed seats stay so
    }
}

TEST_CASE(
    "completed text: the longest lists and texts the reader accepts are written and read again") {
    // 1000 bins and 1000 names of legs, most a list may have; names and texts as long as may be.
    std::string names;
    std::string legs;
    const std::string longest(96, 'n');
    for (int k = 0; k < 10; ++k) {
        const std::string name = fmt::format("{}{}", longest, k);
        for (int i = 0; i < 100; ++i)
            names += fmt::format("{}\"{}\"", names.empty() ? "" : ", \n", name);
        std::string rows;
        for (int i = 0; i < (k == 0 ? 1000 : 48); ++i)
            rows += fmt::format(
                "{{ share = {}, torque = \"{}.123456789 N m\", speed = \"2000.25 rpm\", "
                "road_speed = \"20.5 m/s\" }},\n",
                k == 0 ? "0.001" : "0.0208333333333333", 300 + i % 90);
        legs += fmt::format("[leg.{}]\nduration = \"1 h\"\nbins = [\n{}]\n", name, rows);
    }
    std::string text = shortest();
    for (const char* const key : {"event.course", "event.duration"}) {
        const std::size_t at = text.find(key);
        text.erase(at, text.find('\n', at) + 1 - at);
    }
    text += fmt::format("title = \"{}\"\noil.fill = \"3{}L\"\nevent.run = [{}]\n{}",
                        std::string(200, 't'), std::string(198, ' '), names, legs);
    const ReadSetup first = read(text);
    const std::string completed = completed_text(first);
    CHECK(read(completed).setup == first.setup);
    CHECK(completed_text(read(completed)).size() > 100000);
}

TEST_CASE("completed text: a setup larger than the reader accepts is refused, not written") {
    std::string text = shortest();
    for (const char* const key : {"event.course", "event.duration"}) {
        const std::size_t at = text.find(key);
        text.erase(at, text.find('\n', at) + 1 - at);
    }
    std::string event = "caseload = 1\n[event]\nrun = [\"a0\"]\n";
    std::string base = text + "event.from = \"event\"\n";
    for (int k = 0; k < 20; ++k) {
        std::string rows;
        for (int i = 0; i < 1000; ++i)
            rows += "{share=0.001,torque=\"300N m\",speed=\"2000rpm\",road_speed=\"20m/s\"},";
        for (std::size_t at = rows.find("},"); at != rows.npos; at = rows.find("},", at + 3))
            rows.insert(at + 2, "\n");
        (k < 10 ? event : base) +=
            fmt::format("[leg.a{}]\nduration = \"1 h\"\nbins = [\n{}]\n", k, rows);
    }
    const ReadSetup large = read_setup(
        base, "large.toml", [&](const std::string&) { return std::optional<std::string>(event); });
    const Error error = refused_by([&] { static_cast<void>(completed_text(large)); });
    CHECK(error.kind() == Error::Kind::input);
    CHECK(std::string(error.what()) ==
          "large.toml, completed, would be larger than the 1 MiB a setup may have");
}

TEST_CASE("names and texts: longer than any needs are refused") {
    const auto first_problem = [](const std::string& text) {
        const auto error = error_of([&] { static_cast<void>(read(text)); });
        return error ? error->problems().front().text : std::string();
    };
    CHECK(first_problem(shortest() + "leg." + std::string(101, 'a') + ".duration = \"1 h\"\n") ==
          "a name is longer than 100 characters");
    CHECK(first_problem(shortest() + "oil.fill = \"3" + std::string(199, ' ') + "L\"\n")
              .ends_with("the text is longer than 200 characters"));
    CHECK(first_problem(shortest() + "event.run = [\"" + std::string(201, 'a') + "\"]\n")
              .ends_with("the text is longer than 200 characters"));
}

TEST_CASE(
    "completed text: a file name with line ends, control characters or 5000 letters leaves it "
    "valid") {
    const ReadSetup result = read_setup(shortest(), "a\nb = 1\x01\xC3\xA9.toml", {});
    CHECK(read(completed_text(result)).setup.gears == result.setup.gears);
    const ReadSetup far = read_setup(shortest(), std::string(5000, 'a') + ".toml", {});
    CHECK(read(completed_text(far)).setup.gears == far.setup.gears);
}

TEST_CASE("new setup: the ten entries of the shortest file") {
    const ReadSetup fresh = read(new_setup_text());
    CHECK(fresh.count_yours == 10);
    CHECK(fresh.setup == read(shortest()).setup);
}

TEST_CASE("key reference: every key once, in a table") {
    const std::string text = key_reference();
    for (const input::Field& field : input::fields()) {
        const std::string row = "\n| `" + std::string(field.key) + "` | ";
        CAPTURE(row);
        const std::size_t at = text.find(row);
        REQUIRE(at != std::string::npos);
        const std::string line = text.substr(at + 1, text.find('\n', at + 1) - at - 1);
        CHECK(std::count(line.begin(), line.end(), '|') == 6);
    }
}

TEST_CASE("field table: in order, with words, one row a key") {
    std::set<std::string> keys;
    for (const input::Field& field : input::fields()) {
        CAPTURE(field.key);
        CHECK(keys.insert(std::string(field.key)).second);
        CHECK_FALSE(field.words.empty());
        CHECK(field.low.empty() == field.high.empty());
        CHECK((field.range.low < field.range.high));
        if (!field.fallback.empty() && !field.source.empty()) CHECK_FALSE(field.need);
        if (field.kind == input::FieldKind::word)
            CHECK(input::split_words(field.accepted).size() >= 2);
        if (field.kind == input::FieldKind::size) CHECK(input::read_size(field.example).ok);
    }
    CHECK(keys.size() > 150);
}

TEST_CASE("presets: each word that means numbers has its row") {
    for (const input::Preset& preset : input::presets()) {
        CAPTURE(preset.key);
        const input::Field& field = input::field_of(preset.key);
        std::set<std::string> words;
        for (const auto& [word, meaning] : preset.words) words.insert(word);
        const std::vector<std::string> accepted = input::split_words(field.accepted);
        CHECK(words == std::set<std::string>(accepted.begin(), accepted.end()));
        CHECK_FALSE(preset.source.empty());
        for (const std::string& filled : preset.fills)
            CHECK_NOTHROW(static_cast<void>(input::field_of(filled)));
    }
}

TEST_CASE("oil table: every grade reads, and its viscosity is that of its grade") {
    // Kinematic viscosity at 100 degC of SAE J306 (2019) grades: least, and the next grade's least.
    const std::map<std::string, std::pair<double, double>> limits{
        {"75", {6.5, 8.5}},    {"80", {8.5, 11.0}},   {"85", {11.0, 13.5}},  {"90", {13.5, 18.5}},
        {"110", {18.5, 24.0}}, {"140", {24.0, 32.5}}, {"190", {32.5, 41.0}}, {"250", {41.0, 1e3}}};
    for (const std::string& grade : input::oil_grades()) {
        CAPTURE(grade);
        std::string text = shortest();
        text.replace(text.find("75W-90 synthetic"), 16, grade);
        const OilInput oil = read(text).setup.oil;
        CHECK(oil.grade == grade);
        CHECK(oil.viscosity_40C_mm2ps > 3 * oil.viscosity_100C_mm2ps);
        if (grade.find("ISO VG 220") == 0) {
            CHECK(within(oil.viscosity_40C_mm2ps, 220, 22));  // ISO 3448: 10 %
            continue;
        }
        if (grade.find("70W-75") == 0) continue;  // a thin axle fluid outside the older grades
        const std::size_t begin = grade.find("SAE ") == 0 ? 4 : grade.find('-') + 1;
        const std::string number = grade.substr(begin, grade.find(' ', begin) - begin);
        REQUIRE(limits.count(number) == 1);
        CHECK(oil.viscosity_100C_mm2ps >= limits.at(number).first);
        CHECK(oil.viscosity_100C_mm2ps < limits.at(number).second);
    }
}

TEST_CASE("notes: ambiguous units, unused entries and assumed shares have their notes") {
    CHECK(has_note(read(shortest()), "input.unit", "vehicle.engine_power"));
    CHECK(has_note(read(shortest() + "lubrication.depth = \"30 mm\"\n"), "input.unused",
                   "lubrication.depth"));
    CHECK_FALSE(read(shortest() + "lubrication.depth = \"30 mm\"\n").setup.lubrication.depth_mm);
    CHECK(has_note(read(shortest() + "joint.rear.torque_share = 1.0\n"), "input.torque_shares",
                   "shaft.output"));
    const std::string legs = "leg.a = { duration = \"1 h\", course = \"sand\" }\n";
    std::string run = shortest();
    run.erase(run.find("event.course"));
    CHECK(has_note(read(run + legs +
                        "leg.b = { duration = \"1 h\", course = \"rock\" }\nevent.run = [\"a\"]\n"),
                   "input.unused", "leg.b"));
    CHECK(has_note(
        read(run + "leg.a = { duration = \"1 h\", distance = \"90 km\", bins = [{ share = 1.0, "
                   "torque = \"500 N m\", "
                   "speed = \"3000 rpm\", road_speed = \"60 km/h\" }] }\nevent.run = [\"a\"]\n"),
        "input.distance", "leg.a"));
}

}  // namespace caseload::document_tests
