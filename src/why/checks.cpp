// SPDX-License-Identifier: MIT
// Checks and actions, calculated from numbers that other files gather.
#include "caseload/formulas/bearing_guides.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/prop_shaft.hpp"
#include "checks/parts.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <tuple>
#include <utility>

namespace caseload::why_detail {
namespace {

/// Address of a check's value: "bearing.output_rear.check_dent".
std::string check_member(const Gather& gather, const Check& check) {
    const std::string_view key = words_for(check.id).key;
    const std::string first = fmt::format("check_{}", key.substr(key.find('.') + 1));
    std::string member = first;
    for (int more = 2; gather.to.has(check.about + "." + member); ++more)
        member = fmt::format("{}_{}", first, more);
    return member;
}

/// "max of the speeds of a shaft", over every bin.
std::string fastest(const Gather& gather, const std::string& shaft) {
    std::vector<std::string> speeds;
    for (const LegLoads& leg : gather.prepared.loads.legs)
        for (std::size_t bin = 0; bin < leg.bins.size(); ++bin)
            speeds.push_back(fmt::format("[duty.speed_rpm@{}] * abs([shaft.{}{}.speed_ratio])",
                                         in_bin(leg.name, bin),
                                         of_set(gather.prepared.loads, leg.train), shaft));
    return extreme_of("max", speeds);
}

/// The speed of a shaft in the bin that its check takes.
std::string passed(const Gather& gather, std::size_t shaft, double share) {
    const PassedSpeed speed = passed_speed(gather.prepared, shaft, share);
    const LegLoads& leg = gather.prepared.loads.legs[speed.leg];
    return fmt::format("[duty.speed_rpm@{}] * abs([shaft.{}{}.speed_ratio])",
                       in_bin(leg.name, speed.bin), of_set(gather.prepared.loads, leg.train),
                       gather.prepared.loads.train.shafts[shaft].name);
}

/// The largest static load of a bearing, bins and torque peaks, with the loads that make it.
void add_dent(const Gather& gather, std::size_t b) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const BearingData& data = prepared.loads.bearings[b];
    BearingLoad worst;
    double most_N = 0;
    std::string at;
    const auto is_larger = [&](const std::vector<LoadState>& states, const std::string& where) {
        bool here = false;
        for (std::size_t s = 0; s < states.size(); ++s) {
            const BearingLoad& load = states[s].bearings[b];
            const double P_0_N = iso_76::static_equivalent_N(data.kind, data.contact_angle_deg,
                                                             {load.F_r_max_N, load.F_a_N});
            if (P_0_N <= most_N) continue;
            most_N = P_0_N;
            worst = load;
            at = fmt::format("{}/{}", where, s + 1);
            here = true;
        }
        return here;
    };
    std::optional<std::pair<std::size_t, std::size_t>> blow;
    for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg) {
        const LegLoads& loads = prepared.loads.legs[leg];
        for (std::size_t bin = 0; bin < loads.bins.size(); ++bin)
            if (is_larger(loads.bins[bin].for_life, in_bin(loads.name, bin))) blow.reset();
        for (std::size_t k = 0; k < loads.peaks.size(); ++k)
            if (is_larger(loads.peaks[k].states, "peak/" + in_bin(loads.name, k)))
                blow.emplace(leg, k);
    }
    if (most_N <= 0) return;
    if (blow) add_blow_forces(gather, blow->first, blow->second);
    const Collector::Place place{"dent", "bearing." + data.name, {}, kind_word(data.kind)};
    for (const auto& [member, from, value] :
         {std::tuple{"dent_F_r_N", "F_r_max_N", worst.F_r_max_N},
          std::tuple{"dent_F_a_N", "F_a_N", worst.F_a_N}})
        to.add(place, member, value).value_of = fmt::format("[{}.{}@{}]", place.part, from, at);
    to.add(place, "dent_P_0_N", most_N);
    if (!to.has(place.part + ".cos_alpha")) to.step({"bearing", place.part, {}, {}}, "cos_alpha");
    to.steps_of(place);
}

/// Time in which a bearing turns with less load than it needs to roll, over all in which it turns.
std::string idle_share(const Gather& gather, const std::string& about) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const auto& bearings = prepared.loads.bearings;
    const auto b = static_cast<std::size_t>(
        std::find_if(bearings.begin(), bearings.end(),
                     [&](const BearingData& data) { return "bearing." + data.name == about; }) -
        bearings.begin());
    const BearingData& data = bearings[b];
    std::vector<std::string> idle;
    std::vector<std::string> driving;
    for (std::size_t leg = 0; leg < prepared.loads.legs.size(); ++leg) {
        const LegLoads& loads = prepared.loads.legs[leg];
        const int times = times_run(gather.setup, leg);
        for (std::size_t bin = 0; times > 0 && bin < loads.bins.size(); ++bin) {
            if (loads.bins[bin].bin.speed_rpm <= 0) continue;
            const std::string at = in_bin(loads.name, bin);
            const Collector::Place place{"bearing", about, "nominal/" + at, kind_word(data.kind)};
            for (const char* load : {"F_r", "F_a"})
                to.step(place, fmt::format("{}_N", load),
                        fmt::format("[{}.{}_heat_N@{}]", about, load, at))
                    .words = fmt::format("{} load of the nominal torque",
                                         load[2] == 'r' ? "radial" : "axial");
            const BearingLoad& load = loads.bins[bin].nominal[b];
            to.add(place, "rated_N", rated_load_N(data, load)).words =
                "equivalent load of the nominal torque, without play";
            to.steps_of(place);
            const std::string time =
                fmt::format("{} * [rest.duration_s@{}] * [duty.share@{}]", times, loads.name, at);
            driving.push_back(time);
            idle.push_back(
                fmt::format("{0} * if([{1}.rated_N@nominal/{2}] < {3:g} * [{1}.C_N], 1, 0)", time,
                            about, at, bearing_guides::least_load_share(data.kind)));
        }
    }
    if (driving.empty()) return "0";
    return "(" + sum_of(idle) + ") / (" + sum_of(driving) + ")";
}

/// The hottest of oil and housing in the event, the lip warmed further where its shaft turns.
std::string hottest_seal(const Gather& gather, bool lip) {
    const auto& runs = gather.answer.fitted.event.runs;
    std::vector<std::string> hottest{"[event.start_degC]"};
    for (std::size_t k = 0; k < runs.size(); ++k) {
        const LegInput& leg = gather.setup.event.legs[static_cast<std::size_t>(runs[k].leg)];
        const std::string rise = lip && leg.kind == LegKind::drive ? " + 30" : "";
        if (k == 0) hottest.push_back("[event.start_degC]" + rise);
        hottest.push_back(
            fmt::format("max([event.hottest_oil_degC@{0}], [event.hottest_housing_degC@{0}]){1}",
                        run_at(k), rise));
    }
    return "min(" + extreme_of("max", hottest) + (lip ? ", 160 + 30)" : ", 160)");
}

/// Checks whose formula takes numbers of one part.
constexpr std::pair<CheckId, std::string_view> check_formulas[] = {
    {CheckId::gear_flank, "max([{part}.drive_flank_share], [{part}.coast_flank_share])"},
    {CheckId::gear_root, "max([{part}.drive_root_share], [{part}.coast_root_share])"},
    {CheckId::gear_peak_flank, "[{part}.peak_flank_share]"},
    {CheckId::gear_peak_root, "[{part}.peak_root_share]"},
    {CheckId::spline_peak, "[{part}.peak_share]"},
    {CheckId::spline_wear, "[{part}.wear_share]"},
    {CheckId::gears_scuffing, "[scuffing.S_B]"},
    {CheckId::gears_film, "[film.film_ratio]"},
    {CheckId::gears_resonance, "[resonance.resonance_time_share]"},
    {CheckId::shaft_end_play, "[{part}.end_play_hot_mm]"},
    {CheckId::shaft_end_play_cold, "[{part}.end_play_cold_mm]"},
    {CheckId::seal_material, "[shared.ep_additive]"},
    {CheckId::bearing_ring, "min([{part}.worst_film_degC], 160)"},
    {CheckId::bearing_cage, "min([{part}.worst_film_degC], 160)"},
    {CheckId::bearing_life, "[{part}.life_share]"},
    {CheckId::bearing_dent, "[{part}.C_0_N] / [{part}.dent_P_0_N]"},
    {CheckId::bearing_rating_share, "[{part}.P_largest_N] / [{part}.C_N]"},
    {CheckId::seat_creep, "[{part}.loose_above_degC] - [{part}.temp_degC@hot]"},
    {CheckId::seat_shaft, "[{part}.effective_fit_um]"},
    {CheckId::seat_play, "[{part}.running_play_mm]"}};

std::string formula_of(const Gather& gather, const Check& check, int& mesh) {
    const Prepared& prepared = gather.prepared;
    std::string part = check.about;
    // "gear.output (set A)" has the address gear.A.output.
    if (const std::size_t set = part.find(" (set "); set != std::string::npos)
        part = "gear." + part.substr(set + 6, part.size() - set - 7) + part.substr(4, set - 4);
    const std::string one = "[" + part + ".";
    if (check.id == CheckId::seat_shaft && check.verdict == "look") return one + "peak_fit_um]";
    if (check.id == CheckId::pair_gain)
        for (const PairState& pair : gather.answer.fitted.checked.pairs) {
            if ("shaft." + pair.shaft != check.about) continue;
            const std::string gain = fmt::format("[pair.{}.loop_gain]", pair.shaft);
            return pair.balance ? gain : fmt::format("max({}, 1.01)", gain);
        }
    if (check.id == CheckId::gears_contact_ratio || check.id == CheckId::gears_backlash) {
        int left = mesh++;
        for (int index = 0; index < trains(prepared.loads); ++index)
            for (const MeshPlace& place : train_of(prepared.loads, index).meshes)
                if (left-- == 0)
                    return fmt::format(
                        "[{}.{}]", mesh_part(gather, index, place),
                        check.id == CheckId::gears_backlash ? "backlash_hot_mm" : "eps_alpha");
        return {};
    }
    if (check.id == CheckId::bearing_least_load) return idle_share(gather, check.about);
    if (check.id == CheckId::seal_sump) return hottest_seal(gather, false);
    if (check.id == CheckId::seal_lip) return hottest_seal(gather, true);
    if (check.id == CheckId::bearing_speed) {
        for (const BearingData& data : prepared.loads.bearings)
            if ("bearing." + data.name == check.about)
                return fmt::format("{} * {}d_m_mm]",
                                   passed(gather, static_cast<std::size_t>(data.shaft),
                                          check.verdict == "watch" ? lasting_share : fast_share),
                                   one);
        return {};
    }
    if (check.id == CheckId::prop_shaft_whirl)
        return fmt::format("max({}, [prop_shaft.limiter_rpm]) / [prop_shaft.critical_rpm]",
                           fastest(gather, prepared.loads.train.shafts.back().name));
    for (const auto& [id, formula] : check_formulas)
        if (id == check.id) return fmt::format(fmt::runtime(formula), fmt::arg("part", part));
    return {};
}

bool names_all_known(const Gather& gather, const std::string& formula) {
    for (const std::string& name : names_in(formula))
        if (!gather.to.has(name.substr(1, name.size() - 2))) return false;
    return true;
}

}  // namespace

void add_checks(const Gather& gather) {
    Collector& to = gather.to;
    for (std::size_t b = 0; b < gather.prepared.loads.bearings.size(); ++b) add_dent(gather, b);
    if (const auto& shaft = gather.setup.vehicle.prop_shaft) {
        const Collector::Place place{"prop_shaft", "prop_shaft", {}, {}};
        to.add(place, "length_mm", shaft->length_mm);
        to.add(place, "outside_mm", shaft->outside_mm);
        to.add(place, "wall_mm", shaft->wall_mm);
        to.add(place, "critical_rpm",
               prop_shaft::ends_share * prop_shaft::critical_speed_rpm(
                                            {shaft->length_mm, shaft->outside_mm, shaft->wall_mm}));
        const auto& vehicle = gather.setup.vehicle;
        std::vector<std::string> ratios;
        for (int index = 0; index < trains(gather.prepared.loads); ++index)
            ratios.push_back(fmt::format("abs([shaft.{}{}.speed_ratio])",
                                         of_set(gather.prepared.loads, index),
                                         gather.prepared.loads.train.shafts.back().name));
        Number& most =
            to.add(place, "limiter_rpm", limiter_rpm(gather.setup, gather.prepared.loads));
        if (vehicle.engine_limit_rpm && !vehicle.gearbox.empty())
            most.value_of =
                fmt::format("{:g} / {:g} * {}", *vehicle.engine_limit_rpm,
                            *std::min_element(vehicle.gearbox.begin(), vehicle.gearbox.end()),
                            extreme_of("max", ratios));
        else
            mark_as_zero(most, "vehicle.engine_limit or vehicle.gearbox not entered");
        to.steps_of(place);
    }
    int contact = 0;
    int backlash = 0;
    for (const Check& check : gather.answer.fitted.checked.checks) {
        const std::string formula =
            formula_of(gather, check, check.id == CheckId::gears_backlash ? backlash : contact);
        Number& number = to.add({"check", check.about, {}, {}}, check_member(gather, check),
                                check.value, quantity("check", "value"));
        number.words = check.words;
        number.unit = check.unit;
        number.check = words_for(check.id).key;
        if (!formula.empty() && names_all_known(gather, formula)) number.value_of = formula;
    }
}

// Long: one number after the other, each with its formula beside it.
void add_actions(const Gather& gather) {
    const Prepared& prepared = gather.prepared;
    const Assessment& answer = gather.answer;
    Collector& to = gather.to;
    const Intervals& found = answer.fitted.intervals;
    const Collector::Place place{"actions", "actions", {}, {}};
    const auto action = [&](const Action& one) {
        Number& number = to.add(place, one.name + "_events", one.after_events,
                                quantity("action", "after_events"));
        number.words = one.name + ": " + number.words;
        if (one.reason == "oil oxidation")
            number.value_of = "floor(0.5 / [event.oil_dose])";
        else if (one.reason == "fatigue")
            number.value_of = "fatigue_events";
        else if (one.reason.find("fatigue") == std::string::npos &&
                 one.reason.find("costs") == std::string::npos)
            number.origin = one.reason;
        else
            number.reason = one.reason;
    };
    action(found.change_oil);
    action(found.look);
    action(found.open_case);
    std::vector<std::string> parts;
    for (const BearingData& bearing : prepared.loads.bearings)
        parts.push_back(fmt::format(
            "0.9^((max(EVENTS * [bearing.{}.life_share] - 0.05, 0) / 0.95)^1.5)", bearing.name));
    for (const GearDamage& gear : answer.fitted.checked.gears) {
        const std::string part = "gear." + (gear.set.empty() ? "" : gear.set + ".") + gear.shaft;
        if (!to.has(part + ".drive_flank_share")) continue;
        for (const char* side : {"flank", "root"})
            parts.push_back(fmt::format(
                "0.99^((EVENTS * max([{0}.drive_{1}_share], [{0}.coast_{1}_share]))^2.5)", part,
                side));
    }
    const bool worn = std::any_of(prepared.loads.bearings.begin(), prepared.loads.bearings.end(),
                                  [&](const BearingData& bearing) {
                                      return to.has("bearing." + bearing.name + ".life_share");
                                  });
    if (!worn) return;
    const auto reliability = [&](const std::string& events) {
        std::string product;
        for (std::string part : parts) {
            part.replace(part.find("EVENTS"), 6, events);
            product += (product.empty() ? "" : " * ") + part;
        }
        return product;
    };
    // Reliability only falls: the last whole event that keeps the aim is the number that keep it.
    const auto keep = [&](const std::string& most, const std::string& events,
                          const std::string& given) {
        return fmt::format("sum(k, 1, {}, if({}{} < aim, 0, 1))", most, reliability(events), given);
    };
    to.add(place, "aim", gather.setup.aims.rebuild_reliability);
    to.step(place, "opening_events", "max(open_case_events, 1)");
    to.step(place, "reached", reliability("opening_events"));
    to.step(place, "reached_next", reliability("(opening_events + 1)"));
    to.add(place, found.reliability_at_opening, quantity("intervals", "reliability_at_opening"))
        .value_of = "min(reached, 0.99)";
    to.add(place, found.next_event, quantity("intervals", "next_event")).value_of =
        "if(0 < reached, min(reached_next / reached, 0.99), 0)";
    to.add(place, found.fatigue_events, quantity("intervals", "fatigue_events")).value_of =
        keep("-floor(-min(20, 200 / [event.driving_h]))", "k", "");
    to.add(place, found.remaining_events, quantity("intervals", "remaining_events")).value_of =
        "if(0 < reached, " + keep("20", "(opening_events + k)", " / reached") + ", 0)";
}

}  // namespace caseload::why_detail
