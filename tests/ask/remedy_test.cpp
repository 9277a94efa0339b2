// SPDX-License-Identifier: MIT
// What makes a setup at stop run: entered by hand, it does.
#include "caseload/ask/remedy.hpp"

#include "caseload/ask/cooler.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "support.hpp"

#include <string>
#include <vector>

namespace caseload::remedy_tests {

namespace {

const BandOptions few_draws{.draws = 63};

/// tests/browser/hot.toml, its loose seat and its torque peak left out, and more lines.
std::string hot_oil(const std::string& more = {}) {
    std::string text = file_text(test_files::root + "tests/browser/hot.toml");
    const std::size_t seat = text.find("[bearing.input_rear.seat]");
    text.erase(seat, text.find("[bearing.output_rear.seat]") - seat);
    // Its retainer takes the play of C3.
    text.insert(text.find("[bearing.output_rear.seat]"),
                "[bearing.output_rear]\nclearance = \"C4\"\n\n");
    const std::size_t peaks = text.find("peaks = ");
    text.erase(peaks, text.find('\n', peaks) - peaks);
    return text + more;
}

struct Found {
    Setup setup;
    Band band;
    Remedy remedy;
};
Found found(const std::string& text) {
    const Document document(text, "test.toml", examples::text);
    Setup setup = document.complete().setup;
    const Assessment likely = assess(setup);
    Band sure = band(setup, likely, few_draws);
    Remedy tried = remedy(document, setup, likely, sure, few_draws);
    return {std::move(setup), std::move(sure), std::move(tried)};
}

std::vector<std::string> kinds(const Remedy& tried) {
    std::vector<std::string> all;
    for (const Attempt& one : tried.tried) all.push_back(one.what);
    return all;
}

Band band_of(const std::string& text) {
    const Setup setup = Document(text, "test.toml", examples::text).complete().setup;
    return band(setup, assess(setup), few_draws);
}

const std::string dip =
    "caseload = 1\nbase = \"dip.toml\"\nbearing.input_rear.clearance = \"C3\"\n"
    "bearing.output_rear.clearance = \"C3\"\n";
const std::string dip_limits =
    "housing.exhaust = \"none\"\nhousing.neighbour = \"none\"\nlimits.oil_watch = \"70 "
    "degC\"\nlimits.oil_stop = \"75 degC\"\n";

}  // namespace

TEST_CASE("remedy: nothing is tried unless the verdict is stop") {
    const Found fine = found(examples::text("light.toml").value());
    CHECK(fine.band.verdict == "fine");
    CHECK(fine.remedy.do_not_run.empty());
    CHECK(fine.remedy.tried.empty());
    CHECK(first_that_runs(fine.remedy) == nullptr);
}

TEST_CASE(
    "remedy: an entered cooler that is not fitted comes first, with the answer it gives when "
    "fitted") {
    const std::string core = "[cooler]\ncore = \"280x150x45 mm\"\nfit = ";
    const Found hot = found(hot_oil(core + "false\n"));
    CHECK(hot.remedy.do_not_run == "oil passes 135 degC, 9 chances in 10");
    CHECK(kinds(hot.remedy) == std::vector<std::string>{"cooler_on"});
    const Attempt* runs = first_that_runs(hot.remedy);
    REQUIRE(runs != nullptr);
    const Band on = band_of(hot_oil(core + "true\n"));
    CHECK(runs->verdict == on.verdict);
    CHECK(on.verdict != "stop");
    CHECK(runs->oil_degC.p50 == on.fitted.peak_oil_degC.p50);
    // Too small a core is tried, does not do, and the next is a core that does.
    const Found small = found(hot_oil("[cooler]\ncore = \"20x20x20 mm\"\nfit = false\n"));
    CHECK(kinds(small.remedy) == std::vector<std::string>{"cooler_on", "core"});
    CHECK(!small.remedy.tried.front().runs);
    CHECK(first_that_runs(small.remedy)->what == "core");
}

TEST_CASE("remedy: a facing pair that is set too tight is set with end play before all else") {
    // 0.1 mm too long and little that gives way: no leg settles.
    std::string text = examples::text("idler.toml").value();
    text.insert(text.find("[set]"),
                "[shaft]\nidler.turning_torque = \"4 N m\"\n\n"
                "[case]\nstructure_stiffness = \"1000 N/um\"\n\n");
    const Found tight = found(text);
    CHECK(tight.band.verdict == "stop");
    CHECK(kinds(tight.remedy) == std::vector<std::string>{"pair"});
    const Attempt* runs = first_that_runs(tight.remedy);
    REQUIRE(runs != nullptr);
    CHECK(runs->words.find("idler set with 0.04 mm to 0.07 mm of end play cold") == 0);
    CHECK(runs->verdict != "stop");
}

TEST_CASE("remedy: without a core it is the smallest that caseload cooler finds") {
    const Found hot = found(hot_oil());
    CHECK(kinds(hot.remedy) == std::vector<std::string>{"core"});
    const Attempt* runs = first_that_runs(hot.remedy);
    REQUIRE(runs != nullptr);
    CHECK(runs->verdict == "fine");
    CHECK(runs->oil_degC.p90 < 121);
    CHECK(runs->oil_degC.p90 <= hot.setup.limits.oil_watch_degC);
    const Document document(hot_oil(), "test.toml", examples::text);
    CoolerOptions options;
    options.band = few_draws;
    const CoolerAnswer sizes = size_cooler(document, options);
    REQUIRE(sizes.pick >= 0);
    const CoreResult& core = sizes.found[static_cast<std::size_t>(sizes.pick)];
    CHECK(within(runs->oil_degC.p50, core.oil_degC.p50, 0.1));
    // Entered by hand, in the place it was found for.
    const std::string entered =
        "[cooler]\nfit = true\ncore = \"" + std::to_string(static_cast<int>(core.width_mm)) + "x" +
        std::to_string(static_cast<int>(core.height_mm)) + "x" +
        std::to_string(static_cast<int>(core.depth_mm)) + " mm\"\nconstruction = \"" +
        core.construction + "\"\nduct = \"" + core.duct + "\"\nfan_face_speed = \"" +
        std::to_string(core.fan_face_speed_mps) + " m/s\"\n";
    const Band with = band_of(hot_oil(entered));
    CHECK(with.oil_word == "fine");
    CHECK(with.verdict == "fine");
    CHECK(within(with.fitted.peak_oil_degC.p50, runs->oil_degC.p50, 1e-9));
}

TEST_CASE("remedy: a case without a pump gets a slower pace, the fastest that runs") {
    const Found hot = found(dip + dip_limits);
    CHECK(hot.band.verdict == "stop");
    CHECK(kinds(hot.remedy) == std::vector<std::string>{"pace"});
    const Attempt* runs = first_that_runs(hot.remedy);
    REQUIRE(runs != nullptr);
    CHECK(runs->pace_share < 1);
    CHECK(runs->oil_degC.p90 <= 70);
    const auto at_pace = [&](double share) {
        // 60 km/h is the pace of the course.
        return band_of(dip + dip_limits + "event.pace = \"" + std::to_string(60 * share) +
                       " km/h\"\n");
    };
    const Band slower = at_pace(runs->pace_share);
    CHECK(slower.verdict == "fine");
    CHECK(within(slower.fitted.peak_oil_degC.p50, runs->oil_degC.p50, 1e-3));
    CHECK(at_pace(runs->pace_share + 0.05).fitted.holds_share < 0.9);
}

TEST_CASE("remedy: a check that stops gives the reason, and a slower pace where that is its cure") {
    // A prop shaft near its whirl speed.
    const Found whirls = found(dip +
                               "[vehicle.prop_shaft]\nlength = \"2.2 m\"\noutside = \"60 mm\"\n"
                               "wall = \"2 mm\"\n");
    REQUIRE(whirls.band.decides == "check");
    CHECK(whirls.band.oil_word == "fine");
    CHECK(test_files::has(whirls.remedy.do_not_run, "vehicle.prop_shaft: the shaft may whirl"));
    CHECK(kinds(whirls.remedy) == std::vector<std::string>{"pace"});
    CHECK(first_that_runs(whirls.remedy)->verdict != "stop");
}

TEST_CASE(
    "remedy: where a check stops, warm oil keeps nobody from the fastest pace that cures it") {
    const std::string whirls = dip +
                               "limits.oil_watch = \"60 degC\"\nlimits.oil_stop = \"150 degC\"\n"
                               "[vehicle.prop_shaft]\nlength = \"2.2 m\"\n"
                               "outside = \"60 mm\"\nwall = \"2 mm\"\n";
    const Found warm = found(whirls);
    REQUIRE(warm.band.decides == "check");
    const Attempt* runs = first_that_runs(warm.remedy);
    REQUIRE(runs != nullptr);
    CHECK(runs->what == "pace");
    CHECK(runs->oil_degC.p10 > 60);
    // The whirl check goes with the pace: 0.9 of the critical speed stops.
    const std::vector<JudgedCheck>& stops = warm.band.stop;
    REQUIRE(stops.size() == 1);
    CHECK(stops.front().value * runs->pace_share <= 0.9);
    CHECK(stops.front().value * (runs->pace_share + 0.05) > 0.9);
}

TEST_CASE("remedy: where nothing tried makes it run, all of it is listed") {
    // A torque peak that dents a raceway does so at any pace and in any air.
    const Found worn = found(file_text(test_files::root + "tests/browser/hot.toml"));
    CHECK(worn.band.decides == "check");
    CHECK(kinds(worn.remedy) == std::vector<std::string>{"core", "pace", "colder_air"});
    CHECK(first_that_runs(worn.remedy) == nullptr);
}

TEST_CASE("remedy: a seat that is loose in the cold case stops nothing") {
    const Found loose = found(dip +
                              "event.ambient = \"44 degC\"\n"
                              "[bearing.output_rear.seat]\ncarrier = \"aluminium\"\n"
                              "ring_interference = \"0.022 mm\"\n"
                              "boss_outside = \"180 mm\"\n");
    CHECK(loose.band.verdict != "stop");
    CHECK(loose.remedy.do_not_run.empty());
}

}  // namespace caseload::remedy_tests
