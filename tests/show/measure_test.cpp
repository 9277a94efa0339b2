// SPDX-License-Identifier: MIT
// What to measure: only a reading that narrows the answer, and what a thermostat hides never; and
// the lines of assumptions that have an effect.
#include "caseload/ask/band.hpp"
#include "examples.hpp"
#include "own_folder.hpp"
#include "program.hpp"
#include "support.hpp"

#include <regex>
#include <string>
#include <vector>

namespace caseload::measure_tests {

namespace {

using test_files::has;
using test_files::root;

Band band_of(const std::string& name, const std::vector<Change>& changes = {}) {
    const Setup setup = examples::setup(name, changes);
    return band(setup, assess(setup), {.draws = 255});
}

/// Words of a screen as one line.
std::string one_line(std::string text) {
    for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; ++at)
        text.replace(at, std::min(text.find_first_not_of("\n ", at), text.size()) - at, " ");
    return text;
}

}  // namespace

TEST_CASE(
    "measure: behind a thermostat nothing needs measuring, and a run without the cooler is named "
    "to learn from") {
    const Band held = band_of("light.toml");
    CHECK_FALSE(held.measure.needed);
    CHECK(held.measure.words == "nothing needed while the thermostat holds the oil");
    CHECK(held.measure.band_before_K - held.measure.band_after_K <= worth_measuring_K);
    CHECK(held.learn.needed);
    CHECK(has(held.learn.words, "cooler out of the circuit, oil in the scavenge line"));
    CHECK(has(held.learn.words, "never above 121 degC"));
    const Percentiles& without = held.without.peak_oil_degC;
    CHECK(held.learn.band_before_K == rel(without.p90 - without.p10, 1e-12));
    CHECK(held.learn.band_after_K < held.learn.band_before_K / 3);
    // A core of a tenth opens its thermostat wholly and holds nothing: a reading as fitted tells
    // again.
    const Band small = band_of("light.toml", {{"cooler.rating.heat", "\"0.6 kW\""}});
    CHECK(small.fitted.peak_oil_degC.p90 > 90);
    CHECK(small.measure.needed);
    CHECK_FALSE(has(small.measure.words, "cooler out"));
}

TEST_CASE("measure: without a cooler the reading that narrows most, of a dipped case in its bath") {
    const Band idler = band_of("idler.toml");
    CHECK(idler.measure.needed);
    CHECK(has(idler.measure.words, "oil in the scavenge line"));
    CHECK(idler.measure.band_before_K - idler.measure.band_after_K > worth_measuring_K);
    CHECK_FALSE(idler.learn.needed);
    CHECK(idler.learn.words.empty());
    CHECK(has(band_of("dip.toml").measure.words, "probe in the oil bath"));
}

TEST_CASE("measure: no measurement is advised for a setup at STOP") {
    const Band hot = band_of(
        "light.toml", {{"limits.oil_stop", "\"70 degC\""}, {"limits.oil_watch", "\"60 degC\""}});
    REQUIRE(hot.verdict == "stop");
    CHECK_FALSE(hot.measure.needed);
    CHECK(has(hot.measure.words, "do not run it to measure"));
    CHECK_FALSE(hot.learn.needed);
}

TEST_CASE(
    "measure: no screen or page prints a zero effect or a range that a reading does not narrow") {
    const OwnFolder folder("measure");
    const std::regex nothing("\\+0 [KF] (\\.\\.|to) \\+0 [KF]");
    const std::regex kept("\\b([0-9]+ [KF]) (->|to) \\1");
    CHECK(std::regex_search("a +0 K .. +0 K", nothing));
    CHECK(std::regex_search("from 1 K to 1 K", kept));
    for (const std::string name : {"light", "heavy", "idler", "dip"})
        for (const std::string units : {"metric", "imperial"}) {
            if (units == "imperial" && name != "light" && name != "idler") continue;
            CAPTURE(name);
            CAPTURE(units);
            const std::string page = folder.path("page.html");
            const Run run = run_program_as_user("assess " + root + "docs/examples/" + name +
                                                ".toml --detail --draws 511 --units " + units +
                                                " --page " + page);
            REQUIRE(run.code == 0);
            const std::string written = file_text(page);
            CHECK(written.size() > 10000);
            for (const std::string& text : {one_line(run.out), written}) {
                CHECK_FALSE(std::regex_search(text, nothing));
                CHECK_FALSE(std::regex_search(text, kept));
            }
            const bool held = has(run.out, "nothing needed");
            CHECK(held == (name != "idler" && name != "dip"));
            // A range of a thermometer's width has no shares; that of a thermostat may be wider.
            if (!held) CHECK(has(run.out, "UNSURE most"));
            CHECK(has(run.out, "UNSURE most") == has(written, "Where the range comes from"));
            CHECK(has(one_line(run.out), "range without cooler") == held);
        }
}

TEST_CASE("measure: the recipes of the documents find a correction") {
    for (const char* name : {"docs/calibrate.md", "docs/book.md"}) {
        CAPTURE(name);
        const auto all = test_files::lines(file_text(root + name));
        const auto found = std::find_if(all.begin(), all.end(), [](const std::string& line) {
            return line.rfind("  FOUND ", 0) == 0;
        });
        REQUIRE(found != all.end());
        CHECK(has(*(found + 1), "% as uncertain as before"));
    }
}

}  // namespace caseload::measure_tests
