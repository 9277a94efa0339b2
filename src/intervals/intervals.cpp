// SPDX-License-Identifier: MIT
#include "caseload/intervals.hpp"

#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/replacement.hpp"
#include "caseload/units.hpp"
#include "intervals/due.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

/// Makes the action due by an event, if that is earlier; at the same event the reason replaces
/// common practice and joins the user's own rule.
void make_due_by(Action& action, double events, const std::string& reason) {
    if (events > action.after_events) return;
    if (events == action.after_events && action.reason == practice(true))
        action.reason += "; " + reason;
    else
        action.reason = reason;
    action.after_events = static_cast<int>(events);
}

/// Whether any bearing wears at all.
bool wears(const Wear& wear) {
    return std::any_of(wear.bearing_share.begin(), wear.bearing_share.end(),
                       [](double share) { return share > 0; });
}

double cheapest(const Setup& setup, const Wear& wear) {
    if (!setup.costs || !wears(wear)) return 0;
    const auto best = replacement::cheapest_events(
        [&wear](double events) { return reliability(wear, events); },
        {.planned = setup.costs->planned, .failure = setup.costs->failure});
    // Beyond the cap it is not what opens this case.
    return best && *best <= most_events ? *best : 0;
}

/// Part that fails first of all, by its own reliability at the opening.
std::string weakest(const Setup& setup, const Wear& wear, double events) {
    std::string name;
    double least = 1;
    const auto keep_least = [&](double survival, const std::string& part) {
        if (survival >= least) return;
        least = survival;
        name = part;
    };
    for (std::size_t b = 0; b < wear.bearing_share.size(); ++b)
        keep_least(iso_281::survival(events * wear.bearing_share[b]),
                   "bearing." + setup.bearings[b].name);
    for (std::size_t g = 0; g < wear.teeth.size(); ++g) {
        const std::string& gear = wear.gears[g];
        keep_least(replacement::tooth_survival(events * wear.teeth[g].flank_share),
                   gear + " flank");
        keep_least(replacement::tooth_survival(events * wear.teeth[g].root_share), gear + " root");
    }
    return name;
}

}  // namespace

Wear wear_of(const Setup& setup, const EventHeat& heat, const Damage& damage,
             const Checked& checked) {
    Wear wear;
    for (const BearingDamage& bearing : damage.bearings)
        wear.bearing_share.push_back(bearing.life_share);
    for (const GearDamage& gear : checked.gears) {
        wear.teeth.push_back(worst(gear));
        wear.gears.push_back(gear_address(gear));
    }
    for (const SplineResult& spline : checked.splines)
        wear.spline_share.push_back(spline.wear_share);
    wear.oil_dose = damage.oil_dose;
    wear.peak_oil_degC = heat.peak_oil_degC;
    for (const RunPeak& run : heat.runs)
        if (setup.event.legs[static_cast<std::size_t>(run.leg)].kind == LegKind::drive)
            wear.driving_h += h_from_s(run.end_s - run.start_s);
    for (const Check& check : checked.checks) {
        const Severity severity = severity_of(check.verdict);
        wear.seal_to_look_at =
            wear.seal_to_look_at || (check.id == CheckId::seal_sump && severity == Severity::look);
        wear.seat_loose_hot =
            wear.seat_loose_hot || (check.id == CheckId::seat_creep && severity >= Severity::look);
        if (severity < Severity::watch) continue;
        // One that slips under rare loads is seen when the case is open, not by a look.
        wear.ring_on_shaft = wear.ring_on_shaft || check.id == CheckId::seat_shaft;
        wear.seal_over_limit =
            wear.seal_over_limit || check.id == CheckId::seal_lip || check.id == CheckId::seal_sump;
    }
    return wear;
}

double most_worn_spline(const Wear& wear) {
    return wear.spline_share.empty()
               ? 0
               : *std::max_element(wear.spline_share.begin(), wear.spline_share.end());
}

double reliability(const Wear& wear, double events) {
    double all = 1;
    for (const double share : wear.bearing_share) all *= iso_281::survival(events * share);
    for (const ToothSide& gear : wear.teeth)
        all *= replacement::tooth_survival(events * gear.flank_share) *
               replacement::tooth_survival(events * gear.root_share);
    return all;
}

Intervals actions_due(const Setup& setup, const Wear& wear) {
    Intervals result;
    const RulesInput& rules = setup.rules;
    result.change_oil = {"change_oil", static_cast<int>(rules.change_oil_events),
                         practice(rules.change_oil_own)};
    result.look = {"look", static_cast<int>(rules.look_events), practice(rules.look_own)};
    result.open_case = {"open_case", static_cast<int>(rules.open_case_events),
                        practice(rules.open_case_own)};
    if (wear.peak_oil_degC > setup.limits.oil_stop_degC)
        make_due_by(result.change_oil, 1, "oil above its stop limit");
    if (wear.oil_dose > 0)
        make_due_by(result.change_oil, std::floor(oil_dose_limit / wear.oil_dose), "oil oxidation");
    if (wear.seal_to_look_at) make_due_by(result.look, 1, "a seal above its limit");
    if (wear.ring_on_shaft) make_due_by(result.look, 1, std::string(ring_on_shaft_words));
    if (wear.seat_loose_hot) make_due_by(result.look, 1, "a ring walks in its seat when hot");
    const double most = std::min(most_events, most_hours / wear.driving_h);
    const double events = most_kept(std::ceil(most), [&](double n) {
        return reliability(wear, n) >= setup.aims.rebuild_reliability;
    });
    result.fatigue_events = events;
    result.fatigue_beyond = events >= most;
    if (!result.fatigue_beyond) make_due_by(result.open_case, events, "fatigue");
    if (wear.seal_over_limit) make_due_by(result.open_case, 1, "a seal above its limit");
    if (const double worn = most_worn_spline(wear); worn > 0)
        make_due_by(result.open_case, std::max(1.0, std::floor(1 / worn)), "a spline worn out");
    result.cheapest_events = cheapest(setup, wear);
    if (result.cheapest_events > 0)
        make_due_by(result.open_case, result.cheapest_events, "your costs");
    return result;
}

Intervals intervals(const Setup& setup, const Wear& wear) {
    Intervals result = actions_due(setup, wear);
    const double opening = std::max(result.open_case.after_events, 1);
    const double reached = reliability(wear, opening);
    result.reliability_at_opening = std::min(reached, most_reliability);
    result.next_event =
        reached > 0 ? std::min(reliability(wear, opening + 1) / reached, most_reliability) : 0;
    if (reached > 0)
        result.remaining_events = most_kept(most_events, [&](double n) {
            return reliability(wear, opening + n) / reached >= setup.aims.rebuild_reliability;
        });
    // Beyond the cap no part is the one that opens the case.
    if (!result.fatigue_beyond) result.decided_by = weakest(setup, wear, opening);
    return result;
}

}  // namespace caseload
