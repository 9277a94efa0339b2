// SPDX-License-Identifier: MIT
#include "caseload/assess.hpp"

#include "caseload/heat_curves.hpp"
#include "caseload/units.hpp"
#include "checks/parts.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace caseload {
namespace {

constexpr Switches no_cooler{.cooler = false, .pump = true, .fan = true};

/// The event of a side, what it wears and what is checked.
void add_event(CaseCurves& curves, const Switches& switches, CoolerSide& into) {
    const Prepared& prepared = curves.prepared();
    const Setup& setup = *prepared.setup;
    into.event = event_heat(curves, switches);
    into.damage = event_damage(prepared, into.event);
    into.checked = check_case(prepared, into.event, into.damage);
    into.intervals = intervals(setup, wear_of(setup, into.event, into.damage, into.checked));
}

CoolerSide side(CaseCurves& curves, const Switches& switches) {
    const Setup& setup = *curves.prepared().setup;
    CoolerSide result;
    for (std::size_t leg = 0; leg < setup.event.legs.size(); ++leg)
        if (setup.event.legs[leg].kind == LegKind::drive)
            result.legs.push_back(
                {setup.event.legs[leg].name, static_cast<int>(leg), steady(curves, leg, switches)});
    add_event(curves, switches, result);
    return result;
}

/// What stops the case whatever the range says: checks judged over it are not asked here.
void find_stop(Assessment& result) {
    for (const Check& check : worst_first(result.fitted.checked.checks))
        if (check.verdict == "stop" && check_row(check.id).over == JudgedOver::middle) {
            result.stopped_by = fmt::format("{}: {}.", check.about, check.consequence);
            break;
        }
    for (const auto& finding : result.notes)
        if (finding.id == "gears.stop") result.stopped_by = fmt::format("Gears: {}.", finding.text);
}

void note_gears(const Prepared& prepared, Assessment& result) {
    using Severity = iso_21771::Finding::Severity;
    // Not merged: every mesh and gear has its own.
    for (int k = 0; k <= static_cast<int>(prepared.loads.others.size()); ++k) {
        const Train& train = train_of(prepared.loads, k);
        const std::string of_set = k == 0 ? "" : "set " + train.set + ": ";
        for (const auto& finding : train.findings)
            result.notes.push_back(
                {finding.severity == Severity::stop ? "gears.stop" : "gears." + finding.id,
                 finding.id, of_set + finding.text});
    }
}

void collect_notes(const Prepared& prepared, Assessment& result) {
    for (const Note& note : prepared.loads.notes) add_note(result.notes, note);
    note_gears(prepared, result);
    for (const LegAnswer& leg : result.fitted.legs)
        for (const Note& note : loss_notes(*prepared.setup, prepared.loads, prepared.oil,
                                           prepared.losses[static_cast<std::size_t>(leg.leg)],
                                           std::min(leg.at_rest.nodes.oil_degC, oil_ceiling_degC)))
            add_note(result.notes, note);
    for (const Note& note : tooth_notes(*prepared.setup, result.fitted.checked.gears))
        add_note(result.notes, note);
    for (const Note& note : result.fitted.damage.notes) add_note(result.notes, note);
    for (const Note& note : seat_notes(*prepared.setup, result.fitted.checked.seats))
        add_note(result.notes, note);
    for (const Note& note : cage_notes(*prepared.setup, result.fitted.damage))
        add_note(result.notes, note);
}

// Mean power above this over any hour is rare with any engine: terrain sets it.
constexpr double questionable_power_W = 250000;

void question_power(const Prepared& prepared, Assessment& result) {
    double best_W = 0;
    const auto& event = prepared.setup->event;
    // Any 60 minutes: windows that start where a leg starts or end where a leg ends hold the
    // maximum.
    std::vector<double> starts;
    double t_s = 0;
    for (const int leg : event.run) {
        starts.push_back(t_s);
        t_s += event.legs[static_cast<std::size_t>(leg)].duration_s;
        starts.push_back(t_s - 3600);
    }
    for (const double start : starts) {
        double sum_J = 0;
        double at_s = 0;
        for (const int leg : event.run) {
            const auto index = static_cast<std::size_t>(leg);
            const double end_s = at_s + event.legs[index].duration_s;
            sum_J += prepared.loads.legs[index].drive_power_W *
                     std::max(0.0, std::min(end_s, start + 3600) - std::max(at_s, start));
            at_s = end_s;
        }
        best_W = std::max(best_W, sum_J / 3600);
    }
    if (best_W > questionable_power_W)
        add_note(result.notes,
                 {"event.mean_power", "event",
                  fmt::format("mean drive power reaches {:.0f} kW over an hour; long races rarely "
                              "take more than 250 kW: check torque, speed and shares",
                              best_W / 1000)});
}

// Nobody drives a leg for hours with the engine at its limit for longer. Judgement.
constexpr double questionable_limit_share = 0.3;

/// Asks about legs of a course whose pace keeps the engine at its limit.
void question_pace(const Prepared& prepared, Assessment& result) {
    Setup boundless = *prepared.setup;
    boundless.vehicle.engine_power_W *= 1000;
    boundless.vehicle.engine_torque.clear();
    for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg) {
        const LegLoads& loads = prepared.loads.legs[leg];
        const LegInput& input = prepared.setup->event.legs[leg];
        if (!loads.limited_by_engine) continue;
        LegLoads unused;
        const std::vector<Bin> free =
            leg_bins(boundless, input, train_of(prepared.loads, loads.train), unused);
        double limited_share = 0;
        for (std::size_t bin = 0; bin < free.size(); ++bin) {
            const double held_Nm = loads.bins[bin].bin.torque_Nm;
            const double free_Nm = free[bin].torque_Nm * prepared.setup->factors.load;
            if (held_Nm > 0 && free_Nm > held_Nm * (1 + 1e-9)) limited_share += free[bin].share;
        }
        if (limited_share > questionable_limit_share)
            add_note(
                result.notes,
                {"ask.engine_limited", "leg." + input.name,
                 fmt::format("{}: at {:.0f} km/h the engine is at its limit for {:.0f} % of the "
                             "time; did you mean a slower pace or more power?",
                             input.name, input.course_pace_mps * 3.6, 100 * limited_share)});
    }
}

Assessment as_fitted(CaseCurves& curves) {
    const Prepared& prepared = curves.prepared();
    const Setup& setup = *prepared.setup;
    Assessment result;
    result.has_cooler = setup.cooler.fit;
    result.loads = prepared.loads;
    result.fitted = side(curves, {});
    for (const int leg : setup.event.run) {
        const auto index = static_cast<std::size_t>(leg);
        if (setup.event.legs[index].kind == LegKind::drive)
            result.driving_h += h_from_s(setup.event.legs[index].duration_s);
        result.distance_m += prepared.loads.legs[index].distance_m;
    }
    collect_notes(prepared, result);
    question_power(prepared, result);
    question_pace(prepared, result);
    find_stop(result);
    return result;
}

}  // namespace

Assessment fitted_answer(const Setup& setup) {
    const Prepared prepared = prepare(setup);
    CaseCurves curves(prepared);
    return as_fitted(curves);
}

Assessment verdict_answer(const Setup& setup) {
    const Prepared prepared = prepare(setup);
    CaseCurves curves(prepared);
    Assessment result;
    result.has_cooler = setup.cooler.fit;
    add_event(curves, {}, result.fitted);
    note_gears(prepared, result);
    find_stop(result);
    return result;
}

Assessment first_answer(const Setup& setup) {
    const Prepared prepared = prepare(setup);
    CaseCurves curves(prepared);
    Assessment result = as_fitted(curves);
    if (setup.cooler.fit)
        result.without.event = event_heat(curves, no_cooler);
    else
        result.without = result.fitted;
    return result;
}

Assessment assess(const Setup& setup) {
    const Prepared prepared = prepare(setup);
    CaseCurves curves(prepared);
    Assessment result = as_fitted(curves);
    result.without = setup.cooler.fit ? side(curves, no_cooler) : result.fitted;
    result.pump_dead = pump_dead(setup);
    result.parts = opening_parts(setup, result.fitted.damage, result.fitted.checked);
    return result;
}

const LegAnswer* hottest_leg(const Setup& setup, const CoolerSide& side) {
    const LegAnswer* best = nullptr;
    for (const LegAnswer& leg : side.legs) {
        const auto& run = setup.event.run;
        if (std::find(run.begin(), run.end(), leg.leg) == run.end()) continue;
        if (best == nullptr || leg.at_rest.nodes.oil_degC > best->at_rest.nodes.oil_degC)
            best = &leg;
    }
    return best;
}

}  // namespace caseload
