// SPDX-License-Identifier: MIT
// The event through its runs, and what it uses of bearings and oil.
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::why_detail {
namespace {

std::string run_at(std::size_t run) {
    return fmt::format("run/{}", run + 1);
}

/// What one run of the event alone uses up. Samples without time before it keep the range of
/// temperatures, and with it the curves, those of the whole event.
Damage damage_of_run(const Gather& gather, int run) {
    const EventHeat& whole = gather.answer.fitted.event;
    EventHeat one = whole;
    one.samples.clear();
    const auto colder = [](const Sample& a, const Sample& b) {
        return a.nodes.oil_degC < b.nodes.oil_degC;
    };
    const auto [coldest, warmest] =
        std::minmax_element(whole.samples.begin(), whole.samples.end(), colder);
    for (std::size_t i = 1; i < whole.samples.size(); ++i) {
        if (whole.samples[i].run != run) continue;
        if (one.samples.empty())
            for (const Sample& sample : {*coldest, *warmest, whole.samples[i - 1]}) {
                one.samples.push_back(sample);
                one.samples.back().t_s = whole.samples[i - 1].t_s;
                one.samples.back().run = run;
            }
        one.samples.push_back(whole.samples[i]);
    }
    if (one.samples.empty()) return {};
    return event_damage(gather.prepared, one);
}

struct Hottest {
    double oil_degC = -oil_ceiling_degC;
    double steel_degC = -oil_ceiling_degC;
};

Hottest hottest(const Gather& gather, std::size_t leg) {
    Hottest out;
    for (const Sample& sample : gather.answer.fitted.event.samples) {
        const int at = gather.setup.event.run[static_cast<std::size_t>(sample.run)];
        if (static_cast<std::size_t>(at) != leg) continue;
        out.oil_degC = std::max(out.oil_degC, sample.nodes.oil_degC);
        out.steel_degC = std::max(out.steel_degC, sample.nodes.steel_degC);
    }
    return out;
}

void add_runs(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    const Assessment& answer = gather.answer;
    Collector& to = gather.to;
    const EventHeat& event = answer.fitted.event;
    std::vector<std::string> peaks;
    std::vector<std::string> hours;
    std::vector<std::string> ways;
    for (std::size_t k = 0; k < event.runs.size(); ++k) {
        const RunPeak& run = event.runs[k];
        const LegInput& leg = setup.event.legs[static_cast<std::size_t>(run.leg)];
        if (!to.has("rest.duration_s@" + leg.name))
            to.add({"rest", "rest", leg.name, {}}, "duration_s", leg.duration_s).origin =
                to.origin_of("leg." + leg.name + ".duration");
        const Collector::Place place{"run", "event", run_at(k), {}};
        Number& start = to.add(place, "start_s", run.start_s, quantity("run", "start_s"));
        if (k == 0)
            nothing(start, "the event begins");
        else
            start.value_of = fmt::format("[event.end_s@{}]", run_at(k - 1));
        to.add(place, "end_s", run.end_s, quantity("run", "end_s")).value_of =
            fmt::format("start_s + [rest.duration_s@{}]", leg.name);
        to.add(place, "peak_oil_degC", run.peak_oil_degC, quantity("run", "peak_oil_degC"));
        to.add(place, "end_oil_degC", run.end_oil_degC, quantity("run", "end_oil_degC"));
        peaks.push_back(fmt::format("[event.peak_oil_degC@{}]", run_at(k)));
        if (leg.kind != LegKind::drive) continue;
        hours.push_back(fmt::format("([event.end_s@{0}] - [event.start_s@{0}]) / 3600", run_at(k)));
        ways.push_back(fmt::format("[rest.distance_m@{}]", leg.name));
    }
    const Collector::Place place{"event", "event", {}, {}};
    to.add(place, "start_degC", prepared.start_degC).origin =
        setup.event.oil_at_start_entered ? to.origin_of("event.oil_at_start") : "the ambient";
    to.add(place, "peak_oil_degC", event.peak_oil_degC, quantity("event", "peak_oil_degC"))
        .value_of = "max(start_degC, " + extreme_of("max", peaks) + ")";
    to.add(place, "peak_housing_degC", event.peak_housing_degC,
           quantity("event", "peak_housing_degC"));
    to.add(place, "peak_at_s", event.peak_at_s, quantity("event", "peak_at_s"));
    to.add(place, "driving_h", answer.driving_h, quantity("assessment", "driving_h")).value_of =
        hours.empty() ? "0" : sum_of(hours);
    to.add(place, "distance_m", answer.distance_m, quantity("assessment", "distance_m")).value_of =
        ways.empty() ? "0" : sum_of(ways);
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        const Hottest hot = hottest(gather, leg);
        if (hot.oil_degC <= -oil_ceiling_degC) continue;
        const Collector::Place there{"event", "event", setup.event.legs[leg].name, {}};
        to.add(there, "hottest_oil_degC", hot.oil_degC);
        to.add(there, "hottest_steel_degC", hot.steel_degC);
    }
}

}  // namespace

void add_event(const Gather& gather) {
    const Prepared& prepared = gather.prepared;
    const Assessment& answer = gather.answer;
    Collector& to = gather.to;
    if (answer.fitted.event.runs.empty()) return;
    add_runs(gather);
    const std::size_t runs = answer.fitted.event.runs.size();
    std::vector<Damage> parts;
    parts.reserve(runs);
    for (std::size_t k = 0; k < runs; ++k)
        parts.push_back(damage_of_run(gather, static_cast<int>(k)));
    const auto split = [&](const Collector::Place& place, const char* member, double whole,
                           const Quantity& row, const auto& of) {
        std::vector<std::string> terms;
        for (std::size_t k = 0; k < runs; ++k) {
            Collector::Place at = place;
            at.at = run_at(k);
            Number& part = to.add(at, std::string(member), of(parts[k]));
            part.words = row.words + ", in this run: rate times time, summed over its samples";
            part.how = "integrated";
            part.source = row.source;
            terms.push_back(fmt::format("[{}.{}@{}]", place.part, member, run_at(k)));
        }
        to.add(place, member, whole, row).value_of = sum_of(terms);
    };
    split({"event", "event", {}, {}}, "oil_dose", answer.fitted.damage.oil_dose,
          quantity("damage", "oil_dose"), [](const Damage& part) { return part.oil_dose; });
    for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b)
        split({"life", "bearing." + prepared.loads.bearings[b].name, {}, {}}, "life_share",
              answer.fitted.damage.bearings[b].life_share, quantity("bearing_damage", "life_share"),
              [b](const Damage& part) {
                  return part.bearings.empty() ? 0 : part.bearings[b].life_share;
              });
}

void add_lives(const Gather& gather) {
    const Setup& setup = gather.setup;
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
            if (!to.has("event.hottest_oil_degC@" + leg.name)) continue;
            const auto index = static_cast<std::size_t>(leg.leg);
            const double hot_degC = to.number("event.hottest_oil_degC@" + leg.name).value;
            const auto times = std::count(setup.event.run.begin(), setup.event.run.end(), leg.leg);
            for (std::size_t bin = 0; bin < prepared.loads.legs[index].bins.size(); ++bin) {
                const std::string at = in_bin(leg.name, bin);
                if (!to.has(part + ".n_rpm@" + at)) continue;
                const double rate =
                    prepared.loads.legs[index].bins[bin].bin.share *
                    bearing_condition(prepared, {index, bin, b}, hot_degC, nullptr).rate_per_h;
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
            to.add(place, member, value, quantity("bearing_damage", member)).value_of = formula;
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
