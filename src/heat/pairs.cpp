// SPDX-License-Identifier: MIT
// Facing pairs at temperature: preload makes heat, heat tightens, until a leg has settled.
#include "loads/pairs.hpp"
#include "caseload/units.hpp"
#include "heat/at_oil.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

namespace caseload {
namespace {

using ByLeg = std::vector<std::vector<double>>;

constexpr double settled_mm = 1e-7;
constexpr int most_rounds = 60;
// Near the end of a stable loop a step along the last slope would leap beyond it.
constexpr double steepest = 0.9;
// What the loop is tried by for its gain.
constexpr double gain_step_mm = 1e-4;

/// One round: from what the pairs are too long by to the same after the legs have settled so.
class Loop {
public:
    Loop(const Setup& setup, const Prepared& loose)
        : setup_(setup), pairs_(facing_pairs(setup, loose.loads)), held_(setup) {
        for (const PairPlace& pair : pairs_)
            cold_mm_.push_back(cold_over_mm(setup, loose.loads, pair));
    }

    [[nodiscard]] const std::vector<PairPlace>& pairs() const { return pairs_; }
    [[nodiscard]] double cold_mm(std::size_t pair) const { return cold_mm_[pair]; }

    [[nodiscard]] Prepared with(const ByLeg& over_mm) {
        held_.pair_over_mm = over_mm;
        Prepared prepared = prepare(setup_, calculate_loads(held_));
        prepared.pair_over_mm = over_mm;
        return prepared;
    }

    struct Round {
        ByLeg over_mm;
        std::vector<double> oil_degC;  ///< per leg
        std::vector<bool> found;       ///< per leg
    };
    [[nodiscard]] Round after(const Prepared& prepared) const {
        const std::vector<LegInput>& legs = setup_.event.legs;
        Round round{ByLeg(legs.size(), std::vector<double>(prepared.loads.train.shafts.size())),
                    std::vector<double>(legs.size()), std::vector<bool>(legs.size(), true)};
        CaseCurves curves(prepared);
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            if (legs[leg].kind != LegKind::drive) continue;
            const Steady rest = steady(curves, leg, {});
            round.found[leg] = rest.found;
            round.oil_degC[leg] = std::min(rest.nodes.oil_degC, oil_ceiling_degC);
            const PairTemps temps{std::min(rest.nodes.housing_degC, oil_ceiling_degC),
                                  std::min(rest.nodes.steel_degC, oil_ceiling_degC)};
            for (std::size_t k = 0; k < pairs_.size(); ++k)
                round.over_mm[leg][pairs_[k].shaft] =
                    cold_mm_[k] + tightening_mm(setup_, prepared.loads, pairs_[k], temps);
        }
        return round;
    }

private:
    const Setup& setup_;
    std::vector<PairPlace> pairs_;
    Setup held_;
    std::vector<double> cold_mm_;
};

/// Next guess of one pair in one leg, along the slope of its last two rounds. A pair with end play
/// adds nothing, so its round is its answer.
double next_mm(double at, double after, const std::optional<std::pair<double, double>>& before) {
    if (!before || at == before->first) return after;
    const double slope = (after - before->second) / (at - before->first);
    return at + (after - at) / (1 - std::clamp(slope, -1.0, steepest));
}

}  // namespace

Prepared prepare_settled(const Setup& setup, Loads loads) {
    Prepared loose = prepare(setup, std::move(loads));
    const bool any = std::any_of(loose.loads.train.shafts.begin(), loose.loads.train.shafts.end(),
                                 [](const ShaftPlace& one) { return one.thrust_bearing < 0; });
    if (!any) return loose;
    if (!setup.pair_over_mm.empty()) {
        loose.pair_over_mm = setup.pair_over_mm;
        return loose;
    }
    Loop loop(setup, loose);
    const Loop::Round first = loop.after(loose);
    ByLeg over_mm = first.over_mm;
    Prepared prepared = loop.with(over_mm);
    Loop::Round round = loop.after(prepared);
    std::optional<ByLeg> before_at;
    ByLeg before_after;
    // A settled leg keeps its digits, so that they do not hang on what else is driven.
    std::vector<bool> settled(over_mm.size());
    for (int i = 0; i < most_rounds; ++i) {
        ByLeg next = over_mm;
        for (std::size_t leg = 0; leg < next.size(); ++leg) {
            if (settled[leg]) continue;
            double furthest_mm = 0;
            for (const PairPlace& pair : loop.pairs()) {
                double& of = next[leg][pair.shaft];
                const double after = round.over_mm[leg][pair.shaft];
                furthest_mm = std::max(furthest_mm, std::fabs(after - of));
                of = next_mm(of, after,
                             before_at ? std::optional(std::pair((*before_at)[leg][pair.shaft],
                                                                 before_after[leg][pair.shaft]))
                                       : std::nullopt);
            }
            settled[leg] = furthest_mm < settled_mm;
            if (settled[leg]) next[leg] = over_mm[leg];
        }
        if (std::find(settled.begin(), settled.end(), false) == settled.end()) break;
        before_at = over_mm;
        before_after = round.over_mm;
        over_mm = std::move(next);
        prepared = loop.with(over_mm);
        round = loop.after(prepared);
    }
    const std::vector<LegInput>& legs = setup.event.legs;
    for (std::size_t k = 0; k < loop.pairs().size(); ++k) {
        const PairPlace& pair = loop.pairs()[k];
        const bool preloaded = std::any_of(over_mm.begin(), over_mm.end(),
                                           [&](const auto& leg) { return leg[pair.shaft] > 0; });
        ByLeg tried = over_mm;
        for (std::vector<double>& leg : tried) leg[pair.shaft] += gain_step_mm;
        const ByLeg gained = preloaded ? loop.after(loop.with(tried)).over_mm : round.over_mm;
        for (std::size_t leg = 0; leg < legs.size(); ++leg) {
            if (legs[leg].kind != LegKind::drive) continue;
            const double over = over_mm[leg][pair.shaft];
            PairState state;
            state.shaft = prepared.loads.train.shafts[pair.shaft].name;
            state.leg = legs[leg].name;
            state.cold_end_play_mm = -loop.cold_mm(k);
            state.end_play_mm = -over;
            state.preload_N = facing_pair::forces(pair.springs, 0, over).F_B_N;
            state.tightened_mm = first.over_mm[leg][pair.shaft] - loop.cold_mm(k);
            state.set_end_play_mm = state.tightened_mm + hot_end_play_mm;
            if (over > 0) {
                state.hotter_K = round.oil_degC[leg] - first.oil_degC[leg];
                const double back_mm = gained[leg][pair.shaft] - round.over_mm[leg][pair.shaft];
                state.returned_um = um_from_mm(back_mm);
                state.loop_gain = back_mm / gain_step_mm;
            }
            state.balance = round.found[leg] || !first.found[leg];
            prepared.pairs.push_back(std::move(state));
        }
    }
    return prepared;
}

}  // namespace caseload
