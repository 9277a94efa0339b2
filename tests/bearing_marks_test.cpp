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
Setup hot(const std::vector<Change>& changes = {}) {
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

}  // namespace caseload::bearing_marks_tests
