// SPDX-License-Identifier: MIT
#include "damage/life_rates.hpp"

#include "caseload/units.hpp"
#include "damage/film_rates.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>
#include <utility>

namespace caseload {

/// Lowest and highest temperature of a bearing's film without its loss, over an event or in a leg.
struct FilmRange {
    double low_degC = oil_ceiling_degC;
    double high_degC = -oil_ceiling_degC;

    void take_in(double degC) {
        low_degC = std::min(low_degC, degC);
        high_degC = std::max(high_degC, degC);
    }
};

/// Hours of an event in a leg, at one state of the case.
struct Stretch {
    std::size_t run;
    std::size_t leg;
    double hours;
    Nodes nodes;
};

namespace {

// Points of a life rate over temperature. Halving it moves no life of the examples by more than
// 3.1e-4 of itself.
constexpr double rate_step_K = 4;
// The same where additives may help: rates bend sharply there.
constexpr double bent_rate_step_K = 1;

/// Temperatures an event needs curves of a bearing for.
FilmRange curve_span(const EventHeat& heat, const BearingPaths& paths) {
    FilmRange span;
    for (const Sample& sample : heat.samples) span.take_in(unheated_degC(paths, sample.nodes));
    // A curve wants a few points even where nothing moves.
    constexpr double least_span_K = 5 * rate_step_K;
    span.low_degC = std::floor(std::min(span.low_degC, oil_ceiling_degC - least_span_K));
    span.high_degC = std::min(std::max(span.high_degC, span.low_degC + least_span_K) + rate_step_K,
                              oil_ceiling_degC);
    return span;
}

std::vector<double> points_degC(const FilmRange& span, double step_K) {
    const double length_K = span.high_degC - span.low_degC;
    const auto pieces = static_cast<int>(std::ceil(length_K / step_K));
    std::vector<double> points;
    for (int i = 0; i <= pieces; ++i) points.push_back(span.low_degC + length_K * i / pieces);
    return points;
}

/// Those of the points between which a curve has the same pieces over a leg's temperatures: a slope
/// depends on two points to either side, and Akima's rule wants four in all.
std::vector<double> points_around(const std::vector<double>& points, const FilmRange& leg) {
    const auto after = [&](double degC) {
        return std::upper_bound(points.begin(), points.end(), degC) - points.begin();
    };
    const auto all = static_cast<std::ptrdiff_t>(points.size());
    const std::ptrdiff_t begin = std::max<std::ptrdiff_t>(after(leg.low_degC) - 4, 0);
    const std::ptrdiff_t end = std::min(after(leg.high_degC) + 3, all);
    return {points.begin() + begin, points.begin() + end};
}

/// What the rate of one bearing in one leg is calculated from: leg 0 and bearing 0 of the basis.
Basis rate_basis(const Prepared& prepared, std::size_t leg, std::size_t bearing) {
    Basis basis = film_basis(prepared);
    Loads& loads = basis.prepared.loads;
    loads.bearings = {prepared.loads.bearings[bearing]};
    loads.bearings.front().name.clear();
    LegLoads& of_leg = loads.legs.emplace_back();
    PreparedLosses& terms = basis.prepared.losses.emplace_back();
    const auto& bins = prepared.loads.legs[leg].bins;
    for (std::size_t bin = 0; bin < bins.size(); ++bin) {
        BinLoads& one = of_leg.bins.emplace_back();
        one.bin = bins[bin].bin;
        for (const LoadState& state : bins[bin].for_life)
            one.for_life.push_back({state.weight, {state.bearings[bearing]}});
        terms.bins.emplace_back().bearings = {prepared.losses[leg].bins[bin].bearings[bearing]};
    }
    return basis;
}

/// Temperature at which additives stop helping in each bin, where that lies in the span.
std::vector<std::optional<double>> ends_of_help(const Prepared& prepared, const FilmRange& span) {
    std::vector<std::optional<double>> ends;
    const auto& bins = prepared.losses.front().bins;
    for (std::size_t bin = 0; bin < bins.size(); ++bin) {
        std::optional<double>& end = ends.emplace_back();
        const auto film_degC = additives_end_degC(prepared, {0, bin, 0});
        if (!film_degC) continue;
        const double unheated_degC =
            unheated_behind_film_degC(prepared.oil, bins[bin].bearings.front(), *film_degC);
        if (unheated_degC > span.low_degC && unheated_degC < span.high_degC) end = unheated_degC;
    }
    return ends;
}

bool additives_may_help(const Prepared& prepared) {
    for (std::size_t bin = 0; bin < prepared.losses.front().bins.size(); ++bin)
        if (additives_end_degC(prepared, {0, bin, 0})) return true;
    return false;
}

std::vector<Stretch> stretches(const Setup& setup, const EventHeat& heat) {
    std::vector<Stretch> all;
    for (std::size_t i = 1; i < heat.samples.size(); ++i) {
        const Sample& from = heat.samples[i - 1];
        const Sample& to = heat.samples[i];
        const auto run = static_cast<std::size_t>(to.run);
        all.push_back({run,
                       static_cast<std::size_t>(setup.event.run[run]),
                       h_from_s(to.t_s - from.t_s),
                       {(from.nodes.oil_degC + to.nodes.oil_degC) / 2,
                        (from.nodes.housing_degC + to.nodes.housing_degC) / 2,
                        (from.nodes.steel_degC + to.nodes.steel_degC) / 2}});
    }
    return all;
}

}  // namespace

double LifeRates::Rate::per_h(double unheated_degC) const {
    double rate_per_h = helped_per_h(unheated_degC);
    for (const Step& step : steps)
        if (unheated_degC > step.unheated_degC) rate_per_h += step.more_per_h(unheated_degC);
    return rate_per_h;
}

void LifeRates::Rate::make(const std::vector<double>& unheated_degC, const Rate* like) {
    const bool alike = like != nullptr && like->ends == ends && like->from == from;
    if (alike && like->helped_per_h.x() == unheated_degC) {
        helped_per_h = like->helped_per_h;
        steps = like->steps;
        return;
    }
    // Where the other has the same points, its rates are these.
    std::vector<std::optional<std::size_t>> known(unheated_degC.size());
    if (alike)
        for (std::size_t i = 0; i < unheated_degC.size(); ++i) {
            const std::vector<double>& theirs = like->helped_per_h.x();
            const auto found = std::lower_bound(theirs.begin(), theirs.end(), unheated_degC[i]);
            if (found != theirs.end() && *found == unheated_degC[i])
                known[i] = static_cast<std::size_t>(found - theirs.begin());
        }
    const Prepared prepared = whole(from);
    const auto& bins = prepared.loads.legs.front().bins;
    std::vector<double> helped(unheated_degC.size(), 0.0);
    for (std::size_t bin = 0; bin < bins.size(); ++bin) {
        std::vector<double> more;
        const PreparedLosses::BearingTerm& term =
            prepared.losses.front().bins[bin].bearings.front();
        const FilmRates by_film(prepared, {0, bin, 0}, {prepared.setup->factors.cleanliness});
        const double share = bins[bin].bin.share;
        for (std::size_t i = 0; i < unheated_degC.size(); ++i) {
            if (known[i]) {
                helped[i] = like->helped_per_h.y()[*known[i]];
                if (ends[bin]) more.push_back(like->steps[steps.size()].more_per_h.y()[*known[i]]);
                continue;
            }
            const FilmRates::Film film =
                by_film.at(run_bearing(prepared.oil, term, unheated_degC[i]).film_degC);
            if (!ends[bin]) {
                helped[i] += share * by_film.by_rule_per_h(film, 0);
                continue;
            }
            const FilmRates::Both both = by_film.both_per_h(film, 0);
            helped[i] += share * both.helped_per_h;
            more.push_back(share * both.not_helped_per_h - share * both.helped_per_h);
        }
        if (ends[bin]) steps.push_back({*ends[bin], {unheated_degC, std::move(more)}});
    }
    helped_per_h = {unheated_degC, std::move(helped)};
}

/// What an event needs of the rates.
class LifeRates::Asked {
public:
    Asked(const Prepared& prepared, const EventHeat& heat)
        : prepared_(prepared),
          heat_(heat),
          stretches_(stretches(*prepared.setup, heat)),
          legs_(prepared.loads.legs.size()),
          hours_(legs_, 0.0) {
        for (const Stretch& stretch : stretches_) hours_[stretch.leg] += stretch.hours;
    }

    /// Rates of one bearing in each leg; made up in a leg that is not driven.
    [[nodiscard]] std::vector<Rate> rates(std::size_t bearing, const LifeRates* like) const {
        const FilmRange span = curve_span(heat_, prepared_.bearing_paths[bearing]);
        const std::vector<FilmRange> in_legs = ranges(bearing);
        std::vector<Rate> rates(legs_);
        for (std::size_t leg = 0; leg < legs_; ++leg) {
            if (!driven(leg)) continue;
            Rate& rate = rates[leg];
            rate.from = rate_basis(prepared_, leg, bearing);
            const Prepared alone = whole(rate.from);
            rate.ends = ends_of_help(alone, span);
            const double step_K = additives_may_help(alone) ? bent_rate_step_K : rate_step_K;
            rate.make(points_around(points_degC(span, step_K), in_legs[leg]),
                      like == nullptr ? nullptr : like->rate(bearing, leg));
        }
        return rates;
    }

    /// Life one bearing uses over the event, and in each of its runs.
    [[nodiscard]] double share(std::size_t bearing, const std::vector<Rate>& rates,
                               std::vector<double>* by_run = nullptr) const {
        double share = 0;
        for (const Stretch& stretch : stretches_) {
            if (!driven(stretch.leg)) continue;
            const double used = stretch.hours * rates[stretch.leg].per_h(of(bearing, stretch));
            share += used;
            if (by_run != nullptr) (*by_run)[stretch.run] += used;
        }
        return share;
    }

    /// The same as if each leg were as hot throughout as it gets.
    [[nodiscard]] double share_at_hottest(std::size_t bearing) const {
        const std::vector<FilmRange> in_legs = ranges(bearing);
        double share = 0;
        for (std::size_t leg = 0; leg < legs_; ++leg) {
            if (!driven(leg)) continue;
            const auto& bins = prepared_.loads.legs[leg].bins;
            for (std::size_t bin = 0; bin < bins.size(); ++bin) {
                const FilmRates by_film(prepared_, {leg, bin, bearing},
                                        {prepared_.setup->factors.cleanliness});
                const double film_degC =
                    run_bearing(prepared_.oil, prepared_.losses[leg].bins[bin].bearings[bearing],
                                in_legs[leg].high_degC)
                        .film_degC;
                share += hours_[leg] * bins[bin].bin.share *
                         by_film.by_rule_per_h(by_film.at(film_degC), 0);
            }
        }
        return share;
    }

private:
    [[nodiscard]] bool driven(std::size_t leg) const {
        return !prepared_.loads.legs[leg].bins.empty() && hours_[leg] > 0;
    }
    [[nodiscard]] double of(std::size_t bearing, const Stretch& stretch) const {
        return unheated_degC(prepared_.bearing_paths[bearing], stretch.nodes);
    }
    /// What a bearing meets in each leg.
    [[nodiscard]] std::vector<FilmRange> ranges(std::size_t bearing) const {
        std::vector<FilmRange> in_legs(legs_);
        for (const Stretch& stretch : stretches_)
            in_legs[stretch.leg].take_in(of(bearing, stretch));
        return in_legs;
    }

    const Prepared& prepared_;
    const EventHeat& heat_;
    std::vector<Stretch> stretches_;
    std::size_t legs_;
    std::vector<double> hours_;  ///< in each leg
};

LifeRates::LifeRates(const Prepared& prepared, const EventHeat& heat,
                     std::vector<std::vector<double>>* by_run) {
    const Asked asked(prepared, heat);
    const std::size_t bearings = prepared.loads.bearings.size();
    if (by_run != nullptr) by_run->assign(bearings, std::vector<double>(heat.runs.size(), 0.0));
    for (std::size_t b = 0; b < bearings; ++b) {
        rates_.push_back(asked.rates(b, nullptr));
        life_shares_.push_back(
            asked.share(b, rates_.back(), by_run == nullptr ? nullptr : &(*by_run)[b]));
    }
}

const LifeRates::Rate* LifeRates::rate(std::size_t bearing, std::size_t leg) const {
    return bearing < rates_.size() && leg < rates_[bearing].size() ? &rates_[bearing][leg]
                                                                   : nullptr;
}

double LifeRates::largest() const {
    double largest = 0;
    for (const double share : life_shares_) largest = std::max(largest, share);
    return largest;
}

double largest_life_share(const Prepared& prepared, const EventHeat& heat, const LifeRates& like) {
    const LifeRates::Asked asked(prepared, heat);
    // The bearing that was used most goes first, and mostly is again: the hotter a film, the faster
    // a life is used, so many of the others need no curve to be known to stay behind. What lies
    // between the points of a curve is hotter by no more than this allows. Judgement.
    constexpr double allowed = 1.5;
    std::vector<std::size_t> order(prepared.loads.bearings.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    const auto before = [&](std::size_t b) {
        return b < like.life_shares().size() ? like.life_shares()[b] : 0.0;
    };
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return before(a) > before(b); });
    double largest = 0;
    for (const std::size_t bearing : order)
        if (bearing == order.front() || allowed * asked.share_at_hottest(bearing) >= largest)
            largest = std::max(largest, asked.share(bearing, asked.rates(bearing, &like)));
    return largest;
}

}  // namespace caseload
