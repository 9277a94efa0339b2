// SPDX-License-Identifier: MIT
// Rings in their seats, and what warming does to backlash and end play.
#include "caseload/seats.hpp"
#include "caseload/formulas/iso_5753.hpp"
#include "damage/creep.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace caseload::why_detail {
namespace {

const BearingInput& input_of(const Gather& gather, const std::string& name) {
    return *std::find_if(gather.setup.bearings.begin(), gather.setup.bearings.end(),
                         [&](const BearingInput& bearing) { return bearing.name == name; });
}

/// Radial clearance as delivered and what the inner ring's fit takes of it.
void add_clearance(const Gather& gather, const SeatResult& seat) {
    if (!seat.play_known) return;
    Collector& to = gather.to;
    const BearingInput& input = input_of(gather, seat.bearing);
    const std::string bearing = "bearing." + seat.bearing;
    const Collector::Place place{"seat", bearing + ".seat", {}, {}};
    to.step(place, "bore_mm", fmt::format("[{}.bore_mm]", bearing));
    to.add(place, "shaft_bore_mm", gather.setup.shafts.at(input.shaft).bore_mm).origin =
        to.origin_of("shaft." + input.shaft + ".bore");
    to.add(place, "shaft_fit_mm", input.seat.shaft_interference_mm.value_or(0)).origin =
        to.origin_of(bearing + ".seat.shaft_interference");
    to.step(place, "inner_fit_mm");
    const auto delivered =
        iso_5753::radial_clearance_mm(input.kind, input.clearance, input.bore_mm);
    const std::string origin =
        "iso-5753-1-2009 radial-clearance, " + to.origin_of(bearing + ".clearance");
    to.add(place, "play_least_delivered_mm", delivered->least_mm).origin = origin;
    to.add(place, "play_largest_delivered_mm", delivered->largest_mm).origin = origin;
}

// Long: one number after the other, each with its formula beside it.
void add_seat(const Gather& gather, const SeatResult& seat) {
    Collector& to = gather.to;
    const BearingInput& input = input_of(gather, seat.bearing);
    const std::string bearing = "bearing." + seat.bearing;
    const Collector::Place place{
        "seat", bearing + ".seat", {}, seat.retainer ? "retainer" : "aluminium"};
    const auto entered = [&](const char* member, double value, const std::string& key) {
        to.add(place, member, value).origin = to.origin_of(bearing + "." + key);
    };
    entered("boss_mm", *input.seat.boss_outside_mm, "seat.boss_outside");
    if (seat.retainer) {
        entered("retainer_mm", *input.seat.retainer_outside_mm, "seat.retainer_outside");
        entered("retainer_fit_mm", *input.seat.retainer_interference_mm,
                "seat.retainer_interference");
    }
    const std::string fit = to.origin_of(bearing + ".seat.ring_interference").empty()
                                ? bearing + ".seat.ring_fit"
                                : bearing + ".seat.ring_interference";
    for (const auto& [member, value] :
         {std::pair{"interference_least_mm", seat.interference_least_mm},
          std::pair{"interference_largest_mm", seat.interference_largest_mm}})
        to.add(place, value, quantity("seat", member)).origin = to.origin_of(fit);
    to.step(place, "ring_mm", "(interference_least_mm + interference_largest_mm) / 2");
    for (const char* name : {"outside_mm", "width_mm", "element_mm", "d_m_mm", "cos_alpha"})
        to.step(place, name, fmt::format("[{}.{}]", bearing, name));
    add_clearance(gather, seat);
    const bool lets_go = gather.setup.housing.material == HousingMaterial::aluminium;
    const auto loose = [&](const char* member, double value, const char* ring, double ring_mm) {
        Number& number = to.add(place, value, quantity("seat", member));
        // Of a housing that grows less than steel: by whether there is a gap in the hot case.
        if (!lets_go) {
            const char* at = std::string_view(ring) == "interference_least_mm" ? "hot_loosest"
                             : std::string_view(ring) == "ring_mm"             ? "hot"
                                                                               : "hot_tightest";
            number.value_of =
                fmt::format("if(0 < max([{0}.gap_mm@{1}], [{0}.retainer_gap_mm@{1}]), -20, 300)",
                            place.part, at);
            return;
        }
        number.value_of = seat.retainer
                              ? fmt::format(
                                    "20 + (retainer_fit_mm + c_21 / c_11 * {}) / (retainer_mm * "
                                    "(housing_pK - 12e-6))",
                                    ring)
                              : fmt::format("20 + {} / (outside_mm * (housing_pK - 12e-6))", ring);
        // For a ring loose in its retainer the source uses another formula, which is not shown.
        if (seat.retainer && ring_mm < 0) number.value_of.clear();
    };
    const double middle_mm = (seat.interference_least_mm + seat.interference_largest_mm) / 2;
    loose("loose_above_least_degC", seat.loose_above_least_degC, "interference_least_mm",
          seat.interference_least_mm);
    loose("loose_above_degC", seat.loose_above_degC, "ring_mm", middle_mm);
    loose("loose_above_largest_degC", seat.loose_above_largest_degC, "interference_largest_mm",
          seat.interference_largest_mm);
    to.steps_of(place);
    const struct {
        const char* at;
        const SeatAt& seat;
        const char* ring;
    } places[] = {{"storage", seat.storage, "ring_mm"},
                  {"cold", seat.cold, "ring_mm"},
                  {"hot", seat.hot, "ring_mm"},
                  {"storage_tightest", seat.storage_tightest, "interference_largest_mm"},
                  {"cold_loosest", seat.cold_loosest, "interference_least_mm"},
                  {"hot_loosest", seat.hot_loosest, "interference_least_mm"},
                  {"hot_tightest", seat.hot_tightest, "interference_largest_mm"}};
    for (const auto& one : places) {
        Collector::Place there = place;
        there.at = one.at;
        to.step(there, "fit_mm", one.ring);
        to.members(there, one.seat);
        Number& temp = to.number(fmt::format("{}.temp_degC@{}", place.part, one.at));
        const std::string name = one.at;
        temp.value_of = name.rfind("storage", 0) == 0 ? "-20"
                        : name.rfind("cold", 0) == 0  ? "ambient_degC"
                                                      : "min([event.peak_housing_degC], 160)";
        for (const char* member : {"retainer_pressure_MPa", "retainer_gap_mm"})
            if (!seat.retainer)
                mark_as_zero(to.number(fmt::format("{}.{}@{}", place.part, member, one.at)),
                             "no retainer");
        for (const std::string play : {"play_least", "play_largest"}) {
            Number& left = to.number(fmt::format("{}.{}_mm@{}", place.part, play, one.at));
            if (seat.play_known)
                left.value_of = play + "_delivered_mm - inner_fit_mm - raceway_shrink_mm";
            else
                mark_as_zero(left, "clearance class or shaft fit not entered");
        }
        to.steps_of(there);
    }
}

/// What a ring does that is loose when hot.
void add_seat_creep(const Gather& gather, const SeatResult& seat) {
    const Setup& setup = gather.setup;
    Collector& to = gather.to;
    const std::string bearing = "bearing." + seat.bearing;
    const Collector::Place place{"seat", bearing + ".seat", {}, {}};
    const bool of_retainer = seat.retainer && seat.hot.retainer_gap_mm > 0;
    const auto add = [&](const char* member, double value) -> Number& {
        return to.add(place, value, quantity("seat", member));
    };
    Number& gap = add("gap_mm", seat.gap_mm);
    if (seat.gap_mm > 0)
        gap.value_of =
            fmt::format("[{}.{}@hot]", place.part, of_retainer ? "retainer_gap_mm" : "gap_mm");
    else
        mark_as_zero(gap, "tight when hot");
    std::vector<std::string> slips;
    std::vector<std::string> swings;
    std::vector<std::string> travels;
    std::vector<std::string> wears;
    if (seat.slip_margin > 0 || seat.travel_m > 0) {
        to.step(place, "D_loose_mm", of_retainer ? "retainer_mm" : "outside_mm");
        for (const LegAnswer& leg : gather.answer.fitted.legs) {
            const auto index = static_cast<std::size_t>(leg.leg);
            const int times = times_run(setup, index);
            for (std::size_t bin = 0; bin < gather.prepared.loads.legs[index].bins.size(); ++bin) {
                const std::string at = in_bin(leg.name, bin);
                if (times == 0 || !to.has(bearing + ".loss_W@hot/" + at)) continue;
                const Collector::Place there{"seat", place.part, at, {}};
                const std::string F_0 = fmt::format("[{}.F_0_N@{}]", bearing, at);
                const std::string n = fmt::format("[{}.n_rpm@{}]", bearing, at);
                const std::string most = fmt::format("[{}.F_r_max_heat_N@{}]", bearing, at);
                to.step(there, "F_rot_N",
                        fmt::format("if(1e-9 * {0} < {0} - {1}, {0} - {1}, 0)", most, F_0));
                to.step(there, "slip_of_bin",
                        fmt::format("0.1 * max({} - F_rot_N, 0) * [{}.D_loose_mm] / (2 * 1000 * "
                                    "[{}.loss_W@hot/{}] / (pi / 30 * {}))",
                                    F_0, place.part, bearing, at, n));
                to.step(there, "swing_of_bin_deg",
                        fmt::format("if(F_rot_N < {0}, 180 / pi * atan2(F_rot_N, sqrt(max({0}^2 - "
                                    "F_rot_N^2, 0))), if(0 < F_rot_N, 180, 0))",
                                    F_0));
                to.step(there, "travel_of_bin_m",
                        fmt::format("{} * [rest.duration_s@{}] * [duty.share@{}] / 60 * {} / 1000 "
                                    "* if(90 < swing_of_bin_deg, 2 * pi * [{}.gap_mm], "
                                    "if(slip_of_bin < 1, 0.3, 1e-6) * pi * [{}.D_loose_mm])",
                                    times, leg.name, at, n, place.part, place.part));
                to.step(there, "wear_of_bin_um",
                        fmt::format("1000 * 1e-6 * [{}.F_r_heat_N@{}] * travel_of_bin_m / "
                                    "([{}.D_loose_mm] * [{}.width_mm])",
                                    bearing, at, place.part, place.part));
                const auto of_bin = [&](const char* member) {
                    return fmt::format("[{}.{}@{}]", place.part, member, at);
                };
                slips.push_back(of_bin("slip_of_bin"));
                swings.push_back(of_bin("swing_of_bin_deg"));
                travels.push_back(of_bin("travel_of_bin_m"));
                wears.push_back(of_bin("wear_of_bin_um"));
            }
        }
    }
    const auto whole = [&](const char* member, double value, const std::string& formula) {
        Number& number = add(member, value);
        if (slips.empty())
            mark_as_zero(number, seat.gap_mm > 0 ? "nothing turns under load" : "tight when hot");
        else
            number.value_of = formula;
    };
    if (slips.empty()) {
        for (const auto& [member, value] :
             {std::pair{"slip_margin", seat.slip_margin}, std::pair{"swing_deg", seat.swing_deg},
              std::pair{"travel_m", seat.travel_m}, std::pair{"wear_um", seat.wear_um}})
            whole(member, value, {});
        return;
    }
    whole("slip_margin", seat.slip_margin, extreme_of("min", slips));
    whole("swing_deg", seat.swing_deg, extreme_of("max", swings));
    whole("travel_m", seat.travel_m, sum_of(travels));
    whole("wear_um", seat.wear_um, sum_of(wears));
}

/// What the inner ring does on its shaft, of each bin and torque peak.
void add_shaft_creep_of(const Gather& gather, const SeatResult& seat) {
    const Setup& setup = gather.setup;
    Collector& to = gather.to;
    const std::string bearing = "bearing." + seat.bearing;
    const Collector::Place place{"seat", bearing + ".seat", {}, {}};
    const auto add = [&](const char* member, double value) -> Number& {
        return to.add(place, value, quantity("seat", member));
    };
    if (!seat.shaft_fit_known) {
        for (const char* member : {"effective_fit_um", "peak_fit_um", "shaft_travel_m"})
            mark_as_zero(add(member, 0), "fit on the shaft not entered");
        return;
    }
    if (!to.has(place.part + ".shaft_fit_mm"))
        to.add(place, "shaft_fit_mm", *input_of(gather, seat.bearing).seat.shaft_interference_mm)
            .origin = to.origin_of(bearing + ".seat.shaft_interference");
    if (!to.has(place.part + ".bore_mm"))
        to.step(place, "bore_mm", fmt::format("[{}.bore_mm]", bearing));
    to.step(place, "C_0_N", fmt::format("[{}.C_0_N]", bearing));
    const auto fit_under = [&](const std::string& F_r) {
        return fmt::format(
            "if(0 < [{0}.shaft_fit_mm], [{0}.shaft_fit_mm] * [{0}.bore_mm] / ([{0}.bore_mm] + 2), "
            "[{0}.shaft_fit_mm]) - max(0.08e-3 * sqrt([{0}.bore_mm] * {1} / [{0}.width_mm]), "
            "if(0.2 * [{0}.C_0_N] < {1}, 0.02e-3 * {1} / [{0}.width_mm], 0)) - 12e-6 * "
            "[{0}.bore_mm] * 5",
            place.part, F_r);
    };
    to.step(place, "shaft_fit_unloaded_mm", fit_under("0"));
    const std::string unloaded = fmt::format("[{}.shaft_fit_unloaded_mm]", place.part);
    std::vector<std::string> fits{unloaded};
    std::vector<std::string> travels;
    const auto loads_at = [&](const std::string& at, std::size_t states) {
        std::vector<std::string> all;
        for (std::size_t s = 0; s < states; ++s)
            all.push_back(fmt::format("[{}.F_r_N@{}/{}]", bearing, at, s + 1));
        return extreme_of("max", all);
    };
    const auto& bearings = gather.prepared.loads.bearings;
    const auto data = std::find_if(bearings.begin(), bearings.end(), [&](const BearingData& one) {
        return one.name == seat.bearing;
    });
    const auto shaft = static_cast<std::size_t>(data->shaft);
    for (std::size_t leg = 0; leg < gather.prepared.loads.legs.size(); ++leg) {
        const LegLoads& loads = gather.prepared.loads.legs[leg];
        const int times = times_run(setup, leg);
        if (times == 0) continue;
        for (std::size_t bin = 0; bin < loads.bins.size(); ++bin) {
            const BinLoads& one = loads.bins[bin];
            if (one.shaft_speed_rpm[shaft] <= 0 ||
                one.bin.share * setup.event.legs[leg].duration_s <= 0)
                continue;
            const std::string at = in_bin(loads.name, bin);
            const Collector::Place there{"seat", place.part, at, {}};
            to.step(there, "shaft_load_N", loads_at(at, one.for_life.size()));
            to.step(there, "shaft_fit_of_bin_mm", fit_under("shaft_load_N"));
            fits.push_back(fmt::format("[{}.shaft_fit_of_bin_mm@{}]", place.part, at));
            travels.push_back(fmt::format(
                "{} * [rest.duration_s@{}] * [duty.share@{}] / 60 * [{}.n_rpm@{}] / 1000 * pi * "
                "max(-{}, 0)",
                times, loads.name, at, bearing, at, fits.back()));
        }
        for (std::size_t blow = 0; blow < loads.peaks.size(); ++blow) {
            add_blow_forces(gather, leg, blow);
            const std::string at = "peak/" + in_bin(loads.name, blow);
            const Collector::Place there{"seat", place.part, at, {}};
            to.step(there, "shaft_load_N", loads_at(at, loads.peaks[blow].states.size()));
            to.step(there, "shaft_fit_of_bin_mm", fit_under("shaft_load_N"));
            fits.push_back(fmt::format("[{}.shaft_fit_of_bin_mm@{}]", place.part, at));
        }
    }
    const auto of_event =
        event_fit(gather.prepared, static_cast<std::size_t>(data - bearings.begin()));
    add("effective_fit_um", seat.effective_fit_um).value_of =
        "1000 * " +
        (of_event
             ? fmt::format("[{}.shaft_fit_of_bin_mm@{}]", place.part,
                           in_bin(gather.prepared.loads.legs[of_event->leg].name, of_event->bin))
             : unloaded);
    add("peak_fit_um", seat.peak_fit_um).value_of = "1000 * " + extreme_of("min", fits);
    Number& travel = add("shaft_travel_m", seat.shaft_travel_m);
    if (travels.empty())
        mark_as_zero(travel, "nothing turns");
    else
        travel.value_of = sum_of(travels);
}

void add_play(const Gather& gather) {
    const Setup& setup = gather.setup;
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const PlayChange& play = gather.answer.fitted.checked.play;
    if (!to.has("event.peak_housing_degC")) return;
    const Collector::Place event{"event", "event", {}, {}};
    std::vector<std::string> steels;
    for (const LegInput& leg : setup.event.legs)
        if (to.has("event.hottest_steel_degC@" + leg.name))
            steels.push_back(fmt::format("[event.hottest_steel_degC@{}]", leg.name));
    to.step(event, "outgrowth_hot",
            fmt::format("housing_pK * (min(peak_housing_degC, 160) - 20) - 12e-6 * "
                        "(min(max(start_degC, {}), 160) - 20)",
                        extreme_of("max", steels)));
    to.step(event, "outgrowth_cold", "(housing_pK - 12e-6) * (ambient_degC - 20)");
    std::size_t m = 0;
    for (int index = 0; index < trains(prepared.loads); ++index)
        for (const MeshPlace& mesh : train_of(prepared.loads, index).meshes) {
            const Collector::Place place{"mesh", mesh_part(gather, index, mesh), {}, {}};
            for (const bool hot : {true, false}) {
                const char* member = hot ? "backlash_hot_mm" : "backlash_cold_mm";
                to.add(place, hot ? play.backlash_hot_mm[m] : play.backlash_cold_mm[m],
                       quantity("play", member))
                    .value_of =
                    fmt::format("2 * centre_mm * tan(alpha_wt_rad) * [event.outgrowth_{}]",
                                hot ? "hot" : "cold");
            }
            ++m;
        }
    const Train& train = prepared.loads.train;
    for (std::size_t s = 0; s < train.shafts.size(); ++s) {
        const ShaftPlace& shaft = train.shafts[s];
        const auto name = [&](int b) {
            return prepared.loads.bearings[static_cast<std::size_t>(b)].name;
        };
        const auto& big_end =
            setup.bearings[static_cast<std::size_t>(shaft.bearings.front())].big_end;
        const bool tightens = shaft.thrust_bearing < 0 && big_end && *big_end == Facing::front;
        const Collector::Place place{"shaft", shaft_part(gather, 0, static_cast<int>(s)), {}, {}};
        for (const bool hot : {true, false}) {
            const char* member = hot ? "end_play_hot_mm" : "end_play_cold_mm";
            to.add(place, hot ? play.end_play_hot_mm[s] : play.end_play_cold_mm[s],
                   quantity("play", member))
                .value_of =
                fmt::format("{}([bearing.{}.at_mm] - [bearing.{}.at_mm]) * [event.outgrowth_{}]",
                            tightens ? "-" : "", name(shaft.bearings.back()),
                            name(shaft.bearings.front()), hot ? "hot" : "cold");
        }
    }
}

}  // namespace

void add_seats(const Gather& gather) {
    for (const SeatResult& seat : gather.answer.fitted.checked.seats) {
        if (!gather.to.has("bearing." + seat.bearing + ".cos_alpha"))
            gather.to.step({"bearing", "bearing." + seat.bearing, {}, {}}, "cos_alpha");
        add_seat(gather, seat);
        add_seat_creep(gather, seat);
        add_shaft_creep_of(gather, seat);
    }
    add_play(gather);
}

}  // namespace caseload::why_detail
