// SPDX-License-Identifier: MIT
#include "caseload/ask/bearings.hpp"

#include "caseload/formulas/iso_281.hpp"

#include "examples.hpp"
#include "program.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <string>

namespace caseload::bearings_tests {

namespace {

Document ours(const std::string& more = "") {
    return Document("caseload = 1\nbase = \"trailer.toml\"\n" + more, "ours.toml", examples::text);
}

}  // namespace

TEST_CASE("bearings: what is there is the assessment itself") {
    const Assessment likely = assess(ours().complete().setup);
    const BearingsAnswer answer = choose_bearings(ours(), {});
    REQUIRE(answer.positions.size() == likely.fitted.damage.bearings.size());
    for (std::size_t b = 0; b < answer.positions.size(); ++b) {
        const BearingChoice& now = answer.positions[b].choices.front();
        CHECK(now.now);
        CHECK(now.life_share == likely.fitted.damage.bearings[b].life_share);
        CHECK(now.oil_peak_degC == likely.fitted.event.peak_oil_degC);
        CHECK(now.heat_added_W == 0);
    }
}

TEST_CASE("bearings: a choice is the assessment with it fitted") {
    const BearingsAnswer answer =
        choose_bearings(ours(), {.position = "output_rear", .outside_mm = 170, .width_mm = 32});
    REQUIRE(answer.positions.size() == 1);
    int own = 0;
    for (const BearingChoice& choice : answer.positions.front().choices) {
        CHECK(choice.outside_mm <= 170);
        CHECK(choice.width_mm <= 32);
        CHECK(choice.bore_mm == 90);
        if (choice.name != "wide_ball") continue;
        ++own;
        const Assessment likely = assess(ours("[bearing.output_rear]\nsize = \"90x150x28 mm\"\n"
                                              "dynamic_rating = \"78 kN\"\n"
                                              "static_rating = \"65 kN\"\n")
                                             .complete()
                                             .setup);
        for (const BearingDamage& damage : likely.fitted.damage.bearings)
            if (damage.name == "output_rear")
                CHECK(choice.life_share == rel(damage.life_share, 1e-12));
        CHECK(choice.C_N == 78000);
        CHECK_FALSE(choice.estimated);
    }
    CHECK(own == 1);
}

TEST_CASE("bearings: one that does not hold says by what") {
    // Ratings below a tenth of what a ball bearing of this size has.
    const BearingsAnswer answer =
        choose_bearings(ours("[candidate.weak]\ntype = \"deep-groove-ball\"\n"
                             "size = \"90x140x24 mm\"\ndynamic_rating = \"6 kN\"\n"
                             "static_rating = \"4 kN\"\n"),
                        {.position = "output_rear", .outside_mm = {}, .width_mm = {}});
    bool seen = false;
    for (const BearingChoice& choice : answer.positions.front().choices) {
        if (choice.name != "weak") continue;
        seen = true;
        bool life = false;
        bool dents = false;
        for (const std::string& why : choice.fails) {
            life = life || why.find("life:") == 0;
            dents = dents || why.find("dents:") == 0;
        }
        CHECK(life);
        CHECK(dents);
    }
    CHECK(seen);
    CHECK(answer.positions.front().pick == 0);  // what is there holds
}

TEST_CASE("bearings: the share of draws that hold is that of the band") {
    const Document document = ours();
    const Setup setup = document.complete().setup;
    const BandOptions draws{.draws = 127};
    const BearingsAnswer answer =
        choose_bearings(document, {.position = "output_rear", .band = draws});
    const BearingChoice& now = answer.positions.front().choices.front();
    REQUIRE(now.holds_share.has_value());
    // What is there now is never hotter than itself: its life alone decides, and the band's own
    // 90th percentile of the life used says on which side of 9 in 10 it is.
    const Assessment likely = assess(setup);
    std::size_t rear = 0;
    while (likely.fitted.damage.bearings[rear].name != "output_rear") ++rear;
    const double p90 = band(setup, likely, draws).fitted.life_share[rear].p90;
    CHECK(*now.holds_share >= 0.9);
    CHECK(iso_281::survival(setup.rules.open_case_events * p90) >= setup.aims.rebuild_reliability);
}

TEST_CASE("bearings: holding with the likely values is not enough") {
    // Between a rating at which the likely life fails and one at which 9 of 10 draws hold lie those
    // at which it holds with the likely values alone.
    const auto there_now = [](double rating_kN) {
        const BearingsAnswer answer = choose_bearings(
            ours(fmt::format("[bearing.output_rear]\ndynamic_rating = \"{} kN\"\n"
                             "static_rating = \"45 kN\"\n",
                             rating_kN)),
            {.position = "output_rear", .outside_mm = {}, .width_mm = {}, .band = {.draws = 127}});
        return answer.positions.front();
    };
    const BearingPosition weak = there_now(3);
    CHECK(weak.choices.front().fails.front().find("life:") == 0);
    CHECK_FALSE(weak.choices.front().holds_share.has_value());
    const BearingPosition edge = there_now(6);
    REQUIRE(edge.choices.front().fails.size() == 1);
    CHECK(edge.choices.front().fails.front().find("not sure enough: life and oil hold in ") == 0);
    CHECK(*edge.choices.front().holds_share < 0.9);
    CHECK(edge.pick > 0);
    CHECK(*edge.choices[static_cast<std::size_t>(edge.pick)].holds_share >= 0.9);
    const BearingPosition sure = there_now(40);
    CHECK(sure.pick == 0);
    CHECK(*sure.choices.front().holds_share >= 0.9);
}

TEST_CASE("bearings: the command and its errors") {
    const std::string folder = std::string(CASELOAD_ROOT) + "/docs/examples/";
    const Run run = run_program_as_user("bearings " + folder + "heavy.toml");
    CHECK(run.code == 0);
    CHECK(run.out.find("  KEEP  every position holds with what is there.") != std::string::npos);
    const Run wrong = run_program_as_user("bearings " + folder + "heavy.toml --position rear");
    CHECK(wrong.code == 2);
    CHECK(wrong.out.find("--position rear: there is no such bearing") != std::string::npos);
    CHECK_THROWS_WITH(choose_bearings(ours("[candidate.thin]\ntype = \"deep-groove-ball\"\n"
                                           "size = \"85x130x22 mm\"\n"),
                                      {}),
                      "candidate.thin has a bore of 85 mm and fits no shaft");
}

}  // namespace caseload::bearings_tests
