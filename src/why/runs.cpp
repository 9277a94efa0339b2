// SPDX-License-Identifier: MIT
// The event run by run: temperatures at both ends of each, and the heat balance of each node over
// it. The balance is summed along the result by its own steps, not by the chain's.
#include "heat/at_oil.hpp"
#include "heat/event_walk.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace caseload::why_detail {
namespace {

/// Mean heat flows of a run.
struct Flows {
    double made_oil_W = 0;
    double made_housing_W = 0;
    double made_steel_W = 0;
    double oil_to_housing_W = 0;
    double oil_to_steel_W = 0;
    double steel_to_housing_W = 0;
    double exhaust_W = 0;
    double neighbour_W = 0;
    double outside_W = 0;
    double cooler_W = 0;
};

constexpr std::array<std::pair<const char*, double Flows::*>, 10> flow_members{
    {{"made_oil_W", &Flows::made_oil_W},
     {"made_housing_W", &Flows::made_housing_W},
     {"made_steel_W", &Flows::made_steel_W},
     {"oil_to_housing_W", &Flows::oil_to_housing_W},
     {"oil_to_steel_W", &Flows::oil_to_steel_W},
     {"steel_to_housing_W", &Flows::steel_to_housing_W},
     {"exhaust_W", &Flows::exhaust_W},
     {"neighbour_W", &Flows::neighbour_W},
     {"outside_W", &Flows::outside_W},
     {"cooler_W", &Flows::cooler_W}}};

Flows flows(const Nodes& nodes, const Drives& drives) {
    const Conductances& path = drives.paths;
    Flows now;
    now.made_oil_W = drives.made.oil_W;
    now.made_housing_W = drives.made.housing_W;
    now.made_steel_W = drives.made.steel_W;
    now.oil_to_housing_W = path.oil_housing_WpK * (nodes.oil_degC - nodes.housing_degC);
    now.oil_to_steel_W = path.oil_steel_WpK * (nodes.oil_degC - nodes.steel_degC);
    now.steel_to_housing_W = path.steel_housing_WpK * (nodes.steel_degC - nodes.housing_degC);
    now.exhaust_W = drives.exhaust_W;
    now.neighbour_W = path.neighbour_WpK * (drives.neighbour_degC - nodes.housing_degC);
    now.outside_W = drives.outside_W;
    now.cooler_W = drives.cooler_W;
    return now;
}

/// The samples of a run: the one it begins with, and its last.
struct RunSamples {
    std::size_t first;
    std::size_t last;
};

/// Replays the event's samples, run by run.
class EventReplay {
public:
    explicit EventReplay(const Gather& gather)
        : prepared_(gather.prepared),
          samples_(gather.answer.fitted.event.samples),
          curves_(gather.prepared),
          walk_(gather.setup, {}, bolted_to(gather.prepared)) {}

    /// Mean flows of the next run, which ends at a sample; Simpson's rule over 64 parts of the way
    /// between two samples, as the cooler's curve bends.
    Flows next(const RunPeak& run, const RunSamples& at) {
        constexpr int parts = 64;
        const auto leg = static_cast<std::size_t>(run.leg);
        Flows sum;
        std::size_t i = at.first;
        const auto step = [&](const LegStretch& stretch) {
            const Sample& from = samples_[i];
            const Sample& to = samples_[++i];
            const LegCurves& curves = curves_.at(leg, stretch.on);
            const Conductances paths = stretch.stop ? in_stop(prepared_) : prepared_.driving;
            const auto drives = [&](double t_s, const Nodes& nodes) {
                return drives_at(prepared_, curves, {nodes, stretch.beside(t_s), paths});
            };
            const double step_s = (to.t_s - from.t_s) / parts;
            int point = 0;
            const auto take = [&](double t_s, const Nodes& nodes) {
                const int weight = point == 0 || point == parts ? 1 : point % 2 == 1 ? 4 : 2;
                const Flows now = flows(nodes, drives(t_s, nodes));
                for (const auto& [name, flow] : flow_members)
                    sum.*flow += weight * step_s / 3 * now.*flow;
                ++point;
            };
            Nodes nodes = from.nodes;
            take(from.t_s, nodes);
            integrate(prepared_.capacities, nodes, {from.t_s, to.t_s, step_s}, drives, take);
            return i == at.last ? stretch.end_s : to.t_s;
        };
        walk_.now.t_s = run.start_s;
        walk_.leg(
            prepared_.setup->event.legs[leg], exhaust_driving_W(prepared_, leg),
            [&] { return samples_[i].nodes.oil_degC; }, step);
        for (const auto& [name, flow] : flow_members) sum.*flow /= run.end_s - run.start_s;
        return sum;
    }

private:
    const Prepared& prepared_;
    const std::vector<Sample>& samples_;
    CaseCurves curves_;
    EventWalk walk_;
};

struct Node {
    const char* name;
    double Nodes::* degC;
};
constexpr std::array<Node, 3> three_nodes{
    {{"oil", &Nodes::oil_degC}, {"housing", &Nodes::housing_degC}, {"steel", &Nodes::steel_degC}}};

class RunNumbers {
public:
    RunNumbers(const Gather& gather, std::size_t run, const RunSamples& at)
        : samples_(gather.answer.fitted.event.samples),
          to_(gather.to),
          run_(run),
          at_(at),
          place_{"run", "event", run_at(run), flange_variant(gather.prepared)},
          bolted_(bolted(gather.prepared)) {}

    void add_ends(const RunPeak& run) {
        for (const Node& node : three_nodes) {
            const std::string start = fmt::format("start_{}_degC", node.name);
            const std::string end = fmt::format("end_{}_degC", node.name);
            to_.step(place_, start,
                     run_ == 0 ? "[event.start_degC]"
                               : fmt::format("[event.{}@{}]", end, run_at(run_ - 1)));
            const bool oil = node.degC == &Nodes::oil_degC;
            Number& at_end =
                to_.add(place_, end, oil ? run.end_oil_degC : samples_[at_.last].nodes.*node.degC,
                        oil ? quantity("run", "end_oil_degC") : Quantity{});
            if (at_.first == at_.last) {
                at_end.equation.clear();
                at_end.value_of = start;
            }
            add_extreme(node, true);
        }
        add_extreme(three_nodes[0], false);
        to_.add(place_, run.peak_oil_degC, quantity("run", "peak_oil_degC"));
    }

    /// None where a path is hotter than calculated: then no balance is shown.
    void add_flows(const Flows* mean) {
        if (mean != nullptr)
            for (const auto& [name, flow] : flow_members) {
                if (flow == &Flows::neighbour_W && !bolted_) continue;
                to_.add(place_, name, mean->*flow).is_intermediate = true;
            }
        else if (at_.first != at_.last)
            for (const Node& node : three_nodes)
                to_.number(fmt::format("event.end_{}_degC@{}", node.name, place_.at))
                    .equation.clear();
    }

private:
    /// The hottest of a node in the run after its start, or the coldest with its start. At an end
    /// it is that end's; between, the node's own balance is 0 there.
    void add_extreme(const Node& node, bool hottest) {
        const double start_degC = samples_[at_.first].nodes.*node.degC;
        const double end_degC = samples_[at_.last].nodes.*node.degC;
        double most_degC = hottest && at_.first != at_.last
                               ? samples_[at_.first + 1].nodes.*node.degC
                               : start_degC;
        for (std::size_t i = at_.first + 1; i <= at_.last; ++i) {
            const double now_degC = samples_[i].nodes.*node.degC;
            most_degC = hottest ? std::max(most_degC, now_degC) : std::min(most_degC, now_degC);
        }
        const std::string start = fmt::format("start_{}_degC", node.name);
        const std::string end = fmt::format("end_{}_degC", node.name);
        Number& number =
            to_.add(place_, fmt::format("{}_{}_degC", hottest ? "hottest" : "coldest", node.name),
                    most_degC);
        if (most_degC == end_degC)
            number.value_of = end;
        else if (most_degC == start_degC)
            number.value_of = start;
        else if (!hottest)
            number.at_most = fmt::format("min({}, {})", start, end);
        else if (most_degC > start_degC)
            number.at_least = fmt::format("max({}, {})", start, end);
        else {
            number.at_least = end;
            number.at_most = start;
        }
    }

    const std::vector<Sample>& samples_;
    Collector& to_;
    std::size_t run_;
    RunSamples at_;
    Collector::Place place_;
    bool bolted_;
};

/// What the nodes store a kelvin.
void add_capacities(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Capacities& stores = gather.prepared.capacities;
    Collector& to = gather.to;
    const Collector::Place place{"event", "event", {}, {}};
    to.add(place, "oil_JpK", stores.oil_JpK);
    to.add(place, "housing_JpK", stores.housing_JpK);
    to.add(place, "steel_JpK", stores.steel_JpK);
    if (setup.housing.mass_kg)
        to.add(place, "housing_kg", *setup.housing.mass_kg).origin = to.origin_of("housing.mass");
    to.steps_of(place);
}

/// Hottest sample of a leg; the event's start is the first of all.
double hottest_degC(const Gather& gather, std::size_t leg, const Node& node) {
    double most_degC = -oil_ceiling_degC;
    const auto& samples = gather.answer.fitted.event.samples;
    for (const Sample& sample : samples)
        if (static_cast<std::size_t>(
                gather.setup.event.run[static_cast<std::size_t>(sample.run)]) == leg)
            most_degC = std::max(most_degC, sample.nodes.*node.degC);
    return most_degC;
}

/// The largest of a number over the runs of a leg.
std::string every_run(const EventHeat& event, const std::string& member, std::size_t leg) {
    std::vector<std::string> runs;
    for (std::size_t k = 0; k < event.runs.size(); ++k)
        if (static_cast<std::size_t>(event.runs[k].leg) == leg)
            runs.push_back(fmt::format("[event.{}@{}]", member, run_at(k)));
    return extreme_of("max", runs);
}

/// Hottest of the whole event, and of each leg; the event's start counts with its first leg.
void add_hottest(const Gather& gather) {
    const Setup& setup = gather.setup;
    const EventHeat& event = gather.answer.fitted.event;
    Collector& to = gather.to;
    const Collector::Place place{"event", "event", {}, {}};
    std::vector<std::string> oils{"start_degC"};
    std::vector<std::string> housings{"start_degC"};
    for (std::size_t k = 0; k < event.runs.size(); ++k) {
        oils.push_back(fmt::format("[event.peak_oil_degC@{}]", run_at(k)));
        housings.push_back(fmt::format("[event.hottest_housing_degC@{}]", run_at(k)));
    }
    to.add(place, event.peak_oil_degC, quantity("event", "peak_oil_degC")).value_of =
        extreme_of("max", oils);
    to.add(place, event.peak_housing_degC, quantity("event", "peak_housing_degC")).value_of =
        extreme_of("max", housings);
    Number& when = to.add(place, event.peak_at_s, quantity("event", "peak_at_s"));
    if (event.peak_at_s <= 0) mark_as_zero(when, "it is hottest at the start");
    for (std::size_t k = 0; k < event.runs.size(); ++k) {
        if (event.peak_at_s <= event.runs[k].start_s || event.peak_at_s > event.runs[k].end_s)
            continue;
        const std::string end = fmt::format("[event.end_s@{}]", run_at(k));
        if (event.peak_at_s == event.runs[k].end_s) {
            when.value_of = end;
        } else {
            when.at_least = fmt::format("[event.start_s@{}]", run_at(k));
            when.at_most = end;
        }
    }
    const auto first_leg = static_cast<std::size_t>(event.runs.front().leg);
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg) {
        const Collector::Place there{"event", "event", setup.event.legs[leg].name, {}};
        for (const Node& node : three_nodes) {
            const std::string member = fmt::format("hottest_{}_degC", node.name);
            const std::string runs = every_run(event, member, leg);
            if (!runs.empty())
                to.add(there, member, hottest_degC(gather, leg, node)).value_of =
                    leg == first_leg ? "max(start_degC, " + runs + ")" : runs;
        }
    }
}

}  // namespace

std::string run_at(std::size_t run) {
    return fmt::format("run/{}", run + 1);
}

void add_runs(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Assessment& answer = gather.answer;
    Collector& to = gather.to;
    const EventHeat& event = answer.fitted.event;
    const Collector::Place place{"event", "event", {}, {}};
    to.add(place, "start_degC", gather.prepared.start_degC).origin =
        setup.event.oil_at_start_entered ? to.origin_of("event.oil_at_start") : "the ambient";
    add_capacities(gather);
    EventReplay again(gather);
    std::vector<std::string> hours;
    std::vector<std::string> ways;
    std::size_t sample = 0;
    for (std::size_t k = 0; k < event.runs.size(); ++k) {
        const RunPeak& run = event.runs[k];
        const LegInput& leg = setup.event.legs[static_cast<std::size_t>(run.leg)];
        RunSamples at{sample, sample};
        while (at.last + 1 < event.samples.size() &&
               event.samples[at.last + 1].run == static_cast<int>(k))
            ++at.last;
        sample = at.last;
        if (!to.has("rest.duration_s@" + leg.name))
            to.add({"rest", "rest", leg.name, {}}, "duration_s", leg.duration_s).origin =
                to.origin_of("leg." + leg.name + ".duration");
        const Collector::Place there{"run", "event", run_at(k), {}};
        Number& start = to.add(there, run.start_s, quantity("run", "start_s"));
        if (k == 0)
            mark_as_zero(start, "the event begins");
        else
            start.value_of = fmt::format("[event.end_s@{}]", run_at(k - 1));
        to.add(there, run.end_s, quantity("run", "end_s")).value_of =
            fmt::format("start_s + [rest.duration_s@{}]", leg.name);
        const bool paths_known = std::all_of(
            event.samples.begin() + static_cast<std::ptrdiff_t>(at.first),
            event.samples.begin() + static_cast<std::ptrdiff_t>(at.last) + 1,
            [](const Sample& one) {
                return std::max(one.nodes.oil_degC, one.nodes.housing_degC) < hottest_path_degC;
            });
        RunNumbers numbers(gather, k, at);
        numbers.add_ends(run);
        if (paths_known && at.first != at.last) {
            const Flows mean = again.next(run, at);
            numbers.add_flows(&mean);
        } else {
            numbers.add_flows(nullptr);
        }
        if (leg.kind != LegKind::drive) continue;
        hours.push_back(fmt::format("([event.end_s@{0}] - [event.start_s@{0}]) / 3600", run_at(k)));
        ways.push_back(fmt::format("[rest.distance_m@{}]", leg.name));
    }
    add_hottest(gather);
    to.add(place, answer.driving_h, quantity("assessment", "driving_h")).value_of =
        hours.empty() ? "0" : sum_of(hours);
    to.add(place, answer.distance_m, quantity("assessment", "distance_m")).value_of =
        ways.empty() ? "0" : sum_of(ways);
}

}  // namespace caseload::why_detail
