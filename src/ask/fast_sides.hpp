// SPDX-License-Identifier: MIT
// Four sides of draws on their way through the event.
#pragma once

#include "ask/fast_case.hpp"
#include "ask/fast_draw.hpp"
#include "ask/fast_network.hpp"
#include "caseload/formulas/booser.hpp"
#include "caseload/units.hpp"
#include "heat/event_walk.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <array>
#include <cstddef>
#include <numbers>
#include <optional>
#include <vector>

namespace caseload {

/// Oil within a step: the cubic that has the values and slopes of its ends.
struct OilIn {
    double from_degC;
    double to_degC;
    double from_rise_K;  ///< slope over the whole step
    double to_rise_K;

    [[nodiscard]] double at_degC(double u) const {
        const double v = 1 - u;
        return v * v * (1 + 2 * u) * from_degC + u * u * (1 + 2 * v) * to_degC +
               u * v * (v * from_rise_K - u * to_rise_K);
    }
};

/// One side of a draw: what of it is not calculated four at once.
struct SideRun {
    DrawLegs* draw = nullptr;
    bool cooler = false;
    bool with_lives = false;  ///< also the life used
    OilTrace* trace = nullptr;
    DrawResult* result = nullptr;  ///< null: only fills up the four
    std::size_t at = 0;            ///< place in event.run
    LegLives* lives = nullptr;     ///< null: a stop uses none
    std::vector<Four> life_share{};
    std::vector<Four> rates_per_h{};  ///< of life where the oil is; both in blocks of bearings
    std::optional<EventWalk> walk{};  ///< its time is that of the last arrival
};

/// Four sides at once, each at its own time, in its own leg, until the last one has ended.
class FourSides {
public:
    FourSides(const FastTables& tables, std::array<SideRun, at_once>& sides)
        : t_(tables),
          setup_(tables.setup),
          sides_(sides),
          legs_(tables),
          switching_(may_switch(tables.setup)),
          with_lives_(std::any_of(sides.begin(), sides.end(),
                                  [](const SideRun& side) { return side.with_lives; })),
          k1_(tables.setup.oil.synthetic ? booser::k1_synthetic : booser::k1_mineral) {
        for (std::size_t k = 0; k < at_once; ++k) begin(k);
        if (with_lives_) dose_per_h_ = oil_per_h(y_[0]);
        see_entered();
    }

    [[gnu::always_inline]] inline void run() {
        while (running_.any()) step();
        for (std::size_t k = 0; k < at_once; ++k)
            if (sides_[k].result != nullptr) end(k);
    }

private:
    // Error of one step; and the longest step, so that peaks and damage between steps are seen.
    static constexpr double step_tolerance_K = 0.01;
    static constexpr double longest_step_s = 300;
    static constexpr double first_step_s = 1;
    static constexpr double never_driven_degC = -300;

    void begin(std::size_t k) {
        SideRun& side = sides_[k];
        side.walk.emplace(setup_, Switches{}, side.draw->neighbour());
        const double start_degC = side.draw->start_degC();
        for (Four& node : y_) node.set(k, start_degC);
        peak_oil_degC_.set(k, start_degC);
        peak_housing_degC_.set(k, start_degC);
        side.life_share.assign(LegLives::bearing_blocks(t_), Four{});
        side.rates_per_h = side.life_share;
        if (side.trace != nullptr) {
            side.trace->oil_degC.assign(1, start_degC);
            traced_ = true;
        }
        if (side.result != nullptr)
            for (auto* peaks : {&side.result->leg_peak_degC, &side.result->leg_peak_housing_degC,
                                &side.result->leg_peak_steel_degC})
                peaks->assign(t_.legs.size(), never_driven_degC);
        running_.set(k, true);
        begin_leg(k);
        if (side.result == nullptr) running_.set(k, false);
    }
    /// The leg at the side's place in the run, or the next one that takes time.
    void begin_leg(std::size_t k) {
        SideRun& side = sides_[k];
        const EventInput& event = setup_.event;
        for (; side.at < event.run.size(); end_leg(k)) {
            const std::size_t leg = leg_of(side);
            side.walk->begin(event.legs[leg], side.draw->exhaust_W(leg));
            for (std::size_t i = 0; i < y_.size(); ++i) leg_peaks_degC_[i].set(k, y_[i][k]);
            if (!side.walk->goes_on()) continue;
            side.lives = side.with_lives && !t_.legs[leg].stop ? &side.draw->lives(leg) : nullptr;
            if (side.lives != nullptr)
                side.lives->rates_at(nodes_of(k, y_), side.rates_per_h.data());
            step_s_.set(k, first_step_s);
            enter(k);
            return;
        }
        running_.set(k, false);
    }
    void end_leg(std::size_t k) {
        SideRun& side = sides_[k];
        if (side.result != nullptr) {
            const std::size_t leg = leg_of(side);
            const auto reach = [&](std::vector<double>& peaks_degC, const Four& here_degC) {
                peaks_degC[leg] = std::max(peaks_degC[leg], here_degC[k]);
            };
            reach(side.result->leg_peak_degC, leg_peaks_degC_[0]);
            reach(side.result->leg_peak_housing_degC, leg_peaks_degC_[1]);
            reach(side.result->leg_peak_steel_degC, leg_peaks_degC_[2]);
            if (side.at == t_.longest_run) {
                side.result->reading_oil_degC = y_[0][k];
                side.result->reading_housing_degC = y_[1][k];
            }
        }
        ++side.at;
    }
    [[nodiscard]] std::size_t leg_of(const SideRun& side) const {
        return static_cast<std::size_t>(setup_.event.run[side.at]);
    }
    /// The leg as its switches are now.
    void enter(std::size_t k) {
        SideRun& side = sides_[k];
        const std::size_t leg = leg_of(side);
        const LegStretch stretch = side.walk->stretch(y_[0][k]);
        end_s_.set(k, stretch.end_s);
        legs_.enter(k, side.draw->leg(leg, side.cooler, stretch.on), stretch);
        moves_.set(k, false);
        entered_.set(k, true);
    }
    [[gnu::always_inline]] inline void see_entered() {
        if (!entered_.any()) return;
        FlowsAt flows;
        legs_.flows(t_s_, y_, flows);
        here_from(legs_.slope(legs_.value(y_, flows), flows), entered_);
        entered_ = FourMask{};
    }
    [[gnu::always_inline]] inline void here_from(const SlopeAt& slope, const FourMask& taken) {
        for (std::size_t i = 0; i < slope.f.size(); ++i) {
            here_.f[i] = where(taken, slope.f[i], here_.f[i]);
            for (std::size_t j = 0; j < slope.f.size(); ++j)
                here_.by_state[i][j] = where(taken, slope.by_state[i][j], here_.by_state[i][j]);
        }
        here_.housing_by_time = where(taken, slope.housing_by_time, here_.housing_by_time);
    }

    [[gnu::always_inline]] inline void step() {
        const Four h =
            where(moves_, to_switch_s_, smaller(smaller(step_s_, longest_step_s), end_s_ - t_s_));
        FlowsAt flows;
        RosenbrockResult next;
        rosenbrock_step(legs_, here_, t_s_, y_, h, flows, next);
        step_s_ = where(moves_, step_s_, next_step_s(h, next.error));
        FourMask taken = running_ & (moves_ | (next.error <= step_tolerance_K));
        if (switching_) stop_at_switches(next, h, taken);
        if (!taken.any()) return;
        add_damage(next.y, h, taken);
        for (std::size_t k = 0; traced_ && k < at_once; ++k)
            if (taken[k] && sides_[k].trace != nullptr) record(k, next, h[k]);
        for (std::size_t i = 0; i < y_.size(); ++i) y_[i] = where(taken, next.y[i], y_[i]);
        t_s_ = where(taken, t_s_ + h, t_s_);
        peak_oil_degC_ = larger(peak_oil_degC_, y_[0]);
        peak_housing_degC_ = larger(peak_housing_degC_, y_[1]);
        for (std::size_t i = 0; i < y_.size(); ++i)
            leg_peaks_degC_[i] = larger(leg_peaks_degC_[i], y_[i]);
        here_from(legs_.slope(next.f, flows), taken);
        const FourMask arrived = taken & (moves_ | (t_s_ >= end_s_));
        if (!arrived.any()) return;
        for (std::size_t k = 0; k < at_once; ++k)
            if (arrived[k]) arrive(k);
        see_entered();
    }
    /// At the end of its leg, or where a switch moves.
    void arrive(std::size_t k) {
        if (!moves_[k]) t_s_.set(k, end_s_[k]);
        sides_[k].walk->now.t_s = t_s_[k];
        if (sides_[k].walk->goes_on()) {
            enter(k);
            return;
        }
        moves_.set(k, false);
        end_leg(k);
        begin_leg(k);
    }
    /// No step goes beyond a switch that moves in it: it is taken again, up to there. Not after a
    /// step that happens to end beyond it: going on and off, that lets the last digit of a
    /// temperature grow to hundredths of a kelvin in hours.
    void stop_at_switches(const RosenbrockResult& next, const Four& h, FourMask& taken) {
        for (std::size_t k = 0; k < at_once; ++k) {
            if (!taken[k] || moves_[k]) continue;
            Latches& latches = sides_[k].walk->now.latches;
            const Latches before = latches;
            latches = latches_at(setup_, before, next.y[0][k]);
            if (latches == before) continue;
            moves_.set(k, true);
            to_switch_s_.set(k, h[k] * switch_share(before, oil_in(k, next, h[k])));
            taken.set(k, false);
        }
    }

    /// The step after one of h with this error.
    [[nodiscard, gnu::always_inline]] static inline Four next_step_s(const Four& h,
                                                                     const Four& error_K) {
        const Four ratio = step_tolerance_K / larger(error_K, 1e-9);
        const Four enough = longest_step_s / (0.899 * h);
        const FourMask longest = (h > longest_step_s / 4.9) & (ratio > enough * enough * enough);
        // Where all are, no root is taken.
        if (longest.all()) return longest_step_s;
        const Four by = smaller(larger(0.9 * fast_cbrt(ratio), 0.2), 5.0);
        return where(longest, longest_step_s, h * by);
    }

    [[nodiscard]] OilIn oil_in(std::size_t k, const RosenbrockResult& next, double h) const {
        return {y_[0][k], next.y[0][k], h * here_.f[0][k], h * next.f[0][k]};
    }

    /// Part of a step at which the first switch moves.
    [[nodiscard]] double switch_share(const Latches& before, const OilIn& oil) const {
        constexpr int bits = 40;  // the longest step to 3e-10 s
        const auto moved = [&](double u) {
            return latches_at(setup_, before, oil.at_degC(u)) == before ? -1 : 1;
        };
        return boost::math::tools::bisect(moved, 0.0, 1.0,
                                          boost::math::tools::eps_tolerance<double>(bits))
            .second;
    }

    /// Moments within the step.
    void record(std::size_t k, const RosenbrockResult& next, double h) {
        constexpr double same_s = 1e-6;
        const OilIn step = oil_in(k, next, h);
        const OilTrace& trace = *sides_[k].trace;
        std::vector<double>& oil = sides_[k].trace->oil_degC;
        while (oil.size() < trace.at_s.size()) {
            const double u = (trace.at_s[oil.size()] - t_s_[k]) / h;
            if (u > 1 + same_s / h) return;
            oil.push_back(step.at_degC(u));
        }
    }

    [[gnu::always_inline]] inline void add_damage(const Three& to, const Four& duration_s,
                                                  const FourMask& taken) {
        if (!with_lives_) return;
        Four half_h;
        for (std::size_t k = 0; k < at_once; ++k) half_h.set(k, h_from_s(duration_s[k]) / 2);
        const Four to_per_h = oil_per_h(to[0]);
        oil_dose_ = where(taken, oil_dose_ + half_h * (dose_per_h_ + to_per_h), oil_dose_);
        dose_per_h_ = where(taken, to_per_h, dose_per_h_);
        for (std::size_t k = 0; k < at_once; ++k) {
            SideRun& side = sides_[k];
            if (!taken[k] || side.lives == nullptr) continue;
            Four* per_h = side.rates_per_h.data();
            side.lives->use(nodes_of(k, to), half_h[k], per_h, side.life_share.data());
            if (side.lives->has_steps())
                side.lives->use_after_steps(
                    {nodes_of(k, y_), nodes_of(k, to), h_from_s(duration_s[k])},
                    side.life_share.data());
        }
    }

    [[nodiscard, gnu::always_inline]] static inline Nodes nodes_of(std::size_t k, const Three& y) {
        return {y[0][k], y[1][k], y[2][k]};
    }

    [[nodiscard, gnu::always_inline]] inline Four oil_per_h(const Four& temp_degC) const {
        Four log10_life;
        for (std::size_t k = 0; k < at_once; ++k)
            log10_life.set(
                k, booser::log10_oxidation_life(
                       {.k1 = k1_, .temp_degC = std::min<double>(temp_degC[k], oil_ceiling_degC)}));
        return fast_exp(-std::numbers::ln10 * log10_life);
    }

    void end(std::size_t k) {
        DrawResult& result = *sides_[k].result;
        result.peak_oil_degC = peak_oil_degC_[k];
        result.peak_housing_degC = peak_housing_degC_[k];
        if (sides_[k].with_lives) result.oil_dose = oil_dose_[k];
        result.teeth = sides_[k].draw->teeth();
        result.load = sides_[k].draw->factors().load;
        result.bearing_friction = sides_[k].draw->factors().bearing_friction;
        result.seat_heat = sides_[k].draw->factors().seat_heat;
        result.life_share.reserve(t_.bearings.size());
        for (std::size_t b = 0; b < t_.bearings.size(); ++b)
            result.life_share.push_back(sides_[k].life_share[b / at_once][b % at_once]);
    }

    const FastTables& t_;
    const Setup& setup_;
    std::array<SideRun, at_once>& sides_;
    FourLegs legs_;
    bool switching_;
    bool with_lives_;
    bool traced_ = false;
    double k1_;
    FourMask running_{};
    FourMask entered_{};
    FourMask moves_{};  ///< the next step ends where a switch moves
    Three y_{};
    Four t_s_{};
    Four end_s_{};
    Four step_s_{};
    Four to_switch_s_{};
    SlopeAt here_{};
    Four peak_oil_degC_{};
    Four peak_housing_degC_{};
    Three leg_peaks_degC_{};
    Four oil_dose_{};
    Four dose_per_h_{};
};

}  // namespace caseload
