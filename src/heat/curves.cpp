// SPDX-License-Identifier: MIT
// Losses and heat paths of each leg's network as curves over temperature.
#include "caseload/error.hpp"
#include "caseload/heat_curves.hpp"
#include "heat/at_oil.hpp"
#include "heat/basis.hpp"
#include "heat/leg_drives.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace caseload {
namespace {

// Points of the curves. Halving them moves no temperature of the examples by more than 2e-3 K; the
// cooler's takes more, as its pressure bypass bends it at an unknown place in each bin.
constexpr double curve_step_K = 8;
constexpr double cooler_step_K = 4;
// Above the temperatures any part survives the steps are longer.
constexpr double hot_degC = 200;
constexpr double hot_step_K = 20;

std::vector<double> grid(const Limits& range, double step_K, const std::vector<double>& kinks) {
    const auto& [low, high] = range;
    std::vector<double> x;
    double at = std::floor(low);
    while (at < high) {
        x.push_back(at);
        at += at < hot_degC ? step_K : hot_step_K;
    }
    x.push_back(high);
    for (const double kink : kinks)
        if (kink > low && kink < high) x.push_back(kink);
    std::sort(x.begin(), x.end());
    x.erase(std::unique(x.begin(), x.end(),
                        [](double a, double b) { return b - a < 1e-6; }),  // K: the same point
            x.end());
    return x;
}

template <class F>
Curve tabulated(const std::vector<double>& x, const F& f) {
    std::vector<double> y;
    y.reserve(x.size());
    for (const double at : x) y.push_back(f(at));
    return {x, y};
}

}  // namespace

Drives drives_at(const Prepared& prepared, const LegCurves& curves, const AtMoment& at) {
    return LegDrives(prepared, curves).at(at);
}

struct CaseCurves::Made {
    Basis from;
    std::vector<std::vector<std::vector<double>>> runs_W;  ///< [bearing][bin][point]
    std::vector<Curve> films_W;                            ///< as LegCurves
    Curve oil_W;
    Curve steel_W;
    Curve housing_W;
};

struct CaseCurves::Path {
    Basis from;
    Curve W;
};

namespace {

/// The value under a key, or null.
template <class Key, class Value>
std::shared_ptr<const Value> kept(const std::map<Key, std::shared_ptr<const Value>>& all,
                                  const Key& key) {
    const auto found = all.find(key);
    return found == all.end() ? nullptr : found->second;
}

}  // namespace

CaseCurves::CaseCurves(const Prepared& prepared)
    : prepared_(prepared),
      coldest_degC_(std::min(coldest_beside_degC(prepared), prepared.start_degC) - 1) {}

// Curves that begin elsewhere have other points: none is the same.
CaseCurves::CaseCurves(const Prepared& prepared, const CaseCurves& like) : CaseCurves(prepared) {
    if (like.coldest_degC_ == coldest_degC_) like_ = &like;
}

const LegCurves& CaseCurves::at(std::size_t leg, const Switches& switches) {
    const LegState key{leg, switches.cooler, switches.pump, switches.fan};
    const auto found = legs_.find(key);
    if (found != legs_.end()) return found->second;
    LegCurves& curves = legs_[key];
    const Made& made = made_at(leg, switches.pump);
    curves.oil_W = made.oil_W;
    curves.steel_W = made.steel_W;
    curves.housing_W = made.housing_W;
    curves.films_W = made.films_W;
    curves.outside_W = outside(leg).W;
    curves.cooler_W = cooler(leg, switches).W;
    return curves;
}

const CaseCurves::Made& CaseCurves::made_at(std::size_t leg, bool pump_runs) {
    std::shared_ptr<const Made>& kept_here = made_[{leg, pump_runs}];
    if (kept_here) return *kept_here;
    const auto made = std::make_shared<Made>();
    made->from = losses_basis(prepared_, leg);
    const auto like = like_ == nullptr ? nullptr : kept(like_->made_, {leg, pump_runs});
    if (like && like->from == made->from) return *(kept_here = like);
    const Prepared from = whole(made->from);
    const PreparedLosses& terms = from.losses.front();
    // A bearing that turns and is loaded as it was, in the same oil, runs as it did.
    const auto runs_as = [&](std::size_t bin, std::size_t bearing) {
        if (!like || !(like->from.prepared.oil == from.oil)) return false;
        const auto& bins = like->from.prepared.losses.front().bins;
        return bin < bins.size() && bearing < bins[bin].bearings.size() &&
               bins[bin].bearings[bearing] == terms.bins[bin].bearings[bearing];
    };
    const std::vector<double> oil_degC = grid({coldest_degC_, oil_ceiling_degC}, curve_step_K, {});
    const std::size_t bearings = terms.bins.empty() ? 0 : terms.bins.front().bearings.size();
    made->runs_W.resize(bearings, std::vector<std::vector<double>>(terms.bins.size()));
    for (std::size_t b = 0; b < bearings; ++b)
        for (std::size_t bin = 0; bin < terms.bins.size(); ++bin) {
            std::vector<double>& run_W = made->runs_W[b][bin];
            if (runs_as(bin, b)) {
                run_W = like->runs_W[b][bin];
                continue;
            }
            for (const double unheated_degC : oil_degC)
                run_W.push_back(
                    run_bearing(from.oil, terms.bins[bin].bearings[b], unheated_degC).loss_W);
        }
    for (const FilmGroup& group : from.films) {
        if (terms.bins.empty()) break;
        std::vector<double> mean_W(oil_degC.size());
        for (const std::size_t b : group.bearings)
            for (std::size_t bin = 0; bin < terms.bins.size(); ++bin)
                for (std::size_t i = 0; i < mean_W.size(); ++i)
                    mean_W[i] += terms.bins[bin].share * made->runs_W[b][bin][i];
        made->films_W.emplace_back(oil_degC, std::move(mean_W));
    }
    // What the bearings lose is in their own curves.
    PreparedLosses others = terms;
    for (PreparedLosses::BinTerm& bin : others.bins) bin.bearings.clear();
    std::vector<double> oil_W;
    std::vector<double> steel_W;
    std::vector<double> housing_W;
    for (const double at_degC : oil_degC) {
        const LossesAt losses = losses_at(*from.setup, from.loads, from.oil, others,
                                          {.temp_degC = at_degC, .pump_runs = pump_runs});
        const HeatSplit heat = split(losses.ledger);
        oil_W.push_back(heat.oil_W);
        steel_W.push_back(heat.steel_W);
        housing_W.push_back(heat.housing_W);
    }
    made->oil_W = {oil_degC, oil_W};
    made->steel_W = {oil_degC, steel_W};
    made->housing_W = {oil_degC, housing_W};
    return *(kept_here = made);
}

const CaseCurves::Path& CaseCurves::outside(std::size_t leg) {
    std::shared_ptr<const Path>& kept_here = outside_[leg];
    if (kept_here) return *kept_here;
    const auto path = std::make_shared<Path>();
    path->from = outside_basis(prepared_, leg);
    const auto like = like_ == nullptr ? nullptr : kept(like_->outside_, leg);
    if (like && like->from == path->from) return *(kept_here = like);
    const Prepared from = whole(path->from);
    path->W =
        tabulated(grid({coldest_degC_, hottest_path_degC}, curve_step_K, {from.case_air_degC}),
                  [&](double housing_degC) {
                      const OutsideParts out = outside_parts(from, 0, housing_degC);
                      return out.convection_W + out.radiation_W;
                  });
    return *(kept_here = path);
}

const CaseCurves::Path& CaseCurves::cooler(std::size_t leg, const Switches& switches) {
    const LegState key{leg, switches.cooler, switches.pump, switches.fan};
    std::shared_ptr<const Path>& kept_here = cooler_[key];
    if (kept_here) return *kept_here;
    const auto path = std::make_shared<Path>();
    path->from = cooler_basis(prepared_, leg);
    const auto like = like_ == nullptr ? nullptr : kept(like_->cooler_, key);
    if (like && like->from == path->from) return *(kept_here = like);
    const Prepared from = whole(path->from);
    std::vector<double> kinks = {oil_ceiling_degC};
    // The thermostat bends the cooler's curve at both ends of its range: points close around the
    // bends keep the smooth curve through them within 0.01 K of the balance.
    if (const auto thermostat_degC = thermostat_opens_degC(*from.setup)) {
        const double opens_degC = *thermostat_degC;
        for (int step = 0; step <= 20; ++step)
            kinks.push_back(opens_degC + step * thermostat_range_K / 20);
        for (const double bend_degC : {opens_degC, opens_degC + thermostat_range_K})
            for (int step = -5; step <= 5; ++step) kinks.push_back(bend_degC + 0.1 * step);
    }
    path->W =
        tabulated(grid({coldest_degC_, hottest_path_degC}, cooler_step_K, kinks),
                  [&](double oil_degC) { return cooler_heat_W(from, 0, oil_degC, switches); });
    return *(kept_here = path);
}

LegCurves leg_curves(const Prepared& prepared, std::size_t leg, const Switches& switches) {
    return CaseCurves(prepared).at(leg, switches);
}

}  // namespace caseload
