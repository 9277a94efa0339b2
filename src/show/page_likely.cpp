// SPDX-License-Identifier: MIT
// The first answer of the live page: likely values alone.
#include "show/page_parts.hpp"
#include "show/words.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

HtmlTable temps(const ReadSetup& read, const Assessment& likely, const Units& units) {
    HtmlTable table{
        fmt::format("With all uncertain inputs at their middle, {}; watch above {}, stop above {}",
                    units.degree(), units.temp(read.setup.limits.oil_watch_degC),
                    units.temp(read.setup.limits.oil_stop_degC)),
        {"Hottest in the event", "Oil", "Housing", "Oil above the watch limit"},
        {}};
    const auto row = [&](const std::string& name, const CoolerSide& side) {
        table.rows.push_back(
            {name, units.temp(side.event.peak_oil_degC), units.temp(side.event.peak_housing_degC),
             side.event.watch_after_s >= 0 ? "after " + duration(side.event.watch_after_s)
                                           : "not"});
    };
    if (likely.has_cooler) row("with cooler", likely.fitted);
    row("no cooler", likely.without);
    return table;
}

std::string most_used_words(const CoolerSide& side) {
    const auto& bearings = side.damage.bearings;
    const auto worst = std::max_element(
        bearings.begin(), bearings.end(),
        [](const BearingDamage& a, const BearingDamage& b) { return a.life_share < b.life_share; });
    if (worst == bearings.end()) return {};
    return fmt::format("Of the bearings {} uses most of its life: {} an event.",
                       spaced(worst->name), percent(worst->life_share));
}

}  // namespace

std::string likely_words(const ReadSetup& read, const Assessment& likely) {
    const Units units(read.setup.imperial);
    const auto oil = [&](const CoolerSide& side) { return units.temp(side.event.peak_oil_degC); };
    return fmt::format(
        "Hottest oil, uncertain inputs at their middle: {}{} {}; the likely value and its range "
        "follow{}",
        likely.has_cooler ? oil(likely.fitted) + ", no cooler " : "", oil(likely.without),
        units.degree(), likely.stopped_by.empty() ? "" : ". Do not run this: a check stops it");
}

std::string likely_html(const ReadSetup& read, const Assessment& likely) {
    const Units units(read.setup.imperial);
    std::string out = table_html(temps(read, likely, units));
    if (!likely.stopped_by.empty())
        out += paragraph("Do not run this: " + units.text(spaced(likely.stopped_by)));
    if (const LegAnswer* hottest = hottest_leg(read.setup, likely.fitted))
        out += paragraph(fmt::format("{}: {} of heat{}.", hottest->name,
                                     units.power(heat_in_W(hottest->at_rest)),
                                     hottest->at_rest.found ? "" : "; " + does_not_settle(units)));
    out += paragraph(most_used_words(likely.fitted));
    // The verdict comes with the range; nothing is said before that could contradict it.
    if (!likely.stopped_by.empty()) return out;
    if (likely.fitted.event.peak_oil_degC > read.setup.limits.oil_stop_degC)
        return out + paragraph("Oil above its stop limit: what to do follows with the range.");
    const Intervals& next = likely.fitted.intervals;
    return out +
           paragraph(fmt::format("Change the oil {}; drain and look {}; open the case {}.",
                                 after(next.change_oil), after(next.look), after(next.open_case)));
}

}  // namespace caseload
