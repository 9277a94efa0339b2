// SPDX-License-Identifier: MIT
// What the page and the pit card need beyond an assessment. Long: one rule of them at a time.
#include "caseload/ask/sheets.hpp"

#include "ask/fast_case.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/seats.hpp"
#include "examples.hpp"
#include "over_time.hpp"
#include "support.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::sheets_tests {

namespace {

const BandOptions few_draws{.draws = 63};

Card card_of(const Setup& setup) {
    const Assessment likely = assess(setup);
    return pit_card(setup, likely, band(setup, likely, few_draws), few_draws);
}

/// Warm as the card takes a case to be that arrives with its oil at this temperature.
Nodes warm(const Setup& setup, const Assessment& likely, double oil_degC) {
    const auto& samples = likely.fitted.event.samples;
    const Nodes hottest =
        std::max_element(samples.begin(), samples.end(), [](const Sample& a, const Sample& b) {
            return a.nodes.oil_degC < b.nodes.oil_degC;
        })->nodes;
    const double air_degC = setup.event.ambient_degC;
    return {oil_degC,
            air_degC + (hottest.housing_degC - air_degC) * (oil_degC - air_degC) /
                           (hottest.oil_degC - air_degC),
            oil_degC + hottest.steel_degC - hottest.oil_degC};
}

/// Oil of the first leg once settled, likely.
double settled_degC(const Setup& setup, bool cooler) {
    const Prepared prepared = prepare(setup);
    const Steady rest = steady(prepared, 0, {.cooler = cooler, .pump = true, .fan = true});
    REQUIRE(rest.found);
    return rest.nodes.oil_degC;
}

/// Peak of the oil on the first leg, begun with the whole case at one temperature.
double peak_from(const Setup& setup, const Nodes& nodes) {
    const Prepared prepared = prepare(setup);
    return event_heat(prepared, {}, {nodes, 0}).peak_oil_degC;
}

}  // namespace

TEST_CASE(
    "over time: recorded temperatures are those of the draws, and recording changes no answer") {
    const Setup setup = examples::setup("light.toml");
    const Assessment likely = assess(setup);
    OilTraces traces = oil_traces(likely);
    const Band recorded = band(setup, likely, few_draws, &traces);
    const Band alone = band(setup, likely, few_draws);
    CHECK(recorded.fitted.peak_oil_degC.p90 == alone.fitted.peak_oil_degC.p90);
    CHECK(recorded.fitted.life_share[0].p50 == alone.fitted.life_share[0].p50);
    CHECK(recorded.without.peak_oil_degC.p10 == alone.without.peak_oil_degC.p10);
    // Draw by draw the same as one that is followed by itself.
    const FastCase fast(setup);
    const FactorDraws drawn(setup);
    const auto points = sobol_points(few_draws.draws);
    REQUIRE(traces.with_degC.size() == points.size());
    REQUIRE(traces.without_degC.size() == points.size());
    for (std::size_t i = 0; i < points.size(); i += 7) {
        OilTrace with{traces.at_s, {}};
        OilTrace without{traces.at_s, {}};
        fast.run(drawn(points[i]), true, &with);
        fast.run(drawn(points[i]), false, &without);
        CHECK(with.oil_degC == traces.with_degC[i]);
        CHECK(without.oil_degC == traces.without_degC[i]);
    }
}

TEST_CASE("sheets: the moments begin with the event, end with it and hold the end of every leg") {
    const Setup setup = examples::setup("light.toml");
    const Assessment likely = assess(setup);
    const std::vector<Moment> moments = moments_of(setup, likely, few_draws);
    CHECK(moments.front().t_s == 0);
    CHECK(moments.back().t_s == likely.fitted.event.runs.back().end_s);
    CHECK(moments.size() > 100);
    CHECK(moments.size() < 200);
    for (const RunPeak& run : likely.fitted.event.runs) {
        const auto at = std::find_if(moments.begin(), moments.end(),
                                     [&](const Moment& m) { return m.t_s == run.end_s; });
        REQUIRE(at != moments.end());
        CHECK(within(at->likely.oil_degC, run.end_oil_degC, 1e-6));
    }
    for (std::size_t i = 1; i < moments.size(); ++i) {
        CHECK(moments[i].t_s > moments[i - 1].t_s);
        const RunPeak& run = likely.fitted.event.runs[static_cast<std::size_t>(moments[i].run)];
        CHECK(std::fmod(moments[i].t_s - run.start_s, 30) == 0);
    }
}

TEST_CASE("sheets: the range over time lies within the range of the peak, and reaches it") {
    // A quantile at any moment is not above the same quantile of the peaks.
    for (const char* name : {"light.toml", "dip.toml"}) {
        const Setup setup = examples::setup(name);
        const Assessment likely = assess(setup);
        const BandSide side = band(setup, likely, few_draws).fitted;
        double p10 = -300;
        double p90 = -300;
        for (const Moment& moment : moments_of(setup, likely, few_draws)) {
            CHECK(moment.oil_degC.p10 <= moment.oil_degC.p50);
            CHECK(moment.oil_degC.p50 <= moment.oil_degC.p90);
            p10 = std::max(p10, moment.oil_degC.p10);
            p90 = std::max(p90, moment.oil_degC.p90);
        }
        CHECK(p10 <= side.peak_oil_degC.p10 + 0.02);
        CHECK(p90 <= side.peak_oil_degC.p90 + 0.02);
        // Both events warm up and stay there: every draw is at its peak at about the same time.
        CHECK(p10 > side.peak_oil_degC.p10 - 1);
        CHECK(p90 > side.peak_oil_degC.p90 - 1);
    }
}

TEST_CASE(
    "sheets: a draw with every factor at 1 has the direct chain's temperatures through the event") {
    for (const char* name : {"light.toml", "idler.toml", "dip.toml"}) {
        const Setup setup = examples::setup(name);
        const Assessment likely = assess(setup);
        OilTrace trace;
        for (const Moment& moment : moments_of(setup, likely, few_draws))
            trace.at_s.push_back(moment.t_s);
        FastCase(setup).run(Factors{}, true, &trace);
        const std::vector<Moment> moments = moments_of(setup, likely, few_draws);
        REQUIRE(trace.oil_degC.size() == moments.size());
        for (std::size_t i = 0; i < moments.size(); ++i) {
            CAPTURE(moments[i].t_s);
            // Its steps are held to 0.01 K each and its tables to 0.05 K.
            CHECK(within(trace.oil_degC[i], moments[i].likely.oil_degC, 0.15));
        }
    }
}

TEST_CASE("sheets: likely oil with and without cooler are equal only where none is fitted") {
    for (const char* name : {"light.toml", "dip.toml"}) {
        const Setup setup = examples::setup(name);
        const Assessment likely = assess(setup);
        const Moment last = moments_of(setup, likely, few_draws).back();
        const BandSide without = band(setup, likely, few_draws).without;
        // The events end on a warm plateau, without a cooler at the peak of each draw.
        CHECK(within(last.without_cooler_degC, without.peak_oil_degC.p50, 1));
        if (setup.cooler.fit)
            CHECK(last.without_cooler_degC > last.oil_degC.p50 + 20);
        else
            CHECK(last.without_cooler_degC == last.oil_degC.p50);
    }
}

TEST_CASE(
    "sheets: an event begun at its start temperatures is the event, begun settled it stays "
    "settled") {
    const Setup setup = examples::setup("dip.toml");
    const Prepared prepared = prepare(setup);
    const double start_degC = prepared.start_degC;
    const EventHeat as_is = event_heat(prepared, {});
    const EventHeat begun = event_heat(prepared, {}, {{start_degC, start_degC, start_degC}, 0});
    CHECK(begun.peak_oil_degC == as_is.peak_oil_degC);
    const Steady rest = steady(prepared, 0, {});
    REQUIRE(rest.found);
    const EventHeat still = event_heat(prepared, {}, {rest.nodes, 0});
    for (const Sample& sample : still.samples)
        CHECK(within(sample.nodes.oil_degC, rest.nodes.oil_degC, 0.05));
}

TEST_CASE("sheets: exhaust heat of the driving before warms a standing case") {
    Setup setup = examples::setup("dip.toml");
    LegInput stop;
    stop.duration_s = 1200;
    setup = examples::then_stop(setup, stop);
    setup.event.run = {1};
    const Prepared prepared = prepare(setup);
    const EventStart cold{{100, 90, 100}, 0};
    const EventStart beside_exhaust{{100, 90, 100}, 400};
    CHECK(event_heat(prepared, {}, beside_exhaust).samples.back().nodes.housing_degC >
          event_heat(prepared, {}, cold).samples.back().nodes.housing_degC + 1);
}

TEST_CASE("sheets: the card looks up to the watch limit where the next leg stays below the stop") {
    const Setup setup = examples::setup("light.toml");
    const Card card = card_of(setup);
    CHECK(card.leg == "loop");
    CHECK(card.leg_s == 55 * 60);
    CHECK(card.pace_mps == 26);
    CHECK(card.pump_and_fan);
    CHECK(card.watch_degC == setup.limits.oil_watch_degC);
    CHECK(card.stop_degC == setup.limits.oil_stop_degC);
    REQUIRE(card.rows.size() == 3);
    CHECK(card.rows[1].ambient_degC == setup.event.ambient_degC);
    CHECK(card.rows[2].ambient_degC == card.rows[0].ambient_degC + 20);
    for (const CardRow& row : card.rows) {
        CHECK(row.leaves);
        CHECK(row.check_degC == setup.limits.oil_watch_degC);
        CHECK(row.wait_s > 0);
        CHECK(row.stop_after_s < 0);
    }
    CHECK(card.rows[0].wait_s < card.rows[1].wait_s);
    CHECK(card.rows[1].wait_s < card.rows[2].wait_s);
}

TEST_CASE("sheets: the rows of the card come from the range at arrival, in every air") {
    // Three hours settle the oil, so the range at the end is that of the peak.
    const double watch_degC = 121;
    for (const double ambient_degC : {26.0, 36.0, 46.0}) {
        const std::string entry = "\"" + std::to_string(ambient_degC) + " degC\"";
        const Setup setup = examples::alone("dip.toml", {{"event.ambient", entry}});
        const Percentiles peak = band(setup, assess(setup), few_draws).fitted.peak_oil_degC;
        const Card card = card_of(examples::alone("dip.toml"));
        const auto row = std::find_if(card.rows.begin(), card.rows.end(), [&](const CardRow& one) {
            return within(one.ambient_degC, ambient_degC, 1e-9);
        });
        REQUIRE(row != card.rows.end());
        CHECK(within(row->arrival_degC.p10, peak.p10, 0.1));
        CHECK(within(row->arrival_degC.p50, peak.p50, 0.1));
        CHECK(within(row->arrival_degC.p90, peak.p90, 0.1));
        // 2 K of scatter, 9 chances in 10: 2.6 K, rounded up.
        CHECK(within(row->cold_degC, row->arrival_degC.p10 - 3, 1e-9));
        CHECK(within(row->go_degC, std::min(row->arrival_degC.p90 + 3, watch_degC), 1e-9));
        CHECK(row->go_degC < row->check_degC);
        // Settled, it gains next to nothing in a quarter of an hour.
        CHECK(row->rise_K >= 5);
        CHECK(row->rise_K < 7);
    }
    // Expected close to the limit: nothing is between GO and the limit.
    const Setup idler = examples::setup("idler.toml");
    const CardRow close = card_of(idler).rows[1];
    CHECK(close.arrival_degC.p90 + 3 > idler.limits.oil_watch_degC);
    CHECK(close.go_degC == close.check_degC);
}

TEST_CASE("sheets: a short leg is expected as warm as it gets, not as it would settle") {
    const Setup setup = examples::setup("dip.toml", {{"event.duration", "\"20 min\""}});
    const CardRow row = card_of(setup).rows[1];
    const CardRow settled = card_of(examples::setup("dip.toml")).rows[1];
    CHECK(row.arrival_degC.p50 < settled.arrival_degC.p50 - 5);
    CHECK(row.go_degC < settled.go_degC - 5);
    CHECK(row.rise_K > settled.rise_K + 2);
}

TEST_CASE(
    "sheets: a case hotter than calculated is slowed to where it settles at the watch limit") {
    // Dipped, no cooler: its rise over the air is scaled so that it settles at the stop limit.
    const Setup dip = examples::setup("dip.toml");
    const CardRow row = card_of(dip).rows[1];
    REQUIRE(row.slow_share > 0.1);
    REQUIRE(row.slow_share < 1);
    const double air_degC = dip.event.ambient_degC;
    const auto at_pace = [&](double share) {
        return examples::setup("dip.toml",
                               {{"event.pace", "\"" + std::to_string(60 * share) + " km/h\""}});
    };
    const double scale =
        (dip.limits.oil_stop_degC - air_degC) / (settled_degC(dip, true) - air_degC);
    CHECK(scale > 1);
    CHECK(within(air_degC + scale * (settled_degC(at_pace(row.slow_share), true) - air_degC),
                 dip.limits.oil_watch_degC, 0.2));
    // With a cooler it lies between the case with and the case without it.
    const Setup light = examples::setup(
        "light.toml", {{"limits.oil_watch", "\"95 degC\""}, {"limits.oil_stop", "\"110 degC\""}});
    const CardRow cooled = card_of(light).rows[1];
    REQUIRE(cooled.slow_share > 0.1);
    REQUIRE(cooled.slow_share < 1);
    Setup slower = light;
    Setup full = light;
    slower.event.legs = full.event.legs = {light.event.legs[1]};
    slower.event.run = full.event.run = {0};
    REQUIRE(full.event.legs[0].name == "loop");
    slower.event.legs[0].course_pace_mps *= cooled.slow_share;
    const double lost =
        (110 - settled_degC(full, true)) / (settled_degC(full, false) - settled_degC(full, true));
    CHECK(lost > 0);
    CHECK(lost < 1);
    CHECK(within(settled_degC(slower, true) +
                     lost * (settled_degC(slower, false) - settled_degC(slower, true)),
                 95, 0.2));
}

TEST_CASE("sheets: what to check is of this case only") {
    const auto has_word = [](const Card& card, const std::string& word) {
        return std::any_of(card.look_at.begin(), card.look_at.end(), [&](const std::string& item) {
            return item.find(word) != std::string::npos;
        });
    };
    const Card cooled = card_of(examples::setup("light.toml"));
    CHECK(cooled.look_at.front().find("core face") == 0);
    CHECK(has_word(cooled, "fan"));
    CHECK(!has_word(cooled, "breather"));
    const Card no_fan =
        card_of(examples::setup("light.toml", {{"cooler.fan_face_speed", "\"0 m/s\""}}));
    CHECK(!has_word(no_fan, "fan"));
    const Card scavenged = card_of(examples::setup("light.toml", {{"cooler.fit", "false"}}));
    CHECK(has_word(scavenged, "pump noise"));
    for (const char* word : {"core", "fan", "duct", "breather"}) CHECK(!has_word(scavenged, word));
    const Card dipped = card_of(examples::setup("dip.toml"));
    CHECK(dipped.look_at.front().find("oil level") == 0);
    CHECK(has_word(dipped, "breather"));
    for (const char* word : {"core", "fan", "duct", "pump", "returning"})
        CHECK(!has_word(dipped, word));
    for (const Card& card : {cooled, scavenged, dipped}) CHECK(card.look_at.back() == "magnet");
}

TEST_CASE("sheets: a setup at STOP has no arrival from which to drive on") {
    const Card card = card_of(examples::setup(
        "dip.toml", {{"limits.oil_watch", "\"60 degC\""}, {"limits.oil_stop", "\"65 degC\""}}));
    CHECK(card.rows.empty());
}

TEST_CASE("sheets: a pump and fan running in a stop shorten the wait") {
    const auto wait_s = [](const std::vector<Change>& changes) {
        return card_of(examples::setup("light.toml", changes)).rows[1].wait_s;
    };
    const double all_s = wait_s({});
    const double no_fan_s = wait_s({{"cooler.fan_face_speed", "\"0 m/s\""}});
    const double no_cooler_s = wait_s({{"cooler.fit", "false"}});
    CHECK(5 * all_s < no_fan_s);
    CHECK(5 * all_s < no_cooler_s);
    CHECK(!card_of(examples::setup("light.toml", {{"cooler.fit", "false"}})).pump_and_fan);
    CHECK(!card_of(examples::setup("light.toml", {{"cooler.fan_face_speed", "\"0 m/s\""}}))
               .pump_and_fan);
    // Switched by hand: a switch that would keep the fan off changes only how warm the case
    // arrives.
    CHECK(wait_s({{"cooler.fan_on_above", "\"150 degC\""}}) == rel(all_s, 0.05));
}

TEST_CASE("sheets: the card finds the hottest arrival whose next leg stays below the stop limit") {
    // Twenty minutes of sand, limits close to where it settles.
    const Setup setup = examples::alone("dip.toml", {{"event.duration", "\"20 min\""},
                                                     {"limits.oil_watch", "\"72 degC\""},
                                                     {"limits.oil_stop", "\"74 degC\""}});
    const Card card = card_of(setup);
    const CardRow& row = card.rows[1];
    REQUIRE(row.leaves);
    CHECK(row.check_degC < 72);
    CHECK(row.check_degC > setup.event.ambient_degC);
    const double peak_degC = peak_from(setup, warm(setup, assess(setup), row.check_degC));
    CHECK(peak_degC <= 74);
    CHECK(peak_degC > 73.5);
    CHECK(row.stop_after_s < 0);
    CHECK(row.go_degC <= row.check_degC);
    // Colder air lets it arrive hotter; ten kelvin more and it must not go at all.
    CHECK(card.rows[0].leaves);
    CHECK(card.rows[0].check_degC > row.check_degC + 1);
    CHECK(!card.rows[2].leaves);
}

TEST_CASE("sheets: no arrival is cold enough when the next leg alone passes the stop limit") {
    const Setup setup = examples::alone(
        "dip.toml", {{"limits.oil_watch", "\"76 degC\""}, {"limits.oil_stop", "\"90 degC\""}});
    const Card card = card_of(setup);
    REQUIRE(card.rows.size() == 3);
    // In the day's air it is likely to hold, in hotter air it is not.
    const CardRow& row = card.rows[2];
    CHECK(!row.leaves);
    CHECK(row.go_degC == row.check_degC);
    CHECK(row.stop_after_s > 0);
    CHECK(row.stop_after_s < card.leg_s);
}

TEST_CASE(
    "sheets: a wait ends when the stopped case is down at the limit to leave, or is not printed") {
    const Setup setup = examples::setup("dip.toml");
    const Assessment likely = assess(setup);
    const double wait_s = card_of(setup).rows[1].wait_s;
    // The same stop, looked at from outside: stopped at the stop limit, warm as it arrived.
    LegInput stop;
    stop.duration_s = wait_s;
    Setup standing = examples::then_stop(setup, stop);
    standing.event.run = {1};
    const Prepared prepared = prepare(standing);
    const Nodes arrived = warm(setup, likely, setup.limits.oil_stop_degC);
    const EventHeat heat =
        event_heat(prepared, {}, {arrived, exhaust_driving_W(prepare(setup), 0)});
    // Linear between samples of half a minute.
    CHECK(within(heat.samples.back().nodes.oil_degC, setup.limits.oil_watch_degC, 0.1));
    // Two hours do not bring a case without a cooler down to a few kelvin over the air.
    const Card never = card_of(examples::setup(
        "dip.toml", {{"limits.oil_watch", "\"50 degC\""}, {"event.ambient", "\"48 degC\""}}));
    CHECK(never.rows[1].wait_s == -1);
}

TEST_CASE("sheets: words for what wears a bearing, on both sides of each border") {
    BearingDamage bearing;
    bearing.life_share = 0.02;
    bearing.basic_life_share = 0.01;
    bearing.worst_kappa = 0.399;
    CHECK(worn_by(bearing) == "oil film too thin: metal touches");
    bearing.worst_kappa = 0.401;
    CHECK(worn_by(bearing) == "thin oil film");
    bearing.worst_kappa = 0.999;
    CHECK(worn_by(bearing) == "thin oil film");
    bearing.worst_kappa = 1.001;
    CHECK(worn_by(bearing) == "dirt in the oil");
    bearing.basic_life_share = 0.03;
    CHECK(worn_by(bearing) == "load alone");
    bearing.life_share = 0;
    CHECK(worn_by(bearing) == "nothing that counts");
}

TEST_CASE("sheets: a seat over temperature is calculated as in its check") {
    const Setup setup = examples::setup(
        "light.toml", {{"bearing.output_rear.seat.ring_interference", "\"0.03 mm\""},
                       {"bearing.output_rear.seat.boss_outside", "\"180 mm\""}});
    const Prepared prepared = prepare(setup);
    const EventHeat heat = event_heat(prepared, {});
    const std::vector<SeatResult> results = seat_results(prepared, heat);
    REQUIRE(results.size() == 4);  // the others are assumed
    const SeatResult& result = results.back();
    REQUIRE(result.bearing == "output_rear");
    const std::vector<SeatSweep> sweep = seat_sweep(
        prepared,
        {heat.peak_housing_degC, result.loose_above_degC - 1, result.loose_above_degC + 1});
    REQUIRE(sweep.size() == 4);
    CHECK(sweep[3].bearing == result.bearing);
    CHECK(sweep[3].at[0].pressure_MPa == result.hot.pressure_MPa);
    CHECK(sweep[3].at[0].gap_mm == result.hot.gap_mm);
    CHECK(sweep[3].at[1].pressure_MPa > 0);
    CHECK(sweep[3].at[2].pressure_MPa == 0);
    CHECK(sweep[3].at[2].gap_mm > 0);
    const std::vector<double> temps_degC = seat_sweep_temps_degC();
    CHECK(temps_degC.front() == -20);
    CHECK(temps_degC.back() == oil_ceiling_degC);
    CHECK(temps_degC.size() == 37);
    const Setup dipped = examples::setup("dip.toml");  // its seats are assumed
    CHECK(seat_sweep(prepare(dipped), {20.0}).size() == 4);
}

}  // namespace caseload::sheets_tests
