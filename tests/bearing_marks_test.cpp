// SPDX-License-Identifier: MIT
// Heat code and cage of a bearing, and the speeds at which checks look.
#include "caseload/ask/verdict.hpp"
#include "caseload/assess.hpp"
#include "caseload/formulas/bearing_guides.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

namespace caseload::bearing_marks_tests {

namespace {

/// Hot: its films are likely above 150 degC.
Setup hot(std::vector<Change> changes = {}) {
    changes.push_back({"housing.air_speed_share", "0.2"});
    changes.push_back({"event.ambient", "\"55 degC\""});
    return Document(new_setup_text(), "ten.toml", {}).complete(changes).setup;
}

std::optional<Check> found(const Setup& setup, CheckId id, const std::string& about) {
    for (const Check& check : fitted_answer(setup).fitted.checked.checks)
        if (check.id == id && check.about == about) return check;
    return std::nullopt;
}

Check ring(const std::string& code) {
    return found(hot({{"bearing.input_front.heat_code", code}}), CheckId::bearing_ring,
                 "bearing.input_front")
        .value();
}

bool is_in(const std::vector<JudgedCheck>& list, CheckId id, const std::string& about) {
    return std::any_of(list.begin(), list.end(), [&](const JudgedCheck& check) {
        return check.id == id && check.about == about;
    });
}

Band band_of(const Setup& setup) {
    const Assessment likely = assess(setup);
    return band(setup, likely, {.draws = 63});
}

}  // namespace

TEST_CASE("heat code: rings are watched 30 K above what their mark is stabilised to") {
    CHECK(ring("\"SN\"").limit == 150);
    CHECK(ring("\"S0\"").limit == 180);
    CHECK(ring("\"S1\"").limit == 230);
    CHECK(ring("\"SN\"").value > 150);
    CHECK(ring("\"SN\"").verdict == "watch");
    CHECK(ring("\"S1\"").verdict == "fine");
    // Over the range too.
    CHECK(is_in(band_of(hot()).watch, CheckId::bearing_ring, "bearing.input_front"));
    const Band marked = band_of(hot({{"bearing.input_front.heat_code", "\"S1\""}}));
    CHECK(!is_in(marked.watch, CheckId::bearing_ring, "bearing.input_front"));
    CHECK(!is_in(marked.look, CheckId::bearing_ring, "bearing.input_front"));
}

TEST_CASE(
    "cage: one of polyamide has a limit, lower in EP oil, and others and an unknown one have "
    "none") {
    const auto cage = [](const std::string& word, const std::string& ep) {
        return found(hot({{"bearing.input_front.cage", word}, {"oil.ep_additive", ep}}),
                     CheckId::bearing_cage, "bearing.input_front");
    };
    for (const char* word : {"\"unknown\"", "\"steel\"", "\"brass\""}) CHECK(!cage(word, "true"));
    CHECK(cage("\"polyamide\"", "true").value().limit == 110);
    CHECK(cage("\"polyamide\"", "false").value().limit == 120);
    CHECK(cage("\"polyamide\"", "true").value().verdict == "watch");
    CHECK(!found(hot(), CheckId::bearing_cage, "bearing.input_front"));
    const Band judged = band_of(hot({{"bearing.input_front.cage", "\"polyamide\""}}));
    CHECK(is_in(judged.watch, CheckId::bearing_cage, "bearing.input_front"));
    CHECK(!is_in(judged.watch, CheckId::bearing_cage, "bearing.input_rear"));
}

TEST_CASE("cage: an unknown one is asked about where polyamide would not last, others are not") {
    const auto asked = [](const std::vector<Change>& changes) {
        return examples::has_note(fitted_answer(hot(changes)).notes, "bearing.cage_unknown",
                                  "bearing");
    };
    CHECK(asked({}));
    CHECK(!asked({{"event.ambient", "\"-25 degC\""}, {"event.duration", "\"10 min\""}}));
    std::vector<Change> known;
    for (const char* name : {"input_front", "input_rear", "output_front", "output_rear"})
        known.push_back({std::string("bearing.") + name + ".cage", "\"steel\""});
    CHECK(!asked(known));
}

TEST_CASE("headline: a watched check is named with its number and what to do, in a few words") {
    const Setup setup = examples::setup(
        "light.toml", {{"seal.input.material", "\"VMQ\""}, {"event.ambient", "\"10 degC\""}});
    const Assessment likely = assess(setup);
    const Band judged = band(setup, likely, {.draws = 63});
    REQUIRE(judged.case_word == "watch");
    const std::string words = case_words(likely, judged);
    CHECK(words.find("watch seal.input (silicone in EP gear oil") == 0);
    CHECK(words.find("): fit FKM") != std::string::npos);
    CHECK(words.find("does not live") == std::string::npos);
}

TEST_CASE(
    "speeds: a cage is looked at by the speed of a twentieth of the time, watched by a fifth") {
    const Setup base = examples::setup("light.toml");
    const double figure = bearing_guides::speed_parameter_mmrpm(BearingKind::cylindrical_roller);
    const double d_m_mm = prepare(base).loads.bearings.front().d_m_mm;
    const auto speed = [&](double share, double rpm) {
        const Setup setup =
            examples::with_bins(base, {{share, 100, rpm, 20}, {1 - share, 100, 2000, 20}});
        return found(setup, CheckId::bearing_speed, "bearing.input_front").value();
    };
    const double fast_rpm = 1.4 * figure / d_m_mm;
    CHECK(speed(0.04, fast_rpm).value == rel(2000 * d_m_mm, 1e-9));
    CHECK(speed(0.04, fast_rpm).verdict == "fine");
    CHECK(speed(0.06, fast_rpm).value == rel(fast_rpm * d_m_mm, 1e-9));
    CHECK(speed(0.06, fast_rpm).verdict == "look");
    CHECK(speed(0.19, fast_rpm).verdict == "look");
    CHECK(speed(0.21, fast_rpm).verdict == "watch");
    CHECK(speed(0.21, 1.2 * figure / d_m_mm).verdict == "look");
}

TEST_CASE("speeds: a lip is noted by the speed of a twentieth of the time") {
    const auto noted = [](double share) {
        const Setup setup = examples::with_bins(
            examples::setup("light.toml"), {{share, 100, 9500, 60}, {1 - share, 100, 1500, 20}});
        return examples::has_note(fitted_answer(setup).notes, "losses.lip_speed", "seal.input");
    };
    CHECK(!noted(0.04));
    CHECK(noted(0.06));
}

TEST_CASE("speeds: a prop shaft whirls at the limiter, where engine and gearbox are known") {
    const std::vector<Change> shaft{{"vehicle.prop_shaft.length", "\"1.2 m\""},
                                    {"vehicle.prop_shaft.outside", "\"76 mm\""},
                                    {"vehicle.prop_shaft.wall", "\"3 mm\""}};
    const auto whirl = [&](std::vector<Change> more) {
        more.insert(more.end(), shaft.begin(), shaft.end());
        return found(examples::setup("light.toml", more), CheckId::prop_shaft_whirl,
                     "vehicle.prop_shaft")
            .value();
    };
    const Check driven = whirl({});
    CHECK(driven.value == whirl({{"vehicle.engine_limit", "\"7200 rpm\""}}).value);
    const Check limited =
        whirl({{"vehicle.engine_limit", "\"7200 rpm\""}, {"vehicle.gearbox", "[2.48, 1.48, 1.0]"}});
    CHECK(limited.value > driven.value);
    CHECK(limited.words.find("limiter") != std::string::npos);
    // In proportion, until the driven speed is the faster one; 33 teeth drive 41.
    const Check slower =
        whirl({{"vehicle.engine_limit", "\"6800 rpm\""}, {"vehicle.gearbox", "[2.48, 1.48, 1.0]"}});
    CHECK(limited.value == rel(slower.value * 7200 / 6800, 1e-9));
    const Check short_geared =
        whirl({{"vehicle.engine_limit", "\"7200 rpm\""}, {"vehicle.gearbox", "[9.0]"}});
    CHECK(short_geared.value == driven.value);
}

}  // namespace caseload::bearing_marks_tests
