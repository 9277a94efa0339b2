// SPDX-License-Identifier: MIT
// Parts of a library: what a name stands for, what goes before what, and every mistake's exact
// text.
#include "files.hpp"
#include "input/setup_files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "refused.hpp"
#include "support.hpp"

#include "caseload/show/problems.hpp"

#include <filesystem>
#include <map>
#include <string>

namespace caseload::library_tests {

using namespace caseload::input_test;

namespace {

const std::string shop = R"~(caseload = 1
[oil.race]
base_oil = "mineral"
viscosity_40C = "200 mm2/s"
viscosity_100C = "20 mm2/s"
density_15C = "900 kg/m3"
shear_loss = 0.2
[core.small]
size = "200x150x45 mm"
construction = "tube-fin"
[core.rated]
size = "220x150x45 mm"
rating = { heat = "5 kW", difference = "60 K", oil_flow = "8 L/min", face_speed = "8 m/s" }
[bearing.wide]
type = "cylindrical-roller"
size = "90x150x30 mm"
dynamic_rating = "120 kN"
clearance = "C4"
[bearing.angled]
type = "deep-groove-ball"
size = "90x140x24 mm"
static_rating = "estimate"
[joint.coated]
slip = "coated"
slip_diameter = "58 mm"
)~";

/// Setups see these files.
FindBase shelf_files(std::map<std::string, std::string> more = {}) {
    more.emplace("shop.toml", shop);
    return [more](const std::string& name) -> std::optional<std::string> {
        const auto found = more.find(name);
        if (found == more.end()) return std::nullopt;
        return found->second;
    };
}

/// The shortest setup without its oil.
std::string no_oil() {
    std::string text = shortest();
    const std::size_t at = text.find("oil.grade");
    return text.erase(at, text.find('\n', at) + 1 - at);
}

const std::string named = "library = \"shop.toml\"\n";

ReadSetup with_shop(const std::string& text) {
    return read_setup(text, "setup.toml", shelf_files());
}

std::string report_of(const std::string& setup, const FindBase& find) {
    const auto error = error_of([&] { static_cast<void>(read_setup(setup, "setup.toml", find)); });
    if (error) CHECK(error->kind() == Error::Kind::input);
    return error ? problem_report(*error) : std::string();
}

}  // namespace

TEST_CASE("library: a name brings its values, each with its line in the library") {
    const ReadSetup result =
        with_shop(no_oil() + named +
                  "oil.grade = \"race\"\ncooler.fit = true\ncooler.core = \"small\"\n"
                  "bearing.output_front.from = \"wide\"\njoint.rear.from = \"coated\"\n");
    CHECK(result.setup.oil.viscosity_40C_mm2ps == rel(200, 1e-12));
    CHECK(result.setup.oil.shear_loss == rel(0.2, 1e-12));
    CHECK(result.setup.oil.grade.empty());
    CHECK(result.setup.limits.oil_stop_degC == rel(120, 1e-12));  // of a mineral oil
    CHECK(result.setup.cooler.width_mm == rel(200, 1e-12));
    CHECK(entry(result, "cooler.construction").toml == "\"tube-fin\"");
    for (const BearingInput& one : result.setup.bearings)
        if (one.name == "output_front") {
            CHECK(one.kind == BearingKind::cylindrical_roller);
            CHECK(one.width_mm == rel(30, 1e-12));
            CHECK(one.dynamic_rating_N.value() == rel(120000, 1e-12));
        }
    for (const JointInput& one : result.setup.joints)
        if (one.name == "rear") CHECK(one.slip_diameter_mm == rel(58, 1e-12));
    const Entry& size = entry(result, "bearing.output_front.size");
    CHECK(size.origin == Origin::base_file);
    CHECK(size.where.file == "shop.toml");
    CHECK(size.where.line == 16);
    CHECK(size.where.source_line == "size = \"90x150x30 mm\"");
    CHECK(entry(result, "oil.viscosity_40C").where.line == 4);
    CHECK(completed_text(result).find("# shop.toml, line 16") != std::string::npos);
}

TEST_CASE("library: the completed text needs no library and gives the same setup") {
    const ReadSetup result =
        with_shop(no_oil() + named +
                  "oil.grade = \"race\"\ncooler.fit = true\ncooler.core = \"rated\"\n"
                  "bearing.output_front.from = \"wide\"\n");
    CHECK(read(completed_text(result)).setup == result.setup);
}

TEST_CASE(
    "library: entries beside the name override the library's, in one file and in a later one") {
    const std::string base = shortest() + named + "bearing.output_front.from = \"wide\"\n";
    const ReadSetup beside = with_shop(base + "bearing.output_front.dynamic_rating = \"99 kN\"\n");
    CHECK(entry(beside, "bearing.output_front.dynamic_rating").toml == "\"99 kN\"");
    CHECK(entry(beside, "bearing.output_front.clearance").toml == "\"C4\"");
    const std::string later =
        "caseload = 1\nbase = \"base.toml\"\nbearing.output_front.size = \"90x140x24 mm\"\n";
    const ReadSetup over = read_setup(later, "setup.toml", shelf_files({{"base.toml", base}}));
    CHECK(entry(over, "bearing.output_front.size").toml == "\"90x140x24 mm\"");
    CHECK(entry(over, "bearing.output_front.type").toml == "\"cylindrical-roller\"");
    CHECK(entry(over, "bearing.output_front.dynamic_rating").toml == "\"estimate\"");
}

TEST_CASE("library: another part replaces every value that the first one brought") {
    const std::string base = no_oil() + named + "oil.grade = \"race\"\n";
    const Document document(base, "setup.toml", shelf_files());
    const Change grade{"oil.grade", "\"75W-90 synthetic\""};
    CHECK(document.complete({&grade, 1}).setup == with_shop(shortest() + named).setup);
    const Change own{"oil.grade", "\"race\""};
    const Setup plain =
        Document(shortest() + named, "setup.toml", shelf_files()).complete({&own, 1}).setup;
    CHECK(plain == document.complete().setup);
    // A core that says nothing of its construction does not keep the older core's.
    const std::string cooled = shortest() + named + "cooler.fit = true\ncooler.core = \"small\"\n";
    const Change core{"cooler.core", "\"rated\""};
    const ReadSetup rated = Document(cooled, "setup.toml", shelf_files()).complete({&core, 1});
    CHECK(entry(rated, "cooler.construction").toml == "\"plate-fin\"");
    CHECK(rated.setup.cooler.rating.heat_W == rel(5000, 1e-12));
    CHECK_FALSE(rated.setup.cooler.rating_estimated);
}

TEST_CASE("library: a core of the setup by its name, before one of the library") {
    const std::string own =
        "[core.small]\nsize = \"300x150x45 mm\"\n[core.mine]\n"
        "size = \"250x150x45 mm\"\n";
    const ReadSetup first =
        with_shop(shortest() + named + "cooler.fit = true\ncooler.core = \"small\"\n" + own);
    CHECK(first.setup.cooler.width_mm == rel(300, 1e-12));
    CHECK(entry(first, "cooler.construction").toml == "\"plate-fin\"");
    CHECK(first.setup.cores.at("small").width_mm == rel(300, 1e-12));
    const ReadSetup alone = read(shortest() + "cooler.fit = true\ncooler.core = \"mine\"\n" + own);
    CHECK(alone.setup.cooler.width_mm == rel(250, 1e-12));
}

TEST_CASE("library: its cores and bearings can be chosen, and do not count as entered") {
    const ReadSetup plain = read(shortest());
    const ReadSetup result = with_shop(shortest() + named);
    CHECK(result.setup.cores.size() == 2);
    CHECK(result.setup.candidates.size() == 2);
    CHECK(result.setup.candidates.at("wide").dynamic_rating_N.value() == rel(120000, 1e-12));
    CHECK_FALSE(result.setup.candidates.at("angled").static_rating_N.has_value());
    CHECK(result.count_yours == plain.count_yours);
    CHECK(result.count_assumed == plain.count_assumed + 1);  // construction of the rated core
}

TEST_CASE("library: each line of variations may name a part") {
    const Document document(shortest() + named, "setup.toml", shelf_files());
    const std::vector<Change> changes{{"bearing.output_front.from", "\"wide\""}};
    const Setup setup = document.complete(changes).setup;
    bool met = false;
    for (const BearingInput& one : setup.bearings)
        met = met || (one.name == "output_front" && one.width_mm == 30);
    CHECK(met);
    const Change other{"library", "\"other.toml\""};
    CHECK_THROWS_WITH_AS(static_cast<void>(document.complete({&other, 1})),
                         "library names a file and cannot be changed here", Error);
}

TEST_CASE("library: an unknown name is refused with the nearest one") {
    const FindBase find = shelf_files();
    CHECK(report_of(no_oil() + named + "oil.grade = \"rase\"\n", find)
              .find("there is no such grade in the oil table or the library\n   13 | oil.grade = "
                    "\"rase\"\n"
                    "      |             ^^^^^^\n  hint: did you mean \"race\"?") !=
          std::string::npos);
    CHECK(report_of(shortest() + named + "cooler.fit = true\ncooler.core = \"smal\"\n", find)
              .find("cooler.core = \"smal\": there is no core of this name in a library\n") !=
          std::string::npos);
    const std::string bearing =
        report_of(shortest() + named + "bearing.output_front.from = \"wyde\"\n", find);
    CHECK(bearing ==
          "setup.toml:14:29: error: bearing.output_front.from = \"wyde\": there is no bearing of "
          "this name in a library\n"
          "   14 | bearing.output_front.from = \"wyde\"\n"
          "      |                             ^^^^^^\n"
          "  hint: did you mean \"wide\"?\n1 error; nothing was calculated\n");
    CHECK(report_of(shortest() + "joint.rear.from = \"coated\"\n", find)
              .find("hint: name the file that holds it: library = \"shop.toml\"") !=
          std::string::npos);
}

TEST_CASE("library: an error in a library is reported with the library's line") {
    const std::string setup = shortest() + "library = \"bad.toml\"\n";
    const auto said = [&](const std::string& text) {
        return report_of(setup, shelf_files({{"bad.toml", text}}));
    };
    CHECK(said("[oil.a]\nbase_oil = \"mineral\"\nviscosity_40 = \"200 mm2/s\"\n"
               "viscosity_100C = \"20 mm2/s\"\ndensity_15C = \"900 kg/m3\"\n") ==
          "bad.toml:3:1: error: oil.a.viscosity_40: oil of a library has no viscosity_40\n"
          "    3 | viscosity_40 = \"200 mm2/s\"\n"
          "      | ^^^^^^^^^^^^\n"
          "  hint: did you mean viscosity_40C?\n"
          "  bad.toml is library of setup.toml (line 13)\n"
          "bad.toml: error: caseload = 1 is not there\n"
          "  hint: a library begins with its file version: caseload = 1\n"
          "2 errors; nothing was calculated\n");
    CHECK(said("caseload = 1\n[bearing.a]\ntype = \"deep-groove-bal\"\nsize = \"90x140x24 mm\"\n")
              .find("bad.toml:3:8: error: bearing.a.type = \"deep-groove-bal\": is not one of") !=
          std::string::npos);
    CHECK(said("caseload = 1\n[barrel.a]\ntype = \"x\"\n")
              .find("bad.toml:3:1: error: barrel.a.type does not belong into a library\n") !=
          std::string::npos);
    CHECK(said("caseload = 1\n[bearings.a]\ntype = \"x\"\n")
              .find("hint: did you mean [bearing.NAME]?") != std::string::npos);
    CHECK(said("caseload = 1\nbase = \"x.toml\"\n")
              .find("bad.toml:2:1: error: base does not belong into a library\n") !=
          std::string::npos);
    CHECK(said("caseload = 1\n[core.9a]\nsize = \"90x140x24 mm\"\n")
              .find("core.9a.size: \"9a\" is no name for a part") != std::string::npos);
    CHECK(said("caseload = 1\n[core.a]\n").find("core.a.size is missing") != std::string::npos);
    CHECK(said("caseload = 1\n[core.a]\nsize = \"90x140x24 mm\"\nrating = { heat = \"5 kW\" }\n")
              .find("core.a.rating: 1 of the four values are there") != std::string::npos);
    CHECK(said("caseload = 1\n[joint.a]\nslip = \"coated\"\n")
              .find("joint.a.slip_diameter is missing") != std::string::npos);
    CHECK(said("caseload = 1\n[joint]\na = 3\n")
              .find("bad.toml:3:1: error: joint.a is a part, not a value\n") != std::string::npos);
    CHECK(said("caseload = 2\n").find("caseload = 2: this program reads version 1") !=
          std::string::npos);
    CHECK(said("caseload = 1\n[oil.a\n").find("bad.toml:2:") != std::string::npos);
    CHECK(report_of(setup, {}).find("library = \"bad.toml\": there is no such file beside this "
                                    "one") != std::string::npos);
    CHECK(report_of(shortest() + "library = 3\n", {})
              .find("library = 3: this is not the name of a "
                    "file") != std::string::npos);
}

TEST_CASE("library: the program takes the example's parts in every command") {
    const std::string file = std::string(CASELOAD_ROOT) + "/docs/examples/shelf.toml";
    const Run complete = run_program_as_user("complete " + file);
    CHECK(complete.code == 0);
    CHECK(complete.out.find("# parts/shop.toml, line ") != std::string::npos);
    CHECK(run_program_as_user("assess " + file).code == 0);
    const Run bearings = run_program_as_user("bearings " + file + " --position input_front");
    CHECK(bearings.code == 0);
    CHECK(bearings.out.find("wide_ball") != std::string::npos);
    const Run cooler = run_program_as_user("cooler " + file + " --draws 63");
    CHECK(cooler.code == 0);
    CHECK(cooler.out.find("heater") != std::string::npos);
    CHECK(run_program_as_user("upgrade " + std::string(CASELOAD_ROOT) +
                              "/docs/examples/parts/shop.toml")
              .code == 0);
}

TEST_CASE("library: a setup written with parts of a library is read again") {
    const OwnFolder own("library_written");
    for (const std::string name : {"light.toml", "shelf.toml", "parts/shop.toml"}) {
        std::filesystem::create_directories(std::filesystem::path(own.path(name)).parent_path());
        std::filesystem::copy(test_files::root + "docs/examples/" + name, own.path(name));
    }
    const auto run = [&](const std::string& words) {
        const Run done = run_program_as_user(words);
        INFO(words << "\n" << done.out);
        CHECK(done.code == 0);
        return done.out;
    };
    const std::string setup = own.path("shelf.toml");
    CHECK(test_files::has(run("sets " + setup), "SETS"));
    CHECK(test_files::has(run("compare " + setup + " --with 'cooler.core=\"heater\"'"),
                          "oil peak, likely"));
    run("why " + setup);
    own.write("cores.csv", "cooler.core\n\"small\"\n\"heater\"\n");
    CHECK(test_files::lines(
              run("assess " + setup + " --draws 63 --json-lines --each " + own.path("cores.csv")))
              .size() == 2);
    own.write("readings.toml",
              "caseload = 1\nbase = \"shelf.toml\"\n[reading.oil]\nplace = \"scavenge-line\"\n"
              "leg = \"loop\"\nambient = \"31 degC\"\nat_pace = \"50 min\"\ntemp = \"128 degC\"\n"
              "cooler = \"off\"\n");
    run("calibrate " + own.path("readings.toml") + " -o " + own.path("measured.toml"));
    CHECK(test_files::has(run("assess " + own.path("measured.toml")), "Measured on this case"));
    const std::string book = " --book " + own.path("shop.book");
    run("book add case A --date 2026-01-01" + book);
    run("book add event A " + setup + " --date 2026-01-02" + book);
    CHECK(test_files::has(run("book replay" + book), "all agree with the book"));
    CHECK(test_files::has(run("book due" + book), "why: "));
}

}  // namespace caseload::library_tests
