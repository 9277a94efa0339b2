// SPDX-License-Identifier: MIT
// The event through its runs, and what it uses of bearings and oil.
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::why_detail {
namespace {

/// Hotter films wear more: the rate in the settled leg bounds a run in which oil, housing and steel
/// stay on one side of it.
void bound_lives(const Gather& gather, std::size_t run) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto index = static_cast<std::size_t>(gather.answer.fitted.event.runs[run].leg);
    const LegLoads& leg = prepared.loads.legs[index];
    const std::string at = run_at(run);
    const auto settled = std::find_if(
        gather.answer.fitted.legs.begin(), gather.answer.fitted.legs.end(),
        [&](const LegAnswer& one) { return static_cast<std::size_t>(one.leg) == index; });
    bool below = to.has("rest.oil_degC@" + leg.name);
    bool above = below;
    for (std::size_t i = 0; below || above; ++i) {
        if (i == gather.answer.fitted.event.samples.size()) break;
        const auto& samples = gather.answer.fitted.event.samples;
        const bool of_run = samples[i].run == static_cast<int>(run) ||
                            (i + 1 < samples.size() && samples[i + 1].run == static_cast<int>(run));
        if (!of_run) continue;
        for (double Nodes::* node : {&Nodes::oil_degC, &Nodes::housing_degC, &Nodes::steel_degC}) {
            below = below && samples[i].nodes.*node <= settled->at_rest.nodes.*node;
            above = above && samples[i].nodes.*node >= settled->at_rest.nodes.*node;
        }
    }
    for (const BearingData& bearing : prepared.loads.bearings) {
        Number& share = to.number(fmt::format("bearing.{}.life_share@{}", bearing.name, at));
        if (share.value <= 0) mark_as_zero(share, "nothing turns under load");
        std::vector<std::string> rates;
        for (std::size_t bin = 0; bin < leg.bins.size(); ++bin) {
            const std::string there = in_bin(leg.name, bin);
            if (to.has(fmt::format("bearing.{}.rate_per_h@{}", bearing.name, there)))
                rates.push_back(fmt::format("[duty.share@{0}] * [bearing.{1}.rate_per_h@{0}]",
                                            there, bearing.name));
        }
        if (rates.empty() || !share.origin.empty()) continue;
        const std::string all =
            fmt::format("[rest.duration_s@{}] / 3600 * ({})", leg.name, sum_of(rates));
        if (below) share.at_most = all;
        if (above) share.at_least = all;
    }
}

/// A bearing's film without its loss where a leg is hottest: between what the case is at the end of
/// the leg's last run and what each part reaches alone.
void add_hottest_film(const Gather& gather, const LegAnswer& leg, std::size_t b, double degC) {
    Collector& to = gather.to;
    const BearingData& data = gather.prepared.loads.bearings[b];
    const auto& runs = gather.answer.fitted.event.runs;
    std::size_t last = 0;
    for (std::size_t k = 0; k < runs.size(); ++k)
        if (runs[k].leg == leg.leg) last = k;
    const auto mixed = [](const std::string& when, const std::string& at) {
        return fmt::format(
            "min((film_housing_WpK * [event.{0}_housing_degC@{1}] + film_steel_WpK "
            "* [event.{0}_steel_degC@{1}] + film_oil_WpK * "
            "[event.{0}_oil_degC@{1}]) / path_WpK, 160)",
            when, at);
    };
    Number& hottest =
        to.add({"bearing", "bearing." + data.name, leg.name, {}}, "hottest_unheated_degC", degC);
    hottest.at_least = mixed("end", run_at(last));
    hottest.at_most = mixed("hottest", leg.name);
}

}  // namespace

void add_event(const Gather& gather) {
    const Prepared& prepared = gather.prepared;
    const Assessment& answer = gather.answer;
    Collector& to = gather.to;
    if (answer.fitted.event.runs.empty()) return;
    add_runs(gather);
    const std::size_t runs = answer.fitted.event.runs.size();
    std::vector<RunDamage> parts;
    event_damage(prepared, answer.fitted.event, &parts);
    const auto split = [&](const Collector::Place& place, const char* member, double whole,
                           const Quantity& row, const auto& of) {
        std::vector<std::string> terms;
        for (std::size_t k = 0; k < runs; ++k) {
            const Collector::Place at{place.kind + "_run", place.part, run_at(k), {}};
            Number& part = to.add(at, std::string(member), of(parts[k]), row);
            part.words = row.words + ", in this run";
            part.row.clear();
            terms.push_back(fmt::format("[{}.{}@{}]", place.part, member, run_at(k)));
        }
        to.add(place, member, whole, row).value_of = sum_of(terms);
    };
    split({"event", "event", {}, {}}, "oil_dose", answer.fitted.damage.oil_dose,
          quantity("damage", "oil_dose"), [](const RunDamage& part) { return part.oil_dose; });
    for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b)
        split({"life", "bearing." + prepared.loads.bearings[b].name, {}, {}}, "life_share",
              answer.fitted.damage.bearings[b].life_share, quantity("bearing_damage", "life_share"),
              [b](const RunDamage& part) { return part.life_shares[b]; });
    for (std::size_t k = 0; k < runs; ++k) bound_lives(gather, k);
}

void add_lives(const Gather& gather) {
    const Prepared& prepared = gather.prepared;
    const Assessment& answer = gather.answer;
    Collector& to = gather.to;
    for (std::size_t b = 0; b < answer.fitted.damage.bearings.size(); ++b) {
        const BearingDamage& used = answer.fitted.damage.bearings[b];
        const BearingData& data = prepared.loads.bearings[b];
        const std::string part = "bearing." + data.name;
        std::vector<std::string> kappas;
        std::vector<std::string> films;
        std::vector<std::string> loads;
        std::vector<std::string> basic;
        std::string most;
        double worst_rate = -1;
        for (const LegAnswer& leg : answer.fitted.legs) {
            const auto index = static_cast<std::size_t>(leg.leg);
            const auto hot_degC = hottest_unheated_degC(prepared, answer.fitted.event, index, b);
            if (!hot_degC) continue;
            add_hottest_film(gather, leg, b, *hot_degC);
            const int times = times_run(gather.setup, index);
            for (std::size_t bin = 0; bin < prepared.loads.legs[index].bins.size(); ++bin) {
                const std::string at = in_bin(leg.name, bin);
                if (!to.has(part + ".n_rpm@" + at)) continue;
                const double rate =
                    prepared.loads.legs[index].bins[bin].bin.share *
                    bearing_condition(prepared, {index, bin, b}, *hot_degC, nullptr).rate_per_h;
                if (rate > worst_rate) {
                    worst_rate = rate;
                    most = at;
                }
                add_hot(gather, leg, {index, bin, b});
                kappas.push_back(fmt::format("[{}.kappa@hot/{}]", part, at));
                films.push_back(fmt::format("[{}.film_degC@hot/{}]", part, at));
                loads.push_back(fmt::format("[{}.P_N@{}]", part, at));
                if (to.has(part + ".basic_rate_per_h@" + at))
                    basic.push_back(
                        fmt::format("{} * [rest.duration_s@{}] / 3600 * "
                                    "[duty.share@{}] * [{}.basic_rate_per_h@{}]",
                                    times, leg.name, at, part, at));
            }
        }
        if (kappas.empty()) continue;
        const Collector::Place place{"life", part, {}, {}};
        const auto add = [&](const char* member, double value, const std::string& formula) {
            to.add(place, value, quantity("bearing_damage", member)).value_of = formula;
        };
        add("basic_life_share", used.basic_life_share, basic.empty() ? "0" : sum_of(basic));
        add("worst_kappa", used.worst_kappa, extreme_of("min", kappas));
        add("worst_film_degC", used.worst_film_degC, extreme_of("max", films));
        add("P_largest_N", used.P_largest_N, extreme_of("max", loads));
        if (to.has(part + ".clock_deg@" + most))
            add("clock_deg", used.clock_deg, fmt::format("[{}.clock_deg@{}]", part, most));
    }
}

}  // namespace caseload::why_detail
