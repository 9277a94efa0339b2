// SPDX-License-Identifier: MIT
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
    if (heat.runs.empty()) return std::vector<Moment>(1);
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

OilTraces oil_traces(const Assessment& likely) {
    OilTraces traces;
    for (const Moment& moment : moments(likely.fitted.event)) traces.at_s.push_back(moment.t_s);
    return traces;
}

std::vector<Moment> over_time(const Assessment& likely, const OilTraces& traces) {
    std::vector<Moment> all = moments(likely.fitted.event);
    std::vector<double> sample(traces.with_degC.size());
    for (std::size_t k = 0; k < all.size(); ++k) {
        all[k].likely = nodes_at(likely.fitted.event, all[k].t_s);
        for (std::size_t i = 0; i < sample.size(); ++i) sample[i] = traces.with_degC[i].at(k);
        all[k].oil_degC = percentiles(sample);
        for (std::size_t i = 0; i < traces.without_degC.size(); ++i)
            sample[i] = traces.without_degC[i].at(k);
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
