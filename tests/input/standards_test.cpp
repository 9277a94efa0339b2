// SPDX-License-Identifier: MIT
// Standard values that hang on other entries: a core that is fitted, a stop whose engine is off, a
// dipped case without its pattern's pump.
#include "caseload/assess.hpp"

#include "input/setup_files.hpp"
#include "input/shortest.hpp"
#include "own_folder.hpp"
#include "program.hpp"

#include <string>

namespace caseload::standards_tests {

using input_test::entry;
using input_test::read;
using input_test::shortest;

namespace {

const std::string with_stop =
    "caseload = 1\nbase = \"pattern:two-gear-185mm\"\ngears.fitted = [33, 41]\n"
    "oil.grade = \"75W-90 synthetic\"\nhousing.place = \"open\"\nvehicle.mass = \"2350 kg\"\n"
    "vehicle.tyre = \"37 in\"\nvehicle.axle_ratio = 5.43\nvehicle.engine_power = \"650 hp\"\n"
    "cooler.core = \"280x150x45 mm\"\ncooler.fan_face_speed = \"3 m/s\"\n"
    "event.ambient = \"38 degC\"\nevent.run = [\"loop\", \"fuel\"]\n"
    "[leg.loop]\ncourse = \"rough-desert\"\nduration = \"1 h\"\n"
    "[leg.fuel]\nkind = \"stop\"\nduration = \"10 min\"\n";

const std::string dipped =
    shortest() + "lubrication.method = \"dip\"\nlubrication.depth = \"30 mm\"\n";

}  // namespace

TEST_CASE("standards: a cooler is fitted when its core is entered, unless cooler.fit is false") {
    CHECK_FALSE(read(shortest()).setup.cooler.fit);
    const ReadSetup core = read(shortest() + "cooler.core = \"280x150x45 mm\"\n");
    CHECK(core.setup.cooler.fit);
    CHECK(entry(core, "cooler.fit").origin == Origin::standard);
    CHECK_FALSE(read(shortest() + "cooler.core = \"280x150x45 mm\"\ncooler.fit = false\n")
                    .setup.cooler.fit);
    CHECK_FALSE(read(shortest() + "cooler.duct = \"open\"\n").setup.cooler.fit);
    CHECK(read(shortest() + "[core.small]\nsize = \"200x150x45 mm\"\n[cooler]\ncore = \"small\"\n")
              .setup.cooler.fit);
}

TEST_CASE("standards: pump and fan run in a stop while the engine idles, and are assumed") {
    const ReadSetup off = read(with_stop);
    const LegInput& stop = off.setup.event.legs[1];
    CHECK_FALSE(stop.pump_on);
    CHECK_FALSE(stop.fan_on);
    CHECK(entry(off, "leg.fuel.pump").toml == "\"off\"");
    CHECK(entry(off, "leg.fuel.pump").origin == Origin::standard);
    const LegInput idle = read(with_stop + "engine = \"idle\"\n").setup.event.legs[1];
    CHECK(idle.pump_on);
    CHECK(idle.fan_on);
    const LegInput entered =
        read(with_stop + "engine = \"idle\"\nfan = \"off\"\n").setup.event.legs[1];
    CHECK(entered.pump_on);
    CHECK_FALSE(entered.fan_on);
    const Document document(with_stop, "stop.toml", {});
    int listed = 0;
    for (const Worth& one : assumptions_by_worth(document, document.complete()))
        if (one.entry.key == "leg.fuel.pump" || one.entry.key == "leg.fuel.fan") ++listed;
    CHECK(listed == 2);
}

TEST_CASE("standards: a dipped case drops the pump of its pattern, not an entered one") {
    const ReadSetup alone = read(dipped);
    CHECK_FALSE(alone.setup.lubrication.pump.has_value());
    CHECK(entry(alone, "lubrication.pump.flow").key.empty());
    const ReadSetup entered = read(dipped + "lubrication.pump.flow = \"5 L/min\"\n");
    REQUIRE(entered.setup.lubrication.pump.has_value());
    CHECK(entered.setup.lubrication.pump->flow_Lpmin == 5);
    CHECK(entry(entered, "lubrication.pump.drive").origin == Origin::pattern);
    const std::vector<Change> dips{{"lubrication.method", "\"dip\""},
                                   {"lubrication.depth", "\"30 mm\""}};
    const Document scavenged(shortest(), "case.toml", {});
    CHECK_FALSE(scavenged.complete(dips).setup.lubrication.pump.has_value());
    CHECK(scavenged.complete().setup.lubrication.pump.has_value());
    const FindBase base = [](const std::string&) { return dipped; };
    CHECK_FALSE(read_setup("caseload = 1\nbase = \"dipped.toml\"\n", "own.toml", base)
                    .setup.lubrication.pump.has_value());
}

TEST_CASE("standards: of a dipped case only the parts it has can fail") {
    const OwnFolder own("dipped_failures");
    own.write("case.toml", dipped);
    for (const std::string what : {"pump", "fan", "half_core"}) {
        const Run run =
            run_program_as_user("compare " + own.path("case.toml") + " --without " + what);
        INFO(run.out);
        CHECK(run.code == 2);
        CHECK(test_files::has(run.out, "the setup has no "));
    }
    own.write("pumped.toml", dipped + "lubrication.pump.flow = \"5 L/min\"\n");
    CHECK(run_program_as_user("compare " + own.path("pumped.toml") + " --without pump").code == 0);
}

TEST_CASE("standards: an upgraded file keeps a core without a word not fitted") {
    const OwnFolder own("upgraded_core");
    own.write("old.toml", shortest() + "cooler.core = \"250x120x50 mm\"\n");
    const Run run = run_program_as_user("upgrade " + own.path("old.toml"));
    CHECK(test_files::has(run.out, "cooler.fit = false"));
    const std::string now = file_text(own.path("old.toml"));
    CHECK_FALSE(read_setup(now, "old.toml", {}).setup.cooler.fit);
    CHECK(test_files::has(run_program_as_user("upgrade " + own.path("old.toml")).out,
                          "nothing to do"));
}

TEST_CASE("standards: an upgraded file keeps pump and fan in its stops, however they are written") {
    const OwnFolder own("upgraded_stops");
    const auto upgraded = [&](const std::string& text) {
        own.write("old.toml", text);
        const Run run = run_program_as_user("upgrade " + own.path("old.toml"));
        INFO(run.out);
        CHECK(run.code == 0);
        const Run again = run_program_as_user("upgrade " + own.path("old.toml"));
        CHECK(test_files::has(again.out, "nothing to do"));
        return read_setup(file_text(own.path("old.toml")), "old.toml", {}).setup.event.legs[1];
    };
    const LegInput heading = upgraded(with_stop);
    CHECK(heading.pump_on);
    CHECK(heading.fan_on);
    const std::string rest = with_stop.substr(0, with_stop.find("[leg.loop]"));
    const LegInput inline_table =
        upgraded(rest +
                 "[leg]\nloop = { course = \"rough-desert\", duration = \"1 h\" }\n"
                 "fuel = { kind = \"stop\", duration = \"10 min\" } # fuel\n");
    CHECK(inline_table.pump_on);
    CHECK(inline_table.fan_on);
    const LegInput dotted =
        upgraded(rest +
                 "leg.loop.course = \"rough-desert\"\nleg.loop.duration = \"1 h\"\n"
                 "leg.fuel.kind = \"stop\"\nleg.fuel.duration = \"10 min\"\n");
    CHECK(dotted.pump_on);
    CHECK(dotted.fan_on);
    const LegInput own_words = upgraded(with_stop + "pump = \"off\"\n");
    CHECK_FALSE(own_words.pump_on);
    CHECK(own_words.fan_on);
    // A stop whose base gives the words is left alone.
    own.write("base.toml", with_stop + "pump = \"off\"\nfan = \"off\"\n");
    own.write("own.toml", "caseload = 1\nbase = \"base.toml\"\nleg.fuel.kind = \"stop\"\n");
    CHECK(test_files::has(run_program_as_user("upgrade " + own.path("own.toml")).out,
                          "nothing to do"));
}

}  // namespace caseload::standards_tests
