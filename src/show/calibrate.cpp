// SPDX-License-Identifier: MIT
#include "caseload/show/calibrate.hpp"

#include "caseload/figures.hpp"

#include "show/json_value.hpp"
#include "show/lines.hpp"
#include "show/units_shown.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

namespace caseload {
namespace {

using json_value::list;
using json_value::number;
using json_value::text;

std::string range(const Percentiles& p) {
    return fmt::format("{:>5.2f} .. {:>5.2f} .. {:>5.2f}", p.p10, p.p50, p.p90);
}

std::string not_identified(const FoundFactor& factor) {
    return factor.like.empty()
               ? "these readings hardly depend on it"
               : fmt::format("these readings cannot separate it from {}", factor.like);
}

/// What no single correction explains may still be narrower together: to three quarters, judgement,
/// and by more than a thermometer's error.
std::string nothing_found(const Calibration& found) {
    constexpr double narrowed = 0.75;
    for (const OilPeak& peak : found.peaks) {
        const double before_K = peak.before_degC.p90 - peak.before_degC.p10;
        const double after_K = peak.after_degC.p90 - peak.after_degC.p10;
        if (after_K < narrowed * before_K && before_K - after_K > worth_measuring_K)
            return "no single correction, but together the readings narrow the range (below)";
    }
    return "no single correction, and these readings hardly narrow the range";
}

std::string factor_block(const Calibration& found) {
    std::string out = "  FOUND                                            low .. likely .. high\n";
    const auto line = [&](const FoundFactor& factor, const std::string& words) {
        out += fmt::format("    {:<42} {}  {:>3.0f} % as uncertain as before\n", factor.words,
                           words, 100 * factor.spread_left);
    };
    int identified = 0;
    for (const FoundFactor& factor : found.factors)
        if (factor.told_apart) {
            line(factor, range(factor.factor));
            ++identified;
        }
    if (identified == 0) out += "    " + nothing_found(found) + "\n";
    if (identified == static_cast<int>(found.factors.size())) return out;
    out += "  NOT IDENTIFIED\n";
    for (const FoundFactor& factor : found.factors)
        if (!factor.told_apart)
            out += wrapped(fmt::format("    {:<42} ", factor.words),
                           fmt::format("{:.0f} % as uncertain as before: {}",
                                       100 * factor.spread_left, not_identified(factor)));
    return out;
}

std::string_view node_of(const ComparedReading& one) {
    return one.oil ? "oil" : "housing";
}

std::string read_words(const ComparedReading& one, const Units& units) {
    return one.low_degC == one.high_degC
               ? units.temp(one.low_degC)
               : fmt::format("{} to {}", units.temp(one.low_degC), units.temp(one.high_degC));
}

std::string reading_block(const Calibration& found, const Units& units) {
    // A log is shown by its first, middle and last row.
    constexpr std::ptrdiff_t most_rows = 3;
    std::string out =
        fmt::format("  READINGS, {:<13} {:<10} {:>12} {:>16} {:>10} {:>14}\n", units.degree(),
                    "node", "read", "calculated", "fitted", "error/scatter");
    const auto& all = found.readings;
    for (auto first = all.begin(); first != all.end();) {
        const auto end = std::find_if(
            first, all.end(), [&](const ComparedReading& one) { return one.name != first->name; });
        const std::ptrdiff_t rows = end - first;
        for (std::ptrdiff_t i = 0; i < rows; ++i) {
            if (rows > most_rows && i != 0 && i != rows / 2 && i != rows - 1) continue;
            const ComparedReading& one = first[i];
            out += fmt::format("    {:<21.21} {:<10} {:>12} {:>16} {:>10} {:>+14.1f}\n", one.name,
                               node_of(one), read_words(one, units), units.temp(one.before_degC),
                               units.temp(one.after_degC), one.off_scatters);
        }
        first = end;
    }
    return out;
}

std::string peak_line(std::string_view head, const Percentiles& p, const Units& units) {
    return fmt::format("    {:<21} {:>9} {:>9} {:>9}\n", head, units.temp(p.p10), units.temp(p.p50),
                       units.temp(p.p90));
}

std::string range_json(const Percentiles& p, std::string (*one)(double)) {
    return fmt::format(R"({{"p10":{},"p50":{},"p90":{}}})", one(p.p10), one(p.p50), one(p.p90));
}

std::string factor_json(const FoundFactor& factor) {
    return fmt::format(
        R"({{"name":{},"words":{},"told_apart":{},"factor":{},"spread_left":{},"like":{}}})",
        text(factor.name), text(factor.words), factor.told_apart, range_json(factor.factor, number),
        number(factor.spread_left), text(factor.like));
}

std::string reading_json(const ComparedReading& one) {
    return fmt::format(
        R"({{"name":{},"node":"{}","low_degC":{},"high_degC":{},"before_degC":{},"after_degC":{},"off_scatters":{}}})",
        text(one.name), node_of(one), number(one.low_degC), number(one.high_degC),
        number(one.before_degC), number(one.after_degC), number(one.off_scatters));
}

std::string peak_json(const OilPeak& peak) {
    return fmt::format(R"({{"cooler":{},"before_degC":{},"after_degC":{}}})", peak.cooler,
                       range_json(peak.before_degC, json_value::temp),
                       range_json(peak.after_degC, json_value::temp));
}

/// Entries that the range varies until the case is measured.
std::string assumed_words(const Setup& setup) {
    const NotLookedAt& unknown = setup.unknown;
    std::vector<std::string> names;
    if (unknown.mist || unknown.rehit) names.emplace_back("lubrication.drain");
    if (unknown.exhaust) names.emplace_back("housing.exhaust");
    if (unknown.neighbour_path || unknown.neighbour_temp) names.emplace_back("housing.neighbour");
    if (setup.housing.dirt_assumed) names.emplace_back("housing.dirt");
    return joined(names, ", ", [](const std::string& name) { return name; });
}

}  // namespace

std::string calibration_screen(const Setup& setup, const Calibration& found) {
    const Units units(setup.imperial);
    std::string out =
        fmt::format("{}  {} of {}\n\n", setup.name, counted(found.rows, "temperature"),
                    counted(setup.readings.size(), "reading"));
    out += factor_block(found) + "\n" + reading_block(found, units);
    if (found.widened > 1)
        out += wrapped("  CONTRADICTION   ",
                       fmt::format("chance alone makes a misfit like this in {} of 100 cases: a "
                                   "reading, or something in the setup, is wrong. Every spread was "
                                   "widened by {:.1f}.",
                                   figures(100 * found.chance, 2), found.widened));
    out +=
        fmt::format("\n  OIL PEAK, {:<6}              low    likely      high\n", units.degree());
    for (const OilPeak& peak : found.peaks) {
        const std::string_view side = peak.cooler ? "with cooler" : "no cooler";
        out += peak_line(fmt::format("{}, before", side), peak.before_degC, units);
        out += peak_line("  with the readings", peak.after_degC, units);
    }
    if (const std::string assumed = assumed_words(setup); !assumed.empty())
        out += "\n" + wrapped("  ASSUMED         ",
                              assumed +
                                  ": at their likely value, before and with the readings. "
                                  "A measured case no longer varies them: enter them first.");
    return fmt::format("{}\n{}\n", out, deference);
}

std::string calibration_json(const Setup& setup, const Calibration& found) {
    return json_value::document(
        "calibrate",
        fmt::format(
            R"("setup":{},"date":{},"temperatures":{},"factors":{},"readings":{},"misfit":{},"chance":{},"widened":{},"oil_peaks":{})",
            text(setup.name), text(found.measured.date), found.rows,
            list(found.factors, factor_json), list(found.readings, reading_json),
            number(found.misfit), number(found.chance), number(found.widened),
            list(found.peaks, peak_json)));
}

std::string measured_setup(const std::string& base, const std::vector<std::string>& case_sums,
                           const Calibration& found) {
    std::string out = fmt::format(
        "# Written by caseload calibrate: what readings say of this case, on top of its setup.\n"
        "# spread: of the logarithm of the factor; with: correlations with the factors above.\n"
        "caseload = 1\nbase = {}\n\n[measured]\ndate = {}\nreadings = {}\nsetup = [\n    {},\n]\n",
        text(base), text(found.measured.date), found.measured.readings,
        joined(case_sums, ",\n    ", text));
    const auto row = [&out](const MeasuredFactor& factor) {
        out += fmt::format("\n[measured.{}]\nmedian = {:.5f}\n", factor.name, factor.median);
        if (factor.told_apart) out += "told_apart = true\n";
        out += fmt::format("spread = {:.5f}\n", factor.spread);
        if (!factor.with.empty())
            out += fmt::format("with = [{:.4f}]\n", fmt::join(factor.with, ", "));
    };
    for (const MeasuredFactor& factor : found.measured.factors) row(factor);
    for (const MeasuredFactor& factor : found.following) row(factor);
    return out;
}

std::string measured_sentence(const Setup& setup) {
    if (!setup.measured) return "Never measured on this case.";
    const Measured& measured = *setup.measured;
    std::string factors;
    for (std::size_t k = 0; k < measured.factors.size(); ++k)
        if (measured.factors[k].told_apart)
            factors +=
                fmt::format("{} {} {}", factors.empty() ? ":" : ",", factor_rows().at(k).words,
                            figures(measured.factors[k].median, 2));
    return fmt::format("Measured on this case, {}, {}{}.",
                       counted(measured.readings, "temperature"), measured.date, factors);
}

}  // namespace caseload
