// SPDX-License-Identifier: MIT
// Long: one command, answers of every position share the setups made here.
#include "caseload/ask/bearings.hpp"

#include "caseload/formulas/iso_281.hpp"

#include "caseload/assess.hpp"
#include "caseload/figures.hpp"
#include "caseload/show/choices.hpp"
#include "caseload/show/text.hpp"
#include "examples.hpp"
#include "program.hpp"
#include "random_setups.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace caseload::bearings_tests {

namespace {

Document ours(const std::string& more = "") {
    return Document("caseload = 1\nbase = \"trailer.toml\"\n" + more, "ours.toml", examples::text);
}

}  // namespace

TEST_CASE("bearings: the row of the fitted bearing is the assessment itself") {
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

namespace {

std::string entry(const std::string& bearing, const std::string& key, const std::string& value) {
    return fmt::format("[bearing.{}]\n{} = {}\n", bearing, key, value);
}
/// Its seat with this fit of its inner ring; its outer ring slides.
std::string on_shaft(const std::string& bearing, const std::string& fit) {
    return entry(bearing, "seat",
                 fmt::format("{{ ring_interference = \"0 mm\", boss_outside = \"190 mm\", "
                             "shaft_interference = \"{}\" }}",
                             fit));
}
BearingPosition asked(const Document& document, const std::string& position) {
    return choose_bearings(document, {.position = position, .band = {.draws = 63}})
        .positions.front();
}
std::size_t index_of(const Assessment& likely, const std::string& bearing) {
    std::size_t b = 0;
    while (likely.fitted.damage.bearings[b].name != bearing) ++b;
    return b;
}

}  // namespace

TEST_CASE("bearings: each class of play is the assessment with that class entered") {
    for (const std::string name : {"input_front", "output_rear"}) {
        const BearingPosition one = asked(ours(), name);
        REQUIRE(one.play_classes.size() == 5);
        const double now_share = one.choices.front().life_share;
        int fitted = 0;
        double longest = 0;
        for (const PlayClass& with : one.play_classes) {
            CAPTURE(words_for(with.clearance).key);
            const Assessment likely = assess(
                ours(entry(name, "clearance", fmt::format("\"{}\"", words_for(with.clearance).key)))
                    .complete()
                    .setup);
            const std::size_t b = index_of(likely, name);
            const BearingData& data = likely.loads.bearings[b];
            const double share = likely.fitted.damage.bearings[b].life_share;
            CHECK(with.life_share == rel(share, 1e-12));
            CHECK(with.times_life == rel(now_share / share, 1e-12));
            CHECK(with.hot_mm == data.running_play_mm);
            CHECK(with.hot_least_mm == data.running_play_least_mm);
            CHECK(with.hot_largest_mm == data.running_play_largest_mm);
            CHECK(with.keeps_play == (with.hot_least_mm >= 0 && with.cold_mm >= 0));
            // Without the inner ring's warmth; its seat holds tighter cold.
            CHECK(with.cold_mm < with.hot_mm + 12e-6 * data.d_m_mm * 5 + 1e-12);
            fitted += with.now ? 1 : 0;
            CHECK(with.now == (with.clearance == ClearanceClass::C3));
            if (with.keeps_play) longest = std::max(longest, with.times_life);
        }
        CHECK(fitted == 1);
        REQUIRE(one.best_play >= 0);
        const PlayClass& best = one.play_classes[static_cast<std::size_t>(one.best_play)];
        CHECK(best.keeps_play);
        CHECK(best.times_life == longest);
    }
}

TEST_CASE("bearings: a class of play that would live clearly longer is named, else none") {
    const BearingPosition front = asked(ours(), "input_front");
    // Its C2 would live longest, but the tightest of that class run preloaded.
    REQUIRE(front.play_classes[0].times_life > front.play_classes[1].times_life);
    CHECK(!front.play_classes[0].keeps_play);
    CHECK(front.best_play == 1);
    const std::string times = figures(front.play_classes[1].times_life, 2);
    CHECK(front.choices.front().play.find("; CN would live " + times + " times as long with ") !=
          std::string::npos);
    CHECK(front.choices.front().play.find("play: C3 runs with 0.064 mm (0.046 mm to 0.081 mm), its "
                                          "rollers carry over ") == 0);
    // The ball bearing behind it has the best of its classes.
    const BearingPosition rear = asked(ours(), "input_rear");
    CHECK(rear.play_classes[static_cast<std::size_t>(rear.best_play)].now);
    CHECK(rear.choices.front().play.empty());
    // So has the front one with CN; with C5 it lives so much shorter.
    CHECK(asked(ours(entry("input_front", "clearance", "\"CN\"")), "input_front")
              .choices.front()
              .play.empty());
    const BearingPosition loose =
        asked(ours(entry("input_front", "clearance", "\"C5\"")), "input_front");
    CHECK(loose.play_classes[static_cast<std::size_t>(loose.best_play)].times_life >
          2 * front.play_classes[1].times_life);
    CHECK(loose.choices.front().play.find("; CN would live ") != std::string::npos);
    // A light fit on the shaft and a seat that slides leave C2 its play.
    const BearingPosition light = asked(ours(on_shaft("input_front", "0.005 mm")), "input_front");
    CHECK(light.play_classes[static_cast<std::size_t>(light.best_play)].clearance ==
          ClearanceClass::C2);
    CHECK(light.choices.front().play.find("; C2 would live ") != std::string::npos);
}

TEST_CASE("bearings: a preloaded bearing is given the class that keeps play, or that none does") {
    // 0.06 mm on the shaft take 0.053 mm of play; C2 has 15 to 50 um.
    const BearingPosition tight =
        asked(ours(on_shaft("input_front", "0.06 mm") + "clearance = \"C2\"\n"), "input_front");
    REQUIRE(tight.best_play > 0);
    const PlayClass& best = tight.play_classes[static_cast<std::size_t>(tight.best_play)];
    CHECK(best.clearance == ClearanceClass::C3);
    CHECK(tight.choices.front().play.find("play: C2 runs preloaded by 0.027 mm (-0.045 mm to ") ==
          0);
    CHECK(tight.choices.front().play.find("; C3 would live ") != std::string::npos);
    // C2 on a ball bearing whose fits are assumed: its lives differ little, its play does.
    const BearingPosition balls =
        asked(ours("[bearing.input_rear]\nclearance = \"C2\"\n"), "input_rear");
    REQUIRE(balls.best_play > 0);
    CHECK(balls.play_classes[static_cast<std::size_t>(balls.best_play)].times_life < 1.3);
    CHECK(balls.choices.front().play.find("play: C2 runs preloaded by ") == 0);
    CHECK(balls.choices.front().play.find(" and keeps play hot and cold") != std::string::npos);
    const BearingPosition none = asked(ours(on_shaft("input_front", "0.185 mm")), "input_front");
    CHECK(none.best_play == -1);
    CHECK(none.choices.front().play.find("; no class keeps play hot and cold with these fits") !=
          std::string::npos);
    // C2 and CN would be preloaded by more than 0.1 mm: no bearing runs so.
    REQUIRE(none.play_classes.size() == 3);
    CHECK(none.play_classes.front().clearance == ClearanceClass::C3);
    // The fitted one is shown whatever it runs with: here its seat in steel takes the rest.
    const BearingPosition seized = asked(
        ours("[bearing.output_rear]\nseat = { carrier = \"steel-retainer\", ring_interference = "
             "\"0.05 mm\", retainer_outside = \"160 mm\", retainer_interference = \"0.2 mm\", "
             "boss_outside = \"178 mm\", shaft_interference = \"0.15 mm\" }\n"),
        "output_rear");
    const auto fitted = std::find_if(seized.play_classes.begin(), seized.play_classes.end(),
                                     [](const PlayClass& one) { return one.now; });
    REQUIRE(fitted != seized.play_classes.end());
    CHECK(fitted->hot_mm < -0.1);
    CHECK(fitted->times_life == 1);
    CHECK(seized.choices.front().play.find("play: C3 runs preloaded by 0.1") == 0);
    // Tapered ones have no such class.
    const Document idler(examples::text("idler.toml").value(), "idler.toml", examples::text);
    const BearingPosition pair = asked(idler, "idler_front");
    CHECK(pair.play_classes.empty());
    CHECK(pair.best_play == -1);
    CHECK(pair.choices.front().play.empty());
}

TEST_CASE("bearings: one of two that face each other is not replaced by a kind without thick end") {
    const std::string text = examples::text("idler.toml").value();
    for (const std::string kind : {"spherical-roller", "deep-groove-ball"}) {
        CAPTURE(kind);
        const Document document(
            text + "\n[candidate.other]\ntype = \"" + kind + "\"\nsize = \"70x110x20 mm\"\n",
            "test.toml", examples::text);
        const Setup setup = document.complete().setup;
        const auto there = std::find_if(setup.bearings.begin(), setup.bearings.end(),
                                        [](const auto& one) { return one.name == "idler_front"; });
        REQUIRE(there != setup.bearings.end());
        REQUIRE(there->bore_mm == 70);
        const BearingsAnswer answer = choose_bearings(
            document, {.position = "idler_front", .outside_mm = {}, .width_mm = {}});
        bool seen = false;
        for (const BearingChoice& choice : answer.positions.front().choices)
            if (choice.name == "other")
                seen = !choice.fails.empty() &&
                       choice.fails.front().find("faces another bearing: only a tapered") == 0;
        CHECK(seen);
    }
}

TEST_CASE("bearings: a candidate that is not good enough has the reason beside it") {
    // Ratings below a tenth of what a ball bearing of this size has; one's own is judged whatever
    // it is.
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
            dents = dents || why.find("dents: margin ") == 0;
        }
        CHECK(life);
        CHECK(dents);
        CHECK(choice.verdict == "stop");
    }
    CHECK(seen);
    CHECK(answer.positions.front().pick == 0);  // what is there holds
}

TEST_CASE(
    "bearings: the chance that a bearing is good enough is counted over the draws of the range") {
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

TEST_CASE("bearings: a bearing good enough with the likely values only is UNSURE") {
    // Between a rating at which the likely life fails and one at which 9 of 10 draws hold lie those
    // at which it holds with the likely values alone.
    const auto there_now = [](double rating_kN) {
        const BearingsAnswer answer = choose_bearings(
            ours(fmt::format("[bearing.output_rear]\ndynamic_rating = \"{} kN\"\n"
                             "static_rating = \"45 kN\"\n",
                             rating_kN)),
            {.position = "output_rear", .outside_mm = {}, .width_mm = {}, .band = {.draws = 127}});
        return answer;
    };
    const BearingsAnswer weak = there_now(3);
    const BearingChoice& failing = weak.positions.front().choices.front();
    REQUIRE_FALSE(failing.fails.empty());
    CHECK_FALSE(failing.holds_share.has_value());
    CHECK((weak.decision == "open_earlier" || weak.decision == "change"));
    const BearingsAnswer edge = there_now(6);
    const BearingPosition& rear = edge.positions.front();
    REQUIRE(rear.choices.front().fails.size() == 1);
    CHECK(rear.choices.front().fails.front().find("not sure enough: life and oil hold, ") == 0);
    CHECK(*rear.choices.front().holds_share < 0.9);
    CHECK(edge.decision == "unsure");
    const BearingsAnswer sure = there_now(40);
    CHECK(sure.positions.front().pick == 0);
    CHECK(*sure.positions.front().choices.front().holds_share >= 0.9);
    CHECK(sure.decision == "keep");
}

TEST_CASE("bearings: the nearest is offered first, thinner ones only when asked for") {
    // Too weak a bearing, in a case with room.
    const Document weak = ours(
        "[bearing.output_rear]\ndynamic_rating = \"3 kN\"\nstatic_rating = \"45 kN\"\n"
        "[candidate.light]\ntype = \"deep-groove-ball\"\nsize = \"90x115x13 mm\"\n");
    const auto position = [&](bool thinner) {
        return choose_bearings(weak, {.position = "output_rear",
                                      .outside_mm = 200,
                                      .width_mm = 50,
                                      .thinner = thinner,
                                      .band = {.draws = 63}})
            .positions.front();
    };
    const BearingPosition near = position(false);
    const BearingChoice& now = near.choices.front();
    REQUIRE_FALSE(now.fails.empty());
    REQUIRE(near.choices.size() > 3);
    double last_mm = 0;
    for (std::size_t i = 1; i < near.choices.size(); ++i) {
        const BearingChoice& one = near.choices[i];
        const double off_mm = std::fabs(one.outside_mm - now.outside_mm);
        CHECK(off_mm >= last_mm);
        last_mm = off_mm;
        if (!one.name.empty()) continue;
        CHECK(one.outside_mm >= now.outside_mm);
        CHECK(one.width_mm >= now.width_mm);
        CHECK((one.C_N >= now.C_N || !one.fails.empty()));
    }
    REQUIRE(near.pick > 0);
    // Nothing nearer holds and watches no more, as the answer itself says of each.
    for (int i = 1; i < near.pick; ++i) {
        const BearingChoice& nearer = near.choices[static_cast<std::size_t>(i)];
        CHECK((!nearer.fails.empty() || nearer.watches.size() > now.watches.size()));
    }
    const BearingPosition all = position(true);
    CHECK(all.choices.size() > near.choices.size());
    const bool thinner = std::any_of(
        all.choices.begin(), all.choices.end(),
        [&](const BearingChoice& one) { return one.name.empty() && one.width_mm < now.width_mm; });
    CHECK(thinner);
}

namespace {

std::string worst_check(const Assessment& likely, const std::string& bearing) {
    std::string worst = "fine";
    for (const Check& check : likely.fitted.checked.checks) {
        if (check.about != "bearing." + bearing && check.about != "bearing." + bearing + ".seat")
            continue;
        if (check.verdict == "stop") worst = "stop";
        if (check.verdict == "watch" && worst == "fine") worst = "watch";
    }
    return worst;
}

/// What bearings and assess say of the same file. True if it says to change one.
bool agrees(const Document& document) {
    const ReadSetup read = document.complete();
    const Assessment likely = assess(read.setup);
    const BandOptions few{.draws = 63};
    const Band sure = band(read.setup, likely, few);
    const BearingsAnswer answer = choose_bearings(document, {.position = "", .band = few});
    bool stops = false;
    std::size_t watched = 0;
    for (const BearingPosition& one : answer.positions) {
        const BearingChoice& now = one.choices.front();
        CHECK(now.verdict == worst_check(likely, one.position));
        stops = stops || now.verdict == "stop";
        watched += now.watches.size();
    }
    const Intervals& due = likely.fitted.intervals;
    const bool earlier =
        !due.fatigue_beyond && due.fatigue_events < read.setup.rules.open_case_events;
    CHECK((answer.decision == "change") == stops);
    if (stops) {
        CHECK(sure.verdict == "stop");
        CHECK((!likely.stopped_by.empty() || !sure.stop.empty()));
    } else {
        CHECK((answer.decision == "open_earlier") == earlier);
    }
    // The first words of both screens.
    const std::string screen = bearings_screen(read.setup, answer);
    const std::vector<Worth> worth;
    const std::string first = first_screen({read, likely, sure, worth});
    CHECK((screen.find("\n  CHANGE  ") != std::string::npos) == stops);
    if (first.find("\n  FINE ") != std::string::npos)
        CHECK(screen.find("\n  CHANGE  ") == std::string::npos);
    CHECK((screen.find("\n  OPEN EARLIER  ") != std::string::npos) == earlier);
    if (earlier) {
        CHECK(due.open_case.after_events <= due.fatigue_events);
    }
    // Each check of a bearing that assess counts as one to watch is named.
    std::size_t counted = 0;
    for (const Check& check : likely.fitted.checked.checks)
        if (check.verdict == "watch" && check.about.rfind("bearing.", 0) == 0) ++counted;
    CHECK(watched == counted);
    return stops;
}

}  // namespace

TEST_CASE("bearings: bearings and assess print the same for the same bearing") {
    for (const std::string name :
         {"light.toml", "heavy.toml", "trailer.toml", "idler.toml", "shelf.toml", "dip.toml"}) {
        CAPTURE(name);
        CHECK_FALSE(agrees(Document(examples::text(name).value(), name, examples::text)));
    }
    // Past the usual speed of its kind is on watch in both, no reason to change.
    CHECK_FALSE(agrees(ours("vehicle.mass = \"2400 kg\"\nleg.loop.pace = \"30 m/s\"\n")));
    CHECK(
        agrees(ours("[bearing.output_rear]\nstatic_rating = \"2 kN\"\n"
                    "dynamic_rating = \"45 kN\"\n")));
    int stopped = 0;
    int ran = 0;
    for (const random_setups::Drawn& one : random_setups::drawn(31, 90).ran) {
        CAPTURE(one.text);
        try {
            static_cast<void>(assess(one.setup));
        } catch (const Error&) {
            continue;
        }
        if (++ran > 60) break;
        // Every third with a bearing that is too weak.
        const std::string more = ran % 3 == 0 ? "bearing.output_rear.dynamic_rating = \"20 kN\"\n"
                                                "bearing.output_rear.static_rating = \"8 kN\"\n"
                                              : "";
        const Document document("caseload = 1\nbase = \"random.toml\"\n" + more, "more.toml",
                                [&](const std::string&) { return std::optional(one.text); });
        stopped += agrees(document) ? 1 : 0;
    }
    CHECK(ran > 50);
    CHECK(stopped > 5);
}

TEST_CASE("bearings: the command and its errors") {
    const std::string folder = std::string(CASELOAD_ROOT) + "/docs/examples/";
    const Run run = run_program_as_user("bearings " + folder + "heavy.toml");
    CHECK(run.code == 0);
    CHECK(run.out.find("  KEEP  input_front, input_rear, output_front, output_rear: the fitted "
                       "bearings are good enough.") != std::string::npos);
    // Play is named where another class lives clearly longer: rollers, not balls.
    CHECK(
        run.out.find("rollers carry over 84 deg; CN\n           would live 1.5 times as long with "
                     "0.039 mm (0.021 mm to 0.056 mm) and keeps play hot") != std::string::npos);
    const Run one = run_program_as_user("bearings " + folder + "heavy.toml --position output_rear");
    CHECK(one.out.find("would live") == std::string::npos);
    const Run numbers =
        run_program_as_user("bearings " + folder + "heavy.toml --position output_front --json");
    CHECK(numbers.out.find("\"play_classes\":[{\"clearance\":\"C2\",\"now\":false,") !=
          std::string::npos);
    CHECK(numbers.out.find("\"best_play\":1}") != std::string::npos);
    CHECK(one.out.find("  KEEP  output_rear: the fitted bearing is good enough.") !=
          std::string::npos);
    CHECK(one.out.find("90x115x13") == std::string::npos);
    const Run thinner =
        run_program_as_user("bearings " + folder + "heavy.toml --position output_rear --thinner");
    CHECK(thinner.out.find("90x115x13") != std::string::npos);
    const Run wrong = run_program_as_user("bearings " + folder + "heavy.toml --position rear");
    CHECK(wrong.code == 2);
    CHECK(wrong.out.find("--position rear: there is no such bearing") != std::string::npos);
    CHECK_THROWS_WITH(choose_bearings(ours("[candidate.thin]\ntype = \"deep-groove-ball\"\n"
                                           "size = \"85x130x22 mm\"\n"),
                                      {}),
                      "candidate.thin has a bore of 85 mm and fits no shaft");
}

}  // namespace caseload::bearings_tests
