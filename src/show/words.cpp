// SPDX-License-Identifier: MIT
#include "show/words.hpp"

#include "caseload/show/calibrate.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace caseload {
namespace {

/// How much of a check's room is used: 1 at its limit.
double used(const Check& check) {
    if (check.verdict == "shown" || check.limit == 0) return 0;
    if (check.at_least) return check.value > 0 ? check.limit / check.value : 2;
    return check.value / check.limit;
}

}  // namespace

std::string after(const Action& action) {
    return action.after_events == 0   ? "not one event"
           : action.after_events == 1 ? "after this event"
                                      : fmt::format("after event {}", action.after_events);
}

std::vector<HeatSource> heat_sources(const LossLedger& losses) {
    std::vector<HeatSource> parts{{losses.mesh_W, "teeth", "mesh_W"},
                                  {losses.bearings_W, "bearings", "bearings_W"},
                                  {losses.windage_W, "air and mist", "windage_W"},
                                  {losses.churning_W, "oil churned", "churning_W"},
                                  {losses.thrown_W, "oil thrown", "thrown_W"},
                                  {losses.pocketing_W, "oil squeezed", "pocketing_W"},
                                  {losses.seals_W, "seals", "seals_W"},
                                  {losses.pump_W, "pump", "pump_W"}};
    std::stable_sort(parts.begin(), parts.end(), [](const HeatSource& a, const HeatSource& b) {
        return a.power_W > b.power_W;
    });
    return parts;
}

std::string verdict_word(const Answer& answer) {
    std::string verdict = answer.band.verdict;
    std::transform(verdict.begin(), verdict.end(), verdict.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return verdict;
}

std::string verdict_sentence(const Answer& answer, const Units& units) {
    const LimitsInput& limits = answer.read.setup.limits;
    const auto limit = [&](double temp_degC) {
        return fmt::format("{} {}", units.temp(temp_degC), units.degree());
    };
    std::string sentence;
    const std::string& why = answer.band.decides;
    const double watch_s = answer.likely.fitted.event.watch_after_s;
    if (why == "check")
        sentence = units.text(answer.likely.stopped_by);
    else if (why == "too_hot")
        sentence = fmt::format("Oil passes {} in 9 of 10 draws.", limit(limits.oil_stop_degC));
    else if (why == "holds")
        sentence =
            fmt::format("Oil stays below {} in 9 of 10 draws.", limit(limits.oil_watch_degC));
    else if (why == "likely_above" && watch_s >= 0)
        sentence = fmt::format("Oil likely passes {} after about {}.", limit(limits.oil_watch_degC),
                               duration(watch_s));
    else
        sentence = fmt::format("Oil may pass {}.", limit(limits.oil_watch_degC));
    const auto& checks = answer.likely.fitted.checked.checks;
    const auto watched = std::count_if(checks.begin(), checks.end(),
                                       [](const Check& check) { return check.verdict == "watch"; });
    if (watched > 0)
        sentence += fmt::format(" {} check{} to watch.", watched, watched == 1 ? "" : "s");
    sentence += " " + measured_sentence(answer.read.setup);
    for (const Note& note : answer.read.notes)
        if (note.id == "measured.changed") sentence += " " + note.text;
    return sentence;
}

Weakest weakest_part(const Answer& answer, const Units& units) {
    const std::vector<Check> sorted = worst_first(answer.likely.fitted.checked.checks);
    if (sorted.empty()) return {};
    const Check* weakest = &sorted.front();
    if (weakest->verdict == "fine")
        for (const Check& check : sorted)
            if (used(check) > used(*weakest)) weakest = &check;
    for (const SeatResult& seat : answer.likely.fitted.checked.seats)
        if (weakest->about == "bearing." + seat.bearing + ".seat" && weakest->verdict != "fine")
            return {"weakest",
                    fmt::format("{} seat: loose above {} {}{}{}", seat.bearing,
                                units.temp(seat.loose_above_degC), units.degree(),
                                seat.interference_least_mm < seat.interference_largest_mm
                                    ? fmt::format(" ({} to {} over the fit)",
                                                  units.temp(seat.loose_above_least_degC),
                                                  units.temp(seat.loose_above_largest_degC))
                                    : "",
                                seat.loose_after_s >= 0 ? fmt::format(", reached after {}",
                                                                      duration(seat.loose_after_s))
                                                        : "")};
    const std::string unit(units.unit(weakest->unit));
    return {
        weakest->verdict == "fine" ? "nearest" : "weakest",
        fmt::format("{}: {} {}, limit {}{}", weakest->about, weakest->words,
                    units.number(weakest->value, weakest->unit),
                    units.number(weakest->limit, weakest->unit), unit.empty() ? "" : " " + unit)};
}

}  // namespace caseload
