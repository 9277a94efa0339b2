// SPDX-License-Identifier: MIT
#include "caseload/show/text.hpp"

#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

class Units {
public:
    explicit Units(bool imperial) : imperial_(imperial) {}
    [[nodiscard]] std::string temp(double temp_degC) const {
        if (temp_degC > oil_ceiling_degC) return imperial_ ? "above 320" : "above 160";
        return fmt::format("{:.0f}", imperial_ ? degF_from_degC(temp_degC) : temp_degC);
    }
    [[nodiscard]] std::string_view degree() const { return imperial_ ? "degF" : "degC"; }
    [[nodiscard]] std::string distance(double m) const {
        return imperial_ ? fmt::format("{:.0f} mi", mi_from_m(m))
                         : fmt::format("{:.0f} km", m / 1000);
    }
    [[nodiscard]] std::string difference(double difference_K) const {
        return imperial_ ? fmt::format("{:+.0f} F", degF_from_K(difference_K))
                         : fmt::format("{:+.0f} K", difference_K);
    }

private:
    bool imperial_;
};

std::string duration(double s) {
    const int minutes = static_cast<int>(std::lround(s / 60));
    return minutes < 60 ? fmt::format("{} min", minutes)
                        : fmt::format("{} h {:02}", minutes / 60, minutes % 60);
}

std::string oil_line(const Units& units, const Side& side, const std::string& name,
                     double spread_K) {
    const double peak = side.event.peak_oil_degC;
    return fmt::format(
        "    {:<14} {:>9}  {:>9}  {:>9}   {}\n", name, units.temp(peak - spread_K),
        units.temp(peak), units.temp(peak + spread_K),
        side.event.stop_after_s >= 0
            ? fmt::format("passes the stop limit after {}", duration(side.event.stop_after_s))
        : side.event.watch_after_s >= 0
            ? fmt::format("passes the watch limit after {}", duration(side.event.watch_after_s))
            : "stays below the watch limit");
}

std::string after(const Action& action) {
    return action.after_events == 0   ? "not one event"
           : action.after_events == 1 ? "after this event"
                                      : fmt::format("after event {}", action.after_events);
}

const LegAnswer* hottest_leg(const Setup& setup, const Side& side) {
    const LegAnswer* best = nullptr;
    for (const LegAnswer& leg : side.legs) {
        const auto& run = setup.event.run;
        if (std::find(run.begin(), run.end(), leg.leg) == run.end()) continue;
        if (best == nullptr || leg.at_rest.nodes.oil_degC > best->at_rest.nodes.oil_degC)
            best = &leg;
    }
    return best;
}

std::string ledger(const LossLedger& losses) {
    const double total = total_W(losses);
    std::vector<std::pair<double, std::string>> parts{{losses.mesh_W, "teeth"},
                                                      {losses.bearings_W, "bearings"},
                                                      {losses.windage_W, "air and mist"},
                                                      {losses.thrown_W, "oil thrown"},
                                                      {losses.pocketing_W, "oil squeezed"},
                                                      {losses.seals_W, "seals"},
                                                      {losses.pump_W, "pump"}};
    std::stable_sort(parts.begin(), parts.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    std::string text;
    for (const auto& [power_W, name] : parts)
        if (power_W > 0.005 * total)
            text += fmt::format("{}{} {:.0f} %", text.empty() ? "" : "   ", name,
                                100 * power_W / total);
    return text;
}

std::string clock_text(double clock_deg) {
    const int hour = static_cast<int>(std::lround(clock_deg / 30)) % 12;
    return fmt::format("{} o'clock", hour == 0 ? 12 : hour);
}

/// One quantity for a person: words, value, unit.
std::string line(std::string_view words, double value, std::string_view unit, const Units& units) {
    const bool temp = unit == "degC";
    const std::string shown = !std::isfinite(value)     ? "none"
                              : temp                    ? units.temp(value)
                              : std::fabs(value) >= 1e4 ? fmt::format("{:.0f}", value)
                                                        : fmt::format("{:.4g}", value);
    const std::string_view shown_unit = temp ? units.degree() : unit;
    return fmt::format("  {:<58} {:>12}{}{}\n", words, shown, shown_unit.empty() ? "" : " ",
                       shown_unit);
}

/// The numbers of a result, one a line, in the words of the quantity table.
template <class T>
std::string lines(const T& result, const Units& units) {
    std::string out;
    each(result, [&](std::string_view name, const auto& value) {
        if constexpr (std::is_same_v<std::decay_t<decltype(value)>, double>) {
            const Quantity& row = quantity(Members<T>::owner, name);
            out +=
                line(row.symbol.empty() ? row.words : fmt::format("{}, {}", row.words, row.symbol),
                     value, row.unit, units);
        }
    });
    return out;
}

std::string assumed_value(const Entry& entry) {
    return fmt::format("{}: {}", entry.key, entry.number);
}

std::string header(const ReadSetup& read, const Assessment& answer, const Units& units) {
    const Setup& setup = read.setup;
    std::string teeth;
    for (const int z : setup.gears.teeth) teeth += fmt::format("{}{}", teeth.empty() ? "" : "/", z);
    return fmt::format("{}    {}    {} {:.1f} h, {}    {} {}    {} values yours, {} assumed\n\n",
                       setup.name, teeth, setup.event.words, answer.driving_h,
                       units.distance(answer.distance_m), units.temp(setup.event.ambient_degC),
                       units.degree(), read.count_yours, read.count_assumed);
}

}  // namespace

std::string first_screen(const ReadSetup& read, const Assessment& answer,
                         const std::vector<Worth>& worth) {
    const Setup& setup = read.setup;
    const Units units(setup.imperial);
    std::string verdict = answer.verdict;
    std::transform(verdict.begin(), verdict.end(), verdict.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    std::string out = header(read, answer, units);
    out += fmt::format("  {}  {} Unmeasured.\n\n", verdict, answer.decides);
    out += fmt::format("  1 OIL {:<9}       low     likely       high   {}\n", "", units.degree());
    if (answer.has_cooler)
        out += oil_line(units, answer.fitted, "with cooler", spread_with_cooler_K);
    out += oil_line(units, answer.without, "no cooler", spread_without_K);
    out += fmt::format("    limits         watch {}, stop {}\n\n",
                       units.temp(setup.limits.oil_watch_degC),
                       units.temp(setup.limits.oil_stop_degC));
    const Intervals& next = answer.fitted.intervals;
    out += fmt::format("  2 NEXT          {:<18} change the oil                   {}\n",
                       after(next.change_oil), next.change_oil.reason);
    out += fmt::format("                  {:<18} drain, read the magnet, end play {}\n",
                       after(next.look), next.look.reason);
    out += fmt::format("                  {:<18} open the case                    {}\n",
                       after(next.open_case), next.open_case.reason);
    out += next.fatigue_beyond
               ? "                  bearing fatigue allows more than 20 events or 200 h: not what "
                 "stops this case\n"
               : fmt::format("                  bearing fatigue allows {:.0f} events\n",
                             next.fatigue_events);
    const LegAnswer* hottest = hottest_leg(setup, answer.fitted);
    if (hottest != nullptr) {
        const Steady& rest = hottest->at_rest;
        out += fmt::format(
            "\n  3 DECIDES       {}: {:.1f} kW made{}\n                  {}\n", hottest->name,
            heat_in_W(rest) / 1000,
            rest.found ? fmt::format(", at rest with oil at {} {}", units.temp(rest.nodes.oil_degC),
                                     units.degree())
                       : fmt::format("; no balance below {} {}: short by {:.0f} W, {:.0f} W/K",
                                     units.temp(oil_ceiling_degC), units.degree(), rest.short_by_W,
                                     rest.short_by_WpK),
            ledger(rest.losses.ledger));
    }
    std::vector<BearingDamage> bearings = answer.fitted.damage.bearings;
    std::stable_sort(bearings.begin(), bearings.end(),
                     [](const auto& a, const auto& b) { return a.life_share > b.life_share; });
    out += "    bearings, share of life (10 % failing) this event uses:\n";
    std::string line = "                  ";
    for (const BearingDamage& bearing : bearings)
        line += fmt::format("{} {:.2g} %   ", bearing.name, 100 * bearing.life_share);
    while (!line.empty() && line.back() == ' ') line.pop_back();
    out += line + "\n";
    out +=
        "\n  4 NOT SEEN      teeth, seats, splines, bolts, breather and water, starved oil, "
        "fitting faults, impact\n";
    out +=
        "\n  5 MEASURE       oil in the scavenge line, 30 min at pace: settles the oil "
        "temperature\n";
    int shown = 0;
    for (const Worth& one : worth) {
        if (shown == 3) break;
        out += fmt::format("    {:<13} {:<52} {} .. {}\n", shown == 0 ? "ASSUMED most" : "",
                           assumed_value(one.entry),
                           units.difference(std::min(one.oil_low_K, one.oil_high_K)),
                           units.difference(std::max(one.oil_low_K, one.oil_high_K)));
        ++shown;
    }
    out +=
        "\nPlan with this; symptoms, your eyes and the rule book come first.   More: --detail, "
        "complete\n";
    return out;
}

std::string detail_screen(const ReadSetup& read, const Assessment& answer,
                          const std::vector<Worth>& worth) {
    const Setup& setup = read.setup;
    const Units units(setup.imperial);
    std::string out;
    for (const LegAnswer& leg : answer.fitted.legs) {
        out += fmt::format("\nLeg {}, at rest{}\n", leg.name,
                           leg.at_rest.found ? "" : " (no balance below 160 degC; values there)");
        out += lines(leg.at_rest.nodes, units) + lines(leg.at_rest.losses.ledger, units) +
               lines(leg.at_rest.outside, units) +
               line("cooler", leg.at_rest.cooler_W, "W", units) +
               line("exhaust", leg.at_rest.exhaust_W, "W", units);
        const auto& loads = answer.loads.legs[static_cast<std::size_t>(leg.leg)];
        out += lines(loads, units);
    }
    for (const MeshPlace& mesh : answer.loads.train.meshes)
        out += fmt::format("\nMesh {} to {}\n",
                           answer.loads.train.shafts[static_cast<std::size_t>(mesh.driver)].name,
                           answer.loads.train.shafts[static_cast<std::size_t>(mesh.driven)].name) +
               lines(mesh.pair, units);
    for (std::size_t b = 0; b < answer.loads.bearings.size(); ++b) {
        const BearingDamage& damage = answer.fitted.damage.bearings[b];
        out += fmt::format("\nBearing {}, presses towards {}\n", damage.name,
                           clock_text(damage.clock_deg)) +
               lines(damage, units) + lines(answer.loads.bearings[b], units);
    }
    out += fmt::format("\nOil: {:.3g} of its oxidation life per event (a factor of 3 either way)\n",
                       answer.fitted.damage.oil_dose);
    out += "\nAssumed, by worth (oil peak, largest bearing share):\n";
    for (const Worth& one : worth)
        out += fmt::format("  {:<52} {} .. {}   {:+.2g} .. {:+.2g}\n", assumed_value(one.entry),
                           units.difference(one.oil_low_K), units.difference(one.oil_high_K),
                           one.life_low_share, one.life_high_share);
    out += "\nNotes:\n";
    for (const Notes* notes : {&read.notes, &answer.notes})
        for (const Note& note : *notes) out += fmt::format("  {}\n", note.text);
    return out;
}

}  // namespace caseload
