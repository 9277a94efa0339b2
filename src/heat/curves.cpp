// SPDX-License-Identifier: MIT
// What each leg's network is made of, as curves over temperature.
#include "caseload/error.hpp"
#include "caseload/heat_curves.hpp"
#include "heat/at_oil.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// Points of the curves. Halving them moves no temperature of the examples by more than 2e-3 K; the
// cooler's takes more, as its pressure bypass bends it at an unknown place in each bin.
constexpr double curve_step_K = 8;
constexpr double cooler_step_K = 4;
// Paths beyond what anything stands are followed in longer steps.
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

/// A path's heat; beyond the hottest point tabulated in proportion to the difference to its air.
struct PathEnds {
    double temp_degC;
    double air_degC;
};

double path_W(const Curve& curve, const PathEnds& ends) {
    const auto& [temp_degC, air_degC] = ends;
    if (temp_degC <= hottest_path_degC) return curve(temp_degC);
    return curve(hottest_path_degC) * (temp_degC - air_degC) / (hottest_path_degC - air_degC);
}

}  // namespace

Drives drives_at(const Prepared& prepared, const LegCurves& curves, const AtMoment& at) {
    const Nodes& nodes = at.nodes;
    return {{curves.oil_W(nodes.oil_degC), curves.steel_W(nodes.oil_degC),
             curves.housing_W(nodes.oil_degC)},
            path_W(curves.outside_W, {nodes.housing_degC, prepared.case_air_degC}),
            path_W(curves.cooler_W, {nodes.oil_degC, prepared.cooler_air_degC}),
            at.exhaust_W,
            at.paths};
}

CaseCurves::CaseCurves(const Prepared& prepared)
    : prepared_(prepared),
      coldest_degC_(std::min({prepared.ambient_degC, prepared.case_air_degC, prepared.start_degC}) -
                    1) {}

const LegCurves& CaseCurves::at(std::size_t leg, const Switches& switches) {
    const auto key = std::make_tuple(leg, switches.cooler, switches.pump, switches.fan);
    const auto found = legs_.find(key);
    if (found != legs_.end()) return found->second;
    LegCurves& curves = legs_[key];
    const Made& made = made_at(leg, switches.pump);
    curves.oil_W = made.oil_W;
    curves.steel_W = made.steel_W;
    curves.housing_W = made.housing_W;
    curves.outside_W = outside(leg);
    curves.cooler_W = cooler(leg, switches);
    return curves;
}

const CaseCurves::Made& CaseCurves::made_at(std::size_t leg, bool pump_runs) {
    const auto key = std::make_pair(leg, pump_runs);
    const auto found = made_.find(key);
    if (found != made_.end()) return found->second;
    const std::vector<double> oil_degC = grid({coldest_degC_, oil_ceiling_degC}, curve_step_K, {});
    std::vector<double> oil_W;
    std::vector<double> steel_W;
    std::vector<double> housing_W;
    for (const double at_degC : oil_degC) {
        const LossesAt losses =
            losses_at(*prepared_.setup, prepared_.loads, prepared_.oil, prepared_.losses[leg],
                      {.temp_degC = at_degC, .pump_runs = pump_runs});
        const HeatSplit made = split(losses.ledger);
        oil_W.push_back(made.oil_W);
        steel_W.push_back(made.steel_W);
        housing_W.push_back(made.housing_W);
    }
    Made& made = made_[key];
    made.oil_W = {oil_degC, oil_W};
    made.steel_W = {oil_degC, steel_W};
    made.housing_W = {oil_degC, housing_W};
    return made;
}

const Curve& CaseCurves::outside(std::size_t leg) {
    const auto found = outside_.find(leg);
    if (found != outside_.end()) return found->second;
    return outside_[leg] = tabulated(
               grid({coldest_degC_, hottest_path_degC}, curve_step_K, {prepared_.case_air_degC}),
               [&](double housing_degC) {
                   const OutsideParts out = outside_parts(prepared_, leg, housing_degC);
                   return out.convection_W + out.radiation_W;
               });
}

Curve CaseCurves::cooler(std::size_t leg, const Switches& switches) const {
    const CoolerInput& fitted = prepared_.setup->cooler;
    std::vector<double> kinks = {oil_ceiling_degC};
    // The thermostat bends the cooler's curve at both ends of its range: points close around the
    // bends keep the smooth curve through them within 0.01 K of the balance.
    if (fitted.thermostat_opens_degC) {
        const double opens_degC = *fitted.thermostat_opens_degC;
        for (int step = 0; step <= 20; ++step)
            kinks.push_back(opens_degC + step * thermostat_range_K / 20);
        for (const double bend_degC : {opens_degC, opens_degC + thermostat_range_K})
            for (int step = -5; step <= 5; ++step) kinks.push_back(bend_degC + 0.1 * step);
    }
    return tabulated(
        grid({coldest_degC_, hottest_path_degC}, cooler_step_K, kinks),
        [&](double oil_degC) { return cooler_heat_W(prepared_, leg, oil_degC, switches); });
}

LegCurves leg_curves(const Prepared& prepared, std::size_t leg, const Switches& switches) {
    return CaseCurves(prepared).at(leg, switches);
}

}  // namespace caseload
