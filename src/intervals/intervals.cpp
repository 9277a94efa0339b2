// SPDX-License-Identifier: MIT
#include "caseload/intervals.hpp"

#include "caseload/formulas/iso_281.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

// Beyond these no fatigue number is printed: other things stop the case first. Judgement.
constexpr double most_events = 20;
constexpr double most_hours = 200;
// Oil is changed at half its oxidation life. Common practice.
constexpr double oil_dose_limit = 0.5;

std::string practice(bool own) {
    return own ? "your rule" : "common practice";
}

void earlier(Action& action, double events, const std::string& reason) {
    if (events >= action.after_events) return;
    action.after_events = static_cast<int>(events);
    action.reason = reason;
}

}  // namespace

double reliability(const Damage& damage, double events) {
    double all = 1;
    for (const BearingDamage& bearing : damage.bearings)
        all *= iso_281::survival(events * bearing.life_share);
    return all;
}

Intervals intervals(const Setup& setup, const EventHeat& heat, const Damage& damage) {
    Intervals result;
    const RulesInput& rules = setup.rules;
    result.change_oil = {"change_oil", static_cast<int>(rules.change_oil_events),
                         practice(rules.change_oil_own)};
    result.look = {"look", static_cast<int>(rules.look_events), practice(rules.look_own)};
    result.open_case = {"open_case", static_cast<int>(rules.open_case_events),
                        practice(rules.open_case_own)};
    if (heat.peak_oil_degC > setup.limits.oil_stop_degC)
        earlier(result.change_oil, 1, "oil above its stop limit");
    if (damage.oil_dose > 0)
        earlier(result.change_oil, std::floor(oil_dose_limit / damage.oil_dose), "oil oxidation");
    double driving_h = 0;
    for (const RunPeak& run : heat.runs)
        if (setup.event.legs[static_cast<std::size_t>(run.leg)].kind == LegKind::drive)
            driving_h += h_from_s(run.end_s - run.start_s);
    const double most = std::min(most_events, most_hours / driving_h);
    double events = 0;
    while (events < most && reliability(damage, events + 1) >= setup.aims.rebuild_reliability)
        ++events;
    result.fatigue_events = events;
    result.fatigue_beyond = events >= most;
    if (!result.fatigue_beyond) earlier(result.open_case, events, "bearing fatigue");
    return result;
}

}  // namespace caseload
