// SPDX-License-Identifier: MIT
#include "caseload/ask/region.hpp"

#include "examples.hpp"
#include "files.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <string>

namespace caseload::region_tests {

namespace {

using test_files::light_file;

Document light_document() {
    return {examples::text("light.toml").value(), "light.toml", examples::text};
}

Region region_of(const std::string& axes) {
    const Document document = light_document();
    return fine_region(document, read_axes(axes, document.complete()), {.draws = 63});
}

}  // namespace

TEST_CASE(
    "region: a key without a range goes from 80 to 130 % in five steps, one with a range as "
    "written") {
    const ReadSetup read = light_document().complete();
    const auto axes = read_axes("vehicle.mass, vehicle.tyre=33 in:39 in:4", read);
    REQUIRE(axes.size() == 2);
    // 80 to 130 % of 1750 kg in 5 steps.
    CHECK(axes[0].values ==
          std::vector<std::string>{"1400 kg", "1619 kg", "1838 kg", "2056 kg", "2275 kg"});
    CHECK(axes[1].values == std::vector<std::string>{"33 in", "35 in", "37 in", "39 in"});
    for (const std::string bad :
         {"vehicle.mas", "vehicle.mass,vehicle.mass", "vehicle.mass=1:2",
          "vehicle.mass=1 kg:2 lb:3", "vehicle.mass=1 kg:2 kg:1", "vehicle.mass=1 kg:2 kg:10",
          "vehicle.mass=1 kg:2 kg:2.5", "vehicle.mass=x:2 kg:3", "", "vehicle.mass,",
          "vehicle.mass,vehicle.tyre,event.ambient,vehicle.axle_ratio", "housing.place"})
        CHECK_THROWS_AS(read_axes(bad, read), Error);
}

TEST_CASE("region: a watch limit on the way up bounds it, and every cell of it is fine") {
    const Region region =
        region_of("limits.oil_watch=60 degC:130 degC:3,vehicle.mass=1600 kg:1800 kg:2");
    REQUIRE(region.cells.size() == 6);
    CHECK(region.cells[0].at == std::vector<std::size_t>{0, 0});
    CHECK(region.cells[1].at == std::vector<std::size_t>{0, 1});
    REQUIRE(region.fine.size() == 2);
    // At 60 degC the thermostat has not even opened: never fine.
    CHECK(region.cells[0].verdict != "fine");
    CHECK(region.cells[0].holds_share == 0);
    CHECK(region.fine[0].first == 1);
    CHECK(region.fine[0].last == 2);
    CHECK(region.decision.rfind(
              "Sell it without a warning for limits.oil_watch 95 degC to 130 degC", 0) == 0);
    // A cell is what the setup with its values is by itself.
    const std::vector<Change> changes{{"limits.oil_watch", "\"60 degC\""},
                                      {"vehicle.mass", "\"1600 kg\""}};
    CHECK(calculated(light_document().complete(changes), {.draws = 63}).sure.verdict ==
          region.cells[0].verdict);
}

TEST_CASE(
    "region: grids with no fine cell, with fine cells only, and with none that can be calculated") {
    CHECK(region_of("limits.oil_watch=50 degC:60 degC:2").decision.rfind("Sell it nowhere", 0) ==
          0);
    CHECK(region_of("vehicle.mass=1700 kg:1750 kg:2").decision ==
          "No limit in this range: every cell stays fine.");
    CHECK_THROWS_AS(region_of("vehicle.mass=1 kg:5 kg:2"), Error);
}

TEST_CASE("region: the command prints the engine's share before the table, where there is one") {
    const std::string grid =
        " --draws 63 --grid 'vehicle.mass=1500 kg:1800 kg:2,vehicle.tyre=35 in:37 in:2'";
    const OwnFolder own("region_weak");
    std::filesystem::copy(light_file, own.path("light.toml"));
    own.write("weak.toml",
              "caseload = 1\nbase = \"light.toml\"\nvehicle.engine_power = \"220 hp\"\n");
    const Run run = run_program_as_user("compare " + own.path("weak.toml") + grid);
    INFO(run.out);
    CHECK(run.code == 0);
    const std::size_t share = run.out.find("with the engine at its limit");
    REQUIRE(share != std::string::npos);
    CHECK(share < run.out.find("1500 kg", share));
    CHECK_FALSE(test_files::has(run_program_as_user("compare " + light_file + grid).out,
                                "engine at its limit"));
    const Run json = run_program_as_user(
        "compare " + light_file + " --draws 63 --json --grid 'vehicle.mass=1700 kg:2600 kg:2'");
    CHECK(json.code == 0);
    CHECK(json.out.find("\"cells\":[{\"values\":[\"1700 kg\"]") != std::string::npos);
    CHECK(run_program_as_user("compare " + light_file + " --grid vehicle.mas").code == 2);
    const Run half = run_program_as_user("compare " + light_file + " --grid 'vehicle.mass=1 kg:3'");
    CHECK(half.code == 2);
    CHECK(test_files::has(half.out, "--grid: vehicle.mass: \"1 kg:3\" is not low:high:steps"));
}

}  // namespace caseload::region_tests
