// SPDX-License-Identifier: MIT
#include "caseload/show/compare.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

using json_value::text;

/// Values of all axes but the last, for the head of a row.
std::string row_words(const Region& region, const Cell& cell, const Units& units) {
    std::string words;
    for (std::size_t k = 0; k + 1 < region.axes.size(); ++k)
        words += fmt::format("{:<14}", units.text(region.axes[k].values[cell.at[k]]));
    return words;
}

std::string list(const std::vector<std::string>& values) {
    std::string out;
    for (const std::string& value : values) out += (out.empty() ? "" : ",") + text(value);
    return "[" + out + "]";
}

}  // namespace

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
    for (const Cell& cell : region.cells)
        if (cell.verdict == "watch" || cell.verdict == "stop") {
            out += wrapped("  first limit met: ", units.text(cell.reason));
            break;
        }
    return fmt::format("{}\n{}\n", out, deference);
}

std::string region_json(const Setup& setup, const Region& region) {
    std::string axes;
    for (std::size_t k = 0; k < region.axes.size(); ++k) {
        const Axis& axis = region.axes[k];
        std::string fine = "null";
        if (!region.fine.empty())
            fine = list({axis.values[region.fine[k].first], axis.values[region.fine[k].last]});
        axes += fmt::format(R"({}{{"key":{},"values":{},"fine":{}}})", axes.empty() ? "" : ",",
                            text(axis.key), list(axis.values), fine);
    }
    std::string cells;
    for (const Cell& cell : region.cells) {
        std::vector<std::string> values;
        for (std::size_t k = 0; k < cell.at.size(); ++k)
            values.push_back(region.axes[k].values[cell.at[k]]);
        cells += fmt::format(R"({}{{"values":{},"verdict":{},"reason":{},"holds_share":{}}})",
                             cells.empty() ? "" : ",", list(values),
                             cell.verdict.empty() ? "null" : text(cell.verdict), text(cell.reason),
                             cell.verdict.empty() ? "null" : json_value::number(cell.holds_share));
    }
    return fmt::format(
        R"({{"schema":1,"command":"compare",{},"setup":{},"decision":{},"engine_limited_share":{},"engine_limited_bearing":{},"entered_bins":{},"axes":[{}],"cells":[{}]}})"
        "\n",
        json_value::caution(), text(setup.name), text(region.decision),
        json_value::number(region.engine.share), text(region.engine.bearing),
        region.engine.entered_bins, axes, cells);
}

}  // namespace caseload
