// SPDX-License-Identifier: MIT
// Calibration from the command line, from the readings to the narrowed band.
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <filesystem>
#include <fstream>
#include <regex>
#include <string>

namespace calibrate_program_tests {

namespace {

using test_files::root;

/// A folder of its own with the light car beside its readings.
class Paddock : public OwnFolder {
public:
    explicit Paddock(const std::string& name) : OwnFolder(name) {
        std::filesystem::copy(root + "/docs/examples/light.toml", path("light.toml"));
    }
};

const std::string two_readings = R"~(caseload = 1
base = "light.toml"
[reading.oil]
place = "scavenge-line"
leg = "loop"
ambient = "31 degC"
at_pace = "50 min"
temp = "128 degC"
cooler = "off"
[reading.wall]
place = "housing-below-oil"
leg = "loop"
ambient = "31 degC"
at_pace = "50 min"
temp = "110 degC"
cooler = "off"
)~";

using test_files::has;

}  // namespace

TEST_CASE("calibrate program: readings give a measured setup, whose range in assess is narrower") {
    const Paddock paddock("calibrate_program");
    paddock.write("readings.toml", two_readings);
    const Run run = run_program_as_user("calibrate " + paddock.path("readings.toml") + " -o " +
                                        paddock.path("measured.toml"));
    REQUIRE(run.code == 0);
    CHECK(has(run.out, "2 temperatures of 2 readings"));
    CHECK(has(run.out, "Written: " + paddock.path("measured.toml")));
    const std::string written = file_text(paddock.path("measured.toml"));
    CHECK(has(written, "base = \"readings.toml\""));
    CHECK(has(written, "    \"housing "));
    CHECK(has(written, "    \"reading "));
    const Run after = run_program_as_user("assess " + paddock.path("measured.toml"));
    CHECK(after.code == run_program_as_user("assess " + paddock.path("light.toml")).code);
    CHECK(has(std::regex_replace(after.out, std::regex("\\s+"), " "),
              "Measured on this case, 2 temperatures"));
    CHECK_FALSE(has(after.out, "Changed since"));
    // Not over the setup, not over what is there, unless told.
    CHECK(run_program_as_user("calibrate " + paddock.path("readings.toml") + " -o " +
                              paddock.path("readings.toml"))
              .code == 2);
    CHECK(run_program_as_user("calibrate " + paddock.path("readings.toml") + " -o " +
                              paddock.path("measured.toml"))
              .code == 5);
    CHECK(run_program_as_user("calibrate " + paddock.path("light.toml")).code == 2);
}

TEST_CASE("calibrate program: assess names the headings of a setup changed since it was measured") {
    const Paddock paddock("calibrate_changed");
    paddock.write("readings.toml", two_readings);
    REQUIRE(run_program_as_user("calibrate " + paddock.path("readings.toml") + " -o " +
                                paddock.path("measured.toml"))
                .code == 0);
    const std::string light = file_text(paddock.path("light.toml"));
    const auto told = [&] {
        std::string out = run_program_as_user("assess " + paddock.path("measured.toml")).out;
        for (std::size_t at = 0; (at = out.find('\n', at)) != std::string::npos; ++at)
            out.replace(at, out.find_first_not_of("\n ", at) - at, " ");  // as one line
        return out;
    };
    const auto changed = [&](const std::string& from, const std::string& to) {
        std::string other = light;
        other.replace(other.find(from), from.size(), to);
        paddock.write("light.toml", other);
    };
    // Another way of writing the same, another event and another oil age change nothing.
    changed("altitude = \"600 m\"", "altitude = \"0.7 km\"");
    CHECK_FALSE(has(told(), "Changed since"));
    changed("oil.grade = \"75W-90 synthetic\"",
            "oil.grade = \"75W-90 synthetic\"\noil.state = \"fresh\"\nhousing.wall = \"1.6 cm\"");
    CHECK_FALSE(has(told(), "Changed since"));
    changed("housing.place = \"behind-skid-plate\"", "housing.place = \"open\"");
    CHECK(has(told(), "Changed since it was measured: housing. Calibrate again."));
    changed("oil.grade = \"75W-90 synthetic\"", "oil.grade = \"75W-140 synthetic\"");
    CHECK(has(told(), "Changed since it was measured: oil. Calibrate again."));
    paddock.write("light.toml", light);
    std::string other = two_readings;
    other.replace(other.find("110 degC"), 8, "109 degC");
    paddock.write("readings.toml", other);
    CHECK(has(told(), "Changed since it was measured: reading. Calibrate again."));
}

TEST_CASE("calibrate program: FOUND and NOT IDENTIFIED on the screen, in plain words") {
    const Paddock paddock("calibrate_words");
    const auto screen = [&](const std::string& text) {
        paddock.write("readings.toml", text);
        const Run run = run_program_as_user("calibrate " + paddock.path("readings.toml"));
        REQUIRE(run.code == 0);
        return run.out;
    };
    const std::string together = screen(two_readings);
    CHECK(
        has(together, "no single correction, but together the readings narrow the range (below)"));
    CHECK(has(together, "  NOT IDENTIFIED\n"));
    CHECK(has(together, "separate it from"));
    // Behind the thermostat a label says nothing of the case.
    const std::string held = screen(
        "caseload = 1\nbase = \"light.toml\"\n[reading.label]\nplace = \"housing-below-oil\"\nleg "
        "= "
        "\"loop\"\nambient = \"34 degC\"\nat_pace = \"30 min\"\ntemp = \"71 degC\"\nclear = \"77 "
        "degC\"\n");
    CHECK(has(held, "no single correction, and these readings hardly narrow the range"));
    // Oil on two legs without the cooler, by a better probe.
    std::string probe =
        "caseload = 1\nbase = \"light.toml\"\nhousing.exhaust = \"none\"\nhousing.neighbour = "
        "\"none\"\nlubrication.drain = \"good\"\n";
    const auto read = [&](const std::string& name, const std::string& leg, const std::string& pace,
                          const std::string& temp) {
        probe += "[reading." + name + "]\nplace = \"scavenge-line\"\nleg = \"" + leg +
                 "\"\nambient = \"31 degC\"\ncooler = \"off\"\nscatter = \"1 K\"\nat_pace = \"" +
                 pace + "\"\ntemp = \"" + temp + "\"\n";
    };
    read("early", "loop", "15 min", "86 degC");
    read("late", "loop", "45 min", "119 degC");
    read("road", "transit", "40 min", "100 degC");
    const std::string found = screen(probe);
    CHECK_FALSE(has(found, "no single correction"));
    CHECK(has(found.substr(found.find("FOUND"), 200), "air past the case"));
}

TEST_CASE("calibrate program: readings that need a factor beyond its limits end with exit code 3") {
    const Paddock paddock("calibrate_refused");
    std::string cold = two_readings;
    cold.replace(cold.find("128 degC"), 8, "31.5 degC");
    cold.replace(cold.find("110 degC"), 8, "31.2 degC");
    paddock.write("readings.toml", cold);
    const Run refused = run_program_as_user("calibrate " + paddock.path("readings.toml") + " -o " +
                                            paddock.path("measured.toml"));
    CHECK(refused.code == 3);
    CHECK(has(refused.out, "believable factors explain the readings"));
    CHECK_FALSE(std::filesystem::exists(paddock.path("measured.toml")));
}

}  // namespace calibrate_program_tests
