// SPDX-License-Identifier: MIT
// One leg of one draw of the fast case, made from the tables where an event comes: most of an
// event's steps lie in few kelvins, and both sides of a draw and every run of a leg pass there.
#pragma once

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
    /// Of a point and the next.
    std::pair<double, double> pair_at(std::size_t i) {
        if (std::isnan(y_[i])) make(i);
        if (std::isnan(y_[i + 1])) make(i + 1);
        return {y_[i], y_[i + 1]};
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

/// Heat into oil, steel and housing; the fourth is nothing, so that two at a time are calculated.
using MadeHeat = std::array<double, 4>;

/// What flows at one state, and by how much more a grid point on.
struct HeatAt {
    MadeHeat made_W{};
    MadeHeat made_rise_W{};
    double cooler_W = 0;
    double cooler_rise_W = 0;
    double outside_W = 0;
    double outside_rise_W = 0;
};

/// One leg of one draw under one state of its switches: the right side of the network.
class LegNow {
public:
    bool cooled = false;
    Conductances paths{};
    Capacities capacities;
    double air_degC = 0;
    double exhaust_W = 0;  // steady part
    double exhaust_decaying_W = 0;
    double stopped_at_s = 0;
    double decay_s = 1;

    LegNow(const FastTables& tables, std::vector<MadeHeat> coarse_W,
           BlendedRow<OutsideTable> outside)
        : capacities(tables.capacities),
          refine_(&*tables.refine_losses),
          fine_(tables.fine),
          outside_places_(tables.outside),
          coarse_W_(std::move(coarse_W)),
          made_W_(tables.fine.y.size(), MadeHeat{not_made}),
          outside_(std::move(outside)) {}

    [[nodiscard]] bool has_cooler() const { return !cooler_.empty(); }
    void take_cooler(BlendedRow<CoolerTable> cooler) { cooler_ = std::move(cooler); }

    [[nodiscard]] HeatAt heat(const Three& y) {
        HeatAt at;
        const Places::Place oil = fine_.of(y[0]);
        const MadeHeat& low = made(oil.i);
        const MadeHeat& high = made(oil.i + 1);
        for (std::size_t c = 0; c < low.size(); ++c) {
            at.made_rise_W[c] = high[c] - low[c];
            at.made_W[c] = low[c] + oil.part * at.made_rise_W[c];
        }
        if (cooled) {
            const auto [here, next] = cooler_.pair_at(oil.i);
            at.cooler_rise_W = next - here;
            at.cooler_W = here + oil.part * at.cooler_rise_W;
        }
        const Places::Place above = outside_places_.of(y[1] - air_degC);
        const auto [here, next] = outside_.pair_at(above.i);
        at.outside_rise_W = next - here;
        at.outside_W = here + above.part * at.outside_rise_W;
        return at;
    }
    [[nodiscard]] Three value(double t_s, const Three& y, const HeatAt& at) const {
        const double to_housing_W = paths.oil_housing_WpK * (y[0] - y[1]);
        const double to_steel_W = paths.oil_steel_WpK * (y[0] - y[2]);
        const double steel_housing_W = paths.steel_housing_WpK * (y[2] - y[1]);
        return {(at.made_W[0] - to_housing_W - to_steel_W - at.cooler_W) / capacities.oil_JpK,
                (at.made_W[2] + to_housing_W + steel_housing_W - at.outside_W + exhaust(t_s)) /
                    capacities.housing_JpK,
                (at.made_W[1] + to_steel_W - steel_housing_W) / capacities.steel_JpK};
    }
    [[nodiscard]] SlopeAt slope(double t_s, const Three& y, const HeatAt& at) const {
        SlopeAt s;
        s.f = value(t_s, y, at);
        const double per_K = fine_.points_per_x();
        const double cooler = at.cooler_rise_W * per_K;
        const double outside = at.outside_rise_W * outside_places_.points_per_x();
        const double c0 = 1 / capacities.oil_JpK;
        const double c1 = 1 / capacities.housing_JpK;
        const double c2 = 1 / capacities.steel_JpK;
        s.by_state = {
            {{(at.made_rise_W[0] * per_K - paths.oil_housing_WpK - paths.oil_steel_WpK - cooler) *
                  c0,
              paths.oil_housing_WpK * c0, paths.oil_steel_WpK * c0},
             {(at.made_rise_W[2] * per_K + paths.oil_housing_WpK) * c1,
              -(paths.oil_housing_WpK + paths.steel_housing_WpK + outside) * c1,
              paths.steel_housing_WpK * c1},
             {(at.made_rise_W[1] * per_K + paths.oil_steel_WpK) * c2, paths.steel_housing_WpK * c2,
              -(paths.oil_steel_WpK + paths.steel_housing_WpK) * c2}}};
        if (exhaust_decaying_W != 0) s.by_time[1] = -(exhaust(t_s) - exhaust_W) / decay_s * c1;
        return s;
    }

private:
    [[nodiscard]] double exhaust(double t_s) const {
        if (exhaust_decaying_W == 0) return exhaust_W;
        return exhaust_W + exhaust_decaying_W * std::exp(-(t_s - stopped_at_s) / decay_s);
    }
    const MadeHeat& made(std::size_t i) {
        MadeHeat& at = made_W_[i];
        if (!std::isnan(at[0])) return at;
        const auto& [first, w] = (*refine_)[i];
        const MadeHeat* y = &coarse_W_[first];
        for (std::size_t c = 0; c < at.size(); ++c)
            at[c] = w[0] * y[0][c] + w[1] * y[1][c] + w[2] * y[2][c] + w[3] * y[3][c];
        return at;
    }

    const Refine* refine_;
    Places fine_;
    Places outside_places_;
    std::vector<MadeHeat> coarse_W_;
    std::vector<MadeHeat> made_W_;  ///< on fine points
    BlendedRow<OutsideTable> outside_;
    BlendedRow<CoolerTable> cooler_;
};

/// Life rates of all bearings over oil temperature in one leg of one draw, 1/h.
class LegLives {
public:
    LegLives(const FastTables& tables, std::size_t leg, const Factors& factors,
             const LoadedTable::Weights& weights)
        : refine_(&*tables.refine_damage), places_(tables.fine), life_(factors.life) {
        const std::size_t drawn_class =
            factors.cleanliness < 0 ? 0 : 1 + static_cast<std::size_t>(factors.cleanliness);
        const std::vector<LoadedTable>& rates = tables.legs[leg].ln_rate.at(drawn_class);
        const auto& steps = tables.legs[leg].steps.at(drawn_class);
        for (std::size_t b = 0; b < rates.size(); ++b) {
            Bearing& bearing = bearings_.emplace_back();
            bearing.ln_coarse = rates[b].blend(weights);
            for (const LegTables::Step& step : steps[b]) {
                double oil_degC = 0;
                for (std::size_t n = 0; n < weights.size(); ++n)
                    oil_degC += weights[n] * step.oil_degC[n];
                if (oil_degC < oil_ceiling_degC)
                    bearing.steps.push_back(
                        {oil_degC, step.more.blend(weights), Row(tables.fine.y.size(), not_made)});
            }
        }
        fine_.assign(tables.fine.y.size() * bearings_.size(), not_made);
        begin_.resize(bearings_.size());
        end_.resize(bearings_.size());
    }

    struct Stretch {
        double from_degC;
        double to_degC;
        double hours;
    };
    /// Adds what a stretch of even change uses of each life.
    void use(const Stretch& stretch, std::vector<double>& life_share) {
        // One stretch begins where the last one ended.
        if (stretch.from_degC != end_degC_) rates_at(stretch.from_degC, end_);
        begin_.swap(end_);
        rates_at(stretch.to_degC, end_);
        end_degC_ = stretch.to_degC;
        for (std::size_t b = 0; b < bearings_.size(); ++b) {
            double mean = (begin_[b] + end_[b]) / 2;
            for (Bearing::Step& step : bearings_[b].steps) mean += after(step, b, stretch);
            life_share[b] += stretch.hours * mean;
        }
    }

private:
    struct Bearing {
        Row ln_coarse;  ///< additives help in every bin that has a step
        struct Step {
            double oil_degC;  ///< from here on they no longer do in one of them
            Row more_coarse;  ///< what the rate rises by, over that of `ln_coarse`
            Row more;         ///< the same on fine points
        };
        std::vector<Step> steps;
    };

    void rates_at(double degC, std::vector<double>& per_h) {
        const auto [i, part] = places_.of(degC);
        for (std::size_t b = 0; b < bearings_.size(); ++b) per_h[b] = rate_at({i, part}, b);
    }
    double rate_at(const Places::Place& place, std::size_t b) {
        const std::size_t n = bearings_.size();
        if (std::isnan(fine_[place.i * n])) make(place.i);
        if (std::isnan(fine_[(place.i + 1) * n])) make(place.i + 1);
        const double low = fine_[place.i * n + b];
        return low + place.part * (fine_[(place.i + 1) * n + b] - low);
    }
    void make(std::size_t i) {
        for (std::size_t b = 0; b < bearings_.size(); ++b)
            fine_[i * bearings_.size() + b] =
                std::exp(refine_->at(bearings_[b].ln_coarse, i)) / life_;
    }
    /// What a step adds to the mean of a stretch: each side of it has its own values.
    double after(Bearing::Step& step, std::size_t b, const Stretch& stretch) {
        const auto [low_degC, high_degC] = std::minmax(stretch.from_degC, stretch.to_degC);
        if (high_degC <= step.oil_degC) return 0;
        const double from_degC = std::max(low_degC, step.oil_degC);
        const double above =
            from_degC > low_degC ? (high_degC - from_degC) / (high_degC - low_degC) : 1;
        const auto rise = [&](double degC) {
            const Places::Place place = places_.of(degC);
            for (const std::size_t i : {place.i, place.i + 1})
                if (std::isnan(step.more[i])) step.more[i] = refine_->at(step.more_coarse, i);
            const double low = step.more[place.i];
            return rate_at(place, b) * (low + place.part * (step.more[place.i + 1] - low));
        };
        return above * (rise(from_degC) + rise(high_degC)) / 2;
    }

    const Refine* refine_;
    Places places_;
    double life_;
    std::vector<Bearing> bearings_;
    std::vector<double> fine_;  ///< rates on fine points, bearing by bearing
    std::vector<double> begin_;
    std::vector<double> end_;
    double end_degC_ = not_made;
};

}  // namespace caseload
