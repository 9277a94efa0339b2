// SPDX-License-Identifier: MIT
// One leg of one draw of the fast case, made from the tables where an event comes: most of an
// event's steps lie in few kelvins, and both sides of a draw and every run of a leg pass there.
#pragma once

#include "ask/fast_exp.hpp"
#include "ask/fast_tables.hpp"
#include "ask/rosenbrock.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace caseload {

inline constexpr double not_made = std::numeric_limits<double>::quiet_NaN();

/// Weights of the tables' nodes in one draw.
struct DrawWeights {
    LoadedTable::Weights loaded;
    OutsideTable::Weights outside;
    CoolerTable::Weights cooler;
};

/// A node table over a grid in one draw, blended where it is asked for.
template <class Table>
class BlendedRow {
public:
    BlendedRow() = default;
    BlendedRow(const Table& table, const typename Table::Weights& weights)
        : table_(&table), weights_(&weights), y_(table.blocks() * Table::block_points, not_made) {}
    [[nodiscard]] bool empty() const { return table_ == nullptr; }
    double operator[](std::size_t i) {
        if (std::isnan(y_[i])) make(i);
        return y_[i];
    }

private:
    void make(std::size_t i) {
        const std::size_t block = i / Table::block_points;
        const typename Table::Block made = table_->blend(*weights_, block);
        for (std::size_t k = 0; k < made.size(); ++k) y_[block * made.size() + k] = made[k];
    }

    const Table* table_ = nullptr;
    const typename Table::Weights* weights_ = nullptr;
    std::vector<double> y_;
};

/// Of oil, housing and steel; the fourth is nothing, so that two at a time are calculated.
using Four = std::array<double, 4>;

/// What flows at one state, as temperature rates, and by how much more a grid point on.
struct FlowsAt {
    Four own_Kps{};  ///< by heat made in a node, less the cooler's
    Four own_rise_Kps{};
    double outside_Kps = 0;
    double outside_rise_Kps = 0;
};

/// One leg of one draw under one state of its switches: the right side of the network.
class LegNow {
public:
    /// `coarse_Kps`: by heat made, on the coarse grid; must outlive this. No cooler: an empty row.
    LegNow(const FastTables& tables, const Conductances& paths, double air_degC,
           const std::vector<Four>* coarse_Kps, BlendedRow<OutsideTable> outside,
           BlendedRow<CoolerTable> cooler)
        : air_degC_(air_degC),
          per_oil_KpJ_(1 / tables.capacities.oil_JpK),
          per_housing_KpJ_(1 / tables.capacities.housing_JpK),
          oil_to_housing_(paths.oil_housing_WpK * per_oil_KpJ_),
          oil_to_steel_(paths.oil_steel_WpK * per_oil_KpJ_),
          housing_to_oil_(paths.oil_housing_WpK * per_housing_KpJ_),
          housing_to_steel_(paths.steel_housing_WpK * per_housing_KpJ_),
          steel_to_oil_(paths.oil_steel_WpK / tables.capacities.steel_JpK),
          steel_to_housing_(paths.steel_housing_WpK / tables.capacities.steel_JpK),
          refine_(&*tables.refine_losses),
          fine_(tables.fine),
          outside_places_(tables.outside),
          coarse_Kps_(coarse_Kps->data()),
          own_Kps_(tables.fine.y.size(), Four{not_made}),
          outside_(std::move(outside)),
          cooler_(std::move(cooler)) {}

    /// Exhaust heat into the housing: a steady part and one that dies out after a moment.
    struct Exhaust {
        double steady_W;
        double decaying_W;
        double from_s;
    };
    void take_exhaust(const Exhaust& exhaust) {
        exhaust_Kps_ = exhaust.steady_W * per_housing_KpJ_;
        decaying_Kps_ = exhaust.decaying_W * per_housing_KpJ_;
        decays_from_s_ = exhaust.from_s;
    }

    // Inlined, it calculates only what is used of it: the middle of a step wants no rises.
    [[nodiscard, gnu::always_inline]] inline FlowsAt flows(const Three& y) {
        FlowsAt at;
        const Places::Place oil = fine_.of(y[0]);
        const Four& low = own(oil.i);
        const Four& high = own(oil.i + 1);
        for (std::size_t c = 0; c < low.size(); ++c) {
            at.own_rise_Kps[c] = high[c] - low[c];
            at.own_Kps[c] = low[c] + oil.part * at.own_rise_Kps[c];
        }
        const Places::Place above = outside_places_.of(y[1] - air_degC_);
        const double here_W = outside_[above.i];
        const double next_W = outside_[above.i + 1];
        at.outside_rise_Kps = (next_W - here_W) * per_housing_KpJ_;
        at.outside_Kps = here_W * per_housing_KpJ_ + above.part * at.outside_rise_Kps;
        return at;
    }
    [[nodiscard, gnu::always_inline]] inline Three value(double t_s, const Three& y,
                                                         const FlowsAt& at) const {
        const double oil_housing_K = y[0] - y[1];
        const double oil_steel_K = y[0] - y[2];
        const double steel_housing_K = y[2] - y[1];
        return {at.own_Kps[0] - oil_to_housing_ * oil_housing_K - oil_to_steel_ * oil_steel_K,
                at.own_Kps[1] + housing_to_oil_ * oil_housing_K +
                    housing_to_steel_ * steel_housing_K - at.outside_Kps + exhaust_Kps_ +
                    decaying_Kps(t_s),
                at.own_Kps[2] + steel_to_oil_ * oil_steel_K - steel_to_housing_ * steel_housing_K};
    }
    [[nodiscard]] SlopeAt slope(double t_s, const Three& y, const FlowsAt& at) const {
        SlopeAt s;
        s.f = value(t_s, y, at);
        const double per_K = fine_.points_per_x();
        s.by_state = {{{at.own_rise_Kps[0] * per_K - (oil_to_housing_ + oil_to_steel_),
                        oil_to_housing_, oil_to_steel_},
                       {at.own_rise_Kps[1] * per_K + housing_to_oil_,
                        -(housing_to_oil_ + housing_to_steel_) -
                            at.outside_rise_Kps * outside_places_.points_per_x(),
                        housing_to_steel_},
                       {at.own_rise_Kps[2] * per_K + steel_to_oil_, steel_to_housing_,
                        -(steel_to_oil_ + steel_to_housing_)}}};
        s.housing_by_time = -decaying_Kps(t_s) / exhaust_decay_s;
        return s;
    }

private:
    [[nodiscard]] double decaying_Kps(double t_s) const {
        if (decaying_Kps_ == 0) return 0;
        return decaying_Kps_ * fast_exp((decays_from_s_ - t_s) / exhaust_decay_s);
    }
    const Four& own(std::size_t i) {
        Four& at = own_Kps_[i];
        if (std::isnan(at[0])) make(i, at);
        return at;
    }
    void make(std::size_t i, Four& at) {
        const auto& [first, w] = (*refine_)[i];
        const Four* y = &coarse_Kps_[first];
        for (std::size_t c = 0; c < at.size(); ++c)
            at[c] = w[0] * y[0][c] + w[1] * y[1][c] + w[2] * y[2][c] + w[3] * y[3][c];
        if (!cooler_.empty()) at[0] -= cooler_[i] * per_oil_KpJ_;
    }

    double air_degC_;
    double per_oil_KpJ_;
    double per_housing_KpJ_;
    // Temperature rates by a kelvin between two nodes, 1/s.
    double oil_to_housing_;
    double oil_to_steel_;
    double housing_to_oil_;
    double housing_to_steel_;
    double steel_to_oil_;
    double steel_to_housing_;
    double exhaust_Kps_ = 0;
    double decaying_Kps_ = 0;
    double decays_from_s_ = 0;
    const Refine* refine_;
    Places fine_;
    Places outside_places_;
    const Four* coarse_Kps_;
    std::vector<Four> own_Kps_;  ///< on fine points, less the cooler's
    BlendedRow<OutsideTable> outside_;
    BlendedRow<CoolerTable> cooler_;
};

/// Life rates of all bearings over oil temperature in one leg of one draw, 1/h.
class LegLives {
public:
    /// The weights must outlive this.
    LegLives(const FastTables& tables, std::size_t leg, const Factors& factors,
             const LoadedTable::Weights& weights)
        : tables_(*tables.life_tables),
          rates_(tables_.leg(leg).ln_rate.at(drawn_class(factors))),
          weights_(weights),
          refine_(&*tables.refine_damage),
          places_(tables.fine),
          blocks_((tables.bearings.size() + block_bearings - 1) / block_bearings),
          per_life_(1 / factors.life),
          ln_coarse_(blocks_ * tables.damage.y.size()),
          fine_(blocks_ * tables.fine.y.size(), Four{not_made}),
          begin_(blocks_),
          end_(blocks_) {
        const auto& steps = tables_.leg(leg).steps.at(drawn_class(factors));
        for (std::size_t b = 0; b < steps.size(); ++b)
            for (const LifeTables::Step& step : steps[b]) {
                double oil_degC = 0;
                for (std::size_t n = 0; n < weights.size(); ++n)
                    oil_degC += weights[n] * step.oil_degC[n];
                if (oil_degC < oil_ceiling_degC)
                    steps_.push_back({b, oil_degC, &step.more, Row(tables.damage.y.size()),
                                      Row(tables.fine.y.size(), not_made)});
            }
    }

    struct Stretch {
        double from_degC;
        double to_degC;
        double hours;
    };
    /// Adds what a stretch of even change uses of each life, in blocks of bearings.
    void use(const Stretch& stretch, std::vector<Four>& life_share) {
        // One stretch begins where the last one ended.
        if (stretch.from_degC != end_degC_) rates_at(stretch.from_degC, end_);
        begin_.swap(end_);
        rates_at(stretch.to_degC, end_);
        end_degC_ = stretch.to_degC;
        const double half_h = stretch.hours / 2;
        for (std::size_t k = 0; k < blocks_; ++k)
            for (std::size_t c = 0; c < block_bearings; ++c)
                life_share[k][c] += half_h * (begin_[k][c] + end_[k][c]);
        for (Step& step : steps_)
            life_share[step.bearing / block_bearings][step.bearing % block_bearings] +=
                stretch.hours * after(step, stretch);
    }

private:
    static constexpr std::size_t block_bearings = 4;
    /// Of one bearing: from an oil temperature on additives no longer help in one of its bins.
    struct Step {
        std::size_t bearing;
        double oil_degC;
        const LoadedTable* table;
        Row more_coarse;  ///< what the rate rises by, over that of `ln_coarse_`
        Row more;         ///< the same on fine points
    };

    void rates_at(double degC, std::vector<Four>& per_h) {
        const auto [i, part] = places_.of(degC);
        const Four* low = made(i);
        const Four* high = made(i + 1);
        for (std::size_t k = 0; k < blocks_; ++k)
            for (std::size_t c = 0; c < block_bearings; ++c)
                per_h[k][c] = low[k][c] + part * (high[k][c] - low[k][c]);
    }
    const Four* made(std::size_t i) {
        Four* at = &fine_[i * blocks_];
        if (std::isnan(at[0][0])) make(i, at);
        return at;
    }
    static std::size_t drawn_class(const Factors& factors) {
        return factors.cleanliness < 0 ? 0 : 1 + static_cast<std::size_t>(factors.cleanliness);
    }
    /// Blends the points of the damage grid that a point of the fine one hangs on.
    void know_around(std::size_t fine) {
        const std::size_t points = (*refine_)[fine].first + 4;
        if (points <= known_) return;
        tables_.make_to(points);
        for (; known_ < points; ++known_) {
            for (std::size_t b = 0; b < rates_.size(); ++b)
                ln_coarse_[known_ * blocks_ + b / block_bearings][b % block_bearings] =
                    rates_[b].blend_at(weights_, known_);
            for (Step& step : steps_)
                step.more_coarse[known_] = step.table->blend_at(weights_, known_);
        }
    }
    void make(std::size_t i, Four* at) {
        know_around(i);
        const auto& [first, w] = (*refine_)[i];
        for (std::size_t k = 0; k < blocks_; ++k) {
            const Four* ln = &ln_coarse_[first * blocks_ + k];
            for (std::size_t c = 0; c < block_bearings; ++c)
                at[k][c] = w[0] * ln[0][c] + w[1] * ln[blocks_][c] + w[2] * ln[2 * blocks_][c] +
                           w[3] * ln[3 * blocks_][c];
            for (double& rate : at[k]) rate = per_life_ * fast_exp(rate);
        }
    }
    /// What a step adds to the mean of a stretch: each side of it has its own values.
    double after(Step& step, const Stretch& stretch) {
        const auto [low_degC, high_degC] = std::minmax(stretch.from_degC, stretch.to_degC);
        if (high_degC <= step.oil_degC) return 0;
        const double from_degC = std::max(low_degC, step.oil_degC);
        const double above =
            from_degC > low_degC ? (high_degC - from_degC) / (high_degC - low_degC) : 1;
        const auto rise = [&](double degC) {
            const Places::Place place = places_.of(degC);
            for (const std::size_t i : {place.i, place.i + 1})
                if (std::isnan(step.more[i])) {
                    know_around(i);
                    step.more[i] = refine_->at(step.more_coarse, i);
                }
            const auto between = [&](double low, double high) {
                return low + place.part * (high - low);
            };
            const std::size_t k = step.bearing / block_bearings;
            const std::size_t c = step.bearing % block_bearings;
            return between(made(place.i)[k][c], made(place.i + 1)[k][c]) *
                   between(step.more[place.i], step.more[place.i + 1]);
        };
        return above * (rise(from_degC) + rise(high_degC)) / 2;
    }

    LifeTables& tables_;
    const std::vector<LoadedTable>& rates_;
    const LoadedTable::Weights& weights_;
    std::size_t known_ = 0;  ///< points of the damage grid that are blended
    const Refine* refine_;
    Places places_;
    std::size_t blocks_;  ///< of bearings
    double per_life_;
    std::vector<Four> ln_coarse_;  ///< additives help in every bin that has a step; [point][block]
    std::vector<Four> fine_;       ///< rates on fine points; [point][block]
    std::vector<Step> steps_;
    std::vector<Four> begin_;
    std::vector<Four> end_;
    double end_degC_ = not_made;
};

}  // namespace caseload
