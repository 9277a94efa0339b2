// SPDX-License-Identifier: MIT
// A core estimated from its size: the rating that is printed for it says the same core.
#include "caseload/heat.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "random_setups.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace caseload::core_rating_tests {

namespace {

/// The completed file, the printed rating entered.
std::string with_rating(std::string text) {
    const std::string commented = "\n# cooler.rating.";
    for (std::size_t at = 0; (at = text.find(commented, at)) != std::string::npos;)
        text.replace(at, 3, "\n");
    return text;
}

/// Temperatures of the event and of each leg at rest, and what the core carries there; one number
/// if the chain refuses the setup.
std::vector<double> answers(const Setup& setup) {
    std::vector<double> all;
    try {
        const Prepared prepared = prepare(setup);
        const EventHeat event = event_heat(prepared, {});
        all = {event.peak_oil_degC, event.peak_housing_degC};
        for (const RunPeak& run : event.runs) all.push_back(run.end_oil_degC);
        for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
            if (setup.event.legs[leg].kind != LegKind::drive) continue;
            const Steady rest = steady(prepared, leg, {});
            all.push_back(rest.nodes.oil_degC);
            all.push_back(rest.cooler_W);
        }
    } catch (const Error&) {
        all = {-1};
    }
    return all;
}

double farthest(const std::vector<double>& a, const std::vector<double>& b) {
    REQUIRE(a.size() == b.size());
    double most = 0;
    for (std::size_t i = 0; i < a.size(); ++i)
        most = std::max(most, std::fabs(a[i] - b[i]) / std::max(1.0, std::fabs(b[i])));
    return most;
}

const Entry* entry(const ReadSetup& read, const std::string& key) {
    for (const Entry& one : read.entries)
        if (one.key == key) return &one;
    return nullptr;
}

const std::string truck = R"(caseload = 1
base = "pattern:two-gear-215mm"
gears.fitted = [37, 49]
oil.grade = "75W-140 synthetic"
housing.place = "behind-skid-plate"
vehicle.mass = "2900 kg"
vehicle.tyre = "40 in"
vehicle.axle_ratio = 5.43
vehicle.engine_power = "850 hp"
event.ambient = "40 degC"
event.course = "rough-desert"
event.duration = "5 h"
)";

}  // namespace

TEST_CASE("core rating: heat printed for a size is heat, not conductance times difference") {
    const ReadSetup read =
        read_setup(truck + "cooler.fit = true\ncooler.core = \"250x120x50 mm\"\n", "t.toml", {});
    const CoolerInput& cooler = read.setup.cooler;
    // 4000 W/(K m2) x 0.03 m2 x (50/45)^0.6; 5076 W at 60 K by an independent calculation.
    CHECK(cooler.conductance_WpK == rel(127.83, 1e-4));
    CHECK(cooler.rating.heat_W == rel(5076, 1e-3));
    CHECK(entry(read, "cooler.rating.heat")->number == "5076 W");
    // 1.6 times less and more conductance: 3649.5 and 6684.3 W by Mason's series.
    CHECK(entry(read, "cooler.rating.heat")->low == "\"3649 W\"");
    CHECK(entry(read, "cooler.rating.heat")->high == "\"6684 W\"");
}

TEST_CASE("core rating: what complete prints, entered, is the same answer in every example") {
    for (const std::string name :
         {"light.toml", "heavy.toml", "trailer.toml", "idler.toml", "shelf.toml", "dip.toml"}) {
        CAPTURE(name);
        const Document document(examples::text(name).value(), name, examples::text);
        const ReadSetup as_is = document.complete();
        const Setup again = read_setup(completed_text(as_is), name, {}).setup;
        CHECK(farthest(answers(again), answers(as_is.setup)) < 1e-9);
        if (!as_is.setup.cooler.fit) continue;
        // A core without its rating.
        const Change size{"cooler.core", "\"210x140x40 mm\""};
        const ReadSetup sized = document.complete({&size, 1});
        REQUIRE(sized.setup.cooler.rating_estimated);
        const std::string text = completed_text(sized);
        const Setup estimated = read_setup(text, name, {}).setup;
        CHECK(estimated.cooler.rating_estimated);
        CHECK(farthest(answers(estimated), answers(sized.setup)) < 1e-9);
        const Setup entered = read_setup(with_rating(text), name, {}).setup;
        CHECK_FALSE(entered.cooler.rating_estimated);
        CHECK(farthest(answers(entered), answers(sized.setup)) < 1e-9);
    }
}

TEST_CASE("core rating: random cores, fitted or not, are the same core as complete prints them") {
    int estimated = 0;
    for (const random_setups::Drawn& one : random_setups::drawn(29, 120).ran) {
        if (one.text.find("[cooler]") == std::string::npos) continue;
        CAPTURE(one.text);
        const ReadSetup fitted = read_setup(one.text, "r.toml", {});
        const std::vector<double> expected = answers(fitted.setup);
        const std::string text = completed_text(fitted);
        CHECK(farthest(answers(read_setup(text, "r.toml", {}).setup), expected) < 1e-9);
        CHECK(farthest(answers(read_setup(with_rating(text), "r.toml", {}).setup), expected) <
              1e-9);
        if (!fitted.setup.cooler.rating_estimated) continue;
        ++estimated;
        std::string without = one.text;
        without.replace(without.find("fit = true"), 10, "fit = false");
        const ReadSetup unfitted = read_setup(without, "r.toml", {});
        REQUIRE(entry(unfitted, "cooler.rating.heat") != nullptr);
        CHECK(entry(unfitted, "cooler.rating.heat")->toml ==
              entry(fitted, "cooler.rating.heat")->toml);
        // Entered there and fitted afterwards it is the core that it was.
        const Change fit{"cooler.fit", "true"};
        const Document document(with_rating(completed_text(unfitted)), "r.toml", {});
        CHECK(farthest(answers(document.complete({&fit, 1}).setup), expected) < 1e-9);
    }
    CHECK(estimated >= 20);
}

TEST_CASE("core rating: complete prints no rating that would give another core") {
    // So large that its heat is all its oil can carry, and so small that the key refuses its heat.
    // A tube-fin core counts with its hoses only against the fill.
    for (const auto& [size, construction] :
         {std::pair<std::string, std::string>{"1500x1500x400 mm", "tube-fin"},
          {"20x15x20 mm", "plate-fin"}}) {
        CAPTURE(size);
        const ReadSetup read =
            read_setup(truck + "cooler.fit = true\ncooler.core = \"" + size +
                           "\"\ncooler.construction = \"" + construction + "\"\n",
                       "t.toml", {});
        CHECK(entry(read, "cooler.rating.heat") == nullptr);
        CHECK(read.setup.cooler.conductance_WpK > 0);
        const std::string text = completed_text(read);
        CHECK(text.find("cooler.rating.") == std::string::npos);
        CHECK(farthest(answers(read_setup(text, "t.toml", {}).setup), answers(read.setup)) < 1e-9);
    }
}

TEST_CASE("core rating: a changed rating changes the heat rejected") {
    const Document document(truck + "cooler.fit = true\ncooler.core = \"250x120x50 mm\"\n",
                            "t.toml", {});
    const Setup estimated = document.complete().setup;
    const auto rest_degC = [&](const std::string& heat) {
        const Change change{"cooler.rating.heat", "\"" + heat + "\""};
        const Setup setup = document.complete({&change, 1}).setup;
        return steady(prepare(setup), 0, {}).nodes.oil_degC;
    };
    const double as_estimated = steady(prepare(estimated), 0, {}).nodes.oil_degC;
    CHECK(within(rest_degC("5075.88913718515 W"), as_estimated, 1e-9));
    CHECK(rest_degC("4 kW") > as_estimated + 1);
    CHECK(rest_degC("7 kW") < as_estimated - 1);
    const Change more{"cooler.rating.heat", "\"30 kW\""};
    const Setup beyond = document.complete({&more, 1}).setup;
    CHECK_THROWS_AS(prepare(beyond), Error);
}

}  // namespace caseload::core_rating_tests
