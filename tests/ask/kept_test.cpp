// SPDX-License-Identifier: MIT
// Losses with the oil kept at a given temperature, and setups of a rig: no vehicle, friction
// factors as measured.
#include "caseload/ask/kept.hpp"

#include "caseload/error.hpp"
#include "examples.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <cmath>
#include <string>

namespace caseload::kept_tests {

namespace {

const std::string light = std::string(CASELOAD_ROOT) + "/docs/examples/light.toml";

const std::string rig = R"(caseload = 1
base = "pattern:two-gear-215mm"
gears.fitted = [37, 49]
oil.grade = "75W-140 synthetic"
housing.place = "behind-skid-plate"
event.ambient = "30 degC"
event.run = ["rig"]
[leg.rig]
duration = "1 h"
bins = [{ share = 1.0, torque = "700 N m", speed = "3000 rpm", road_speed = "0 km/h" }]
)";

const std::string car = R"([vehicle]
mass = "2100 kg"
tyre = "39 in"
axle_ratio = 5.43
engine_power = "480 kW"
)";

ReadSetup read(const std::string& text) {
    return Document(text, "rig.toml", examples::text).complete();
}

}  // namespace

TEST_CASE("kept: oil kept where it settles needs no heat, and all else is what settles") {
    for (const char* name : {"dip.toml", "heavy.toml", "light.toml"}) {
        CAPTURE(name);
        const Setup setup = examples::setup(name);
        const Assessment likely = assess(setup);
        for (const LegAnswer& leg : likely.fitted.legs) {
            if (!leg.at_rest.found) continue;
            CAPTURE(leg.name);
            const double oil_degC = leg.at_rest.nodes.oil_degC;
            const Steady kept =
                kept_at(prepare(setup), static_cast<std::size_t>(leg.leg), oil_degC);
            CHECK(within(kept.short_by_W, 0, 1e-6));  // W; the balance is found to 1e-10 K
            CHECK(within(kept.nodes.housing_degC, leg.at_rest.nodes.housing_degC, 1e-8));
            CHECK(kept.losses.ledger.bearings_W == rel(leg.at_rest.losses.ledger.bearings_W, 1e-9));
        }
    }
}

TEST_CASE("kept: what is made less what leaves is what has to be taken out of the oil") {
    for (const double oil_degC : {-20.0, 40.0, 90.0, 160.0}) {
        CAPTURE(oil_degC);
        for (const char* name : {"dip.toml", "light.toml"})
            for (const KeptLeg& leg : losses_kept_at(examples::setup(name), oil_degC).legs) {
                const double in_W = heat_in_W(leg.at);
                CHECK(within(in_W - heat_out_W(leg.at), leg.at.short_by_W,
                             1e-9 * (std::fabs(in_W) + std::fabs(heat_out_W(leg.at)))));
                CHECK(leg.at.nodes.oil_degC == oil_degC);
            }
    }
}

TEST_CASE("kept: hotter oil makes less heat in thick oil and needs less of it taken out") {
    const Setup setup = examples::setup("dip.toml");
    double before_W = INFINITY;
    for (double oil_degC = 20; oil_degC <= 160; oil_degC += 10) {
        const double now_W = losses_kept_at(setup, oil_degC).legs.at(0).at.short_by_W;
        CHECK(now_W < before_W);
        before_W = now_W;
    }
}

TEST_CASE("program: assess --at shows every loss at the oil temperature of a rig") {
    const Run screen = run_program_as_user("assess " + light + " --at \"90 degC\"");
    CHECK(screen.code == 0);
    CHECK(screen.out.find("with the oil kept at 90 degC") != std::string::npos);
    for (const char* words : {"\n  loop\n", "    teeth ", "    bearings ", "    all losses ",
                              "    to put into the oil for that "})
        CHECK(screen.out.find(words) != std::string::npos);
    const Run imperial =
        run_program_as_user("assess " + light + " --at \"194 degF\" --units imperial");
    CHECK(imperial.out.find("with the oil kept at 194 degF") != std::string::npos);
    const Run json = run_program_as_user("assess " + light + " --at \"90 degC\" --json");
    CHECK(json.out.find(R"("oil_degC":90,"legs":[{"leg":"transit")") != std::string::npos);
}

TEST_CASE("program: assess --at refuses a temperature without unit, out of range, beside a page") {
    const auto refused = [](const std::string& options, const std::string& words) {
        const Run run = run_program_as_user("assess " + light + " --at " + options);
        CAPTURE(run.out);
        CHECK(run.code == 2);
        CHECK(run.out.find(words) != std::string::npos);
    };
    refused("90", "error: --at \"90\": the unit is missing");
    refused("\"170 degC\"", "error: --at \"170 degC\": must be from -40 to 160 degC");
    refused("\"90 degC\" --page page.html", "--at excludes --page");
}

TEST_CASE("rig: legs of bins need no vehicle, and answer as with one") {
    const ReadSetup without = read(rig);
    CHECK(!without.setup.vehicle.known());
    for (const Entry& entry : without.entries) CHECK(!entry.key.starts_with("vehicle."));
    const Assessment alone = assess(without.setup);
    const Assessment with = assess(read(rig + car).setup);
    CHECK(alone.fitted.event.peak_oil_degC == with.fitted.event.peak_oil_degC);
    for (std::size_t b = 0; b < with.fitted.damage.bearings.size(); ++b)
        CHECK(alone.fitted.damage.bearings[b].life_share ==
              with.fitted.damage.bearings[b].life_share);
}

TEST_CASE("rig: a vehicle is asked for where it is begun, or where a course makes the duty") {
    const auto missing = [](const std::string& text) {
        std::string keys;
        try {
            static_cast<void>(read(text));
        } catch (const Error& error) {
            for (const Problem& problem : error.problems()) keys += problem.text + "\n";
        }
        return keys;
    };
    CHECK(missing(rig + "[vehicle]\nmass = \"2100 kg\"\n") ==
          "vehicle.tyre is missing\nvehicle.axle_ratio is missing\n"
          "vehicle.engine_power is missing\n");
    std::string course = rig;
    course.replace(course.find("bins = "), std::string::npos, "course = \"sand\"\n");
    CHECK(missing(course) ==
          "vehicle.tyre is missing\nvehicle.mass is missing\nvehicle.axle_ratio is missing\n"
          "vehicle.engine_power is missing\n");
}

TEST_CASE("program: every question about a rig without a vehicle has its answer") {
    const OwnFolder folder("rig");
    folder.write("rig.toml", rig);
    const std::string file = folder.path("rig.toml");
    for (const char* command : {"assess --draws 63 --detail", "why --check", "sets --draws 63",
                                "bearings --draws 63", "cooler --draws 63", "complete"}) {
        CAPTURE(command);
        const std::string words = command;
        const std::size_t space = std::min(words.find(' '), words.size());
        const Run run =
            run_program_as_user(words.substr(0, space) + " " + file + words.substr(space));
        CHECK(run.code == 0);
        for (const char* assumed : {"vehicle.drag_area", "vehicle.grip"})
            CHECK(run.out.find(assumed) == std::string::npos);
    }
}

TEST_CASE("rig: an entered f1 takes the place of the kind's own in the torque of the load") {
    const auto load_Nmm = [](const std::vector<Change>& changes) {
        const Setup setup = examples::setup("dip.toml", changes);
        return prepare(setup).losses.at(0).bins.at(0).bearings.at(0).load_torque_Nmm;
    };
    const double double_Nmm = load_Nmm({{"bearing.input_front.f1", "0.0006"}});
    CHECK(load_Nmm({}) == rel(load_Nmm({{"bearing.input_front.f1", "0.0003"}}), 1e-15));
    CHECK(double_Nmm == rel(2 * load_Nmm({}), 1e-15));
}

TEST_CASE("program: temperatures above 160 degC are numbers in one place of the JSON only") {
    const std::string hot = std::string(CASELOAD_ROOT) + "/tests/browser/hot.toml";
    const Run json = run_program_as_user("assess " + hot + " --draws 63 --json");
    CHECK(json.code == 0);
    CHECK(json.out.find(R"("p50":null,"p90":null)") != std::string::npos);
    const std::string head =
        R"("above_160_degC":{"words":"only to compare setups with: losses above 160 degC are those at 160","fitted_oil_degC":{"p10":)";
    REQUIRE(json.out.find(head) != std::string::npos);
    const std::size_t p90 = json.out.find("\"p90\":", json.out.find(head));
    CHECK(std::stod(json.out.substr(p90 + 6, 20)) > 160);
    CHECK(run_program_as_user("assess " + light + " --draws 63 --json")
              .out.find(R"("above_160_degC":null)") != std::string::npos);
}

}  // namespace caseload::kept_tests
