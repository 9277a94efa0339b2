// SPDX-License-Identifier: MIT
// Fields of [bearing], [joint] and [seal].
#include "input/fields.hpp"
#include "input/item.hpp"

#include <algorithm>

namespace caseload::input {
namespace {

using K = FieldKind;
using M = Measure;

/// The part of this name, added if it is new.
template <class Part>
Part& named(std::vector<Part>& parts, const Item& item) {
    const auto found = std::find_if(parts.begin(), parts.end(),
                                    [&](const Part& part) { return part.name == item.name; });
    if (found != parts.end()) return *found;
    parts.emplace_back();
    parts.back().name = item.name;
    return parts.back();
}

BearingInput& bearing(Setup& s, const Item& i) {
    return named(s.bearings, i);
}

SeatInput& seat(Setup& s, const Item& i) {
    BearingInput& holder = named(s.bearings, i);
    holder.has_seat = true;
    return holder.seat;
}

std::optional<double> rating(const Item& i) {
    return i.by_word ? std::nullopt : std::optional<double>(i.number);
}

constexpr Field parts_rows[] = {
    {.key = "bearing.*.shaft",
     .kind = K::text,
     .need = true,
     .example = "output",
     .words = "the shaft it carries",
     .put = [](Setup& s, const Item& i) { bearing(s, i).shaft = i.text(); }},
    {.key = "bearing.*.from",
     .kind = K::part,
     .example = "wide_ball",
     .words = "a bearing of the library, in place of type, size and ratings"},
    {.key = "bearing.*.at",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {-500, 1000},
     .need = true,
     .example = "20 mm",
     .words = "middle, from the front inside face rearwards; angular and tapered: pressure centre",
     .put = [](Setup& s, const Item& i) { bearing(s, i).at_mm = i.number; }},
    {.key = "bearing.*.type",
     .kind = K::word,
     .accepted = accepted_words<BearingKind>,
     .need = true,
     .words = "kind of bearing",
     .put = [](Setup& s, const Item& i) { bearing(s, i).kind = chosen<BearingKind>(i); }},
    {.key = "bearing.*.size",
     .kind = K::size,
     .measure = M::length_mm,
     .range = {5, 1000},
     .need = true,
     .example = "90x140x24 mm",
     .words = "bore x outside x width",
     .put =
         [](Setup& s, const Item& i) {
             bearing(s, i).bore_mm = i.numbers[0];
             bearing(s, i).outside_mm = i.numbers[1];
             bearing(s, i).width_mm = i.numbers[2];
         }},
    {.key = "bearing.*.locating",
     .kind = K::flag,
     .fallback = "false",
     .words = "holds the shaft along its axis",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { bearing(s, i).locating = i.value.flag; }},
    {.key = "bearing.*.radial",
     .kind = K::flag,
     .fallback = "true",
     .words = "false: a third bearing with clearance round its ring, axial force only",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { bearing(s, i).radial = i.value.flag; }},
    {.key = "bearing.*.contact_angle",
     .kind = K::quantity,
     .measure = M::angle_deg,
     .range = {5, 60},
     .when = "bearing.*.type=angular-contact-ball|four-point-ball|tapered-roller|spherical-roller",
     .example = "16 deg",
     .words = "nominal contact angle",
     .put = [](Setup& s, const Item& i) { bearing(s, i).contact_angle_deg = i.number; }},
    {.key = "bearing.*.big_end",
     .kind = K::word,
     .accepted = "front | rear",
     .need = true,
     .when = "bearing.*.type=angular-contact-ball|tapered-roller",
     .words =
         "where the thick end of the rollers points; ball: the high shoulder of the inner ring",
     .put = [](Setup& s, const Item& i) { bearing(s, i).big_end = static_cast<Facing>(i.choice); }},
    {.key = "bearing.*.clearance",
     .kind = K::word,
     .accepted = "C2 | CN | C3 | C4 | C5",
     .fallback = "\"CN\"",
     .words = "ISO 5753 class",
     .source = judgement,
     .put = [](Setup& s,
               const Item& i) { bearing(s, i).clearance = static_cast<ClearanceClass>(i.choice); }},
    {.key = "bearing.*.dynamic_rating",
     .kind = K::quantity,
     .measure = M::force_N,
     .range = {100, 1e7},
     .accepted = "estimate",
     .fallback = "\"estimate\"",
     .words = "C of ISO 281; \"estimate\": from its size",
     .source = "estimated from its size",
     .put = [](Setup& s, const Item& i) { bearing(s, i).dynamic_rating_N = rating(i); }},
    {.key = "bearing.*.static_rating",
     .kind = K::quantity,
     .measure = M::force_N,
     .range = {100, 1e7},
     .accepted = "estimate",
     .fallback = "\"estimate\"",
     .words = "C_0 of ISO 76; \"estimate\": from its size",
     .source = "estimated from its size",
     .put = [](Setup& s, const Item& i) { bearing(s, i).static_rating_N = rating(i); }},
    {.key = "bearing.*.fatigue_limit",
     .kind = K::quantity,
     .measure = M::force_N,
     .range = {1, 1e6},
     .accepted = "estimate",
     .fallback = "\"estimate\"",
     .words = "C_u of ISO 281; \"estimate\": from C_0",
     .source = "estimated from C_0",
     .put = [](Setup& s, const Item& i) { bearing(s, i).fatigue_limit_N = rating(i); }},
    {.key = "bearing.*.f0",
     .kind = K::number,
     .range = {0.1, 20},
     .words = "friction factor of the load-independent torque; left out: by kind and oil",
     .put = [](Setup& s, const Item& i) { bearing(s, i).f0 = i.number; }},
    {.key = "bearing.*.oil",
     .kind = K::word,
     .accepted = accepted_words<OilSupply>,
     .low = "\"mist\"",
     .high = "\"splash\"",
     .words = "what reaches this bearing",
     .put =
         [](Setup& s, const Item& i) {
             bearing(s, i).oil = chosen<OilSupply>(i);
             bearing(s, i).oil_reaching_Lpmin = i.preset.at(0);
         }},
    {.key = "bearing.*.seat.carrier",
     .kind = K::word,
     .accepted = "aluminium | steel-retainer",
     .when = "bearing.*.seat",
     .fallback = "\"aluminium\"",
     .words = "what holds the outer ring",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { seat(s, i).carrier = static_cast<Carrier>(i.choice); }},
    {.key = "bearing.*.seat.ring_interference",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {-0.2, 0.5},
     .example = "0.03 mm",
     .words = "outer ring in its seat, on diameter, at 20 degC; negative: clearance",
     .put = [](Setup& s, const Item& i) { seat(s, i).ring_interference_mm = i.number; }},
    {.key = "bearing.*.seat.ring_fit",
     .kind = K::word,
     .accepted = "H7 | J7 | K7 | M7 | N7 | P7",
     .words = "ISO 286 fit of the seat, in place of the interference; rings from 80 mm outside",
     .put = [](Setup& s, const Item& i) { seat(s, i).ring_fit = i.text(); }},
    {.key = "bearing.*.seat.retainer_outside",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {10, 1200},
     .need = true,
     .when = "bearing.*.seat.carrier=steel-retainer",
     .example = "160 mm",
     .words = "outside diameter of the steel ring",
     .put = [](Setup& s, const Item& i) { seat(s, i).retainer_outside_mm = i.number; }},
    {.key = "bearing.*.seat.retainer_interference",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {0, 1},
     .need = true,
     .when = "bearing.*.seat.carrier=steel-retainer",
     .example = "0.2 mm",
     .words = "of the steel ring in the housing, on diameter, at 20 degC",
     .put = [](Setup& s, const Item& i) { seat(s, i).retainer_interference_mm = i.number; }},
    {.key = "bearing.*.seat.boss_outside",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {10, 1500},
     .example = "196 mm",
     .words = "largest circle inside the boss round the seat",
     .put = [](Setup& s, const Item& i) { seat(s, i).boss_outside_mm = i.number; }},
    {.key = "bearing.*.seat.shaft_interference",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {-0.1, 0.3},
     .example = "0.02 mm",
     .words = "inner ring on its shaft, on diameter",
     .put = [](Setup& s, const Item& i) { seat(s, i).shaft_interference_mm = i.number; }},

    {.key = "joint.*.shaft",
     .kind = K::text,
     .need = true,
     .example = "output",
     .words = "the shaft it sits on",
     .put = [](Setup& s, const Item& i) { named(s.joints, i).shaft = i.text(); }},
    {.key = "joint.*.from",
     .kind = K::part,
     .example = "coated_58",
     .words = "a joint of the library, in place of slip and slip_diameter"},
    {.key = "joint.*.end",
     .kind = K::word,
     .accepted = "front | rear",
     .words = "end of the shaft; a joint named front or rear sits there",
     .put = [](Setup& s, const Item& i) { named(s.joints, i).end = static_cast<End>(i.choice); }},
    {.key = "joint.*.angle_down",
     .kind = K::quantity,
     .measure = M::angle_deg,
     .range = {-45, 45},
     .fallback = "\"0 deg\"",
     .low = "\"0 deg\"",
     .high = "\"8 deg\"",
     .words = "the prop shaft, followed away from the case, goes down",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { named(s.joints, i).angle_down_deg = i.number; }},
    {.key = "joint.*.angle_right",
     .kind = K::quantity,
     .measure = M::angle_deg,
     .range = {-45, 45},
     .fallback = "\"0 deg\"",
     .words = "and to the right",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { named(s.joints, i).angle_right_deg = i.number; }},
    {.key = "joint.*.torque_share",
     .kind = K::number,
     .measure = M::share,
     .range = {0, 1},
     .fallback = "1.0",
     .words = "of the shaft's torque",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { named(s.joints, i).torque_share = i.number; }},
    {.key = "joint.*.slip",
     .kind = K::word,
     .accepted = "greased-steel | coated | rolling | none",
     .fallback = "\"none\"",
     .low = "\"none\"",
     .high = "\"greased-steel\"",
     .words = "sliding spline of the prop shaft",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { named(s.joints, i).slip_friction = i.preset.at(0); }},
    {.key = "joint.*.slip_diameter",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {10, 200},
     .need = true,
     .when = "joint.*.slip!=none",
     .example = "58 mm",
     .words = "of the sliding spline",
     .put = [](Setup& s, const Item& i) { named(s.joints, i).slip_diameter_mm = i.number; }},

    {.key = "seal.*.shaft",
     .kind = K::text,
     .words = "the shaft it runs on; left out: the shaft of its name, else the output shaft",
     .put = [](Setup& s, const Item& i) { named(s.seals, i).shaft = i.text(); }},
    {.key = "seal.*.diameter",
     .kind = K::quantity,
     .measure = M::length_mm,
     .range = {5, 400},
     .need = true,
     .example = "80 mm",
     .words = "of the running surface",
     .put = [](Setup& s, const Item& i) { named(s.seals, i).diameter_mm = i.number; }},
    {.key = "seal.*.material",
     .kind = K::word,
     .accepted = "FKM | NBR | HNBR | ACM | VMQ | PTFE",
     .fallback = "\"FKM\"",
     .words = "of the lip",
     .source = judgement,
     .put =
         [](Setup& s, const Item& i) {
             named(s.seals, i).material = static_cast<SealMaterial>(i.choice);
         }},
    {.key = "seal.*.lips",
     .kind = K::integer,
     .range = {1, 3},
     .fallback = "1",
     .words = "running lips",
     .source = judgement,
     .put = [](Setup& s, const Item& i) { named(s.seals, i).lips = static_cast<int>(i.number); }},
};

}  // namespace

std::span<const Field> part_fields() {
    return parts_rows;
}

}  // namespace caseload::input
