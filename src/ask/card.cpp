// SPDX-License-Identifier: MIT
// The pit card: what the oil should be at arrival, and the event's network begun where it is not.
#include "caseload/ask/sheets.hpp"

#include "ask/fast_case.hpp"
#include "ask/pace.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/ask/pairs.hpp"

#include <algorithm>

namespace caseload {
namespace {

// Nobody waits longer in an event.
constexpr double longest_wait_s = 7200;
constexpr double other_ambient_K = 10;
constexpr double leave_tolerance_K = 0.25;
// 9 chances in 10 of a reading that scatters by 2 K (one standard deviation): 2.6 K, rounded up.
constexpr double reading_margin_K = 3;
// Read again after this; more than so much above what the likely case gains is a fault. Judgement.
constexpr double read_again_s = 900;
constexpr double more_than_gained_K = 5;

/// The case warmed up: the housing shares the oil's rise over the air as when the oil was hottest
/// in the event, as heat paths go; the steel is by as much warmer, as its heat is made by the load.
Nodes arrived(const Setup& setup, const Assessment& likely, double oil_degC) {
    const auto& samples = likely.fitted.event.samples;
    const auto hottest = std::max_element(
        samples.begin(), samples.end(),
        [](const Sample& a, const Sample& b) { return a.nodes.oil_degC < b.nodes.oil_degC; });
    const Nodes& then = hottest->nodes;
    const double air_degC = setup.event.ambient_degC;
    const double rise_K = then.oil_degC - air_degC;
    const double share = rise_K > 0 ? (then.housing_degC - air_degC) / rise_K : 1;
    return {oil_degC, air_degC + share * (oil_degC - air_degC),
            oil_degC + then.steel_degC - then.oil_degC};
}

bool cools_standing(const Setup& setup) {
    return setup.cooler.fit && setup.cooler.fan_face_speed_mps > 0 && setup.lubrication.pump &&
           setup.lubrication.pump->drive == PumpDrive::electric;
}

/// In the order of how often it is the cause over how long it takes to see. Judgement.
std::vector<std::string> checks_of(const Setup& setup) {
    const bool dipped = setup.lubrication.method == Method::dip;
    const bool pump = setup.lubrication.pump.has_value();
    std::vector<std::string> all;
    all.reserve(8);
    if (setup.cooler.fit) {
        all.emplace_back("core face and duct: mud, grass, bent, torn open");
        all.emplace_back(
            "end tanks of the core: in hot and out cold, a bypass; both cool, the pump");
    }
    all.emplace_back("oil level, foam");
    if (pump && setup.cooler.fit) all.emplace_back("pump current, or oil returning at the filler");
    if (setup.cooler.fit && setup.cooler.fan_face_speed_mps > 0)
        all.emplace_back("fan: turns, and the right way");
    if (pump && !setup.cooler.fit)
        all.emplace_back("oil returning at the filler, pump noise or current");
    if (dipped) all.emplace_back("breather, milky oil");
    if (!setup.cooler.fit) {
        all.emplace_back("mud on the case, skid plate, exhaust shield");
        all.emplace_back("bearing bosses: all alike by hand or infrared");
    }
    all.emplace_back("magnet");
    return all;
}

/// Range of the oil at the ends of the runs of a leg.
Percentiles arrival(const Setup& setup, const EventHeat& event, std::size_t leg,
                    const BandOptions& options) {
    OilTrace ends{{0}};
    for (const RunPeak& run : event.runs) ends.at_s.push_back(run.end_s);
    const FastCase fast(setup, FastUse::drawn_temperatures, options.for_each);
    const auto points = sobol_points(options.draws);
    const FactorDraws drawn(setup);
    std::vector<OilTrace> traces(points.size(), ends);
    std::vector<Factors> factors;
    factors.reserve(points.size());
    for (const auto& point : points) factors.push_back(drawn(point));
    std::vector<FastCase::AskedSide> asked;
    for (std::size_t i = 0; i < factors.size(); ++i)
        asked.push_back({&factors[i], true, &traces[i]});
    static_cast<void>(fast.run(asked, options.for_each));
    Percentiles range{oil_ceiling_degC * 10, -oil_ceiling_degC, -oil_ceiling_degC};
    for (std::size_t run = 0; run < event.runs.size(); ++run) {
        if (event.runs[run].leg != static_cast<int>(leg)) continue;
        std::vector<double> sample;
        sample.reserve(traces.size());
        for (const OilTrace& trace : traces) sample.push_back(trace.oil_degC[run + 1]);
        const Percentiles p = percentiles(std::move(sample));
        range = {std::min(range.p10, p.p10), std::max(range.p50, p.p50),
                 std::max(range.p90, p.p90)};
    }
    return range;
}

class AtAmbient {
public:
    AtAmbient(const Setup& setup, const Assessment& likely, std::size_t leg, double ambient_degC)
        : as_is_(setup), setup_(setup), likely_(likely), leg_(leg), ambient_degC_(ambient_degC) {
        LegInput stop;
        stop.name = "stand";
        stop.kind = LegKind::stop;
        stop.duration_s = longest_wait_s;
        stop.pump_on = stop.fan_on = cools_standing(setup);
        setup_.event.legs = {setup.event.legs[leg], stop};
        setup_.event.run = {0};
        setup_.event.ambient_degC = ambient_degC;
    }

    [[nodiscard]] CardRow row(const BandOptions& options) const {
        CardRow row;
        row.ambient_degC = ambient_degC_;
        Setup event = as_is_;
        event.event.ambient_degC = ambient_degC_;
        row.arrival_degC = arrival(event, likely_.fitted.event, leg_, options);
        leave(row);
        row.go_degC = std::min(row.arrival_degC.p90 + reading_margin_K, row.check_degC);
        // One word for an arrival from which the whole leg cannot be driven.
        if (!row.leaves) row.go_degC = row.check_degC;
        row.cold_degC = std::min(row.arrival_degC.p10 - reading_margin_K, row.go_degC);
        row.rise_K = gained_K(row.arrival_degC.p50) + more_than_gained_K;
        const Settled full = settled_at(1);
        row.slow_share = highest_pace(
            [&](double share) { return settled_degC(full, share) - setup_.limits.oil_watch_degC; });
        row.wait_s = wait_s({row.check_degC, exhaust_driving_W(prepare_next(), 0)});
        return row;
    }

private:
    [[nodiscard]] Prepared prepare_next() const { return prepare(setup_); }

    /// The next leg, begun with the oil this hot.
    [[nodiscard]] EventHeat drive(const Setup& next, double oil_degC) const {
        return event_heat(prepare(next), {}, {arrived(as_is_, likely_, oil_degC), 0});
    }

    void leave(CardRow& row) const {
        row.check_degC = setup_.limits.oil_watch_degC;
        const auto holds = [&](const EventHeat& heat) {
            return heat.peak_oil_degC <= setup_.limits.oil_stop_degC;
        };
        EventHeat next = drive(setup_, row.check_degC);
        row.leaves = holds(next);
        if (!row.leaves && holds(drive(setup_, ambient_degC_))) {
            double low_degC = ambient_degC_;
            double high_degC = row.check_degC;
            while (high_degC - low_degC > leave_tolerance_K) {
                const double middle_degC = (low_degC + high_degC) / 2;
                (holds(drive(setup_, middle_degC)) ? low_degC : high_degC) = middle_degC;
            }
            row.leaves = true;
            row.check_degC = low_degC;
            next = drive(setup_, low_degC);
        }
        row.stop_after_s = next.stop_after_s;
    }

    /// What the likely oil still gains when it is read again.
    [[nodiscard]] double gained_K(double oil_degC) const {
        Setup on = setup_;
        on.event.legs[0].duration_s = read_again_s;
        return std::max(0.0, drive(on, oil_degC).runs.back().end_oil_degC - oil_degC);
    }

    struct Settled {
        double with_degC;     ///< as fitted
        double without_degC;  ///< no cooler
    };
    [[nodiscard]] Settled settled_at(double share) const {
        Setup slower = setup_;
        slow_down(slower.event.legs[0], share);
        const Prepared prepared = prepare(slower);
        const auto oil_degC = [&](bool cooler) {
            const Steady rest = steady(prepared, 0, {.cooler = cooler, .pump = true, .fan = true});
            return rest.found ? rest.nodes.oil_degC : oil_ceiling_degC + 1;
        };
        const double with_degC = oil_degC(true);
        return {with_degC, setup_.cooler.fit ? oil_degC(false) : with_degC};
    }

    /// Where the oil of a case that arrives at the stop limit settles at a share of the pace: such
    /// a case is taken to lie between the likely case and the likely case without its cooler, so
    /// that it settles at the stop limit at full pace; where that is not hot enough, its rise over
    /// the air is scaled too.
    [[nodiscard]] double settled_degC(const Settled& full, double share) const {
        const double read_degC = setup_.limits.oil_stop_degC;
        const double gap_K = full.without_degC - full.with_degC;
        const double lost =
            gap_K > 0 ? std::clamp((read_degC - full.with_degC) / gap_K, 0.0, 1.0) : 0;
        const auto of = [lost](const Settled& at) {
            return at.with_degC + lost * (at.without_degC - at.with_degC);
        };
        const double hotter =
            std::max(1.0, (read_degC - ambient_degC_) / (of(full) - ambient_degC_));
        return ambient_degC_ + hotter * (of(settled_at(share)) - ambient_degC_);
    }

    /// Stopped, from the stop limit until the oil is at or below `to_degC` and stays there.
    struct Standing {
        double to_degC;
        double exhaust_W;
    };
    [[nodiscard]] double wait_s(const Standing& state) const {
        const auto& [to_degC, exhaust_W] = state;
        Setup standing = setup_;
        standing.event.run = {1};
        if (standing.lubrication.pump) standing.lubrication.pump->on_above_degC.reset();
        standing.cooler.fan_on_above_degC.reset();
        const Prepared prepared = prepare(standing);
        const EventHeat heat = event_heat(
            prepared, {}, {arrived(as_is_, likely_, standing.limits.oil_stop_degC), exhaust_W});
        const auto& samples = heat.samples;
        for (std::size_t i = samples.size(); i-- > 0;) {
            if (samples[i].nodes.oil_degC <= to_degC) continue;
            if (i + 1 == samples.size()) return -1;
            const Sample& above = samples[i];
            const Sample& below = samples[i + 1];
            return above.t_s + (below.t_s - above.t_s) * (above.nodes.oil_degC - to_degC) /
                                   (above.nodes.oil_degC - below.nodes.oil_degC);
        }
        return 0;
    }

    const Setup& as_is_;
    Setup setup_;
    const Assessment& likely_;
    std::size_t leg_;
    double ambient_degC_;
};

}  // namespace

Card pit_card(const Setup& setup, const Assessment& likely, const Band& band,
              const BandOptions& options) {
    Card card;
    card.watch_degC = setup.limits.oil_watch_degC;
    card.stop_degC = setup.limits.oil_stop_degC;
    card.pump_and_fan = cools_standing(setup);
    card.look_at = checks_of(setup);
    for (const PairState& pair : likely.fitted.checked.pairs)
        if (set_too_tight(pair)) card.looser_pair = looser_words(pair);
    const LegAnswer* hottest = hottest_leg(setup, likely.fitted);
    if (hottest == nullptr || band.verdict == "stop") return card;
    const auto leg = static_cast<std::size_t>(hottest->leg);
    card.leg = hottest->name;
    card.leg_s = setup.event.legs[leg].duration_s;
    card.pace_mps = setup.event.legs[leg].course_pace_mps;
    for (const double off_K : {-other_ambient_K, 0.0, other_ambient_K})
        card.rows.push_back(
            AtAmbient(setup, likely, leg, setup.event.ambient_degC + off_K).row(options));
    return card;
}

}  // namespace caseload
