// SPDX-License-Identifier: MIT
// The event: legs with their duties, and the order they are driven in.
#include "input/build.hpp"
#include "input/course_power.hpp"
#include "input/courses.hpp"
#include "input/fields.hpp"
#include "input/quantity.hpp"
#include "input/segment_duty.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

namespace caseload::input {
namespace {

constexpr double rounding = 1e-6;
constexpr int most_repeats = 200;
constexpr std::size_t most_legs_driven = 1000;
// Entered distance against the distance the bins drive.
constexpr double distance_slack = 0.15;

void normalise(Completed& from, LegInput& leg) {
    double sum = 0;
    for (const Bin& bin : leg.bins) sum += bin.share;
    const std::string key = "leg." + leg.name + ".bins";
    if (std::fabs(sum - 1) > share_slack) {
        from.problem(
            key, fmt::format("{}: the shares sum to {:.4g}, not to 1", key, sum),
            "each share is a part of the leg's time; only rounding up to 2 % is corrected");
        return;
    }
    if (std::fabs(sum - 1) > rounding)
        from.note(
            "input.shares", "leg." + leg.name,
            fmt::format("shares of leg {} summed to {:.4g} and were scaled to 1", leg.name, sum));
    for (Bin& bin : leg.bins) bin.share /= sum;
}

/// A shaft that does not turn moves no bearing and no tooth: its share counts as time alone. Below
/// the least speed nothing was tested, and torque without turning is refused.
void check_speeds(Completed& from, const LegInput& leg) {
    constexpr double least_rpm = 1;
    const std::string key = "leg." + leg.name + ".bins";
    const std::vector<Value>& rows = from.find(key)->value.items;
    bool turns = false;
    for (std::size_t row = 0; row < leg.bins.size(); ++row) {
        const Bin& bin = leg.bins[row];
        turns = turns || bin.speed_rpm > 0;
        const bool stands = bin.speed_rpm == 0 && bin.torque_Nm == 0;
        if (bin.speed_rpm >= least_rpm || stands) continue;
        const auto speed = std::find_if(rows[row].members.begin(), rows[row].members.end(),
                                        [](const Member& member) { return member.key == "speed"; });
        from.add(
            {speed->value.where,
             bin.speed_rpm > 0
                 ? fmt::format("{}, row {}: speed = {:.4g} rpm is neither 0 nor from {:g} to "
                               "20000 rpm",
                               key, row + 1, bin.speed_rpm, least_rpm)
                 : fmt::format("{}, row {}: {:.4g} N m at 0 rpm: a case that stands still takes no "
                               "torque here",
                               key, row + 1, bin.torque_Nm),
             bin.speed_rpm > 0
                 ? "a share of standing still has speed = \"0 rpm\" and torque = \"0 N m\""
                 : "write torque = \"0 N m\" for a share of standing still, or the speed it turns "
                   "at; a blow at standstill belongs into peaks"});
    }
    if (!turns)
        from.problem(key, fmt::format("{}: the case stands still in every row", key),
                     "write kind = \"stop\" for a leg in which the car stands still");
}

void compare_distance(Completed& from, LegInput& leg) {
    double mean_mps = 0;
    for (const Bin& bin : leg.bins) mean_mps += bin.share * bin.road_speed_mps;
    const double by_bins_m = mean_mps * leg.duration_s;
    if (leg.distance_m <= 0) return;
    if (std::fabs(by_bins_m - leg.distance_m) <= distance_slack * leg.distance_m) return;
    from.note("input.distance", "leg." + leg.name,
              fmt::format("leg {} is {:.0f} km long, but its bins drive {:.0f} km in its duration",
                          leg.name, leg.distance_m / 1000, by_bins_m / 1000));
}

/// An end of an assumed entry, TOML text.
double end_of(const Item& item, const std::string& toml) {
    return read_quantity(item.field->measure, parse_change("end", toml).at("end").value.text).value;
}

/// No higher than the car can have: a pace beyond is refused when it is entered.
void limit_pace(const Setup& setup, LegInput& leg) {
    if (!leg.pace_ends) return;
    const double wheels_W = power_to_wheels * setup.vehicle.engine_power_W;
    double& high_mps = leg.pace_ends->high_mps;
    if (mean_power_W(setup, leg, high_mps) > wheels_W)
        high_mps = std::max(leg.course_pace_mps, pace_of_power_mps(setup, leg, wheels_W));
}

/// Gives a leg the lines of its course; `heading` has course, pace, distance and duration. A duty
/// by the segment model is calculated when all else is known.
void use_course(Completed& from, CourseModel model, LegInput& leg, const std::string& heading) {
    const std::string name = from.text(heading + ".course");
    const Course& table = course(name);
    leg.course = name;
    if (!from.given(heading + ".load_source")) leg.load_source = LoadSource::course;
    leg.course_peaks_per_h = table.peaks_per_h;
    if (model == CourseModel::segments) return;
    leg.course_lines = table.lines;
    const Item* distance = from.find(heading + ".distance");
    const Item* pace = from.find(heading + ".pace");
    if (distance == nullptr && pace != nullptr && pace->origin == Origin::preset)
        leg.pace_ends = PaceEnds{end_of(*pace, pace->low), end_of(*pace, pace->high)};
    if (distance != nullptr && leg.duration_s > 0) {
        leg.course_pace_mps = distance->number / leg.duration_s;
        constexpr double fastest_mps = 70;
        if (leg.course_pace_mps > fastest_mps)
            from.problem(
                heading + ".distance",
                fmt::format("{}.distance: {:.0f} km in {:.2g} h is {:.0f} km/h on the mean",
                            heading, distance->number / 1000, leg.duration_s / 3600,
                            leg.course_pace_mps * 3.6),
                "check distance and duration");
    } else if (pace != nullptr) {
        leg.course_pace_mps = pace->number;
    }
    leg.distance_m = leg.course_pace_mps * leg.duration_s;
}

void finish_leg(Completed& from, const Setup& setup, LegInput& leg) {
    const std::string key = "leg." + leg.name;
    const bool bins = from.given(key + ".bins");
    const bool by_course = from.given(key + ".course");
    if (leg.kind == LegKind::stop) {
        if (bins || by_course)
            from.problem(bins ? key + ".bins" : key + ".course",
                         fmt::format("leg {} is a stop, but has a duty", leg.name),
                         "take out bins and course, or write kind = \"drive\"");
        return;
    }
    if (!bins && !by_course)
        from.problem(
            key + ".duration",
            fmt::format("leg {} drives, but has no bins and no course", leg.name),
            "add bins = [{ share, torque, speed, road_speed }, ..] or course = \"graded\"");
    if (!leg.bins.empty()) {
        check_speeds(from, leg);
        normalise(from, leg);
        compare_distance(from, leg);
    } else if (from.has(key + ".course")) {
        use_course(from, setup.event.course_model, leg, key);
    }
    if (!leg.set.empty() && !setup.sets.contains(leg.set) && !from.broken("set."))
        from.problem(key + ".set",
                     fmt::format("{}.set = \"{}\": no set has this name", key, leg.set),
                     "give its teeth under [set]");
}

struct RunItem {
    int times = 0;  ///< 0: not understood
    std::string leg;
};

/// "loop" or "3 x loop".
RunItem read_run_item(const std::string& text) {
    std::size_t at = 0;
    while (at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0) ++at;
    const std::string count = text.substr(0, at);
    const std::string rest = text.substr(at);
    for (const std::string_view mark : {"\xC3\x97", "x"}) {
        const std::size_t first = rest.find_first_not_of(' ');
        if (count.empty() || first == std::string::npos ||
            rest.compare(first, mark.size(), mark) != 0)
            continue;
        const std::size_t name = rest.find_first_not_of(' ', first + mark.size());
        const bool apart = first > 0 || (name != std::string::npos && name > first + mark.size());
        if (name == std::string::npos || !apart) continue;
        if (count.size() > 6) return {};
        return {std::stoi(count), rest.substr(name)};
    }
    if (text.find(' ') != std::string::npos) return {};
    return {1, text};
}

std::string leg_names(const std::vector<LegInput>& legs) {
    std::vector<std::string> names;
    names.reserve(legs.size());
    for (const LegInput& leg : legs) names.push_back(leg.name);
    if (names.empty()) return "add it under [leg.NAME]";
    return fmt::format("legs are {}", fmt::join(names, ", "));
}

void build_run(Completed& from, EventInput& event) {
    const std::vector<LegInput> all = std::move(event.legs);
    event.legs.clear();
    std::map<std::string, int> index;
    for (const Value& one : from.find("event.run")->value.items) {
        const RunItem item = read_run_item(one.text);
        if (item.times < 1) {
            from.add({one.where,
                      fmt::format("event.run: \"{}\" is not a leg or \"3 x LEG\"", one.text),
                      "write \"loop\" or \"3 x loop\""});
            continue;
        }
        if (item.times > most_repeats) {
            from.add({one.where,
                      fmt::format("event.run: \"{}\" repeats more than {} times", one.text,
                                  most_repeats),
                      "an event is one race"});
            continue;
        }
        const auto leg = std::find_if(all.begin(), all.end(), [&](const LegInput& candidate) {
            return candidate.name == item.leg;
        });
        if (leg == all.end()) {
            if (!from.broken("leg." + item.leg + "."))
                from.add({one.where, fmt::format("event.run: there is no leg \"{}\"", item.leg),
                          leg_names(all)});
            continue;
        }
        const auto [place, added] = index.emplace(item.leg, static_cast<int>(event.legs.size()));
        if (added) event.legs.push_back(*leg);
        event.run.insert(event.run.end(), static_cast<std::size_t>(item.times), place->second);
    }
    event.words = fmt::format("{}", fmt::join(from.find("event.run")->texts, ", "));
    for (const LegInput& leg : all) {
        const Item* kind = from.find("leg." + leg.name + ".duration");
        const bool own = kind != nullptr && kind->origin == Origin::yours;
        if (own && !index.contains(leg.name))
            from.note("input.unused", "leg." + leg.name,
                      fmt::format("leg {} is not in event.run", leg.name));
    }
    if (event.run.size() > most_legs_driven)
        from.problem("event.run",
                     fmt::format("event.run drives {} legs; at most {} are calculated",
                                 event.run.size(), most_legs_driven),
                     "an event is one race");
    const bool drives = std::any_of(event.legs.begin(), event.legs.end(),
                                    [](const LegInput& leg) { return leg.kind == LegKind::drive; });
    if (!event.legs.empty() && !drives && !from.broken("leg."))
        from.problem("event.run", "event.run only stops: no leg of it drives",
                     "add a leg that drives");
}

void build_course(Completed& from, EventInput& event) {
    LegInput leg;
    leg.name = from.text("event.course");
    const Item* duration = from.find("event.duration");
    if (duration != nullptr) leg.duration_s = duration->number;
    // Bursts and shocks are in the duty of a course that is calculated; judgement, 1.0 to 1.25.
    constexpr double modelled_overload = 1.10;
    const bool modelled = event.course_model == CourseModel::segments;
    leg.overload = modelled ? modelled_overload : course(leg.name).overload;
    use_course(from, event.course_model, leg, "event");
    event.words = leg.name;
    event.legs = {std::move(leg)};
    event.run = {0};
}

}  // namespace

void build_event(Completed& from, Setup& setup) {
    EventInput& event = setup.event;
    if (!event.oil_at_start_entered) event.oil_at_start_degC = event.ambient_degC;
    for (LegInput& leg : event.legs) finish_leg(from, setup, leg);
    if (from.has("event.course")) {
        build_course(from, event);
    } else if (from.has("event.run")) {
        build_run(from, event);
    } else if (!from.given("event.course") && !from.given("event.run")) {
        from.problem(
            "event.course", "event.course is missing, and event.run too",
            "add course and duration, for example event.course = \"rough-desert\", or the legs "
            "of an own event and their order");
    }
    if (!from.problems.empty()) return;
    for (LegInput& leg : event.legs) {
        const bool modelled = event.course_model == CourseModel::segments;
        if (modelled && !leg.course.empty())
            calculate_duty(from, setup, leg,
                           from.has("event.course") ? "event" : "leg." + leg.name);
        limit_pace(setup, leg);
    }
}

}  // namespace caseload::input
