// SPDX-License-Identifier: MIT
#include "ask/fast_case.hpp"

#include "ask/rosenbrock.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/formulas/booser.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/roots.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace caseload {
namespace {

// Error of one step; and the longest step, so that peaks and damage between steps are seen.
constexpr double step_tolerance_K = 0.01;
constexpr double longest_step_s = 300;
constexpr double first_step_s = 1;
constexpr double never_driven_degC = -300;

template <std::size_t A, std::size_t B>
void blend(const std::array<std::array<Row, B>, A>& table, const std::array<double, A>& by_a,
           const std::array<double, B>& by_b, Row& into) {
    into.assign(table[0][0].size(), 0.0);
    for (std::size_t a = 0; a < A; ++a)
        for (std::size_t b = 0; b < B; ++b) {
            const double w = by_a[a] * by_b[b];
            const Row& row = table[a][b];
            for (std::size_t i = 0; i < into.size(); ++i) into[i] += w * row[i];
        }
}

/// One leg of one draw under one state of its switches: the right side of the network.
struct LegNow {
    Grid oil_W;
    Grid steel_W;
    Grid housing_W;
    Grid outside_W;
    Grid cooler_W;
    bool cooled = false;
    Conductances paths{};
    Capacities capacities{};
    double air_degC = 0;
    double exhaust_W = 0;  // steady part
    double exhaust_decaying_W = 0;
    double stopped_at_s = 0;
    double decay_s = 1;

    [[nodiscard]] double exhaust(double t_s) const {
        if (exhaust_decaying_W == 0) return exhaust_W;
        return exhaust_W + exhaust_decaying_W * std::exp(-(t_s - stopped_at_s) / decay_s);
    }
    [[nodiscard]] Three value(double t_s, const Three& y) const {
        const double to_housing_W = paths.oil_housing_WpK * (y[0] - y[1]);
        const double to_steel_W = paths.oil_steel_WpK * (y[0] - y[2]);
        const double steel_housing_W = paths.steel_housing_WpK * (y[2] - y[1]);
        const double cooler = cooled ? cooler_W.at(y[0]).value : 0;
        return {(oil_W.at(y[0]).value - to_housing_W - to_steel_W - cooler) / capacities.oil_JpK,
                (housing_W.at(y[0]).value + to_housing_W + steel_housing_W -
                 outside_W.at(y[1] - air_degC).value + exhaust(t_s)) /
                    capacities.housing_JpK,
                (steel_W.at(y[0]).value + to_steel_W - steel_housing_W) / capacities.steel_JpK};
    }
    [[nodiscard]] SlopeAt slope(double t_s, const Three& y) const {
        SlopeAt s;
        s.f = value(t_s, y);
        const double cooler = cooled ? cooler_W.at(y[0]).slope : 0;
        const double c0 = 1 / capacities.oil_JpK;
        const double c1 = 1 / capacities.housing_JpK;
        const double c2 = 1 / capacities.steel_JpK;
        s.by_state = {
            {{(oil_W.at(y[0]).slope - paths.oil_housing_WpK - paths.oil_steel_WpK - cooler) * c0,
              paths.oil_housing_WpK * c0, paths.oil_steel_WpK * c0},
             {(housing_W.at(y[0]).slope + paths.oil_housing_WpK) * c1,
              -(paths.oil_housing_WpK + paths.steel_housing_WpK +
                outside_W.at(y[1] - air_degC).slope) *
                  c1,
              paths.steel_housing_WpK * c1},
             {(steel_W.at(y[0]).slope + paths.oil_steel_WpK) * c2, paths.steel_housing_WpK * c2,
              -(paths.oil_steel_WpK + paths.steel_housing_WpK) * c2}}};
        if (exhaust_decaying_W != 0) s.by_time[1] = -(exhaust(t_s) - exhaust_W) / decay_s * c1;
        return s;
    }
};

/// A bearing's life rate over oil temperature in one leg, 1/h.
struct LifeRate {
    Grid helped;  ///< additives help in every bin that has a step
    struct Step {
        double oil_degC;  ///< from here on they no longer do in one of them
        Grid more;        ///< what the rate rises by, over `helped`
    };
    std::vector<Step> steps;

    struct Between {
        double from_degC;
        double to_degC;
    };
    /// Mean over a stretch of even change, each side of a step by its own values.
    [[nodiscard]] double mean(const Between& stretch) const {
        const auto [low_degC, high_degC] = std::minmax(stretch.from_degC, stretch.to_degC);
        double sum = (helped.at(low_degC).value + helped.at(high_degC).value) / 2;
        for (const Step& step : steps) {
            if (high_degC <= step.oil_degC) continue;
            const double from_degC = std::max(low_degC, step.oil_degC);
            const double above =
                from_degC > low_degC ? (high_degC - from_degC) / (high_degC - low_degC) : 1;
            const auto rise = [&](double degC) {
                return helped.at(degC).value * step.more.at(degC).value;
            };
            sum += above * (rise(from_degC) + rise(high_degC)) / 2;
        }
        return sum;
    }
};

/// One draw under way, with and without cooler: what a leg makes and passes is blended once for
/// both.
class DrawRun {
public:
    DrawRun(const FastTables& tables, const Factors& factors)
        : t_(tables),
          setup_(tables.setup),
          factors_(factors),
          load_(tables.nodes.load.weights(std::log(factors.load))),
          friction_(tables.nodes.friction.weights(std::log(factors.bearing_friction))),
          air_share_(tables.nodes.air_share.weights(std::log(factors.air_share))),
          face_(tables.nodes.face.weights(std::log(factors.face_speed))),
          air_(tables.nodes.air.weights(factors.air_K)),
          churning_(tables.nodes.churning_ratio.weights(
              std::log(factors.churning_fast / factors.churning))),
          k1_(setup_.oil.synthetic ? booser::k1_synthetic : booser::k1_mineral) {
        driving_ = t_.driving;
        driving_.oil_housing_WpK =
            1 / (t_.wall_resistance_KpW + t_.film_resistance_KpW / factors.oil_film);
        rates_.resize(t_.legs.size());
    }

    DrawResult run(bool cooler, OilTrace* trace = nullptr) {
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
        result_.life_share.assign(t_.bearings.size(), 0.0);
        const double ln_load = std::log(factors_.load);
        for (const FastTables::ToothGrids& gear : t_.teeth)
            result_.teeth.push_back({std::max(gear.flank.at(ln_load).value, 0.0),
                                     std::max(gear.root.at(ln_load).value, 0.0)});
        for (std::size_t i = 0; i < setup_.event.run.size(); ++i) {
            run_leg(static_cast<std::size_t>(setup_.event.run[i]));
            if (i != t_.longest_run) continue;
            result_.reading_oil_degC = y_[0];
            result_.reading_housing_degC = y_[1];
        }
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
            latches_ = latches_at(setup_, latches_, y_[0]);
            LegNow& now = leg_now(leg, input);
            if (stop) {
                const double kept = input.engine == Engine::idle ? exhaust_idle_share : 0;
                now.exhaust_W = exhaust_W_ * kept;
                now.exhaust_decaying_W = exhaust_W_ * (1 - kept);
                now.stopped_at_s = stopped_at_s_;
                now.decay_s = exhaust_decay_s;
            } else {
                now.exhaust_W = exhaust_W_;
            }
            follow(leg, now, end_s, step_s);
        }
    }

    /// Steps until the leg ends or a switch moves.
    void follow(std::size_t leg, const LegNow& now, double end_s, double& step_s) {
        SlopeAt here = now.slope(t_s_, y_);
        while (t_s_ < end_s) {
            double h = std::min({step_s, longest_step_s, end_s - t_s_});
            RosenbrockStep::Result next = step_(now, here, t_s_, y_, h);
            const double size = std::cbrt(step_tolerance_K / std::max(next.error, 1e-9));
            step_s = h * std::clamp(0.9 * size, 0.2, 5.0);
            if (next.error > step_tolerance_K) continue;
            const Latches before = latches_;
            latches_ = latches_at(setup_, before, next.y[0]);
            const bool moves = !(latches_ == before);
            if (moves) {
                // Not after a step that happens to end beyond it: going on and off, that lets the
                // last digit of a temperature grow to hundredths of a kelvin in hours.
                h *= switch_share(before, oil_in(now, here.f[0], next.y, h));
                next = step_(now, here, t_s_, y_, h);
            }
            use_up(leg, {y_[0], next.y[0], h});
            if (trace_ != nullptr) record(oil_in(now, here.f[0], next.y, h), h);
            y_ = next.y;
            t_s_ += h;
            see(leg);
            if (moves) return;
            here = now.slope(t_s_, y_);
        }
        t_s_ = end_s;
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

    [[nodiscard]] OilIn oil_in(const LegNow& now, double from_slope_Kps, const Three& to,
                               double h) const {
        return {y_[0], to[0], h * from_slope_Kps, h * now.value(t_s_ + h, to)[0]};
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
        if (t_.use != FastUse::everything) return;
        const auto& [from_degC, to_degC, duration_s] = step;
        const double hours = h_from_s(duration_s);
        const auto oil_per_h = [this](double temp_degC) {
            return 1 / booser::oxidation_life_h({k1_, std::min(temp_degC, oil_ceiling_degC)});
        };
        result_.oil_dose += hours / 2 * (oil_per_h(from_degC) + oil_per_h(to_degC));
        if (t_.legs[leg].stop) return;
        if (rates_[leg].empty()) make_rates(leg);
        for (std::size_t b = 0; b < rates_[leg].size(); ++b)
            result_.life_share[b] += hours * rates_[leg][b].mean({from_degC, to_degC});
    }

    void make_rates(std::size_t leg) {
        const std::size_t drawn_class =
            factors_.cleanliness < 0 ? 0 : 1 + static_cast<std::size_t>(factors_.cleanliness);
        const auto& table = t_.legs[leg].ln_rate.at(drawn_class);
        const auto& steps = t_.legs[leg].steps.at(drawn_class);
        for (std::size_t b = 0; b < t_.bearings.size(); ++b) {
            LifeRate rate{t_.fine, {}};
            (*t_.refine_damage)(
                at_load([&](std::size_t l, std::size_t f) -> const Row& { return table[l][f][b]; }),
                rate.helped.y);
            for (double& value : rate.helped.y) value = std::exp(value) / factors_.life;
            for (const LegTables::Step& step : steps[b]) {
                double oil_degC = 0;
                for (std::size_t l = 0; l < FastNodes::loads; ++l)
                    for (std::size_t f = 0; f < FastNodes::frictions; ++f)
                        oil_degC += load_[l] * friction_[f] * step.oil_degC[l][f];
                if (oil_degC >= oil_ceiling_degC) continue;
                rate.steps.push_back({oil_degC, t_.fine});
                (*t_.refine_damage)(at_load([&](std::size_t l, std::size_t f) -> const Row& {
                                        return step.more[l][f];
                                    }),
                                    rate.steps.back().more.y);
            }
            rates_[leg].push_back(std::move(rate));
        }
    }

    /// Between the nodes of load and friction, over the damage grid.
    template <class RowOf>
    Row at_load(const RowOf& row_of) const {
        Row at(t_.damage.y.size(), 0.0);
        for (std::size_t l = 0; l < FastNodes::loads; ++l)
            for (std::size_t f = 0; f < FastNodes::frictions; ++f) {
                const Row& row = row_of(l, f);
                for (std::size_t i = 0; i < at.size(); ++i)
                    at[i] += load_[l] * friction_[f] * row[i];
            }
        return at;
    }

    LegNow& leg_now(std::size_t leg, const LegInput& input) {
        const bool stop = t_.legs[leg].stop;
        const Switches now_on = in_leg(setup_, input, {}, latches_);
        const bool pump = now_on.pump;
        const bool fan = now_on.fan;
        const auto key = std::make_tuple(leg, pump, fan);
        const auto [found, is_new] = made_.try_emplace(key);
        LegNow& now = found->second;
        now.cooled = cooler_ && pump;
        if (now.cooled && now.cooler_W.y.empty()) {
            now.cooler_W = t_.fine;
            blend(t_.legs[leg].cooler[fan ? 1 : 0], air_, face_, now.cooler_W.y);
        }
        if (!is_new) return now;
        now.capacities = t_.capacities;
        now.paths = stop ? in_stop(driving_) : driving_;
        now.air_degC = t_.case_air_degC + factors_.air_K;
        make_losses(leg, pump, now);
        now.outside_W = {t_.outside.first, t_.outside.step, {}};
        blend(t_.legs[leg].outside, air_, air_share_, now.outside_W.y);
        return now;
    }

    void make_losses(std::size_t leg, bool pump, LegNow& now) const {
        const LossTables& table = t_.legs[leg].losses[pump ? 1 : 0].value();
        const std::size_t n = t_.coarse.y.size();
        const double mesh =
            t_.legs[leg].stop
                ? 0
                : factors_.mesh * t_.legs[leg].mesh_ratio.at(std::log(factors_.load)).value;
        Row oil_W(n);
        Row steel_W(n);
        Row housing_W(n);
        for (std::size_t i = 0; i < n; ++i) {
            LossLedger ledger;
            ledger.windage_W = factors_.windage * table.windage[i];
            ledger.pocketing_W = factors_.pocketing * table.pocketing[i];
            ledger.thrown_W = factors_.thrown * table.thrown[i];
            for (std::size_t k = 0; k < FastNodes::churnings && !table.churning[k].empty(); ++k)
                ledger.churning_W += factors_.churning * churning_[k] * table.churning[k][i];
            ledger.seals_W = factors_.seals * table.seals[i];
            ledger.pump_W = factors_.pump * table.pump[i];
            ledger.mesh_W = mesh * table.mesh[i];
            for (std::size_t l = 0; l < FastNodes::loads; ++l)
                for (std::size_t f = 0; f < FastNodes::frictions; ++f)
                    ledger.bearings_W += load_[l] * friction_[f] * table.bearings[l][f][i];
            const HeatSplit made = split(ledger);
            oil_W[i] = made.oil_W;
            steel_W[i] = made.steel_W;
            housing_W[i] = made.housing_W;
        }
        now.oil_W = now.steel_W = now.housing_W = {t_.fine.first, t_.fine.step, {}};
        (*t_.refine_losses)(oil_W, now.oil_W.y);
        (*t_.refine_losses)(steel_W, now.steel_W.y);
        (*t_.refine_losses)(housing_W, now.housing_W.y);
    }

    const FastTables& t_;
    const Setup& setup_;
    Factors factors_;
    bool cooler_ = false;
    OilTrace* trace_ = nullptr;
    std::array<double, FastNodes::loads> load_;
    std::array<double, FastNodes::frictions> friction_;
    std::array<double, FastNodes::air_shares> air_share_;
    std::array<double, FastNodes::face_speeds> face_;
    std::array<double, FastNodes::airs> air_;
    std::array<double, FastNodes::churnings> churning_;
    double k1_;
    Conductances driving_{};
    std::map<std::tuple<std::size_t, bool, bool>, LegNow> made_;
    std::vector<std::vector<LifeRate>> rates_;  ///< [leg][bearing]
    RosenbrockStep step_;
    DrawResult result_;
    Three y_{};
    double t_s_ = 0;
    double exhaust_W_ = 0;
    double stopped_at_s_ = 0;
    Latches latches_;
};

}  // namespace

DrawResult FastCase::run(const Factors& factors, bool cooler) const {
    return DrawRun(tables_, factors).run(cooler);
}

FastCase::BothSides FastCase::run_both(const Factors& factors) const {
    DrawRun draw(tables_, factors);
    DrawResult with = draw.run(true);
    return {std::move(with), draw.run(false)};
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

DrawResult FastCase::follow(const Factors& factors, bool cooler, OilTrace& trace) const {
    return DrawRun(tables_, factors).run(cooler, &trace);
}

}  // namespace caseload
