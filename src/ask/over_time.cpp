// SPDX-License-Identifier: MIT
#include "ask/fast_case.hpp"
#include "caseload/ask/measured.hpp"
#include "caseload/ask/sheets.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

constexpr double half_minute_s = 30;
constexpr double moments_wanted = 160;

/// The nodes at a moment, linear between the samples of the event.
Nodes nodes_at(const EventHeat& heat, double t_s) {
    const auto after =
        std::lower_bound(heat.samples.begin(), heat.samples.end(), t_s,
                         [](const Sample& sample, double at_s) { return sample.t_s < at_s; });
    if (after == heat.samples.begin()) return heat.samples.front().nodes;
    if (after == heat.samples.end()) return heat.samples.back().nodes;
    const Sample& from = *(after - 1);
    const double u = (t_s - from.t_s) / (after->t_s - from.t_s);
    const auto between = [u](double a, double b) { return a + u * (b - a); };
    return {between(from.nodes.oil_degC, after->nodes.oil_degC),
            between(from.nodes.housing_degC, after->nodes.housing_degC),
            between(from.nodes.steel_degC, after->nodes.steel_degC)};
}

std::vector<Moment> moments(const EventHeat& heat) {
    const double whole_s = heat.runs.back().end_s;
    const double step_s =
        std::max(1.0, std::ceil(whole_s / moments_wanted / half_minute_s)) * half_minute_s;
    std::vector<Moment> all(1);
    for (std::size_t run = 0; run < heat.runs.size(); ++run) {
        const RunPeak& leg = heat.runs[run];
        const auto add = [&](double t_s) {
            Moment moment;
            moment.t_s = t_s;
            moment.run = static_cast<int>(run);
            all.push_back(moment);
        };
        for (int k = 1; leg.start_s + k * step_s < leg.end_s; ++k) add(leg.start_s + k * step_s);
        add(leg.end_s);
    }
    return all;
}

}  // namespace

std::vector<Moment> over_time(const Setup& setup, const Assessment& likely,
                              const BandOptions& options) {
    std::vector<Moment> all = moments(likely.fitted.event);
    OilTrace empty;
    for (Moment& moment : all) {
        moment.likely = nodes_at(likely.fitted.event, moment.t_s);
        empty.at_s.push_back(moment.t_s);
    }
    const FastCase fast(setup);
    const auto points = sobol_points(options.draws);
    const FactorDraws drawn(setup);
    std::vector<OilTrace> traces(points.size(), empty);
    std::vector<OilTrace> without(likely.has_cooler ? points.size() : 0, empty);
    options.for_each(points.size(), [&](std::size_t i) {
        const Factors factors = drawn(points[i]);
        fast.follow(factors, true, traces[i]);
        if (likely.has_cooler) fast.follow(factors, false, without[i]);
    });
    std::vector<double> sample(points.size());
    for (std::size_t k = 0; k < all.size(); ++k) {
        for (std::size_t i = 0; i < traces.size(); ++i) sample[i] = traces[i].oil_degC[k];
        all[k].oil_degC = percentiles(sample);
        for (std::size_t i = 0; i < without.size(); ++i) sample[i] = without[i].oil_degC[k];
        all[k].without_cooler_degC = percentiles(sample).p50;
    }
    return all;
}

std::string worn_by(const BearingDamage& bearing) {
    // Below this the film carries little and additives do the work; ISO 281 has no curve below 0.1.
    constexpr double touching_kappa = 0.4;
    if (bearing.life_share <= 0) return "nothing that counts";
    if (bearing.worst_kappa < touching_kappa) return "oil film too thin: metal touches";
    if (bearing.worst_kappa < 1) return "thin oil film";
    if (bearing.life_share > bearing.basic_life_share) return "dirt in the oil";
    return "load alone";
}

}  // namespace caseload
