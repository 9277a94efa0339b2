// SPDX-License-Identifier: MIT
#include "caseload/show/compare.hpp"

#include "caseload/figures.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

using json_value::number;
using json_value::text;

std::string shown(const Units& units, const Moved& moved, double value) {
    if (moved.unit == "degC") return units.temp(value);
    if (moved.unit == "%") return figures(value, 2);
    return units.number(value, moved.unit);
}

std::string_view unit_of(const Units& units, const Moved& moved) {
    return moved.unit == "degC" ? units.degree() : units.unit(moved.unit);
}

/// No temperature above the ceiling is shown as a number.
std::string told(const Moved& moved, double value) {
    return moved.unit == "degC" ? json_value::temp(value) : number(value);
}

std::string side_json(const Calculated& side) {
    const Intervals& due = side.likely.fitted.intervals;
    return fmt::format(
        R"({{"setup":{},"verdict":{},"change_oil_after_events":{},"look_after_events":{},"open_case_after_events":{}}})",
        text(side.read.setup.name), text(side.sure.verdict), due.change_oil.after_events,
        due.look.after_events, due.open_case.after_events);
}

}  // namespace

std::string compare_screen(const CompareAnswer& answer) {
    const Units units(answer.before.read.setup.imperial);
    const Comparison& between = answer.between;
    std::string out = wrapped("", units.text(between.decision));
    for (const std::string& words : between.differences)
        out += wrapped("  also  ", units.text(words));
    if (!answer.changed.empty() || !between.power.empty()) out += "\n";
    for (const ChangedKey& one : answer.changed)
        out +=
            wrapped("  ", units.text(fmt::format("{} {} -> {}", one.key, one.before, one.after)));
    for (const std::string& words : between.power) out += wrapped("  ", units.text(words));
    if (between.moved.empty()) return out + "\n  No number moved.\n";
    out += fmt::format("\n  {:<54} {:>10} {:>10}\n", "moved", "before", "after");
    for (const Moved& moved : between.moved)
        out += fmt::format("  {:<54} {:>10} {:>10} {}\n", moved.words,
                           shown(units, moved, moved.before), shown(units, moved, moved.after),
                           unit_of(units, moved));
    return fmt::format("{}\n{}\n", out, deference);
}

std::string compare_json(const CompareAnswer& answer) {
    const Comparison& between = answer.between;
    std::string differences;
    for (const std::string& words : between.differences)
        differences += (differences.empty() ? "" : ",") + text(words);
    std::string power;
    for (const std::string& words : between.power)
        power += (power.empty() ? "" : ",") + text(words);
    std::string changed;
    for (const ChangedKey& one : answer.changed)
        changed +=
            fmt::format(R"({}{{"key":{},"before":{},"after":{}}})", changed.empty() ? "" : ",",
                        text(one.key), text(one.before), text(one.after));
    std::string moved;
    for (const Moved& one : between.moved)
        moved += fmt::format(R"({}{{"words":{},"before":{},"after":{},"unit":{}}})",
                             moved.empty() ? "" : ",", text(one.words), told(one, one.before),
                             told(one, one.after), text(one.unit));
    return fmt::format(
        R"({{"schema":1,"command":"compare",{},"decision":{},"differences":[{}],"changed":[{}],"power":[{}],"engine_limited_share":{},"engine_limited_time_share":{},"engine_limited_bearing":{},"entered_bins":{},"before":{},"after":{},"moved":[{}]}})"
        "\n",
        json_value::caution(), text(between.decision), differences, changed, power,
        number(between.engine.share), number(between.engine.time_share),
        text(between.engine.bearing), between.engine.entered_bins, side_json(answer.before),
        side_json(answer.after), moved);
}

}  // namespace caseload
