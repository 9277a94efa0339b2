// SPDX-License-Identifier: MIT
// What is due, by hand and against the answer without a book.
#include "caseload/assess.hpp"
#include "caseload/book/state.hpp"
#include "caseload/formulas/weibull_fit.hpp"
#include "caseload/input.hpp"
#include "examples.hpp"
#include "files.hpp"
#include "support.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

namespace caseload::book_due_tests {

namespace {

using book::Record;
using book::Records;
using Fields = std::vector<std::pair<std::string, std::string>>;

const std::string own_rules =
    "\n[rules]\nchange_oil = \"3 events\"\nlook = \"2 events\"\nopen_case = \"9 events\"\n";

Record record(const std::string& id, const std::string& date, const std::string& kind,
              const Fields& fields) {
    return {id, date, kind, "A", "h", "0", fields};
}

/// A case that ran an event of these fields so often.
Records ran(int times, Fields fields, const std::string& more = own_rules) {
    fields.emplace_back("times", std::to_string(times));
    return {record("1", "2026-01-01", "case", {}),
            record("2", "2026-01-01", "setup",
                   {{"hash", "h"}, {"text", test_files::file_text(test_files::light_file) + more}}),
            record("3", "2026-01-02", "event", fields)};
}

book::DueOfCase due_of(const Records& records) {
    const std::vector<book::DueOfCase> all = book::due(records);
    REQUIRE(all.size() == 1);
    return all.front();
}

const book::Due& action(const book::DueOfCase& due, const std::string& name) {
    const auto at = std::find_if(due.actions.begin(), due.actions.end(),
                                 [&](const book::Due& one) { return one.action == name; });
    REQUIRE(at != due.actions.end());
    return *at;
}

double multiplier(const Records& records, double quantile) {
    return weibull_fit::quantile(book::fleet_multiplier(book::state_of(records)), quantile);
}

/// Whole events a bearing of this share an event still keeps 0.95 for, all that by the inverse of
/// ISO 281:2007's survival 0.9^(((D - 0.05)/0.95)^1.5), which is 1 up to 0.05.
double events_left(double used, double share) {
    const double spent = std::pow(std::max(0.0, used - 0.05) / 0.95, 1.5);
    const double end = 0.05 + 0.95 * std::pow(spent + std::log(0.95) / std::log(0.9), 1 / 1.5);
    return std::min(20.0, std::floor((end - used) / share));
}

}  // namespace

TEST_CASE("book due: events that fatigue allows, by hand, new and used") {
    int below = 0;
    for (const double share : {0.02, 0.03, 0.05, 0.08, 0.2})
        for (const int times : {0, 1, 4, 10}) {
            const Records records =
                ran(times, {{"bearing.output_rear.share", fmt::format("{}", share)}});
            const auto left = due_of(records).fatigue_events;
            CAPTURE(share);
            CAPTURE(times);
            REQUIRE(left);
            CHECK(left->reliability == 0.95);
            CHECK(left->looked_ahead == 20);
            const auto by_hand = [&](double quantile) {
                const double life = multiplier(records, quantile);
                return events_left(times * share / life, share / life);
            };
            CHECK(left->low == by_hand(0.1));
            CHECK(left->likely == by_hand(0.5));
            CHECK(left->high == by_hand(0.9));
            below += left->likely < 20 ? 1 : 0;
        }
    CHECK(below > 8);
}

TEST_CASE("book due: a new case has the actions of the answer without a book") {
    int by_fatigue = 0;
    for (const std::string mass : {"1750 kg", "2300 kg", "2600 kg", "3000 kg"}) {
        const Setup setup =
            examples::setup("light.toml", {{"vehicle.mass", "\"" + mass + "\""},
                                           {"bearing.output_rear.size", "\"90x115x13 mm\""},
                                           {"rules.open_case", "\"30 events\""}});
        const Assessment answer = assess(setup);
        const Intervals& without = answer.fitted.intervals;
        const Records records =
            ran(0, book::event_damage_fields(setup), "\n[rules]\nopen_case = \"30 events\"\n");
        const book::DueOfCase due = due_of(records);
        CAPTURE(mass);
        REQUIRE(due.fatigue_events);
        CHECK(due.fatigue_events->likely == without.fatigue_events);
        CHECK(due.fatigue_events->reliability == setup.aims.rebuild_reliability);
        CHECK(action(due, "open_case").after_events == without.open_case.after_events);
        CHECK(action(due, "change_oil").after_events == without.change_oil.after_events);
        CHECK(action(due, "look").after_events == without.look.after_events);
        by_fatigue += without.fatigue_beyond ? 0 : 1;
        if (!without.fatigue_beyond)
            CHECK(due.fatigue.find("first: " + without.decided_by + ")") != std::string::npos);
    }
    CHECK(by_fatigue == 2);
}

TEST_CASE("book due: no number beyond 200 driving hours, and none without hours beyond 20 events") {
    const auto ahead = [](const std::string& driving_h) {
        return due_of(ran(1, {{"bearing.output_rear.share", "0.0001"}, {"driving_h", driving_h}}))
            .fatigue_events->looked_ahead;
    };
    CHECK(ahead("0") == 20);
    CHECK(ahead("10") == 20);
    CHECK(ahead("11") == 18);
    CHECK(ahead("50") == 4);
    CHECK(ahead("60") == 3);
    CHECK(ahead("201") == 0);
}

TEST_CASE("book due: events left by the rules, never below 0") {
    const auto after = [](int times, const std::string& name) {
        return action(due_of(ran(times, {})), name);
    };
    const std::vector<std::pair<std::string, int>> rules{
        {"change_oil", 3}, {"look", 2}, {"open_case", 9}};
    for (const auto& [name, rule] : rules)
        for (const int times : {1, 2, 3, 8, 9, 12}) {
            CAPTURE(name);
            CAPTURE(times);
            CHECK(after(times, name).after_events == std::max(0, rule - times));
            CHECK(after(times, name).reason == "your rule");
        }
    const book::DueOfCase usual = due_of(ran(1, {}, ""));
    CHECK(action(usual, "open_case").reason == "common practice");
    CHECK(action(usual, "open_case").after_events == 3);
    // The next thing comes first.
    const book::DueOfCase one = due_of(ran(2, {}));
    REQUIRE(one.actions.size() == 3);
    CHECK(one.actions.front().action == "look");
    CHECK(one.actions.back().action == "open_case");
    // Of the same moment the opening, which needs most.
    const book::DueOfCase late = due_of(ran(12, {}));
    CHECK(late.actions[0].action == "open_case");
    CHECK(late.actions[1].action == "change_oil");
    CHECK(late.actions[2].action == "look");
}

TEST_CASE("book due: oil by its dose and its peak, changed or not") {
    const auto oil = [](int times, const std::string& dose, const std::string& peak_degC,
                        bool changed) {
        Records records = ran(times, {{"oil.dose", dose}, {"oil.peak_degC", peak_degC}},
                              "\n[rules]\nchange_oil = \"30 events\"\n");
        if (changed) records.push_back(record("4", "2026-01-03", "oil", {}));
        return action(due_of(records), "change_oil");
    };
    // Half of the oxidation life.
    CHECK(oil(1, "0.125", "90", false).after_events == 3);
    CHECK(oil(1, "0.125", "90", false).reason == "oil oxidation");
    CHECK(oil(1, "0.1251", "90", false).after_events == 2);
    CHECK(oil(1, "0.125", "90", true).after_events == 4);
    CHECK(oil(6, "0.125", "90", false).after_events == 0);
    // More than 20 events are no number.
    CHECK(oil(1, "0.0227", "90", false).reason == "your rule");
    CHECK(oil(1, "0.0239", "90", false).after_events == 19);
    CHECK(oil(1, "0", "90", false).after_events == 29);
    // Above the stop limit it goes now, once.
    const double stop_degC = examples::setup("light.toml").limits.oil_stop_degC;
    CHECK(oil(1, "0", fmt::format("{}", stop_degC), false).reason == "your rule");
    const book::Due hot = oil(1, "0", fmt::format("{}", stop_degC + 0.01), false);
    CHECK(hot.after_events == 0);
    CHECK(hot.reason == "oil was above its stop limit");
    CHECK(oil(1, "0", fmt::format("{}", stop_degC + 0.01), true).reason == "your rule");
}

TEST_CASE("book due: a loose seat and a seal above its limit make a look due after each event") {
    const auto flagged = [](const std::string& flag, const std::string& then) {
        Records records = ran(1, {{flag, "1"}});
        if (!then.empty()) records.push_back(record("4", "2026-01-03", then, {}));
        return due_of(records);
    };
    CHECK(action(flagged("seat_loose_hot", ""), "look").after_events == 0);
    CHECK(action(flagged("seat_loose_hot", ""), "look").reason ==
          "a ring walks in its seat when hot");
    CHECK(action(flagged("seat_loose_hot", "look"), "look").after_events == 1);
    CHECK(action(flagged("ring_on_shaft", ""), "look").after_events == 0);
    CHECK(action(flagged("ring_on_shaft", ""), "look").reason ==
          "an inner ring turns on its shaft");
    CHECK(action(flagged("ring_on_shaft", "look"), "look").after_events == 1);
    CHECK(action(flagged("seal_over_limit", ""), "open_case").after_events == 0);
    CHECK(action(flagged("seal_over_limit", ""), "open_case").reason ==
          "a seal runs above its limit");
    CHECK(action(flagged("seal_over_limit", "opening"), "open_case").after_events == 1);
    CHECK(action(flagged("none", ""), "look").after_events == 1);
}

TEST_CASE("book due: rings fifty hours hotter than they are stabilised to are looked at") {
    const auto after = [](int times) {
        return due_of(ran(times,
                          {{"bearing.output_rear.share", "0.001"},
                           {"bearing.output_rear.over_heat_code_h", "10"}},
                          "\n[rules]\nlook = \"30 events\"\n"));
    };
    CHECK(action(after(4), "look").reason == "your rule");
    const book::Due look = action(after(5), "look");
    CHECK(look.after_events == 0);
    CHECK(look.part.find("bearing.output_rear") != std::string::npos);
    CHECK(look.reason.find("rings 50 h hotter") == 0);
    // Written where the likely rings of an event are that hot, and only there.
    const auto hours = [](const std::string& ambient) {
        const Setup setup = examples::setup(
            "light.toml", {{"cooler.fit", "false"}, {"event.ambient", "\"" + ambient + " degC\""}});
        double found = -1;
        for (const auto& [key, text] : book::event_damage_fields(setup))
            if (key == "bearing.output_rear.over_heat_code_h") found = std::stod(text);
        return found;
    };
    CHECK(hours("-25") == -1);
    CHECK(within(hours("38"), 6.2, 0.1));
}

TEST_CASE("book due: checks of the last setup to watch and to look at are listed") {
    std::string text = test_files::file_text(test_files::light_file);
    const auto due = [&](const std::string& more) {
        Records records = ran(1, {{"oil.peak_degC", "85"}});
        records[1] = record("2", "2026-01-01", "setup", {{"hash", "h"}, {"text", text + more}});
        return due_of(records);
    };
    CHECK(due("").watch.empty());
    CHECK(due("").look.empty());
    const book::DueOfCase silicone = due("\n[seal.input]\nmaterial = \"VMQ\"\n");
    REQUIRE(silicone.watch.size() == 1);
    CHECK(silicone.watch.front().find("seal.input: silicone in EP gear oil") == 0);
    CHECK(silicone.watch.front().find("; fit FKM") != std::string::npos);
    const std::vector<book::DueOfCase> all{silicone};
    CHECK(book::due_screen(all).find("watch: seal.input: silicone") != std::string::npos);
    // A few kelvin above what nitrile takes in its sump.
    text.replace(text.find("\"80 degC\""), 9, "\"92 degC\"");
    const book::DueOfCase nitrile = due("\n[seal.input]\nmaterial = \"NBR\"\n");
    CHECK(nitrile.watch.empty());
    REQUIRE(nitrile.look.size() == 1);
    CHECK(nitrile.look.front().find("seal.input: hottest oil or case at the seal") == 0);
    const std::vector<book::DueOfCase> looked{nitrile};
    CHECK(book::due_screen(looked).find("look at when opened: seal.input") != std::string::npos);
}

TEST_CASE("book due: a book without a case says how one begins") {
    CHECK(book::due_screen({}) == "No case in this book. First: caseload book add case SERIAL\n");
}

TEST_CASE("book due: the part listed first is the one least likely to survive") {
    const auto first = [](const std::string& flank) {
        return due_of(ran(1, {{"bearing.input_rear.share", "0.1"},
                              {"bearing.output_rear.share", "0.2"},
                              {"gear.input.root", "0.3"},
                              {"gear.output.flank", flank}}))
            .fatigue;
    };
    CHECK(first("0.1").find("first: bearing.output_rear)") != std::string::npos);
    CHECK(first("3").find("first: gear.output flank)") != std::string::npos);
    CHECK(due_of(ran(1, {})).fatigue.find("first: case)") != std::string::npos);
    // Gear lives are not stretched by what bearings of the book lived.
    const auto left = due_of(ran(0, {{"gear.output.flank", "0.5"}})).fatigue_events;
    // 0.95 = 0.99^(D^2.5): D = (ln 0.95 / ln 0.99)^0.4 = 1.918.
    REQUIRE(left);
    CHECK(left->low == 3);
    CHECK(left->likely == 3);
    CHECK(left->high == 3);
}

}  // namespace caseload::book_due_tests
