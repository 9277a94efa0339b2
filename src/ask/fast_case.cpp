// SPDX-License-Identifier: MIT
#include "ask/fast_case.hpp"

#include "ask/fast_leg.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/formulas/booser.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>
#include <utility>
#include <vector>

namespace caseload {
namespace {

// Error of one step; and the longest step, so that peaks and damage between steps are seen.
constexpr double step_tolerance_K = 0.01;
constexpr double longest_step_s = 300;
constexpr double first_step_s = 1;
constexpr double never_driven_degC = -300;

/// One draw under way, with and without cooler: what a leg makes and passes is blended once for
/// both.
class DrawRun {
public:
    DrawRun(const FastTables& tables, const Factors& factors)
        : t_(tables),
          setup_(tables.setup),
          factors_(factors),
          ln_load_(std::log(factors.load)),
          churning_(tables.nodes.churning_ratio.weights(
              std::log(factors.churning_fast / factors.churning))),
          k1_(setup_.oil.synthetic ? booser::k1_synthetic : booser::k1_mineral) {
        switching_ = may_switch(setup_);
        driving_ = t_.driving;
        driving_.oil_housing_WpK =
            1 / (t_.wall_resistance_KpW + t_.film_resistance_KpW / factors.oil_film);
        const FastNodes& nodes = tables.nodes;
        const auto air = nodes.air.weights(factors.air_K);
        weights_ = {by_both(nodes.load.weights(ln_load_),
                            nodes.friction.weights(std::log(factors.bearing_friction))),
                    by_both(air, nodes.air_share.weights(std::log(factors.air_share))),
                    by_both(air, nodes.face.weights(std::log(factors.face_speed)))};
        made_.resize(states_a_leg * t_.legs.size());
        own_Kps_.resize(2 * t_.legs.size());
        lives_.resize(t_.legs.size());
    }
    // Its legs hold places of its own weights.
    DrawRun(const DrawRun&) = delete;
    DrawRun& operator=(const DrawRun&) = delete;

    /// `lives`: and what the event uses up, where the tables are for everything.
    DrawResult run(bool cooler, OilTrace* trace, bool lives) {
        lives_wanted_ = lives && t_.use == FastUse::everything;
        cooler_ = cooler && setup_.cooler.fit;
        trace_ = trace;
        result_ = {};
        t_s_ = exhaust_W_ = stopped_at_s_ = 0;
        latches_ = {};
        const double start_degC =
            t_.start_degC + (setup_.event.oil_at_start_entered ? 0 : factors_.air_K);
        y_ = {start_degC, start_degC, start_degC};
        if (trace_ != nullptr) trace_->oil_degC.assign(1, start_degC);
        result_.peak_oil_degC = result_.peak_housing_degC = start_degC;
        result_.leg_peak_degC.assign(t_.legs.size(), never_driven_degC);
        life_share_.assign((t_.bearings.size() + 3) / 4, Four{});
        for (const FastTables::ToothGrids& gear : t_.teeth)
            result_.teeth.push_back(
                {std::max(gear.flank.at(ln_load_), 0.0), std::max(gear.root.at(ln_load_), 0.0)});
        for (std::size_t i = 0; i < setup_.event.run.size(); ++i) {
            run_leg(static_cast<std::size_t>(setup_.event.run[i]));
            if (i != t_.longest_run) continue;
            result_.reading_oil_degC = y_[0];
            result_.reading_housing_degC = y_[1];
        }
        for (std::size_t b = 0; b < t_.bearings.size(); ++b)
            result_.life_share.push_back(life_share_[b / 4][b % 4]);
        return std::move(result_);
    }

private:
    void run_leg(std::size_t leg) {
        const LegInput& input = setup_.event.legs[leg];
        const double end_s = t_s_ + input.duration_s;
        const bool stop = t_.legs[leg].stop;
        if (!stop) {
            exhaust_W_ = exhaust_W(setup_.housing, t_.legs[leg].drive_power_W * factors_.load);
            stopped_at_s_ = end_s;
        }
        see(leg);
        double step_s = first_step_s;
        while (t_s_ < end_s) {
            if (switching_) latches_ = latches_at(setup_, latches_, y_[0]);
            LegNow& now = leg_now(leg, input);
            const double kept = !stop ? 1 : input.engine == Engine::idle ? exhaust_idle_share : 0;
            now.take_exhaust({exhaust_W_ * kept, exhaust_W_ * (1 - kept), stopped_at_s_});
            follow(leg, now, end_s, step_s);
        }
    }

    /// Steps until the leg ends or a switch moves.
    void follow(std::size_t leg, LegNow& now, double end_s, double& step_s) {
        FlowsAt flows = now.flows(y_);
        SlopeAt here = now.slope(t_s_, y_, flows);
        double to_switch_s = 0;
        bool moves = false;
        while (t_s_ < end_s) {
            const double h = moves ? to_switch_s : std::min({step_s, longest_step_s, end_s - t_s_});
            const RosenbrockResult next = rosenbrock_step(now, here, t_s_, y_, h, flows);
            if (!moves) {
                step_s = next_step_s(h, next.error);
                if (next.error > step_tolerance_K) continue;
                const Latches before = latches_;
                if (switching_) latches_ = latches_at(setup_, before, next.y[0]);
                moves = !(latches_ == before);
                if (moves) {
                    // Not after a step that happens to end beyond it: going on and off, that lets
                    // the last digit of a temperature grow to hundredths of a kelvin in hours.
                    to_switch_s = h * switch_share(before, oil_in(now, here.f[0], next.y, h));
                    continue;
                }
            }
            use_up(leg, {y_[0], next.y[0], h});
            if (trace_ != nullptr) record(oil_in(now, here.f[0], next.y, h), h);
            y_ = next.y;
            t_s_ += h;
            see(leg);
            if (moves) return;
            here = now.slope(t_s_, y_, flows);
        }
        t_s_ = end_s;
    }

    /// The step after one of h with this error. Where it is the longest one, its root is not taken.
    [[nodiscard]] static double next_step_s(double h, double error_K) {
        const double ratio = step_tolerance_K / std::max(error_K, 1e-9);
        const double enough = longest_step_s / (0.899 * h);
        if (h > longest_step_s / 4.9 && ratio > enough * enough * enough) return longest_step_s;
        return h * std::clamp(0.9 * fast_cbrt(ratio), 0.2, 5.0);
    }

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

    [[nodiscard]] OilIn oil_in(LegNow& now, double from_slope_Kps, const Three& to,
                               double h) const {
        return {y_[0], to[0], h * from_slope_Kps, h * now.value(t_s_ + h, to, now.flows(to))[0]};
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
    void record(const OilIn& step, double h) {
        constexpr double same_s = 1e-6;
        std::vector<double>& oil = trace_->oil_degC;
        while (oil.size() < trace_->at_s.size()) {
            const double u = (trace_->at_s[oil.size()] - t_s_) / h;
            if (u > 1 + same_s / h) return;
            oil.push_back(step.at_degC(u));
        }
    }

    void see(std::size_t leg) {
        result_.peak_oil_degC = std::max(result_.peak_oil_degC, y_[0]);
        result_.peak_housing_degC = std::max(result_.peak_housing_degC, y_[1]);
        result_.leg_peak_degC[leg] = std::max(result_.leg_peak_degC[leg], y_[0]);
    }

    struct OilStep {
        double from_degC;
        double to_degC;
        double duration_s;
    };

    void use_up(std::size_t leg, const OilStep& step) {
        if (!lives_wanted_) return;
        const auto& [from_degC, to_degC, duration_s] = step;
        const double hours = h_from_s(duration_s);
        if (from_degC != dose_degC_) dose_per_h_ = oil_per_h(from_degC);
        const double from_per_h = dose_per_h_;
        dose_per_h_ = oil_per_h(to_degC);
        dose_degC_ = to_degC;
        result_.oil_dose += hours / 2 * (from_per_h + dose_per_h_);
        if (t_.legs[leg].stop) return;
        if (!lives_[leg]) lives_[leg].emplace(t_, leg, factors_, weights_.loaded);
        lives_[leg]->use({from_degC, to_degC, hours}, life_share_);
    }

    [[nodiscard]] double oil_per_h(double temp_degC) const {
        return fast_exp(-std::numbers::ln10 *
                        booser::log10_oxidation_life(
                            {.k1 = k1_, .temp_degC = std::min(temp_degC, oil_ceiling_degC)}));
    }

    LegNow& leg_now(std::size_t leg, const LegInput& input) {
        const Switches now_on = in_leg(setup_, input, {}, latches_);
        const LegTables& table = t_.legs[leg];
        const bool cooled = cooler_ && now_on.pump;
        std::optional<LegNow>& made = made_[states_a_leg * leg + (cooled ? 4 : 0) +
                                            (now_on.pump ? 2 : 0) + (now_on.fan ? 1 : 0)];
        std::vector<Four>& own_Kps = own_Kps_[2 * leg + (now_on.pump ? 1 : 0)];
        if (own_Kps.empty()) own_Kps = make_losses(leg, now_on.pump);
        if (!made)
            made.emplace(
                t_, table.stop ? in_stop(driving_) : driving_, t_.case_air_degC + factors_.air_K,
                &own_Kps, BlendedRow<OutsideTable>(t_.outside_tables->leg(leg), weights_.outside),
                cooled ? BlendedRow<CoolerTable>(t_.cooler_tables->leg(leg)[now_on.fan ? 1 : 0],
                                                 weights_.cooler)
                       : BlendedRow<CoolerTable>());
        return *made;
    }

    [[nodiscard]] std::vector<Four> make_losses(std::size_t number, bool pump) const {
        const LegTables& leg = t_.legs[number];
        const LossTables& table = leg.losses[pump ? 1 : 0].value();
        const double mesh = leg.stop ? 0 : factors_.mesh * leg.mesh_ratio.at(ln_load_);
        const Row bearings_W = t_.loaded_tables->leg_W(number).blend(weights_.loaded);
        std::vector<Four> made_Kps;
        made_Kps.reserve(t_.coarse.y.size());
        for (std::size_t i = 0; i < t_.coarse.y.size(); ++i) {
            LossLedger ledger;
            ledger.windage_W = factors_.windage * table.windage[i];
            ledger.pocketing_W = factors_.pocketing * table.pocketing[i];
            ledger.thrown_W = factors_.thrown * table.thrown[i];
            for (std::size_t k = 0; k < FastNodes::churnings && !table.churning[k].empty(); ++k)
                ledger.churning_W += factors_.churning * churning_[k] * table.churning[k][i];
            ledger.seals_W = factors_.seals * table.seals[i];
            ledger.pump_W = factors_.pump * table.pump[i];
            ledger.mesh_W = mesh * table.mesh[i];
            if (!leg.stop) ledger.bearings_W = bearings_W[i];
            const HeatSplit made = split(ledger);
            made_Kps.push_back({made.oil_W / t_.capacities.oil_JpK,
                                made.housing_W / t_.capacities.housing_JpK,
                                made.steel_W / t_.capacities.steel_JpK, 0});
        }
        return made_Kps;
    }

    static constexpr std::size_t states_a_leg = 8;  // cooled or not, pump and fan running or not

    const FastTables& t_;
    const Setup& setup_;
    Factors factors_;
    bool cooler_ = false;
    bool lives_wanted_ = false;
    OilTrace* trace_ = nullptr;
    double ln_load_;
    std::array<double, FastNodes::churnings> churning_;
    double k1_;
    Conductances driving_{};
    bool switching_ = false;
    DrawWeights weights_{};
    std::vector<std::optional<LegNow>> made_;     ///< [leg][cooled][pump][fan]
    std::vector<std::vector<Four>> own_Kps_;      ///< by heat made, on the coarse grid; [leg][pump]
    std::vector<std::optional<LegLives>> lives_;  ///< [leg]
    std::vector<Four> life_share_;                ///< in blocks of bearings
    double dose_degC_ = not_made;
    double dose_per_h_ = 0;
    DrawResult result_;
    Three y_{};
    double t_s_ = 0;
    double exhaust_W_ = 0;
    double stopped_at_s_ = 0;
    Latches latches_;
};

}  // namespace

DrawResult FastCase::run(const Factors& factors, bool cooler, OilTrace* trace) const {
    return DrawRun(tables_, factors).run(cooler, trace, true);
}

FastCase::BothSides FastCase::run_both(const Factors& factors, OilTrace* with, OilTrace* without,
                                       bool lives_without) const {
    DrawRun draw(tables_, factors);
    DrawResult with_cooler = draw.run(true, with, true);
    return {std::move(with_cooler), draw.run(false, without, lives_without)};
}

std::vector<double> FastCase::oil_peaks_degC(bool cooler, const BandOptions& draws) const {
    const FactorDraws drawn(tables_.setup);
    const auto points = sobol_points(draws.draws);
    std::vector<double> peaks_degC(points.size());
    draws.for_each(points.size(), [&](std::size_t i) {
        peaks_degC[i] = run(drawn(points[i]), cooler).peak_oil_degC;
    });
    return peaks_degC;
}

}  // namespace caseload
