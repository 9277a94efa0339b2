// SPDX-License-Identifier: MIT
// Rings in their seats, and what warming does to backlash and end play.
#include "caseload/seats.hpp"
#include "caseload/formulas/iso_5753.hpp"
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
    const auto loose = [&](const char* member, double value, const char* ring, double ring_mm) {
        Number& number = to.add(place, value, quantity("seat", member));
        number.value_of = seat.retainer
                              ? fmt::format(
                                    "20 + (retainer_fit_mm + c_21 / c_11 * {}) / (retainer_mm * "
                                    "(23.4e-6 - 12e-6))",
                                    ring)
                              : fmt::format("20 + {} / (outside_mm * (23.4e-6 - 12e-6))", ring);
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
                                                      : "min([event.peak_housing_degC], 300)";
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
            fmt::format("23.4e-6 * (min(peak_housing_degC, 160) - 20) - 12e-6 * "
                        "(min(max(start_degC, {}), 160) - 20)",
                        extreme_of("max", steels)));
    to.step(event, "outgrowth_cold", "(23.4e-6 - 12e-6) * (ambient_degC - 20)");
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
    }
    add_play(gather);
}

}  // namespace caseload::why_detail
