// SPDX-License-Identifier: MIT
// What engine power has to do with an answer whose pace is fixed.
#include "caseload/ask/compare.hpp"
#include "caseload/ask/course_pace.hpp"
#include "caseload/figures.hpp"
#include "caseload/units.hpp"
#include "input/course_power.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

/// The leg whose course asks for most power at the wheels; null where every leg has entered bins.
const LegInput* hardest_course(const Setup& setup) {
    const LegInput* hardest = nullptr;
    double most_W = 0;
    for (const LegInput& leg : setup.event.legs) {
        if (leg.course_lines.empty()) continue;
        const double power_W = input::mean_power_W(setup, leg, leg.course_pace_mps);
        if (hardest != nullptr && power_W <= most_W) continue;
        hardest = &leg;
        most_W = power_W;
    }
    return hardest;
}

std::string kmph(double speed_mps) {
    return fmt::format("{:.0f} km/h", speed_mps * 3.6);
}

/// The course sets the pace, so power does not change it.
std::string fixed_pace(const Setup& before, const Setup& after, const LegInput& leg) {
    const std::string alone =
        "Engine power does not enter: the pace is fixed, and no part of the course asks for more "
        "than the engine has; only its drag in coasting follows its power.";
    const double now_W = input::mean_power_W(before, leg, leg.course_pace_mps);
    const double pace_mps = input::pace_of_power_mps(
        after, leg, now_W * after.vehicle.engine_power_W / before.vehicle.engine_power_W);
    if (pace_mps <= 0) return alone;
    return fmt::format(
        "{} A car of that power, driven as hard, would hold about {}{} on {}, not {}: to see it, "
        "change the pace too.",
        alone, pace_mps >= input::fastest_pace_mps ? "more than " : "", kmph(pace_mps), leg.name,
        kmph(leg.course_pace_mps));
}

/// What a calculated course makes of another car on the same ground.
void add_grounds(const Setup& before, const Setup& after, std::vector<std::string>& words) {
    const std::vector<CoursePace> then = course_paces(before);
    const std::vector<CoursePace> now = course_paces(after);
    for (const CoursePace& was : then)
        for (const CoursePace& is : now) {
            if (was.leg != is.leg || was.course != is.course) continue;
            constexpr double least_seen = 5e-4;
            const double faster = is.pace_mps.p50 / was.pace_mps.p50;
            const double harder = is.torque_cube_Nm.p50 / was.torque_cube_Nm.p50;
            if (std::fabs(faster - 1) < least_seen && std::fabs(harder - 1) < least_seen) continue;
            const bool same_ground =
                std::fabs(was.severity / is.severity - 1) < least_seen && was.style == is.style;
            words.push_back(fmt::format(
                "{}{}: {:.1f} -> {:.1f} km/h, torque that wears bearings {:+.1f} % (ball "
                "bearings live {} as many turns).",
                same_ground ? "On the same ground, " : "",
                is.leg == is.course ? is.course : is.leg + " on " + is.course,
                kmph_from_mps(was.pace_mps.p50), kmph_from_mps(is.pace_mps.p50), 100 * (harder - 1),
                figures(1 / (harder * harder * harder), 2)));
        }
}

}  // namespace

std::string engine_limited_words(const EngineLimited& engine) {
    return fmt::format(
        "{:.0f} % of the damage of bearing {} is done with the engine at its limit: a heavier car "
        "adds no torque there.",
        100 * engine.share, engine.bearing);
}

std::vector<std::string> power_words(const Calculated& before, const Calculated& after,
                                     const EngineLimited& engine) {
    std::vector<std::string> words;
    const Setup& then = before.read.setup;
    const Setup& now = after.read.setup;
    if (engine.entered_bins && !(then.vehicle == now.vehicle))
        words.emplace_back("Torques of entered bins stay as entered: no vehicle key moves them.");
    if (then.vehicle.mass_kg != now.vehicle.mass_kg && engine.share > 0)
        words.push_back(engine_limited_words(engine));
    const bool same_event = then.event == now.event;
    const LegInput* hardest = hardest_course(now);
    if (then.vehicle.engine_power_W != now.vehicle.engine_power_W && same_event &&
        hardest != nullptr && engine.time_share <= 0 &&
        engine_limited(now, after.likely).time_share <= 0)
        words.push_back(fixed_pace(then, now, *hardest));
    add_grounds(then, now, words);
    return words;
}

}  // namespace caseload
