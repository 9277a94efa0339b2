// SPDX-License-Identifier: MIT
// The band's verdict, its independence of the order of work, and what it says of measurements.
#include "caseload/ask/band.hpp"

#include "caseload/ask/verdict.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::band_tests {

namespace {

Setup ten_entries() {
    return Document(new_setup_text(), "ten.toml", {}).complete().setup;
}

constexpr std::size_t few = 127;

}  // namespace

TEST_CASE("band: draws calculated in any order give the same range") {
    const Setup setup = ten_entries();
    const Assessment likely = assess(setup);
    const Band forwards = band(setup, likely, {.draws = few});
    const ForEach backwards = [](std::size_t n, const std::function<void(std::size_t)>& body) {
        for (std::size_t i = n; i > 0; --i) body(i - 1);
    };
    const Band other = band(setup, likely, {.draws = few, .for_each = backwards});
    CHECK(forwards.fitted.peak_oil_degC.p10 == other.fitted.peak_oil_degC.p10);
    CHECK(forwards.fitted.peak_oil_degC.p90 == other.fitted.peak_oil_degC.p90);
    CHECK(forwards.fitted.life_share[0].p50 == other.fitted.life_share[0].p50);
    CHECK(forwards.shares[0].share == other.shares[0].share);
    CHECK(forwards.draws == static_cast<int>(few));
}

TEST_CASE("band: actions for seals follow the hotter of oil and case, each draw by its own") {
    Setup setup = examples::alone("light.toml", {{"cooler.fit", "false"}});
    setup.event.ambient_degC += 6;
    setup.rules.look_events = 3;
    // 120 degC where it sits, to look at above, to watch 10 K further; its lip 170 degC.
    for (SealInput& seal : setup.seals) seal.material = SealMaterial::HNBR;
    const BandSide side = band(setup, assess(setup), {.draws = few}).fitted;
    REQUIRE(side.peak_oil_degC.p50 > 121);
    REQUIRE(side.peak_oil_degC.p50 < 129);
    REQUIRE(side.peak_oil_degC.p10 < 119);
    REQUIRE(side.peak_oil_degC.p90 > 131);
    REQUIRE(side.peak_housing_degC.p50 < 119);
    CHECK(side.look_events.p10 == 1);
    CHECK(side.look_events.p50 == 1);
    CHECK(side.look_events.p90 == 3);
    CHECK(side.open_case_events.p10 == 1);
    CHECK(side.open_case_events.p50 == setup.rules.open_case_events);
}

TEST_CASE("band: the verdict calculated alone is that of the whole range, to the last bit") {
    // With and without cooler; additives that end within the range of the oil; at STOP.
    for (const std::string name : {"light", "heavy", "idler", "dip", "hot"}) {
        CAPTURE(name);
        Setup setup = examples::setup((name == "hot" ? "light" : name) + ".toml");
        if (name == "hot") setup.event.ambient_degC = 60;
        if (name == "heavy") setup.oil.ep_additive = true;
        const Assessment likely = assess(setup);
        const Assessment fitted = verdict_answer(setup);
        const Band whole = band(setup, likely, {.draws = few});
        const Band alone = verdict_band(setup, fitted, {.draws = few});
        CHECK(alone.verdict == whole.verdict);
        CHECK(alone.decides == whole.decides);
        CHECK(alone.oil_word == whole.oil_word);
        CHECK(alone.case_word == whole.case_word);
        const auto names = [](const std::vector<JudgedCheck>& checks) {
            std::vector<std::pair<CheckId, std::string>> all;
            for (const JudgedCheck& check : checks) all.emplace_back(check.id, check.about);
            return all;
        };
        CHECK(names(alone.stop) == names(whole.stop));
        CHECK(names(alone.watch) == names(whole.watch));
        CHECK(names(alone.look) == names(whole.look));
        CHECK(names(alone.shown) == names(whole.shown));
        CHECK(alone.draws == whole.draws);
        CHECK(alone.fitted.holds_share == whole.fitted.holds_share);
        CHECK(alone.fitted.fails_share == whole.fitted.fails_share);
        CHECK(alone.fitted.peak_oil_degC.p10 == whole.fitted.peak_oil_degC.p10);
        CHECK(alone.fitted.peak_oil_degC.p50 == whole.fitted.peak_oil_degC.p50);
        CHECK(alone.fitted.peak_oil_degC.p90 == whole.fitted.peak_oil_degC.p90);
        CHECK(verdict_reason(setup, fitted, alone) == verdict_reason(setup, likely, whole));
    }
}

TEST_CASE("band: verdict from the share of draws below watch and above stop") {
    Setup setup = ten_entries();
    const Assessment likely = assess(setup);
    const Percentiles peak = band(setup, likely, {.draws = few}).fitted.peak_oil_degC;
    REQUIRE(peak.p10 < peak.p50);
    REQUIRE(peak.p50 < peak.p90);
    const auto verdict_with = [&](double watch_degC, double stop_degC) {
        setup.limits = {.oil_watch_degC = watch_degC, .oil_stop_degC = stop_degC};
        return band(setup, likely, {.draws = few});
    };
    const Band cool = verdict_with(peak.p90 + 2, peak.p90 + 12);
    CHECK(cool.oil_word == "fine");
    CHECK((cool.decides == "holds") == (cool.case_word == "fine"));
    CHECK(cool.fitted.holds_share >= 0.9);
    CHECK(verdict_with(peak.p50 + 1, peak.p90 + 12).decides == "may_pass");
    const Band warm = verdict_with(peak.p50 - 1, peak.p90 + 12);
    CHECK(warm.oil_word == "watch");
    CHECK(warm.decides == "likely_above");
    const Band hot = verdict_with(peak.p10 - 12, peak.p10 - 2);
    CHECK(hot.verdict == "stop");
    CHECK(hot.decides == "too_hot");
    const Band over = verdict_with(peak.p50 - 12, peak.p50 - 1);
    CHECK(over.verdict == "stop");
    CHECK(over.decides == "likely_too_hot");
    CHECK(over.fitted.fails_share >= 0.5);
    CHECK(over.fitted.fails_share < 0.9);
    // Half of the draws are enough, one fewer is not.
    CHECK(verdict_with(peak.p50 - 12, std::nextafter(peak.p50, 0.0)).oil_word == "stop");
    const Band below = verdict_with(peak.p50 - 12, peak.p50);
    CHECK(below.oil_word == "watch");
    CHECK(below.decides == "likely_above");
    CHECK(verdict_with(peak.p90 - 2, peak.p90 + 2).oil_word == "watch");
    CHECK(hot.fitted.fails_share >= 0.9);
}

TEST_CASE("band: a check that stops overrules cool oil") {
    Setup setup = ten_entries();
    setup.limits = {.oil_watch_degC = 159, .oil_stop_degC = 160};
    setup.event.ambient_degC = -10;
    setup.event.oil_at_start_degC = -10;
    Assessment likely = assess(setup);
    const Band cool = band(setup, likely, {.draws = few});
    CHECK(cool.oil_word == "fine");
    CHECK(cool.watch_after_s == -1);
    likely.stopped_by = "Gears: they do not mesh.";
    const Band stopped = band(setup, likely, {.draws = few});
    CHECK(stopped.verdict == "stop");
    CHECK(stopped.decides == "check");
    CHECK(stopped.oil_word == "fine");
    CHECK(stopped.case_word == "stop");
    CHECK(case_words(likely, stopped).rfind("stop: Gears: they do not mesh", 0) == 0);
}

TEST_CASE("band: times to a limit are those of the likely oil, not of the run in the middle") {
    Setup setup = ten_entries();
    const Assessment likely = assess(setup);
    const Percentiles peak = band(setup, likely, {.draws = few}).fitted.peak_oil_degC;
    const double middle_degC = likely.fitted.event.peak_oil_degC;
    REQUIRE(peak.p50 > middle_degC + 1);
    setup.limits = {.oil_watch_degC = middle_degC + 0.1, .oil_stop_degC = peak.p50 + 0.1};
    const Assessment again = assess(setup);
    const Band sure = band(setup, again, {.draws = few});
    CHECK(again.fitted.event.watch_after_s == -1);
    CHECK(sure.watch_after_s > 0);
    CHECK(sure.stop_after_s == -1);
    // As hot as its last moment before it: not earlier than the hottest lower limit is passed.
    setup.limits.oil_watch_degC -= 5;
    CHECK(band(setup, again, {.draws = few}).watch_after_s < sure.watch_after_s);
}

TEST_CASE("band: oil that starts above a limit passes it at once") {
    Setup setup = ten_entries();
    setup.event.oil_at_start_degC = 90;
    setup.event.oil_at_start_entered = true;
    setup.limits = {.oil_watch_degC = 60, .oil_stop_degC = 159};
    CHECK(band(setup, assess(setup), {.draws = few}).watch_after_s == 0);
}

TEST_CASE("band: half of the draws come near all of them, and a reading narrows the band") {
    Setup setup = ten_entries();
    setup.limits = {.oil_watch_degC = 150, .oil_stop_degC = 159};  // at STOP nothing is measured
    const Assessment likely = assess(setup);
    const Band all = band(setup, likely, {});
    CHECK(all.draws == 1023);
    // Judgement: a tenth of the band's own width is small against what it says.
    const double width_K = all.fitted.peak_oil_degC.p90 - all.fitted.peak_oil_degC.p10;
    CHECK(all.fitted.numeric_error_K < width_K / 10);
    CHECK(all.measure.band_before_K == rel(width_K, 1e-12));
    CHECK(all.measure.band_after_K < all.measure.band_before_K / 2);
    double sum = 0;
    for (const FactorShare& one : all.shares) {
        CHECK(one.share >= 0);
        sum += one.share;
    }
    CHECK(sum > 0.7);  // the factors act nearly apart
    CHECK(sum < 1.3);
    CHECK(std::is_sorted(
        all.shares.begin(), all.shares.end(),
        [](const FactorShare& a, const FactorShare& b) { return a.share > b.share; }));
    // No cooler fitted: both sides are one.
    CHECK(all.without.peak_oil_degC.p50 == all.fitted.peak_oil_degC.p50);
}

TEST_CASE(
    "band: the middle of the unit cube gives each factor's median, of log-uniform ranges the "
    "geometric mean") {
    std::array<double, band_factors> middle{};
    middle.fill(0.5);
    const Factors at_middle = drawn_factors(middle, false);
    CHECK(at_middle.load == rel(1, 1e-12));
    // Log-uniform ranges are not centred on 1: their middles are the geometric means.
    CHECK(at_middle.mesh == rel(std::sqrt(0.75 * 1.35), 1e-12));
    CHECK(at_middle.air_share == rel(std::sqrt(0.43 * 2.0), 1e-12));
}

}  // namespace caseload::band_tests
