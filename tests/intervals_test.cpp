// SPDX-License-Identifier: MIT
// Actions and the chance to reach them.
#include "caseload/assess.hpp"
#include "caseload/input.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::intervals_tests {

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

TEST_CASE("damage: life along the event equals the rate at a held temperature times its hours") {
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
            rate_per_h += bins[bin].bin.share *
                          bearing_condition(prepared, {0, bin, b}, 95, nullptr).rate_per_h;
        CHECK(damage.bearings[b].life_share == rel(rate_per_h, 2e-3));  // through 2 K curves
    }
    // Booser, synthetic, 95 degC: log10 L = -8.8 + 4750/368.15.
    CHECK(damage.oil_dose == rel(1 / std::pow(10, -8.8 + 4750 / 368.15), 1e-9));
}

}  // namespace caseload::intervals_tests
