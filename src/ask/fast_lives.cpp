// SPDX-License-Identifier: MIT
#include "ask/fast_lives.hpp"

#include "caseload/damage.hpp"
#include "damage/film_rates.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <utility>

namespace caseload {
namespace {

constexpr double least_rate_per_h = 1e-300;      // in place of 0 under a logarithm
const std::vector<int> drawn_classes{-1, 0, 1};  // of cleanliness

// Films are about as hot at the next friction and point: rates at even temperatures serve them all.
constexpr double film_step_K = 4;
constexpr double coldest_film_degC = -100;  // as thick as counts in every oil
constexpr std::size_t film_points =
    static_cast<std::size_t>((hottest_film_degC - coldest_film_degC) / film_step_K) + 4;

}  // namespace

/// Life rates of one bearing in one bin over the temperature of its film, calculated at even steps
/// where asked and between them by the cubic through the nearest four (Lagrange): within
/// what tests/ask allows between these tables and the chain. Which is asked first moves nothing.
class LifeTables::RatesByFilm {
public:
    explicit RatesByFilm(FilmRates rates) : rates_(std::move(rates)), points_(film_points) {}

    struct At {
        std::size_t first;
        std::array<double, 4> weights;
    };
    [[nodiscard]] static At at(double film_degC) {
        const double place =
            (std::clamp(film_degC, coldest_film_degC, hottest_film_degC) - coldest_film_degC) /
            film_step_K;
        const auto first = static_cast<std::size_t>(place);
        const double t = place - static_cast<double>(first);
        return {first,
                {-t * (t - 1) * (t - 2) / 6, (t + 1) * (t - 1) * (t - 2) / 2,
                 -(t + 1) * t * (t - 2) / 2, (t + 1) * t * (t - 1) / 6}};
    }
    [[nodiscard]] double by_rule_per_h(const At& at, std::size_t of_class) {
        double rate_per_h = 0;
        for (std::size_t k = 0; k < at.weights.size(); ++k) {
            std::optional<double>& known = point(at.first + k).by_rule_per_h[of_class];
            if (!known) known = rates_.by_rule_per_h(*points_[at.first + k].film, of_class);
            rate_per_h += at.weights[k] * *known;
        }
        return std::max(rate_per_h, 0.0);
    }
    [[nodiscard]] FilmRates::Both both_per_h(const At& at, std::size_t of_class) {
        FilmRates::Both both;
        for (std::size_t k = 0; k < at.weights.size(); ++k) {
            std::optional<FilmRates::Both>& known = point(at.first + k).both_per_h[of_class];
            if (!known) known = rates_.both_per_h(*points_[at.first + k].film, of_class);
            both.helped_per_h += at.weights[k] * known->helped_per_h;
            both.not_helped_per_h += at.weights[k] * known->not_helped_per_h;
        }
        return both;
    }

private:
    struct Point {
        std::optional<FilmRates::Film> film;
        std::array<std::optional<double>, FastNodes::classes> by_rule_per_h;
        std::array<std::optional<FilmRates::Both>, FastNodes::classes> both_per_h;
    };
    /// The first lies a step below the coldest.
    Point& point(std::size_t i) {
        Point& point = points_[i];
        if (!point.film)
            point.film = rates_.at(coldest_film_degC + (static_cast<double>(i) - 1) * film_step_K);
        return point;
    }

    FilmRates rates_;
    std::vector<Point> points_;
};

LifeTables::LifeTables(Inputs loaded)
    : loaded_(std::move(loaded)),
      bearings_(loaded_->inputs().nominal.prepared.loads.bearings.size()),
      legs_(loaded_->legs()) {
    find_steps();
    for (std::size_t leg = 0; leg < legs_.size(); ++leg)
        if (loaded_->inputs().loaded[leg])
            for (auto& by_bearing : legs_[leg].ln_rate)
                by_bearing.assign(bearings_, LoadedTable(loaded_->inputs().grids.coarse.y.size()));
}

void LifeTables::make_to(std::size_t points, const ForEach& for_each) {
    if (made_.load(std::memory_order_acquire) >= points) return;
    const std::lock_guard<std::mutex> lock(making_);
    const std::size_t from = made_.load(std::memory_order_relaxed);
    if (from >= points) return;
    // One more where that was too little: the next draw may get a little hotter.
    const std::size_t to =
        std::min(from == 0 ? points : points + 1, loaded_->inputs().grids.coarse.y.size());
    for_each(loaded_->inputs().pieces(), [&](std::size_t piece) { make(piece, {from, to}); });
    made_.store(to, std::memory_order_release);
}

void LifeTables::make(std::size_t piece, const Points& points) {
    const Prepared prepared = whole(loaded_->inputs().of_piece(piece));
    const std::vector<double> frictions = loaded_->inputs().frictions(piece);
    for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
        if (!loaded_->inputs().loaded[leg]) continue;
        // Where and how much a film wears a bearing has nothing to do with its friction.
        std::vector<std::vector<RatesByFilm>> rates;  // [bin][bearing]
        for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin) {
            rates.emplace_back();
            for (std::size_t b = 0; b < bearings_; ++b)
                rates.back().emplace_back(
                    FilmRates(prepared, BearingPlace{leg, bin, b}, drawn_classes));
        }
        for (std::size_t f = 0; f < frictions.size(); ++f) {
            const std::size_t node = loaded_->inputs().node(piece, f);
            if (points.from == 0) place_steps(prepared, {leg, node, 0}, frictions[f]);
            for (std::size_t i = points.from; i < points.to; ++i)
                rates_at(prepared.loads.legs[leg].bins, rates,
                         loaded_->films_degC({piece, leg, f, i}), {leg, node, i});
        }
    }
}

// Bins whose step may lie where losses are followed. A bearing's film is as hot as at its step
// where without its loss it is colder by that over its path: less with less friction and load, at
// most the film's own temperature.
void LifeTables::find_steps() {
    const LoadedTables::Inputs& inputs = loaded_->inputs();
    const double most = std::exp(inputs.nodes.friction[FastNodes::frictions - 1] +
                                 inputs.nodes.load[FastNodes::loads - 1]);
    Prepared prepared = whole(inputs.nominal);
    Setup classed = inputs.nominal.setup;
    prepared.setup = &classed;
    const Grid& coarse = inputs.grids.coarse;
    for (std::size_t c = 0; c < FastNodes::classes; ++c) {
        classed.factors.cleanliness = static_cast<int>(c) - 1;
        for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
            legs_[leg].steps[c].assign(bearings_, {});
            if (!inputs.loaded[leg]) continue;
            for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin)
                for (std::size_t b = 0; b < bearings_; ++b) {
                    const auto film_degC = additives_end_degC(prepared, {leg, bin, b});
                    if (!film_degC || *film_degC < coarse.first) continue;
                    const double rise_K =
                        *film_degC -
                        unheated_behind_film_degC(
                            prepared.oil, prepared.losses[leg].bins[bin].bearings[b], *film_degC);
                    if (*film_degC - most * rise_K > oil_ceiling_degC) continue;
                    legs_[leg].steps[c][b].push_back(
                        {bin, *film_degC, {}, LoadedTable(coarse.y.size())});
                }
        }
    }
}

// At a node of the friction.
void LifeTables::place_steps(const Prepared& prepared, const Place& place, double ln_friction) {
    for (auto& by_bearing : legs_[place.leg].steps)
        for (std::size_t b = 0; b < by_bearing.size(); ++b)
            for (Step& step : by_bearing[b]) {
                PreparedLosses::BearingTerm term =
                    prepared.losses[place.leg].bins[step.bin].bearings[b];
                term.friction = std::exp(ln_friction);
                step.unheated_degC[place.node] =
                    unheated_behind_film_degC(prepared.oil, term, step.film_degC);
            }
}

void LifeTables::rates_at(const std::vector<BinLoads>& bins,
                          std::vector<std::vector<RatesByFilm>>& rates, const double* films_degC,
                          const Place& place) {
    std::vector<RatesByFilm::At> films;
    for (std::size_t b = 0; b < bearings_; ++b) {
        films.clear();
        for (std::size_t bin = 0; bin < bins.size(); ++bin)
            films.push_back(RatesByFilm::at(films_degC[bin * bearings_ + b]));
        for (std::size_t c = 0; c < FastNodes::classes; ++c) {
            std::vector<Step>& steps = legs_[place.leg].steps[c][b];
            double rate_per_h = least_rate_per_h;
            auto step = steps.begin();
            for (std::size_t bin = 0; bin < bins.size(); ++bin) {
                const double share = bins[bin].bin.share;
                if (step == steps.end() || step->bin != bin) {
                    rate_per_h += share * rates[bin][b].by_rule_per_h(films[bin], c);
                    continue;
                }
                const FilmRates::Both both = rates[bin][b].both_per_h(films[bin], c);
                const double helped_per_h = share * both.helped_per_h;
                rate_per_h += helped_per_h;
                step->more.at(place.node, place.at) = share * both.not_helped_per_h - helped_per_h;
                ++step;
            }
            legs_[place.leg].ln_rate[c][b].at(place.node, place.at) = std::log(rate_per_h);
            for (Step& one : steps) one.more.at(place.node, place.at) /= rate_per_h;
        }
    }
}

}  // namespace caseload
