// SPDX-License-Identifier: MIT
// Ratings and sizes of the bearings: entered, or from their size.
#include "caseload/formulas/bearing_estimate.hpp"
#include "loads/running_play.hpp"
#include "loads/seat_fit.hpp"
#include "why/places.hpp"

#include <fmt/format.h>

#include <string>
#include <utility>

namespace caseload::why_detail {
namespace {

/// Columns of the table of friction factors, 1 to 4.
int supply(OilSupply oil) {
    switch (oil) {
        case OilSupply::mist:
            return 1;
        case OilSupply::damp:
            return 2;
        case OilSupply::splash:
            return 3;
        case OilSupply::jet:
            return 4;
    }
    return 2;
}

/// The seat of the outer ring: its film, its boss, and a retainer.
void add_seat_film(const Gather& gather, std::size_t b, const Collector::Place& place) {
    Collector& to = gather.to;
    const BearingInput& input = gather.setup.bearings[b];
    const SeatHeat seat = seat_heat(gather.setup, input, gather.prepared.loads.bearings[b]);
    Number& boss = to.add(place, "boss_mm", seat.boss_outside_mm);
    if (input.seat.boss_outside_mm)
        boss.origin = to.origin_of(place.part + ".seat.boss_outside");
    else
        boss.value_of = seat.retainer ? "retainer_mm + 50" : "outside_mm + 50";
    Number& film = to.add(place, "seat_film_Wpm2K", seat.film_Wpm2K);
    const auto by_gap = [](const char* gap) {
        return fmt::format("min(5000, max(600, 0.14 / max({} / 2000, 1e-9)))", gap);
    };
    const std::string gap_origin = "the seat at 90 degC, by the formulas of its own numbers";
    if (!input.radial) {
        film.value_of = "300";
    } else if (!ring_fit_known(input)) {
        film.value_of = fmt::format("3000 * {:.12g}", gather.setup.factors.seat_heat);
    } else {
        film.value_of = by_gap("seat_gap_mm");
        to.add(place, "seat_gap_mm", seat.gap_mm).origin = gap_origin;
    }
    if (!seat.retainer) return;
    to.add(place, "retainer_mm", *input.seat.retainer_outside_mm).origin =
        to.origin_of(place.part + ".seat.retainer_outside");
    to.add(place, "retainer_gap_mm", seat.retainer_gap_mm).origin = gap_origin;
    to.step(place, "retainer_film_Wpm2K", by_gap("retainer_gap_mm"));
    to.number(place.part + ".film_housing_WpK").value_of =
        "1 / (1e6 / (seat_film_Wpm2K * pi * outside_mm * width_mm) + 1000 * ln(retainer_mm / "
        "outer_raceway_mm) / (2 * pi * 45 * width_mm) + 1e6 / (retainer_film_Wpm2K * pi * "
        "retainer_mm * width_mm) + 1000 * ln(boss_mm / retainer_mm) / (2 * pi * housing_WpmK * "
        "width_mm))";
}

/// Heat paths of a bearing's film.
void add_film_paths(const Gather& gather, std::size_t b) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    const BearingData& data = prepared.loads.bearings[b];
    const BearingInput& input = gather.setup.bearings[b];
    const Collector::Place place{"bearing", "bearing." + data.name, {}, kind_word(data.kind)};
    const BearingPaths& paths = prepared.bearing_paths[b];
    to.add(place, "film_housing_WpK", paths.housing_WpK);
    to.add(place, "film_steel_WpK", paths.steel_WpK);
    to.add(place, "film_oil_WpK", paths.oil_WpK);
    to.add(place, "path_WpK", bearing_heat::all_WpK(paths));
    to.add(place, "outer_raceway_mm", outer_raceway_mm(data));
    to.add(place, "inner_raceway_mm", inner_raceway_mm(data));
    to.add(place, "shaft_bore_mm", gather.setup.shafts.at(input.shaft).bore_mm).origin =
        to.origin_of("shaft." + input.shaft + ".bore");
    to.add(place, "along_mm", shaft_to_gear_mm(gather.setup, input)).value_of =
        fmt::format("max(abs(at_mm - [{}.gear_at_mm]) - (width_mm + face_width_mm) / 2, 0)",
                    shaft_part(gather, 0, data.shaft));
    add_seat_film(gather, b, place);
}

/// Play as it turns, of a bearing whose play counts.
void add_running_play(const Gather& gather, std::size_t b, const Collector::Place& place) {
    Collector& to = gather.to;
    const BearingData& data = gather.prepared.loads.bearings[b];
    const BearingInput& input = gather.setup.bearings[b];
    const std::string part = place.part + ".";
    const auto play = running_play(gather.setup, input, data);
    if (!play) {
        for (const char* member :
             {"running_play_mm", "running_play_least_mm", "running_play_largest_mm"})
            mark_as_zero(to.number(part + member),
                         "not counted: its kind and bore have no class of clearance");
        return;
    }
    for (const auto& [member, value_mm] : {std::pair{"play_least_mm", play->least_mm},
                                           std::pair{"play_largest_mm", play->largest_mm}})
        to.add(place, member, value_mm).origin = to.origin_of(part + "clearance");
    Number& fit = to.add(place, "inner_fit_mm", play->inner_fit_mm);
    if (input.seat.shaft_interference_mm)
        fit.origin = to.origin_of(part + "seat.shaft_interference");
    else
        fit.value_of = "0.025 / 90 * bore_mm";
    to.add(place, "inner_play_mm", play->inner_mm);
    if (play->inner_fit_mm <= 0)
        mark_as_zero(to.number(part + "inner_play_mm"), "its inner ring is not tight");
    Number& outer = to.add(place, "outer_play_mm", play->outer_mm);
    outer.origin = "the seat at 90 degC, by the formulas of its own numbers; 0: not tight";
    to.add(place, "warmer_play_mm", play->warmer_mm);
    const std::string taken = " - inner_play_mm - outer_play_mm - warmer_play_mm";
    to.number(part + "running_play_mm").value_of =
        fmt::format("play_least_mm + {:.12g} * (play_largest_mm - play_least_mm){}",
                    gather.setup.factors.play, taken);
    to.number(part + "running_play_least_mm").value_of = "play_least_mm" + taken;
    to.number(part + "running_play_largest_mm").value_of = "play_largest_mm" + taken;
    const double cold_degC = gather.prepared.ambient_degC;
    const auto cold = cold_play(gather.setup, input, data, cold_degC);
    to.add(place, "cold_outer_play_mm", cold->outer_mm).origin = fmt::format(
        "the seat at {:.4g} degC, by the formulas of its own numbers; 0: not tight", cold_degC);
    to.add(place, "cold_play_mm", cold->at_mm(gather.setup.factors.play)).value_of = fmt::format(
        "play_least_mm + {:.12g} * (play_largest_mm - play_least_mm) - inner_play_mm - "
        "cold_outer_play_mm",
        gather.setup.factors.play);
}

}  // namespace

void add_ratings(const Gather& gather) {
    const Prepared& prepared = gather.prepared;
    Collector& to = gather.to;
    for (std::size_t b = 0; b < prepared.loads.bearings.size(); ++b) {
        const BearingData& data = prepared.loads.bearings[b];
        const BearingInput& input = gather.setup.bearings[b];
        const std::string part = "bearing." + data.name;
        const Collector::Place place{"bearing", part, {}, kind_word(data.kind)};
        to.members(place, data);
        const auto number = [&](const char* member) -> Number& {
            return to.number(part + "." + member);
        };
        for (const char* member : {"bore_mm", "outside_mm", "width_mm"})
            number(member).origin = to.origin_of(part + ".size");
        number("at_mm").origin = to.origin_of(part + ".at");
        number("shaft").origin = to.origin_of(part + ".shaft");
        std::string angle = to.origin_of(part + ".contact_angle");
        number("contact_angle_deg").origin = angle.empty() ? "usual angle of its kind" : angle;
        number("oil_reaching_Lpmin").origin = to.origin_of(part + ".oil");
        const bearing_estimate::Estimate size = bearing_estimate::estimate(
            input.kind,
            {.bore_mm = input.bore_mm, .outside_mm = input.outside_mm, .width_mm = input.width_mm},
            input.contact_angle_deg);
        to.add(place, "supply", supply(input.oil)).origin = to.origin_of(part + ".oil");
        to.add(place, "Z", size.Z);
        if (data.kind == BearingKind::tapered_roller) {
            const auto cup_mm = bearing_estimate::tapered_cup_width_mm(
                {input.bore_mm, input.outside_mm, input.width_mm});
            if (cup_mm)
                to.add(place, "cup_mm", *cup_mm).origin = "ISO 355 list of sizes";
            else
                to.step(place, "cup_mm", "0.77 * width_mm");
        }
        if (!is_ball(data.kind)) to.add(place, "L_we_mm", size.L_we_mm);
        if (input.dynamic_rating_N) number("C_N").origin = to.origin_of(part + ".dynamic_rating");
        if (input.static_rating_N) number("C_0_N").origin = to.origin_of(part + ".static_rating");
        if (input.fatigue_limit_N) number("C_u_N").origin = to.origin_of(part + ".fatigue_limit");
        if (!is_ball(data.kind)) mark_as_zero(number("f_0"), "of balls only");
        if (input.f0) number("f0").origin = to.origin_of(part + ".f0");
        add_film_paths(gather, b);
        add_running_play(gather, b, place);
        to.steps_of(place);
    }
}

}  // namespace caseload::why_detail
