// SPDX-License-Identifier: MIT
#include "duty/sources.hpp"

#include "caseload/error.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload::duty {
namespace {

[[noreturn]] void lacks(const Layout& layout, const std::string& file, Channel channel,
                        const std::string& what, const std::string& else_hint) {
    const std::string near = nearest_heading(layout, channel);
    std::string hint = near.empty() ? std::string()
                                    : fmt::format("is it \"{0}\"? Then: --map \"{1}={0}\"; ", near,
                                                  name_of(channel));
    hint += else_hint;
    throw Error(Error::Kind::input,
                {Problem{{file, static_cast<int>(layout.dialect.header_line), 1, 0,
                          fmt::format("{}", fmt::join(layout.headings,
                                                      std::string(1, layout.dialect.delimiter)))},
                         what,
                         hint}});
}

/// Of two channels that would do, the one some heading is nearly the name of.
Channel likelier(const Layout& layout, Channel first, Channel second) {
    return nearest_heading(layout, first).empty() ? second : first;
}

/// What would give the gearbox's ratio, of what is not there.
std::string ratio_from(bool car, bool gearbox) {
    if (gearbox) return "gear or road_speed, beside the gearbox that is known";
    return car ? "vehicle.gearbox in the setup" : "--setup SETUP with vehicle.gearbox";
}

/// Those that are not empty, with "and" between.
std::string both(const std::vector<std::string>& wanted) {
    std::string out;
    for (const std::string& one : wanted)
        if (!one.empty()) out += fmt::format("{}{}", out.empty() ? "" : " and ", one);
    return out;
}

}  // namespace

// Long: one decision; which branch comes first is the rule.
Sources choose_sources(const Layout& layout, const DutyOptions& options,
                       const std::vector<double>& clustered, const std::string& file) {
    using C = Channel;
    const auto has = [&](C channel) { return layout.find(channel) != nullptr; };
    const auto need = [](Sources& sources, C channel) { sources.required |= 1U << index(channel); };
    Sources sources;
    const bool car = options.car.has_value();
    if (car) sources.gears = options.car->vehicle.gearbox;
    // A column of gears needs the setup's ratios: the n-th cluster need not be the n-th gear.
    if (sources.gears.empty() && !has(C::gear)) {
        sources.gears = clustered;
        sources.gears_from_log = !clustered.empty();
    }
    const bool gearbox = !sources.gears.empty();
    const bool table = car && !options.car->vehicle.engine_torque.empty();
    sources.road_column = has(C::road_speed);
    if (layout.dialect.long_form) sources.burst_s = burst_s;
    sources.gear_column = has(C::gear);
    sources.ratio_by_speeds = has(C::engine_speed) && has(C::case_speed);
    const bool ratio_known =
        sources.ratio_by_speeds ||
        (has(C::engine_speed) && gearbox && (sources.gear_column || sources.road_column));
    if (has(C::case_speed)) {
        sources.speed = SpeedSource::case_column;
        need(sources, C::case_speed);
    } else if (ratio_known) {
        sources.speed = SpeedSource::engine_and_gear;
        need(sources, C::engine_speed);
        if (sources.gear_column) need(sources, C::gear);
    } else if (sources.road_column && car) {
        sources.speed = SpeedSource::road_speed;
    } else if (has(C::engine_speed)) {
        lacks(layout, file, gearbox ? C::road_speed : C::case_speed,
              "the log has engine speed, but not the speed of the case's input",
              fmt::format("{}; if the column is at the case: --map case_speed=COLUMN",
                          ratio_from(car, gearbox)));
    } else {
        lacks(layout, file, likelier(layout, C::case_speed, C::engine_speed),
              "the log has no speed of the case's input",
              "it is case_speed, or engine_speed with gear or road_speed and --setup SETUP");
    }
    if (!sources.road_column && !car)
        lacks(layout, file, C::road_speed, "the log has no road speed",
              "--setup SETUP with the vehicle gives it from the case's speed");
    if (sources.road_column) need(sources, C::road_speed);
    if (has(C::case_torque)) {
        sources.torque = TorqueSource::case_column;
        need(sources, C::case_torque);
    } else if (has(C::engine_torque) && ratio_known) {
        sources.torque = TorqueSource::engine_column;
        need(sources, C::engine_torque);
        need(sources, C::engine_speed);
    } else if (has(C::throttle) && table && ratio_known) {
        sources.torque = TorqueSource::engine_table;
        need(sources, C::throttle);
        need(sources, C::engine_speed);
    } else if (sources.road_column && car && options.resistance) {
        sources.torque = TorqueSource::road_load;
    } else {
        const std::string ratio = ratio_known ? "" : ratio_from(car, gearbox);
        const auto column = [&](C channel) {
            return has(channel) ? std::string() : std::string(name_of(channel));
        };
        const std::string ways[] = {
            column(C::case_torque),
            both({column(C::engine_torque), column(C::engine_speed), ratio}),
            both({column(C::throttle), table ? "" : "vehicle.engine_torque in a setup",
                  column(C::engine_speed), ratio}),
            both({column(C::road_speed), car ? "" : "--setup SETUP",
                  options.resistance ? "" : "--resistance 0.15"})};
        lacks(layout, file,
              has(C::engine_torque) ? C::case_torque
                                    : likelier(layout, C::case_torque, C::engine_torque),
              has(C::engine_torque) ? "the log has engine torque, but not the torque at the case"
                                    : "the log has no torque, and it cannot be had from the rest",
              fmt::format("any of these would do: {}", fmt::join(ways, "; ")));
    }
    if (table) {
        double most_Nm = 0;
        for (const TorquePoint& point : options.car->vehicle.engine_torque)
            most_Nm = std::max(most_Nm, point.torque_Nm);
        if (sources.torque == TorqueSource::engine_column) sources.stated_peak_Nm = most_Nm;
        if (sources.torque == TorqueSource::case_column && gearbox)
            sources.stated_peak_Nm =
                most_Nm * *std::max_element(sources.gears.begin(), sources.gears.end());
    }
    return sources;
}

}  // namespace caseload::duty
