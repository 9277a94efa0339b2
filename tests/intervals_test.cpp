// SPDX-License-Identifier: MIT
// Actions and the chance to reach them.
#include "caseload/assess.hpp"
#include "caseload/formulas/replacement.hpp"
#include "caseload/input.hpp"
#include "files.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::intervals_tests {

using test_files::file_text;

namespace {

Wear wear_with(std::initializer_list<double> bearing_shares) {
    Wear wear;
    wear.bearing_share = bearing_shares;
    wear.peak_oil_degC = 90;
    wear.driving_h = 6;
    return wear;
}

ReadSetup ten_entries(std::vector<Change> changes = {}) {
    return Document(new_setup_text(), "ten.toml", {}).complete(changes);
}

bool has_note(const Assessment& answer, const std::string& id) {
    return std::any_of(answer.notes.begin(), answer.notes.end(),
                       [&](const Note& note) { return note.id == id; });
}

}  // namespace

TEST_CASE("intervals: chance of surviving, by hand") {
    // ISO 281:2007: 0.9 at one rating life, 1 up to 0.05 of it; two equal bearings: the product.
    CHECK(reliability(wear_with({1}), 1) == rel(0.9, 1e-12));
    CHECK(reliability(wear_with({0.05}), 1) == 1);
    CHECK(reliability(wear_with({0.5, 0.5}), 2) == rel(0.81, 1e-12));
}

TEST_CASE("intervals: fatigue sets the opening when it comes before the rule") {
    const ReadSetup read = ten_entries({{"rules.open_case", "\"10 events\""}});
    // 0.95 is kept up to 0.05 + 0.95 (ln 0.95 / ln 0.9)^(1/1.5) = 0.638 rating lives: at 0.2 a
    // event, three events (0.6) do and four (0.8) do not.
    const Intervals one = intervals(read.setup, wear_with({0.2}));
    CHECK(one.open_case.after_events == 3);
    CHECK(one.open_case.reason == "fatigue");
    CHECK(!one.fatigue_beyond);
    const Intervals hardly = intervals(read.setup, wear_with({0.001}));
    CHECK(hardly.fatigue_beyond);
    CHECK(hardly.open_case.after_events == 10);
    CHECK(hardly.open_case.reason == "your rule");
    const Intervals at_once = intervals(read.setup, wear_with({2}));
    CHECK(at_once.open_case.after_events == 0);
}

TEST_CASE("intervals: the part that decides is named only where fatigue is printed") {
    ReadSetup read = ten_entries({{"rules.open_case", "\"10 events\""}});
    const std::size_t count = read.setup.bearings.size();
    REQUIRE(count > 2);
    Wear wear = wear_with({});
    wear.bearing_share.assign(count, 0.01);
    wear.bearing_share[1] = 0.2;
    CHECK(intervals(read.setup, wear).decided_by == "bearing." + read.setup.bearings[1].name);
    // Beyond 20 events nothing of fatigue is printed, though some part comes first.
    wear.bearing_share[1] = 0.02;
    const Intervals beyond = intervals(read.setup, wear);
    CHECK(beyond.fatigue_beyond);
    CHECK(beyond.decided_by.empty());
    wear.bearing_share.assign(count, 0);
    CHECK(intervals(read.setup, wear).decided_by.empty());
}

TEST_CASE("intervals: events that remain given that the opening was reached, by hand") {
    // At 0.1 of a rating life an event, opened after 4: R(4 + m) / R(4) with
    // R = 0.9^(((0.1 n - 0.05) / 0.95)^1.5).
    const ReadSetup read = ten_entries({{"rules.open_case", "\"4 events\""}});
    const auto R = [](double n) { return std::pow(0.9, std::pow((0.1 * n - 0.05) / 0.95, 1.5)); };
    int by_hand = 0;
    while (R(4 + by_hand + 1) / R(4) >= 0.95) ++by_hand;
    REQUIRE(by_hand == 4);
    CHECK(intervals(read.setup, wear_with({0.1})).remaining_events == by_hand);
    CHECK(intervals(read.setup, wear_with({1e-6})).remaining_events == 20);
}

TEST_CASE(
    "intervals: oil is changed at half its oxidation life, and after passing the stop limit") {
    const ReadSetup read = ten_entries({{"rules.change_oil", "\"9 events\""}});
    Wear wear = wear_with({0.001});
    wear.oil_dose = 0.12;
    CHECK(intervals(read.setup, wear).change_oil.after_events == 4);
    wear.oil_dose = 0.001;
    CHECK(intervals(read.setup, wear).change_oil.after_events == 9);
    Wear hot = wear;
    hot.peak_oil_degC = read.setup.limits.oil_stop_degC + 1;
    CHECK(intervals(read.setup, hot).change_oil.after_events == 1);
}

TEST_CASE("intervals: no number of fatigue is printed beyond 20 events or 200 driving hours") {
    const ReadSetup read = ten_entries({{"rules.open_case", "\"30 events\""}});
    const auto of = [&](double share, double driving_h) {
        Wear wear = wear_with({share});
        wear.driving_h = driving_h;
        return intervals(read.setup, wear);
    };
    // 0.95 is kept up to 0.638 rating lives.
    const Intervals nineteen = of(0.638 / 19.5, 1);
    CHECK(nineteen.fatigue_events == 19);
    CHECK(!nineteen.fatigue_beyond);
    CHECK(nineteen.open_case.after_events == 19);
    const Intervals twenty = of(0.638 / 20.5, 1);
    CHECK(twenty.fatigue_events == 20);
    CHECK(twenty.fatigue_beyond);
    CHECK(twenty.open_case.after_events == 30);
    // 200 h are 3.3 events of 60 h: three and four.
    CHECK(of(0.638 / 3.5, 60).fatigue_events == 3);
    CHECK(!of(0.638 / 3.5, 60).fatigue_beyond);
    CHECK(of(0.638 / 4.5, 60).fatigue_events == 4);
    CHECK(of(0.638 / 4.5, 60).fatigue_beyond);
    CHECK(!of(0.638 / 3.5, 50).fatigue_beyond);
    CHECK(of(0.638 / 4.5, 50).fatigue_beyond);
}

TEST_CASE(
    "intervals: a case with no survival left at its opening finishes no further event, without a "
    "division by 0") {
    const ReadSetup read = ten_entries();
    const Intervals hopeless = intervals(read.setup, wear_with({1e6}));
    CHECK(hopeless.reliability_at_opening == 0);
    CHECK(hopeless.next_event == 0);
    CHECK(hopeless.remaining_events == 0);
    CHECK(hopeless.open_case.after_events == 0);
    CHECK(hopeless.fatigue_events == 0);
    CHECK(hopeless.decided_by == "bearing." + read.setup.bearings.front().name);
}

TEST_CASE("intervals: no chance is printed above 0.99") {
    const ReadSetup read = ten_entries({{"rules.open_case", "\"4 events\""}});
    // 0.04 of a rating life: nothing fails up to 0.05.
    const Intervals sure = intervals(read.setup, wear_with({0.001}));
    CHECK(sure.reliability_at_opening == 0.99);
    CHECK(sure.next_event == 0.99);
    // 4 events of 0.1 by the life law, and the fifth.
    const auto R = [](double n) { return std::pow(0.9, std::pow((0.1 * n - 0.05) / 0.95, 1.5)); };
    const Intervals worn = intervals(read.setup, wear_with({0.1}));
    CHECK(worn.reliability_at_opening == rel(R(4), 1e-12));
    CHECK(worn.next_event == rel(R(5) / R(4), 1e-12));
}

TEST_CASE("intervals: no part is called first to fail where none can fail by the opening") {
    ReadSetup read = ten_entries({{"rules.open_case", "\"1 event\""}});
    // Fatigue is printed, 0.638/0.04 = 15 events, but up to 0.05 of a rating life nothing fails.
    Wear wear = wear_with({});
    wear.bearing_share.assign(read.setup.bearings.size(), 0.04);
    const Intervals early = intervals(read.setup, wear);
    CHECK(!early.fatigue_beyond);
    CHECK(early.open_case.after_events == 1);
    CHECK(early.decided_by.empty());
    // Of teeth every cycle counts: 0.99^(D^2.5).
    wear.gears = {"gear.input", "gear.output"};
    wear.teeth = {{0.1, 0.3}, {0.2, 0.1}};
    CHECK(intervals(read.setup, wear).decided_by == "gear.input root");
    wear.teeth = {{0.1, 0.3}, {0.4, 0.1}};
    CHECK(intervals(read.setup, wear).decided_by == "gear.output flank");
}

TEST_CASE(
    "intervals: the earliest reason is printed, equal ones with the user's rule, else the last "
    "found") {
    const auto opened = [](const std::string& rule, double share, bool seal) {
        const ReadSetup read = ten_entries(
            rule.empty() ? std::vector<Change>{}
                         : std::vector<Change>{{"rules.open_case", "\"" + rule + " events\""}});
        Wear wear = wear_with({share});
        wear.seal_over_limit = seal;
        return intervals(read.setup, wear).open_case;
    };
    // 0.638/0.2 is three events.
    CHECK(opened("3", 0.2, false).reason == "your rule; fatigue");
    CHECK(opened("3", 0.2, false).after_events == 3);
    CHECK(opened("2", 0.2, false).reason == "your rule");
    CHECK(opened("4", 0.2, false).reason == "fatigue");
    CHECK(opened("1", 0.001, true).reason == "your rule; a seal above its limit");
    CHECK(opened("2", 0.001, true).reason == "a seal above its limit");
    // Common practice, four events, gives way at the same event.
    CHECK(opened("", 0.001, false).reason == "common practice");
    CHECK(opened("", 0.638 / 4.5, false).after_events == 4);
    CHECK(opened("", 0.638 / 4.5, false).reason == "fatigue");
}

TEST_CASE("intervals: oil just inside its limits changes no action, just beyond it does") {
    const ReadSetup read = ten_entries({{"rules.change_oil", "\"9 events\""}});
    const auto changed = [&](double dose, double peak_over_stop_K) {
        Wear wear = wear_with({0.001});
        wear.oil_dose = dose;
        wear.peak_oil_degC = read.setup.limits.oil_stop_degC + peak_over_stop_K;
        return intervals(read.setup, wear).change_oil;
    };
    // Half the oxidation life.
    CHECK(changed(0.125, 0).after_events == 4);
    CHECK(changed(0.1251, 0).after_events == 3);
    CHECK(changed(0.125, 0).reason == "oil oxidation");
    CHECK(changed(0, 0).after_events == 9);
    CHECK(changed(0, 1e-9).after_events == 1);
    CHECK(changed(0, 1e-9).reason == "oil above its stop limit");
    CHECK(changed(0.6, 0).after_events == 0);
}

TEST_CASE(
    "intervals: the opening of least cost follows the entered costs, and is none beyond 20 "
    "events") {
    const auto of = [](double share) {
        const ReadSetup read = ten_entries({{"rules.open_case", "\"19 events\""},
                                            {"costs.planned", "\"2500 EUR\""},
                                            {"costs.failure", "\"18000 EUR\""}});
        return intervals(read.setup, wear_with({share}));
    };
    const auto by_costs = [](double share) {
        return replacement::cheapest_events(
            [share](double events) { return reliability(wear_with({share}), events); },
            {.planned = 2500, .failure = 18000});
    };
    // So much wear that the search by cost ends early; the aim alone would open before it.
    const Intervals early = of(0.2);
    REQUIRE(by_costs(0.2));
    CHECK(early.cheapest_events == *by_costs(0.2));
    CHECK(early.open_case.reason == "fatigue");
    // The least cost lies at 0.72 of a rating life for these costs whatever its events.
    REQUIRE(by_costs(0.01));
    REQUIRE(*by_costs(0.01) > 20);
    CHECK(of(0.01).cheapest_events == 0);
    CHECK(of(0.01).open_case.reason == "your rule");
    // Nothing wears: nothing to save.
    CHECK(of(0).cheapest_events == 0);
    // An aim so low that the costs come first.
    ReadSetup low = ten_entries({{"rules.open_case", "\"19 events\""},
                                 {"costs.planned", "\"2500 EUR\""},
                                 {"costs.failure", "\"18000 EUR\""}});
    low.setup.aims.rebuild_reliability = 0.5;
    const Intervals cheap = intervals(low.setup, wear_with({0.2}));
    CHECK(cheap.open_case.after_events == *by_costs(0.2));
    CHECK(cheap.open_case.reason == "your costs");
}

TEST_CASE(
    "intervals: what wears a case is counted while it is driven, and of seats and seals as "
    "judged") {
    ReadSetup read = ten_entries();
    LegInput stop = read.setup.event.legs.front();
    stop.kind = LegKind::stop;
    read.setup.event.legs.push_back(stop);
    EventHeat heat;
    heat.peak_oil_degC = 101;
    heat.runs = {{0, 0, 1800, 90, 90}, {1, 1800, 5400, 90, 90}, {0, 5400, 9000, 90, 90}};
    Damage damage;
    damage.oil_dose = 0.3;
    Checked checked;
    const auto with = [&](CheckId id, const std::string& verdict) {
        checked.checks = {Check{.id = id, .verdict = verdict}};
        return wear_of(read.setup, heat, damage, checked);
    };
    const Wear fine = with(CheckId::seat_creep, "fine");
    CHECK(fine.driving_h == rel(1.5, 1e-12));
    CHECK(fine.oil_dose == 0.3);
    CHECK(fine.peak_oil_degC == 101);
    CHECK(!fine.seat_loose_hot);
    CHECK(with(CheckId::seat_creep, "watch").seat_loose_hot);
    CHECK(with(CheckId::seat_creep, "look").seat_loose_hot);
    CHECK(!with(CheckId::seat_creep, "shown").seat_loose_hot);
    CHECK(!with(CheckId::seat_play, "watch").seat_loose_hot);
    CHECK(!with(CheckId::seat_shaft, "look").ring_on_shaft);
    for (const std::string word : {"watch", "stop"}) {
        CHECK(with(CheckId::seat_shaft, word).ring_on_shaft);
        CHECK(!with(CheckId::seat_shaft, word).seat_loose_hot);
        CHECK(!with(CheckId::seat_creep, word).ring_on_shaft);
    }
    CHECK(!with(CheckId::seat_shaft, "fine").ring_on_shaft);
    for (const CheckId id : {CheckId::seal_lip, CheckId::seal_sump}) {
        CHECK(with(id, "watch").seal_over_limit);
        CHECK(!with(id, "fine").seal_over_limit);
        CHECK(!with(id, "look").seal_over_limit);
        CHECK(with(id, "look").seal_to_look_at == (id == CheckId::seal_sump));
        CHECK(!with(id, "watch").seal_to_look_at);
    }
}

TEST_CASE("opening: a ring or retainer loose when hot is in the list of what to look at") {
    const auto look_at = [](const Assessment& answer, const std::string& part) {
        for (const Part& one : answer.parts)
            if (one.name == part) return one.look_at;
        FAIL("no part " << part);
        return std::string{};
    };
    const std::string words = "; seat bore polished or stepped: the ring was loose when hot";
    const std::string hot_file = std::string(CASELOAD_ROOT) + "/tests/browser/hot.toml";
    const Setup hot = Document(file_text(hot_file), "hot.toml", {}).complete().setup;
    const Assessment answer = assess(hot);
    CHECK(look_at(answer, "bearing.input_rear").find(words) != std::string::npos);
    CHECK(look_at(answer, "bearing.output_rear").find(words) != std::string::npos);
    // Of an assumed seat too, straight in aluminium.
    CHECK(look_at(answer, "bearing.input_front").find(words) != std::string::npos);
    // The least gap of either joint is enough, and only of this bearing.
    const auto with = [&](double gap_mm, double retainer_gap_mm) {
        Checked checked = answer.fitted.checked;
        SeatResult seat;
        seat.bearing = "output_rear";
        seat.hot.gap_mm = gap_mm;
        seat.hot.retainer_gap_mm = retainer_gap_mm;
        checked.seats = {seat};
        Assessment one;
        one.parts = opening_parts(hot, answer.fitted.damage, checked);
        CHECK(look_at(one, "bearing.input_rear").find(words) == std::string::npos);
        return look_at(one, "bearing.output_rear").find(words) != std::string::npos;
    };
    CHECK(!with(0, 0));
    CHECK(with(1e-9, 0));
    CHECK(with(0, 1e-9));
}

TEST_CASE("opening: a load direction is printed as the nearest hour") {
    CHECK(clock_words(0) == "12 o'clock");
    CHECK(clock_words(14.9) == "12 o'clock");
    CHECK(clock_words(15.1) == "1 o'clock");
    CHECK(clock_words(180) == "6 o'clock");
    CHECK(clock_words(344.9) == "11 o'clock");
    CHECK(clock_words(345.1) == "12 o'clock");
}

TEST_CASE("answer: mean power above 250 kW over an hour is questioned") {
    ReadSetup read = ten_entries();
    LegInput& leg = read.setup.event.legs.front();
    leg.course_lines.clear();
    leg.bins = {{1, 700, 3350, 30}};  // 245.6 kW
    CHECK(!has_note(assess(read.setup), "event.mean_power"));
    leg.bins = {{1, 700, 3450, 30}};  // 252.9 kW
    CHECK(has_note(assess(read.setup), "event.mean_power"));
    leg.duration_s = 1800;  // half an hour of it is 126 kW over an hour
    CHECK(!has_note(assess(read.setup), "event.mean_power"));
}

TEST_CASE("damage: at a constant temperature the life used is the rate times the hours") {
    const ReadSetup read = ten_entries();
    const Prepared prepared = prepare(read.setup);
    EventHeat held;
    held.peak_oil_degC = 95;
    for (const double t_s : {0.0, 1800.0, 3600.0}) held.samples.push_back({t_s, 0, {95, 90, 98}});
    const Damage damage = event_damage(prepared, held);
    for (std::size_t b = 0; b < damage.bearings.size(); ++b) {
        double rate_per_h = 0;
        const auto& bins = prepared.loads.legs[0].bins;
        for (std::size_t bin = 0; bin < bins.size(); ++bin)
            rate_per_h +=
                bins[bin].bin.share *
                bearing_condition(prepared, {0, bin, b},
                                  unheated_degC(prepared.bearing_paths[b], {95, 90, 98}), nullptr)
                    .rate_per_h;
        CHECK(damage.bearings[b].life_share == rel(rate_per_h, 2e-3));  // through 2 K curves
    }
    // Booser, synthetic, 95 degC: log10 L = -8.8 + 4750/368.15.
    CHECK(damage.oil_dose == rel(1 / std::pow(10, -8.8 + 4750 / 368.15), 1e-9));
}

TEST_CASE("damage: twice as long at one temperature uses twice as much, runs add up to the event") {
    ReadSetup read = ten_entries();
    read.setup.event.run = {0, 0};
    const Prepared prepared = prepare(read.setup);
    EventHeat held;
    held.runs = {{0, 0, 1800, 95, 95}, {0, 1800, 5400, 95, 95}};
    held.samples = {{0, 0, {95, 90, 98}}, {1800, 0, {95, 90, 98}}, {5400, 1, {95, 90, 98}}};
    std::vector<RunDamage> runs;
    const Damage damage = event_damage(prepared, held, &runs);
    REQUIRE(runs.size() == 2);
    CHECK(runs[1].oil_dose == rel(2 * runs[0].oil_dose, 1e-12));
    CHECK(runs[0].oil_dose + runs[1].oil_dose == rel(damage.oil_dose, 1e-12));
    for (std::size_t b = 0; b < damage.bearings.size(); ++b) {
        CHECK(runs[0].life_shares[b] > 0);
        CHECK(runs[1].life_shares[b] == rel(2 * runs[0].life_shares[b], 1e-12));
        CHECK(runs[0].life_shares[b] + runs[1].life_shares[b] ==
              rel(damage.bearings[b].life_share, 1e-12));
    }
}

}  // namespace caseload::intervals_tests
