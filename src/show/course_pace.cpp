// SPDX-License-Identifier: MIT
#include "show/course_pace.hpp"

#include "caseload/ask/course_pace.hpp"
#include "caseload/figures.hpp"
#include "caseload/units.hpp"
#include "show/lines.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

std::string speed_number(const Units& units, double mps) {
    const double shown = units.imperial() ? mph_from_mps(mps) : kmph_from_mps(mps);
    return shown < 20 ? fmt::format("{:.1f}", shown) : fmt::format("{:.0f}", shown);
}

std::string speed(const Units& units, double mps) {
    return speed_number(units, mps) + (units.imperial() ? " mph" : " km/h");
}

/// "60 .. 89 .. 112 km/h": the unit once.
std::string speeds(const Units& units, const Percentiles& range) {
    return fmt::format("{} .. {} .. {}", speed_number(units, range.p10),
                       speed_number(units, range.p50), speed(units, range.p90));
}

std::string fuel(const Units& units, double fuel_Lp100km) {
    constexpr double mpg_times = 235.2146;  // US gallon 3.785411784 L, mile 1609.344 m
    return units.imperial() ? fmt::format("{:.1f} mpg", mpg_times / fuel_Lp100km)
                            : fmt::format("{:.0f} L/100 km", fuel_Lp100km);
}

std::string ground_words(const CoursePace& pace) {
    if (pace.traffic < 1) return "slower than this car there: taken as traffic";
    constexpr double little = 0.05;
    const double ln_severity = std::log(pace.severity);
    if (std::fabs(ln_severity) < little) return "the ground as rough as usual";
    return fmt::format("the ground {} times as rough as usual", figures(pace.severity, 2));
}

std::string pace_words(const CoursePace& pace, const Units& units) {
    const std::string on = fmt::format("this car on {}: ", pace.course);
    if (pace.pace_said)
        return fmt::format("{}{} as entered, {}", on, speed(units, pace.pace_mps.p50),
                           ground_words(pace));
    return on + speeds(units, pace.pace_mps);
}

std::string throttle_words(const CoursePace& pace, const Units& units) {
    std::string words;
    if (pace.open_throttle_share > 0)
        words = fmt::format("{:.0f} % throttle open, ", 100 * pace.open_throttle_share);
    return fmt::format("{}fastest 5 % above {}, engine {} mean, about {}: is that what you burn?",
                       words, speed(units, pace.fast_mps.p50), units.power(pace.crank_W.p50),
                       fuel(units, pace.fuel_Lp100km.p50));
}

std::string limits_words(const CoursePace& pace) {
    return fmt::format(
        "grip {:.0f} %, engine {:.0f} %, ride and slow spots {:.0f} %, brakes {:.0f} % of the time",
        100 * pace.grip_share, 100 * pace.engine_share, 100 * pace.ride_share,
        100 * pace.brake_share);
}

}  // namespace

std::string pace_block(const Setup& setup, const Units& units) {
    std::string out;
    for (const CoursePace& pace : course_paces(setup)) {
        out += wrapped("    PACE          ", pace_words(pace, units));
        out += wrapped("                  ", throttle_words(pace, units));
        out += wrapped("    LIMITS        ", limits_words(pace));
    }
    return out.empty() ? out : out + "\n";
}

}  // namespace caseload
