// SPDX-License-Identifier: MIT
#include "caseload/show/compare.hpp"

#include "caseload/figures.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

using json_value::list;
using json_value::number;
using json_value::text;

std::string shown(const Units& units, const Moved& moved, double value) {
    if (moved.unit == "degC") return units.temp(value);
    if (moved.unit == "%") return figures(value, 2);
    return units.number(value, moved.unit);
}

/// No temperature above the ceiling is shown as a number.
std::string moved_value(const Moved& moved, double value) {
    return moved.unit == "degC" ? json_value::temp(value) : number(value);
}

std::string side_json(const Calculated& side) {
    const Intervals& due = side.likely.fitted.intervals;
    return fmt::format(
        R"({{"setup":{},"verdict":{},"change_oil_after_events":{},"look_after_events":{},"open_case_after_events":{}}})",
        text(side.read.setup.name), text(side.sure.verdict), due.change_oil.after_events,
        due.look.after_events, due.open_case.after_events);
}

std::string until(double s) {
    if (s < 0) return "not within 12 h";
    return s < 60 ? "at once" : fmt::format("after {:.0f} min", std::floor(s / 60));
}

std::string minutes_json(double s) {
    return s < 0 ? "null" : number(s / 60);
}

/// Values of all axes but the last, for the head of a row.
std::string row_words(const Region& region, const Cell& cell, const Units& units) {
    std::string words;
    for (std::size_t k = 0; k + 1 < region.axes.size(); ++k)
        words += fmt::format("{:<14}", units.text(region.axes[k].values[cell.at[k]]));
    return words;
}

/// The entry before the change; in other units both numbers need theirs to be converted.
std::string before_words(const ChangedKey& one, bool imperial) {
    const std::size_t unit = one.after.find(' ');
    const bool bare = one.before.find_first_not_of("0123456789.-+e") == std::string::npos;
    return imperial && bare && unit != std::string::npos ? one.before + one.after.substr(unit)
                                                         : one.before;
}

}  // namespace

std::string compare_screen(const CompareAnswer& answer) {
    const bool imperial = answer.before.read.setup.imperial;
    const Units units(imperial);
    const Comparison& between = answer.between;
    std::string out = wrapped("", units.text(between.decision));
    for (const std::string& words : between.differences)
        out += wrapped("  also  ", units.text(words));
    if (!answer.changed.empty() || !between.power.empty()) out += "\n";
    for (const ChangedKey& one : answer.changed)
        out += wrapped("  ", units.text(fmt::format("{} {} -> {}", one.key,
                                                    before_words(one, imperial), one.after)));
    for (const std::string& words : between.power) out += wrapped("  ", units.text(words));
    if (between.moved.empty()) return out + "\n  No number moved.\n";
    out += fmt::format("\n  {:<54} {:>10} {:>10}\n", "moved", "before", "after");
    for (const Moved& moved : between.moved)
        out += fmt::format("  {:<54} {:>10} {:>10} {}\n", moved.words,
                           shown(units, moved, moved.before), shown(units, moved, moved.after),
                           units.unit(moved.unit, moved.after));
    return fmt::format("{}\n{}\n", out, deference);
}

std::string compare_json(const CompareAnswer& answer) {
    const Comparison& between = answer.between;
    return json_value::document(
        "compare",
        fmt::format(
            R"("decision":{},"differences":{},"changed":{},"power":{},"engine_limited_share":{},"engine_limited_time_share":{},"engine_limited_bearing":{},"entered_bins":{},"before":{},"after":{},"moved":{})",
            text(between.decision), list(between.differences, text),
            list(answer.changed,
                 [](const ChangedKey& one) {
                     return fmt::format(R"({{"key":{},"before":{},"after":{}}})", text(one.key),
                                        text(one.before), text(one.after));
                 }),
            list(between.power, text), number(between.engine.share),
            number(between.engine.time_share), text(between.engine.bearing),
            between.engine.entered_bins, side_json(answer.before), side_json(answer.after),
            list(between.moved, [](const Moved& one) {
                return fmt::format(R"({{"words":{},"before":{},"after":{},"unit":{}}})",
                                   text(one.words), moved_value(one, one.before),
                                   moved_value(one, one.after), text(one.unit));
            })));
}

std::string failure_screen(const Setup& setup, const Failure& failure) {
    const Units units(setup.imperial);
    std::string out = wrapped("", units.text(failure.decision)) + "\n";
    out += fmt::format("  fails           in the middle of {}, {} into the event, oil at {}\n",
                       failure.leg, duration(failure.at_s), units.degrees(failure.oil_degC));
    if (failure.dry) return fmt::format("{}\n{}\n", out, deference);
    const auto line = [&](std::string_view head, double limit_degC, double s) {
        out += fmt::format("  {:<15} {:<16} above {}\n", head, until(s), units.degrees(limit_degC));
    };
    line("watch", setup.limits.oil_watch_degC, failure.watch_after_s);
    line("stop", setup.limits.oil_stop_degC, failure.stop_after_s);
    out +=
        failure.pace_share > 0
            ? fmt::format("  pace that holds {:.0f} % of the course's, for as long as it takes\n",
                          std::floor(100 * failure.pace_share))
            : std::string("  pace that holds none from 10 % on\n");
    out += wrapped("  ",
                   "Temperatures and checks are those of the likely case; assess gives the range.");
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
    return json_value::document(
        "compare",
        fmt::format(
            R"("without":{},"setup":{},"decision":{},"leg":{},"failed_at_s":{},"oil_degC":{},"dry":{},"watch_after_min":{},"stop_after_min":{},"pace_share":{},"entered_bins":{})",
            text(failure.what), text(setup.name), text(failure.decision), text(failure.leg),
            number(failure.at_s), json_value::temp(failure.oil_degC), failure.dry,
            minutes_json(failure.watch_after_s), minutes_json(failure.stop_after_s),
            failure.dry ? "null" : number(failure.pace_share), failure.entered_bins));
}

std::string region_screen(const Setup& setup, const Region& region) {
    const Units units(setup.imperial);
    std::string out = wrapped("", units.text(region.decision)) + "\n";
    if (region.engine.entered_bins)
        out += wrapped("  ", "Torques of entered bins stay as entered: no vehicle key moves them.");
    if (region.engine.share > 0) out += wrapped("  ", engine_limited_words(region.engine));
    if (region.engine.entered_bins || region.engine.share > 0) out += "\n";
    const Axis& last = region.axes.back();
    std::string head;
    for (std::size_t k = 0; k + 1 < region.axes.size(); ++k)
        head += fmt::format("{:<14}", region.axes[k].key.substr(region.axes[k].key.rfind('.') + 1));
    out += "  " + head + last.key + "\n  " + std::string(head.size(), ' ');
    for (const std::string& value : last.values) out += fmt::format("{:<9}", units.text(value));
    out += "\n";
    std::string refused;
    for (std::size_t i = 0; i < region.cells.size(); ++i) {
        const Cell& cell = region.cells[i];
        if (cell.at.back() == 0) out += "  " + row_words(region, cell, units);
        out += fmt::format("{:<9}", cell.verdict.empty() ? "-" : cell.verdict);
        if (cell.at.back() + 1 == last.values.size()) out += "\n";
        if (cell.verdict.empty() && refused.empty()) refused = cell.reason;
    }
    if (!refused.empty()) out += wrapped("  -: ", "cannot be calculated: " + units.text(refused));
    const auto met = std::find_if(region.cells.begin(), region.cells.end(), [](const Cell& cell) {
        return cell.verdict == "watch" || cell.verdict == "stop";
    });
    if (met != region.cells.end()) out += wrapped("  first limit met: ", units.text(met->reason));
    return fmt::format("{}\n{}\n", out, deference);
}

std::string region_json(const Setup& setup, const Region& region) {
    std::vector<std::string> axes;
    for (std::size_t k = 0; k < region.axes.size(); ++k) {
        const Axis& axis = region.axes[k];
        const std::vector<std::string> fine =
            region.fine.empty()
                ? std::vector<std::string>()
                : std::vector{axis.values[region.fine[k].first], axis.values[region.fine[k].last]};
        axes.push_back(fmt::format(R"({{"key":{},"values":{},"fine":{}}})", text(axis.key),
                                   list(axis.values, text),
                                   fine.empty() ? "null" : list(fine, text)));
    }
    const auto cell_json = [&](const Cell& cell) {
        std::vector<std::string> values;
        for (std::size_t k = 0; k < cell.at.size(); ++k)
            values.push_back(region.axes[k].values[cell.at[k]]);
        const bool known = !cell.verdict.empty();
        return fmt::format(R"({{"values":{},"verdict":{},"reason":{},"holds_share":{}}})",
                           list(values, text), known ? text(cell.verdict) : "null",
                           text(cell.reason), known ? number(cell.holds_share) : "null");
    };
    return json_value::document(
        "compare",
        fmt::format(
            R"("setup":{},"decision":{},"engine_limited_share":{},"engine_limited_bearing":{},"entered_bins":{},"axes":[{}],"cells":{})",
            text(setup.name), text(region.decision), number(region.engine.share),
            text(region.engine.bearing), region.engine.entered_bins, fmt::join(axes, ","),
            list(region.cells, cell_json)));
}

}  // namespace caseload
