// SPDX-License-Identifier: MIT
// The pit card: the event's network, begun at an arrival temperature.
#include "caseload/ask/sheets.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// Nobody waits longer in an event.
constexpr double longest_wait_s = 7200;
constexpr double other_ambient_K = 10;
constexpr double go_tolerance_K = 0.25;
// A degree of slack, so that oil settling at its rest is not called a passing of it.
constexpr double settled_K = 0.05;

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

class AtAmbient {
public:
    AtAmbient(const Setup& setup, const Assessment& likely, std::size_t leg, double ambient_degC)
        : as_is_(setup), setup_(setup), likely_(likely), ambient_degC_(ambient_degC) {
        LegInput stop;
        stop.name = "stand";
        stop.kind = LegKind::stop;
        stop.duration_s = longest_wait_s;
        stop.pump_on = stop.fan_on = cools_standing(setup);
        setup_.event.legs = {setup.event.legs[leg], stop};
        setup_.event.run = {0};
        setup_.event.ambient_degC = ambient_degC;
    }

    [[nodiscard]] CardRow row() const {
        CardRow row;
        row.ambient_degC = ambient_degC_;
        row.go_degC = setup_.limits.oil_watch_degC;
        const Prepared prepared = prepare(setup_);
        const auto drive = [&](double oil_degC) {
            return event_heat(prepared, {}, {arrived(as_is_, likely_, oil_degC), 0});
        };
        const auto holds = [&](const EventHeat& heat) {
            return heat.peak_oil_degC <= setup_.limits.oil_stop_degC;
        };
        EventHeat next = drive(row.go_degC);
        row.leaves = holds(next);
        if (!row.leaves && holds(drive(ambient_degC_))) {
            double low_degC = ambient_degC_;
            double high_degC = row.go_degC;
            while (high_degC - low_degC > go_tolerance_K) {
                const double middle_degC = (low_degC + high_degC) / 2;
                (holds(drive(middle_degC)) ? low_degC : high_degC) = middle_degC;
            }
            row.leaves = true;
            row.go_degC = low_degC;
            next = drive(low_degC);
        }
        row.next_peak_degC = next.peak_oil_degC;
        row.watch_after_s =
            next.peak_oil_degC > setup_.limits.oil_watch_degC + settled_K ? next.watch_after_s : -1;
        row.stop_after_s = next.stop_after_s;
        row.wait_s = wait_s({row.go_degC, exhaust_driving_W(prepared, 0)});
        return row;
    }

private:
    /// Standing from the stop limit until the oil is at or below go and stays there.
    struct Standing {
        double go_degC;
        double exhaust_W;
    };
    [[nodiscard]] double wait_s(const Standing& state) const {
        const auto& [go_degC, exhaust_W] = state;
        Setup standing = setup_;
        standing.event.run = {1};
        if (standing.lubrication.pump) standing.lubrication.pump->on_above_degC.reset();
        standing.cooler.fan_on_above_degC.reset();
        const Prepared prepared = prepare(standing);
        const EventHeat heat = event_heat(
            prepared, {}, {arrived(as_is_, likely_, standing.limits.oil_stop_degC), exhaust_W});
        const auto& samples = heat.samples;
        for (std::size_t i = samples.size(); i-- > 0;) {
            if (samples[i].nodes.oil_degC <= go_degC) continue;
            if (i + 1 == samples.size()) return -1;
            const Sample& above = samples[i];
            const Sample& below = samples[i + 1];
            return above.t_s + (below.t_s - above.t_s) * (above.nodes.oil_degC - go_degC) /
                                   (above.nodes.oil_degC - below.nodes.oil_degC);
        }
        return 0;
    }

    const Setup& as_is_;
    Setup setup_;
    const Assessment& likely_;
    double ambient_degC_;
};

}  // namespace

Card pit_card(const Setup& setup, const Assessment& likely, const Band& band) {
    Card card;
    card.watch_degC = setup.limits.oil_watch_degC;
    card.stop_degC = setup.limits.oil_stop_degC;
    card.pump_and_fan = cools_standing(setup);
    const LegAnswer* hottest = hottest_leg(setup, likely.fitted);
    if (hottest == nullptr) return card;
    const auto leg = static_cast<std::size_t>(hottest->leg);
    card.leg = hottest->name;
    card.expected_degC = band.fitted.leg_peak_oil_degC[leg];
    card.leg_s = setup.event.legs[leg].duration_s;
    for (const double off_K : {-other_ambient_K, 0.0, other_ambient_K})
        card.rows.push_back(AtAmbient(setup, likely, leg, setup.event.ambient_degC + off_K).row());
    return card;
}

}  // namespace caseload
