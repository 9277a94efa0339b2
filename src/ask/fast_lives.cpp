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

}  // namespace

/// Rates of the last film of each bearing in each bin: cold films are all as thick as counts.
class LifeTables::KnownRates {
public:
    explicit KnownRates(std::size_t films) : films_(films) {}
    void renew(const FilmRates::Film& film, std::size_t at) {
        if (films_[at].film == film) return;
        films_[at] = One{film, {}};
    }
    template <class Rate>
    double per_h(std::size_t at, std::size_t of_class, const Rate& rate) {
        std::optional<double>& known = films_[at].per_h.at(of_class);
        if (!known) known = rate();
        return *known;
    }

private:
    struct One {
        FilmRates::Film film{-1, 0, 0};
        std::array<std::optional<double>, FastNodes::classes> per_h{};
    };
    std::vector<One> films_;
};

LifeTables::LifeTables(Inputs loaded)
    : loaded_(std::move(loaded)),
      bearings_(loaded_->inputs().nominal.prepared.loads.bearings.size()),
      legs_(loaded_->legs()) {
    find_steps();
    for (std::size_t leg = 0; leg < legs_.size(); ++leg)
        if (loaded_->inputs().loaded[leg])
            for (auto& by_bearing : legs_[leg].ln_rate)
                by_bearing.assign(bearings_, LoadedTable(loaded_->inputs().grids.damage.y.size()));
}

void LifeTables::make_to(std::size_t points, const ForEach& for_each) {
    if (made_.load(std::memory_order_acquire) >= points) return;
    const std::lock_guard<std::mutex> lock(making_);
    const std::size_t from = made_.load(std::memory_order_relaxed);
    if (from >= points) return;
    // One more where that was too little: the next draw may get a little hotter.
    const std::size_t to =
        std::min(from == 0 ? points : points + 1, loaded_->inputs().grids.damage.y.size());
    for_each(loaded_->inputs().pieces(), [&](std::size_t piece) { make(piece, {from, to}); });
    made_.store(to, std::memory_order_release);
}

void LifeTables::make(std::size_t piece, const Points& points) {
    const Prepared prepared = whole(loaded_->inputs().of_piece(piece));
    const std::vector<double> frictions = loaded_->inputs().frictions(piece);
    for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
        if (!loaded_->inputs().loaded[leg]) continue;
        // Where and how much a film wears a bearing has nothing to do with its friction.
        std::vector<std::vector<FilmRates>> rates;  // [bin][bearing]
        for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin) {
            rates.emplace_back();
            for (std::size_t b = 0; b < bearings_; ++b)
                rates.back().emplace_back(prepared, BearingPlace{leg, bin, b}, drawn_classes);
        }
        KnownRates known(prepared.losses[leg].bins.size() * bearings_);
        for (std::size_t f = 0; f < frictions.size(); ++f) {
            const std::size_t node = LoadedTables::Inputs::node(piece, f);
            if (points.from == 0) place_steps(prepared, {leg, node, 0}, frictions[f]);
            for (std::size_t i = points.from; i < points.to; ++i)
                rates_at(prepared.loads.legs[leg].bins, rates,
                         loaded_->films_degC({piece, leg, f, i}), {leg, node, i}, known);
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
    const Grid& damage = inputs.grids.damage;
    for (std::size_t c = 0; c < FastNodes::classes; ++c) {
        classed.factors.cleanliness = static_cast<int>(c) - 1;
        for (std::size_t leg = 0; leg < legs_.size(); ++leg) {
            legs_[leg].steps[c].assign(bearings_, {});
            if (!inputs.loaded[leg]) continue;
            for (std::size_t bin = 0; bin < prepared.losses[leg].bins.size(); ++bin)
                for (std::size_t b = 0; b < bearings_; ++b) {
                    const auto film_degC = additives_end_degC(prepared, {leg, bin, b});
                    if (!film_degC || *film_degC < damage.first) continue;
                    const double rise_K =
                        *film_degC -
                        unheated_behind_film_degC(
                            prepared.oil, prepared.losses[leg].bins[bin].bearings[b], *film_degC);
                    if (*film_degC - most * rise_K > oil_ceiling_degC) continue;
                    legs_[leg].steps[c][b].push_back(
                        {bin, *film_degC, {}, LoadedTable(damage.y.size())});
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
                          const std::vector<std::vector<FilmRates>>& rates,
                          const double* films_degC, const Place& place, KnownRates& known) {
    std::vector<FilmRates::Film> films;
    for (std::size_t b = 0; b < bearings_; ++b) {
        films.clear();
        for (std::size_t bin = 0; bin < bins.size(); ++bin) {
            films.push_back(rates[bin][b].at(films_degC[bin * bearings_ + b]));
            known.renew(films.back(), bin * bearings_ + b);
        }
        for (std::size_t c = 0; c < FastNodes::classes; ++c) {
            std::vector<Step>& steps = legs_[place.leg].steps[c][b];
            double rate_per_h = least_rate_per_h;
            auto step = steps.begin();
            for (std::size_t bin = 0; bin < bins.size(); ++bin) {
                const double share = bins[bin].bin.share;
                if (step == steps.end() || step->bin != bin) {
                    rate_per_h += share * known.per_h(bin * bearings_ + b, c, [&] {
                        return rates[bin][b].by_rule_per_h(films[bin], c);
                    });
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
