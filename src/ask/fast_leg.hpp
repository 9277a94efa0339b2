// SPDX-License-Identifier: MIT
// One leg of one draw of the fast case, made from the tables where an event comes: most of an
// event's steps lie in few kelvins, and both sides of a draw and every run of a leg pass there.
#pragma once

#include "ask/fast_exp.hpp"
#include "ask/fast_tables.hpp"
#include "ask/rosenbrock.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>
#include <utility>
#include <vector>

namespace caseload {

/// Which points of a grid were made, and which with their next one.
class MadePoints {
public:
    explicit MadePoints(std::size_t points) : made_(points) {}
    /// Makes both, where they were not.
    template <class Make>
    [[gnu::always_inline]] inline void want_with_next(std::size_t i, const Make& make) {
        if (made_[i] != with_next) [[unlikely]] {
            if (made_[i] == none) make(i);
            if (made_[i + 1] == none) {
                make(i + 1);
                made_[i + 1] = alone;
            }
            made_[i] = with_next;
        }
    }

private:
    enum Made : unsigned char { none, alone, with_next };
    std::vector<Made> made_;
};

/// Weights of the tables' nodes in one draw.
struct DrawWeights {
    OutsideTable::Weights outside;
    std::array<CoolerTable::Weights, 2> cooler;  ///< by whether the fan runs
};

/// A bearing in one draw.
struct DrawnBearing {
    LoadedTable::Weights weights;
    double wider = 1;  ///< its paths over the nominal ones
    bearing_heat::Shares shares;
};

/// A group of bearings in one leg of one draw.
struct DrawnFilms {
    double housing;  ///< shares by which the temperature of their films without loss is mixed
    double steel;
    Four* coarse_Kps;  ///< by what they lose in oil, housing and steel, on the coarse grid
};

/// A node table over a grid in one draw, blended at first use.
template <class Table>
class BlendedRow {
public:
    BlendedRow() = default;
    BlendedRow(const Table& table, const typename Table::Weights& weights, FourStore& store)
        : table_(&table),
          weights_(&weights),
          made_(table.blocks()),
          y_(store.take(table.blocks())) {}
    [[nodiscard]] bool empty() const { return table_ == nullptr; }
    [[gnu::always_inline]] inline double operator[](std::size_t i) {
        const std::size_t block = i / at_once;
        if (!made_[block]) [[unlikely]] {
            y_[block] = table_->blend(*weights_, block);
            made_[block] = 1;
        }
        return y_[block][i % at_once];
    }

private:
    const Table* table_ = nullptr;
    const typename Table::Weights* weights_ = nullptr;
    std::vector<unsigned char> made_;
    Four* y_ = nullptr;
};

/// One leg of one draw under one state of its switches: what its network is made of.
class DrawnLeg {
public:
    /// `coarse_Kps`: by heat made in oil, housing and steel, on the coarse grid; must outlive this.
    /// No cooler: an empty one.
    DrawnLeg(const FastTables& tables, const Conductances& paths, double case_air_degC,
             const Four* coarse_Kps, const std::vector<DrawnFilms>& films,
             BlendedRow<OutsideTable> outside, double coat_KpW, DrawnCooler cooler,
             FourStore& store)
        : air_degC(case_air_degC),
          per_oil_KpJ(1 / tables.capacities.oil_JpK),
          per_housing_KpJ(1 / tables.capacities.housing_JpK),
          oil_to_housing_ps(paths.oil_housing_WpK * per_oil_KpJ),
          oil_to_steel_ps(paths.oil_steel_WpK * per_oil_KpJ),
          housing_to_oil_ps(paths.oil_housing_WpK * per_housing_KpJ),
          housing_to_steel_ps(paths.steel_housing_WpK * per_housing_KpJ),
          steel_to_oil_ps(paths.oil_steel_WpK / tables.capacities.steel_JpK),
          steel_to_housing_ps(paths.steel_housing_WpK / tables.capacities.steel_JpK),
          neighbour_ps(paths.neighbour_WpK * per_housing_KpJ),
          refine_(&*tables.refine),
          coarse_Kps_(coarse_Kps),
          made_(tables.fine.y.size()),
          own_Kps_(store.take(tables.fine.y.size())),
          outside_(std::move(outside)),
          outside_grid_(&tables.outside),
          coat_KpW_(coat_KpW),
          outside_W_(tables.outside.y.size()),
          cooler_(std::move(cooler)),
          films_(&films) {
        losses_.reserve(films.size());
        for (const DrawnFilms& one : films)
            losses_.push_back({one.coarse_Kps, MadePoints(tables.fine.y.size()),
                               store.take(tables.fine.y.size())});
    }

    /// None in a stop.
    [[nodiscard]] const std::vector<DrawnFilms>& films() const { return *films_; }
    /// Temperature rates by what a group of bearings loses, at a point of the fine grid and the
    /// next, over the temperature of their films without it.
    [[nodiscard, gnu::always_inline]] inline const Four* film_Kps(std::size_t group,
                                                                  std::size_t i) {
        Losing& films = losses_[group];
        films.made.want_with_next(i, [&](std::size_t point) {
            const auto& [first, w] = (*refine_)[point];
            const Four* y = &films.coarse_Kps[first];
            films.fine_Kps[point] = w[0] * y[0] + w[1] * y[1] + w[2] * y[2] + w[3] * y[3];
        });
        return &films.fine_Kps[i];
    }

    /// Temperature rates by heat made in oil, housing and steel, less the cooler's, at a point of
    /// the fine grid and the next.
    [[nodiscard, gnu::always_inline]] inline const Four* own_Kps(std::size_t i) {
        made_.want_with_next(i, [this](std::size_t point) { make(point); });
        return &own_Kps_[i];
    }
    /// Heat to the outside at a point of its grid and the next.
    [[nodiscard, gnu::always_inline]] inline const double* outside_W(std::size_t i) {
        Ends& ends = outside_W_[i];
        if (!ends.made) [[unlikely]]
            ends = {{under_coat_W(i), under_coat_W(i + 1)}, true};
        return ends.W;
    }

    double air_degC;
    double per_oil_KpJ;
    double per_housing_KpJ;
    // Temperature rates by a kelvin between two nodes.
    double oil_to_housing_ps;
    double oil_to_steel_ps;
    double housing_to_oil_ps;
    double housing_to_steel_ps;
    double steel_to_oil_ps;
    double steel_to_housing_ps;
    double neighbour_ps;

private:
    void make(std::size_t i) {
        const auto& [first, w] = (*refine_)[i];
        const Four* y = &coarse_Kps_[first];
        Four made_Kps = w[0] * y[0] + w[1] * y[1] + w[2] * y[2] + w[3] * y[3];
        if (!cooler_.empty()) made_Kps.set(0, made_Kps[0] - cooler_.at_W(i) * per_oil_KpJ);
        own_Kps_[i] = made_Kps;
    }

    /// Metal under another coat gives what metal under the likely one gives where it is as much
    /// colder as the difference of the coats takes.
    double under_coat_W(std::size_t i) {
        if (coat_KpW_ == 0) return outside_[i];
        constexpr int rounds = 4;
        double at = static_cast<double>(i);  // in points of the grid
        double W = outside_[i];
        const auto last = outside_grid_->y.size() - 2;
        for (int round = 0; round < rounds; ++round) {
            const auto low = std::min(static_cast<std::size_t>(std::max(at, 0.0)), last);
            const double rise_W = outside_[low + 1] - outside_[low];
            W = outside_[low] + (at - static_cast<double>(low)) * rise_W;
            const double off = at + coat_KpW_ * W / outside_grid_->step - static_cast<double>(i);
            const double step = off / (1 + coat_KpW_ * rise_W / outside_grid_->step);
            at -= step;
            W -= rise_W * step;
        }
        return W;
    }

    const Refine* refine_;
    const Four* coarse_Kps_;
    MadePoints made_;
    Four* own_Kps_;  ///< on fine points
    BlendedRow<OutsideTable> outside_;
    const Grid* outside_grid_;
    double coat_KpW_;
    struct Ends {
        double W[2];
        bool made = false;
    };
    std::vector<Ends> outside_W_;
    DrawnCooler cooler_;
    const std::vector<DrawnFilms>* films_;
    struct Losing {
        const Four* coarse_Kps;
        MadePoints made;
        Four* fine_Kps;
    };
    std::vector<Losing> losses_;
};

/// Life rates of all bearings in one leg of one draw, 1/h, over the temperatures of their films
/// without their losses.
class LegLives {
public:
    /// The bearings must outlive this.
    LegLives(const FastTables& tables, std::size_t leg, const Factors& factors,
             const std::vector<DrawnBearing>& bearings, FourStore& store)
        : tables_(*tables.life_tables),
          rates_(tables_.leg(leg).ln_rate.at(drawn_class(factors))),
          bearings_(bearings),
          refine_(&*tables.refine),
          places_(tables.fine),
          blocks_(bearing_blocks(tables)),
          per_life_(1 / factors.life),
          ln_coarse_(store.take(blocks_ * tables.coarse.y.size())),
          made_(tables.fine.y.size()),
          fine_(store.take(blocks_ * tables.fine.y.size())) {
        const auto& steps = tables_.leg(leg).steps.at(drawn_class(factors));
        for (std::size_t b = 0; b < steps.size(); ++b)
            for (const LifeTables::Step& step : steps[b]) {
                double unheated_degC = 0;
                for (std::size_t n = 0; n < bearings[b].weights.size(); ++n)
                    unheated_degC += bearings[b].weights[n] * step.unheated_degC[n];
                if (unheated_degC < oil_ceiling_degC)
                    steps_.push_back({b, unheated_degC, &step.more, Row(tables.coarse.y.size()),
                                      Row(tables.fine.y.size(), not_made)});
            }
        mixed_.resize(blocks_);
        for (std::size_t b = 0; b < blocks_ * at_once; ++b) {
            // Places without a bearing go along with the block's first.
            const DrawnBearing& one = bearings[b < bearings.size() ? b : b / at_once * at_once];
            mixed_[b / at_once].oil.set(b % at_once, one.shares.oil);
            mixed_[b / at_once].housing.set(b % at_once, one.shares.housing);
            mixed_[b / at_once].steel.set(b % at_once, one.shares.steel);
        }
    }
    static std::size_t bearing_blocks(const FastTables& tables) {
        return (tables.bearings.size() + at_once - 1) / at_once;
    }

    /// In blocks of bearings.
    [[gnu::always_inline]] inline void rates_at(const Nodes& nodes, Four* per_h) {
        for (std::size_t k = 0; k < blocks_; ++k) per_h[k] = rates_in(k, nodes);
    }
    /// Adds what a stretch of even change uses of each life; `per_h` goes from its begin to its
    /// end.
    [[gnu::always_inline]] inline void use(const Nodes& to, double half_h, Four* per_h,
                                           Four* life_share) {
        for (std::size_t k = 0; k < blocks_; ++k) {
            const Four to_per_h = rates_in(k, to);
            life_share[k] += half_h * (per_h[k] + to_per_h);
            per_h[k] = to_per_h;
        }
    }
    [[nodiscard]] bool has_steps() const { return !steps_.empty(); }
    struct Stretch {
        Nodes from;
        Nodes to;
        double hours;
    };
    /// Adds what a stretch of even change uses of each life more where additives no longer help.
    void use_after_steps(const Stretch& stretch, Four* life_share) {
        for (Step& step : steps_) {
            Four& block = life_share[step.bearing / at_once];
            const std::size_t c = step.bearing % at_once;
            block.set(c, block[c] + stretch.hours * after(step, stretch));
        }
    }

private:
    static constexpr double not_made = std::numeric_limits<double>::quiet_NaN();
    /// Of one bearing: from a temperature on additives no longer help in one of its bins.
    struct Step {
        std::size_t bearing;
        double unheated_degC;
        const LoadedTable* table;
        Row more_coarse;  ///< what the rate rises by, over that of `ln_coarse_`
        Row more;         ///< the same on fine points
    };

    [[nodiscard, gnu::always_inline]] inline Four rates_in(std::size_t k, const Nodes& nodes) {
        const Mixed& mixed = mixed_[k];
        const GridPlaces::FourPlaces at =
            places_.of(mixed.oil * nodes.oil_degC + mixed.housing * nodes.housing_degC +
                       mixed.steel * nodes.steel_degC);
        const Four* at_point[at_once];
        for (std::size_t c = 0; c < at_once; ++c) at_point[c] = made(at.i[c]) + k;
        const Four low(at_point[0][0][0], at_point[1][0][1], at_point[2][0][2], at_point[3][0][3]);
        const Four high(at_point[0][blocks_][0], at_point[1][blocks_][1], at_point[2][blocks_][2],
                        at_point[3][blocks_][3]);
        return low + at.part * (high - low);
    }
    [[nodiscard, gnu::always_inline]] inline const Four* made(std::size_t i) {
        made_.want_with_next(i, [this](std::size_t point) { make(point); });
        return &fine_[i * blocks_];
    }
    static std::size_t drawn_class(const Factors& factors) {
        return factors.cleanliness < 0 ? 0 : 1 + static_cast<std::size_t>(factors.cleanliness);
    }
    /// Blends the points of the coarse grid that a point of the fine one needs.
    void know_around(std::size_t fine) {
        const std::size_t points = (*refine_)[fine].first + 4;
        if (points > known_) know_to(points);
    }
    // Seldom called: not inlined into the step.
    [[gnu::noinline]] void know_to(std::size_t points) {
        tables_.make_to(points);
        for (; known_ < points; ++known_) {
            Four* const ln = &ln_coarse_[known_ * blocks_];
            std::fill_n(ln, blocks_, Four{});
            for (std::size_t b = 0; b < rates_.size(); ++b)
                ln[b / at_once].set(b % at_once, rates_[b].blend_at(bearings_[b].weights, known_));
            for (Step& step : steps_)
                step.more_coarse[known_] =
                    step.table->blend_at(bearings_[step.bearing].weights, known_);
        }
    }
    void make(std::size_t i) {
        know_around(i);
        const auto& [first, w] = (*refine_)[i];
        for (std::size_t k = 0; k < blocks_; ++k) {
            const Four* ln = &ln_coarse_[first * blocks_ + k];
            const Four ln_rate =
                w[0] * ln[0] + w[1] * ln[blocks_] + w[2] * ln[2 * blocks_] + w[3] * ln[3 * blocks_];
            fine_[i * blocks_ + k] = per_life_ * fast_exp(ln_rate);
        }
    }
    /// What a step adds to the mean of a stretch: each side of it has its own values.
    double after(Step& step, const Stretch& stretch) {
        const DrawnBearing& bearing = bearings_[step.bearing];
        const double begin_degC = mixed_degC(bearing.shares, stretch.from);
        const double end_degC = mixed_degC(bearing.shares, stretch.to);
        const auto [low_degC, high_degC] = std::minmax(begin_degC, end_degC);
        if (high_degC <= step.unheated_degC) return 0;
        const double from_degC = std::max(low_degC, step.unheated_degC);
        const double above =
            from_degC > low_degC ? (high_degC - from_degC) / (high_degC - low_degC) : 1;
        const auto rise = [&](double degC) {
            const GridPlaces::Place place = places_.of(degC);
            for (const std::size_t i : {place.i, place.i + 1})
                if (std::isnan(step.more[i])) {
                    know_around(i);
                    step.more[i] = refine_->at(step.more_coarse, i);
                }
            const auto between = [&](double low, double high) {
                return low + place.part * (high - low);
            };
            const std::size_t k = step.bearing / at_once;
            const std::size_t c = step.bearing % at_once;
            const Four* low = made(place.i);
            return between(low[k][c], low[blocks_ + k][c]) *
                   between(step.more[place.i], step.more[place.i + 1]);
        };
        return above * (rise(from_degC) + rise(high_degC)) / 2;
    }

    LifeTables& tables_;
    const std::vector<LoadedTable>& rates_;
    const std::vector<DrawnBearing>& bearings_;
    /// Shares of paths, by which the films' temperatures are mixed, in blocks of bearings.
    struct Mixed {
        Four oil;
        Four housing;
        Four steel;
    };
    std::vector<Mixed> mixed_;
    std::size_t known_ = 0;  ///< points of the coarse grid that are blended
    const Refine* refine_;
    GridPlaces places_;
    std::size_t blocks_;  ///< of bearings
    double per_life_;
    Four* ln_coarse_;  ///< additives help in every bin that has a step; [point][block]
    MadePoints made_;
    Four* fine_;  ///< rates on fine points; [point][block]
    std::vector<Step> steps_;
};

}  // namespace caseload
