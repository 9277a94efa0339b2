// SPDX-License-Identifier: MIT
// Bearings of a shaft together, and their seats.
#include "input/build.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/iso_286.hpp"
#include "caseload/formulas/iso_5753.hpp"
#include "caseload/formulas/load_zone.hpp"
#include "caseload/formulas/operating_clearance.hpp"
#include "caseload/kinds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

namespace caseload::input {
namespace {

// Interference over diameter beyond which neither steel ring nor aluminium boss stays elastic: a
// strain of 0.002 is 410 N/mm2 in steel. Judgement.
constexpr double most_squeeze = 0.002;

// A ring needs some section: bore to outside of the thinnest series.
constexpr double least_section_ratio = 1.08;

std::string key_of(const BearingInput& bearing, std::string_view last) {
    return fmt::format("bearing.{}.{}", bearing.name, last);
}

bool has_big_end(const BearingInput& bearing) {
    return use_of(bearing.kind).thick_end;
}

using Row = std::vector<const BearingInput*>;

std::string names_of(const Row& bearings) {
    std::vector<std::string> names;
    for (const BearingInput* bearing : bearings) names.push_back(bearing->name);
    return fmt::format("{}", fmt::join(names, ", "));
}

void check_size(Completed& from, const BearingInput& bearing) {
    if (bearing.outside_mm <= 0) return;
    const std::string key = key_of(bearing, "size");
    if (bearing.outside_mm <= least_section_ratio * bearing.bore_mm) {
        from.problem(
            key,
            fmt::format("{}: an outside of {:.4g} mm leaves no bearing round a bore of {:.4g} mm",
                        key, bearing.outside_mm, bearing.bore_mm),
            "the order is bore x outside x width");
        return;
    }
    // Balls or rollers and their life are known for usual proportions only.
    try {
        static_cast<void>(bearing_estimate::estimate(bearing.kind,
                                                     {.bore_mm = bearing.bore_mm,
                                                      .outside_mm = bearing.outside_mm,
                                                      .width_mm = bearing.width_mm},
                                                     bearing.contact_angle_deg));
    } catch (const Error& error) {
        if (error.kind() != Error::Kind::domain) throw;
        from.problem(
            key,
            fmt::format("{}: no bearing of this kind has such proportions ({})", key, error.what()),
            "the order is bore x outside x width; take a size from a table of ISO 15 or "
            "ISO 355");
    }
}

void check_contact_angle(Completed& from, const BearingInput& bearing) {
    const std::string key = key_of(bearing, "contact_angle");
    const Item* angle = from.find(key);
    if (angle == nullptr || !from.has(key_of(bearing, "type"))) return;
    const BearingUse& use = use_of(bearing.kind);
    if (use.largest_angle_deg == 0) {
        from.note("input.unused", key,
                  fmt::format("{} has no effect on a {} bearing", key,
                              from.text(key_of(bearing, "type"))));
        return;
    }
    if (angle->number < use.least_angle_deg || angle->number > use.largest_angle_deg)
        from.problem(key,
                     fmt::format("{} = {:.4g} deg: load factors of a {} bearing are known from "
                                 "{:.4g} to {:.4g} deg",
                                 key, angle->number, from.text(key_of(bearing, "type")),
                                 use.least_angle_deg, use.largest_angle_deg),
                     "left out, the usual angle of the kind is taken");
    if (angle->origin == Origin::preset)
        from.note(
            "input.contact_angle", "bearing." + bearing.name,
            fmt::format("contact angle of {} taken as {:.4g} deg", bearing.name, angle->number));
}

void check_seat(Completed& from, const BearingInput& bearing) {
    const SeatInput& seat = bearing.seat;
    if (!bearing.has_seat || from.broken("bearing." + bearing.name)) return;
    const std::string interference = key_of(bearing, "seat.ring_interference");
    if (!seat.ring_interference_mm && seat.ring_fit.empty())
        from.problem(
            key_of(bearing, "seat.carrier"),
            fmt::format("bearing.{}.seat does not say how tight the outer ring sits", bearing.name),
            "add ring_interference = \"0.03 mm\" (at 20 degC) or ring_fit = \"N7\"");
    const bool named = bearing.outside_mm >= iso_286::least_size_mm &&
                       bearing.outside_mm <= iso_286::largest_size_mm;
    if (!seat.ring_fit.empty() && !named)
        from.problem(
            key_of(bearing, "seat.ring_fit"),
            fmt::format("{}: named fits are known for rings from {:.4g} to {:.4g} mm outside; this "
                        "one has {:.4g} mm",
                        key_of(bearing, "seat.ring_fit"), iso_286::least_size_mm,
                        iso_286::largest_size_mm, bearing.outside_mm),
            fmt::format("enter {}", interference));
    const auto crushes = [&](const std::optional<double>& squeeze_mm, std::string_view key,
                             double on_mm) {
        if (!squeeze_mm || *squeeze_mm <= most_squeeze * on_mm) return;
        from.problem(key_of(bearing, key),
                     fmt::format("{}: {:.4g} mm on {:.4g} mm would crush the ring or tear the boss",
                                 key_of(bearing, key), *squeeze_mm, on_mm),
                     fmt::format("usual fits stay below {:.2g} mm here; on diameter, at 20 degC",
                                 most_squeeze * on_mm));
    };
    crushes(seat.ring_interference_mm, "seat.ring_interference", bearing.outside_mm);
    if (seat.retainer_outside_mm)
        crushes(seat.retainer_interference_mm, "seat.retainer_interference",
                *seat.retainer_outside_mm);
    double within_mm = bearing.outside_mm;
    if (seat.retainer_outside_mm && seat.carrier == Carrier::steel_retainer) {
        if (*seat.retainer_outside_mm <= within_mm)
            from.problem(
                key_of(bearing, "seat.retainer_outside"),
                fmt::format("{}: the steel ring is not larger than the bearing's {:.4g} mm",
                            key_of(bearing, "seat.retainer_outside"), within_mm),
                "the retainer lies round the outer ring");
        within_mm = *seat.retainer_outside_mm;
    }
    if (seat.boss_outside_mm && *seat.boss_outside_mm <= within_mm)
        from.problem(key_of(bearing, "seat.boss_outside"),
                     fmt::format("{}: the boss is not larger than the {:.4g} mm it holds",
                                 key_of(bearing, "seat.boss_outside"), within_mm),
                     "give the largest circle that fits inside the boss");
}

/// Class and fit on the shaft must leave a bearing that can turn. Its class in the middle, before
/// anything warms.
void check_play_left(Completed& from, const Setup& setup, const BearingInput& bearing) {
    const auto& fit_mm = bearing.seat.shaft_interference_mm;
    const std::string key = key_of(bearing, "seat.shaft_interference");
    const auto shaft = setup.shafts.find(bearing.shaft);
    if (!bearing.radial || !fit_mm || shaft == setup.shafts.end() ||
        bearing.bore_mm <= iso_5753::over_bore_mm || bearing.bore_mm > iso_5753::largest_bore_mm)
        return;
    const auto delivered =
        iso_5753::radial_clearance_mm(bearing.kind, bearing.clearance, bearing.bore_mm);
    if (!delivered) return;
    const double play_mm = (delivered->least_mm + delivered->largest_mm) / 2;
    const double element_mm = bearing_estimate::estimate(bearing.kind,
                                                         {.bore_mm = bearing.bore_mm,
                                                          .outside_mm = bearing.outside_mm,
                                                          .width_mm = bearing.width_mm},
                                                         bearing.contact_angle_deg)
                                  .D_w_mm;
    const double taken_mm = operating_clearance::inner_reduction_mm(
        {.interference_mm = *fit_mm,
         .shaft_bore_mm = std::min(shaft->second.bore_mm,
                                   operating_clearance::most_hollow_share * bearing.bore_mm),
         .bore_mm = bearing.bore_mm,
         .raceway_mm = operating_clearance::inner_raceway_mm(
             {.D_pw_mm = (bearing.bore_mm + bearing.outside_mm) / 2,
              .D_w_mm = element_mm,
              .contact_angle_deg = 0})});
    if (play_mm - taken_mm >= load_zone::least_play_mm) return;
    // What the fit takes goes with it.
    const double most_mm = *fit_mm * (play_mm - load_zone::least_play_mm) / taken_mm;
    from.problem(
        key,
        fmt::format("{}: {:.4g} mm takes {:.3g} mm of play, class {} has {:.3g} mm: {} would be "
                    "preloaded by {:.3g} mm and not turn",
                    key, *fit_mm, taken_mm, words_for(bearing.clearance).key, play_mm, bearing.name,
                    taken_mm - play_mm),
        fmt::format(
            "enter at most {:.3f} mm, on diameter at 20 degC, or a class with more play than "
            "{}",
            std::floor(1000 * most_mm) / 1000, words_for(bearing.clearance).key));
}

/// A bearing that takes the axial force alone must take it both ways.
bool takes_thrust_alone(Completed& from, const std::string& shaft, const BearingInput& bearing) {
    if (has_big_end(bearing)) {
        from.problem(key_of(bearing, "type"),
                     fmt::format("bearing.{} alone holds shaft {} in one direction only",
                                 bearing.name, shaft),
                     "use two facing each other, or a kind that takes force both ways");
        return false;
    }
    if (!use_of(bearing.kind).holds_axially) {
        from.problem(
            key_of(bearing, "type"),
            fmt::format(
                "bearing.{} is a {} bearing and cannot hold shaft {} along its axis: thrust "
                "on its flanges is outside the rating standard",
                bearing.name, words_for(bearing.kind).shown, shaft),
            "make another one locating, or add a third bearing with radial = false");
        return false;
    }
    return true;
}

/// The bearings of one shaft.
struct ShaftRows {
    Row radial;
    Row axial;     ///< take the axial force only
    Row locating;  ///< of the radial ones
};

/// Two bearings whose big ends point to opposite sides and that alone locate the shaft.
void check_facing_pair(Completed& from, const std::string& shaft, const ShaftRows& rows) {
    const auto& [pair, axial, locating] = rows;
    if (pair[0]->big_end == pair[1]->big_end)
        from.problem_at(
            {key_of(*pair[1], "big_end"), key_of(*pair[0], "big_end")},
            fmt::format("bearings {} hold shaft {} in one direction only", names_of(pair), shaft),
            "the big ends of a pair point to opposite sides");
    else if (!axial.empty())
        from.problem_at(
            {key_of(*axial.front(), "radial"), key_of(*axial.front(), "shaft")},
            fmt::format("bearing.{} is to take the axial force alone, but {} hold shaft {} as a "
                        "facing pair",
                        axial.front()->name, names_of(pair), shaft),
            "leave it out, or use kinds without big_end for the two that carry radial load");
    else if (!locating.empty())
        from.problem(key_of(*locating.front(), "locating"),
                     fmt::format("bearing.{} is locating, but {} hold shaft {} as a facing pair",
                                 locating.front()->name, names_of(pair), shaft),
                     "leave locating out: each takes the force in one direction");
}

/// One locating bearing, or two that face each other; or the one that carries no radial load.
void check_locating(Completed& from, const std::string& shaft, const ShaftRows& rows) {
    const auto& [radial, axial, locating] = rows;
    if (has_big_end(*radial[0]) && has_big_end(*radial[1]))
        return check_facing_pair(from, shaft, rows);
    if (!axial.empty()) {
        if (!locating.empty())
            from.problem(
                key_of(*locating.front(), "locating"),
                fmt::format("bearing.{} is locating beside {}, which takes the axial force alone",
                            locating.front()->name, axial.front()->name),
                "a bearing with radial = false is the only locating one of its shaft");
        else if (!takes_thrust_alone(from, shaft, *axial.front()))
            return;
    } else if (locating.empty()) {
        return from.problem_at(
            {key_of(*radial[0], "locating"), key_of(*radial[1], "locating"),
             key_of(*radial[0], "shaft")},
            fmt::format("nothing holds shaft {} along its axis: none of {} is locating", shaft,
                        names_of(radial)),
            "write locating = true at the bearing that does");
    } else if (locating.size() > 1) {
        return from.problem_at(
            {key_of(*locating[0], "locating"), key_of(*locating[1], "locating")},
            fmt::format("shaft {} has two locating bearings: {}", shaft, names_of(locating)),
            "one holds the shaft, the other must be free to move");
    } else if (!takes_thrust_alone(from, shaft, *locating.front())) {
        return;
    }
    for (const BearingInput* bearing : radial)
        if (has_big_end(*bearing))
            from.problem(
                key_of(*bearing, "type"),
                fmt::format("bearing.{} pushes shaft {} along its axis under radial load, and no "
                            "bearing faces it",
                            bearing->name, shaft),
                "fit angular and tapered bearings in pairs, big ends to opposite sides");
}

void check_overlap(Completed& from, const Row& bearings) {
    for (std::size_t i = 0; i < bearings.size(); ++i)
        for (std::size_t j = i + 1; j < bearings.size(); ++j) {
            const BearingInput& a = *bearings[i];
            const BearingInput& b = *bearings[j];
            const bool angular =
                has_big_end(a) || has_big_end(b);  // `at` is not the middle of these
            const double reach_mm = angular ? 0 : (a.width_mm + b.width_mm) / 2;
            const double apart_mm = std::fabs(a.at_mm - b.at_mm);
            if (apart_mm > 0 && apart_mm >= reach_mm) continue;
            from.problem_at(
                {key_of(b, "at"), key_of(a, "at"), key_of(b, "size"), key_of(a, "size")},
                fmt::format("bearings {} and {} of shaft {} are in the same place: at {:.4g} and "
                            "{:.4g} mm",
                            a.name, b.name, a.shaft, a.at_mm, b.at_mm),
                "every `at` is measured from the front inside face");
        }
}

void check_shaft(Completed& from, const Setup& setup, const std::string& shaft) {
    Row radial;
    Row axial;
    for (const BearingInput& bearing : setup.bearings)
        if (bearing.shaft == shaft) (bearing.radial ? radial : axial).push_back(&bearing);
    Row all = radial;
    all.insert(all.end(), axial.begin(), axial.end());
    if (radial.size() < 2) {
        from.problem(
            all.empty() ? "gears.train" : key_of(*all.front(), "shaft"),
            fmt::format("shaft {} has {} to carry radial load; it needs two", shaft,
                        radial.empty() ? "no bearing" : "only bearing." + radial.front()->name),
            "add [bearing.NAME] with shaft, at, type and size");
        return;
    }
    if (radial.size() > 2 || axial.size() > 1) {
        std::vector<std::string> places;
        places.reserve(all.size());
        for (const BearingInput* bearing : all) places.push_back(key_of(*bearing, "shaft"));
        from.problem_at(
            places, fmt::format("shaft {} has too many bearings: {}", shaft, names_of(all)),
            "two carry radial load and a third with radial = false may take the axial force; "
            "to replace one of the base, use its name");
        return;
    }
    check_overlap(from, all);
    Row locating;
    for (const BearingInput* bearing : radial)
        if (bearing->locating) locating.push_back(bearing);
    check_locating(from, shaft, {radial, axial, locating});
}

/// Bearings side by side on two shafts need the room their outsides take.
void check_room(Completed& from, const Setup& setup) {
    const auto& train = setup.gears.train;
    for (std::size_t i = 0; i + 1 < train.size(); ++i)
        for (std::size_t j = i + 1; j < train.size(); ++j) {
            const double apart_mm = shafts_apart_mm(setup, i, j);
            for (const BearingInput& a : setup.bearings)
                for (const BearingInput& b : setup.bearings) {
                    if (a.shaft != train[i] || b.shaft != train[j]) continue;
                    const bool beside =
                        std::fabs(a.at_mm - b.at_mm) < (a.width_mm + b.width_mm) / 2;
                    const double need_mm = (a.outside_mm + b.outside_mm) / 2;
                    if (!beside || need_mm < apart_mm) continue;
                    from.problem_at(
                        {key_of(b, "size"), key_of(a, "size"), "case.centre_distance"},
                        fmt::format("bearings {} and {} side by side need {:.4g} mm between the "
                                    "shafts; there are {:.4g} mm",
                                    a.name, b.name, need_mm, apart_mm),
                        "check sizes, centre distance and places");
                }
        }
}

}  // namespace

void check_bearings(Completed& from, Setup& setup) {
    for (BearingInput& bearing : setup.bearings) {
        const Item* fit = from.find(key_of(bearing, "seat.ring_fit"));
        bearing.seat.assumed = fit != nullptr && fit->by == assumed_seats;
        const Item* boss = from.find(key_of(bearing, "seat.boss_outside"));
        bearing.seat.boss_assumed = boss != nullptr && boss->origin == Origin::standard;
    }
    for (const BearingInput& bearing : setup.bearings) {
        check_shaft_name(from, setup, key_of(bearing, "shaft"));
        check_size(from, bearing);
        check_seat(from, bearing);
        check_contact_angle(from, bearing);
    }
    // What depends on several bearings is judged when each of them is known.
    if (from.broken("bearing.") || from.broken("gears.train") || from.broken("case.")) return;
    const auto known = [&](const BearingInput& bearing) { return in_train(setup, bearing.shaft); };
    if (!std::all_of(setup.bearings.begin(), setup.bearings.end(), known)) return;
    for (const std::string& shaft : setup.gears.train) check_shaft(from, setup, shaft);
    check_room(from, setup);
    for (const BearingInput& bearing : setup.bearings) check_play_left(from, setup, bearing);
    for (BearingInput& bearing : setup.bearings)
        if (!bearing.radial) bearing.locating = true;
    const auto place = [&](const BearingInput& bearing) {
        return std::find(setup.gears.train.begin(), setup.gears.train.end(), bearing.shaft);
    };
    std::stable_sort(setup.bearings.begin(), setup.bearings.end(),
                     [&](const BearingInput& a, const BearingInput& b) {
                         return place(a) != place(b) ? place(a) < place(b) : a.at_mm < b.at_mm;
                     });
}

}  // namespace caseload::input
