// SPDX-License-Identifier: MIT
#include "caseload/show/compare.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

#include <cmath>

namespace caseload {
namespace {

std::string until(double s) {
    if (s < 0) return "not within 12 h";
    return s < 60 ? "at once" : fmt::format("after {:.0f} min", std::floor(s / 60));
}

std::string minutes_json(double s) {
    return s < 0 ? "null" : json_value::number(s / 60);
}

}  // namespace

std::string failure_screen(const Setup& setup, const Failure& failure) {
    const Units units(setup.imperial);
    std::string out = wrapped("", units.text(failure.decision)) + "\n";
    out += fmt::format("  fails           in the middle of {}, {} into the event, oil at {} {}\n",
                       failure.leg, duration(failure.at_s), units.temp(failure.oil_degC),
                       units.degree());
    if (failure.dry) return fmt::format("{}\n{}\n", out, deference);
    const auto line = [&](std::string_view head, double limit_degC, double s) {
        out += fmt::format("  {:<15} {:<16} above {} {}\n", head, until(s), units.temp(limit_degC),
                           units.degree());
    };
    line("watch", setup.limits.oil_watch_degC, failure.watch_after_s);
    line("stop", setup.limits.oil_stop_degC, failure.stop_after_s);
    out +=
        failure.pace_share > 0
            ? fmt::format("  pace that holds {:.0f} % of the course's, for as long as it takes\n",
                          std::floor(100 * failure.pace_share))
            : std::string("  pace that holds none from 10 % on\n");
    if (failure.entered_bins)
        out += wrapped("  ", "Speeds of the entered bins are scaled; their torques stay.");
    if (failure.what == "pump")
        out += wrapped("  ",
                       "Oil churned by a dead pump's sump is known to a factor of 3: stop "
                       "early. Bearings that lose their jet are not calculated.");
    if (failure.what == "front_shaft")
        out += wrapped("  ", "Grip of two driven wheels instead of four is not calculated.");
    return fmt::format("{}\n{}\n", out, deference);
}

std::string failure_json(const Setup& setup, const Failure& failure) {
    return fmt::format(
        R"({{"schema":1,"command":"compare",{},"without":{},"setup":{},"decision":{},"leg":{},"failed_at_s":{},"oil_degC":{},"dry":{},"watch_after_min":{},"stop_after_min":{},"pace_share":{},"entered_bins":{}}})"
        "\n",
        json_value::caution(), json_value::text(failure.what), json_value::text(setup.name),
        json_value::text(failure.decision), json_value::text(failure.leg),
        json_value::number(failure.at_s), json_value::temp(failure.oil_degC), failure.dry,
        minutes_json(failure.watch_after_s), minutes_json(failure.stop_after_s),
        failure.dry ? "null" : json_value::number(failure.pace_share), failure.entered_bins);
}

}  // namespace caseload
