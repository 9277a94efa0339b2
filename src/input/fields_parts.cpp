// SPDX-License-Identifier: MIT
// Fields of [bearing], [joint], [spline] and [seal].
#include "input/field_rows.hpp"

namespace caseload::input {
namespace {

BearingInput& bearing(Setup& s, const Item& i) {
    return named(s.bearings, i);
}

SeatInput& seat(Setup& s, const Item& i) {
    BearingInput& holder = named(s.bearings, i);
    holder.has_seat = true;
    return holder.seat;
}

JointInput& joint(Setup& s, const Item& i) {
    return named(s.joints, i);
}

SplineInput& spline(Setup& s, const Item& i) {
    return named(s.splines, i);
}

SealInput& seal(Setup& s, const Item& i) {
    return named(s.seals, i);
}

constexpr Field parts_rows[] = {
    row("bearing.*.shaft", K::text, "the shaft it carries", needed, Example{"output"},
        fills<bearing, &BearingInput::shaft>),
    row("bearing.*.from", K::part, "a bearing of the library, in place of type, size and ratings",
        Example{"wide_ball"}),
    row("bearing.*.at", {K::quantity, M::length_mm, {-500, 1000}},
        "middle, from the front inside face rearwards; angular and tapered: pressure centre",
        needed, Example{"20 mm"}, fills<bearing, &BearingInput::at_mm>),
    row("bearing.*.type", {K::word, accepted_words<BearingKind>}, "kind of bearing", needed,
        fills<bearing, &BearingInput::kind>),
    row("bearing.*.size", {K::size, M::length_mm, {5, 1000}}, "bore x outside x width", needed,
        Example{"90x140x24 mm"},
        fills_size<bearing, &BearingInput::bore_mm, &BearingInput::outside_mm,
                   &BearingInput::width_mm>),
    row("bearing.*.locating", K::flag, "holds the shaft along its axis",
        Standard{"false", judgement}, fills<bearing, &BearingInput::locating>),
    row("bearing.*.radial", K::flag,
        "false: a third bearing with clearance round its ring, axial force only",
        Standard{"true", judgement}, fills<bearing, &BearingInput::radial>),
    row("bearing.*.contact_angle", {K::quantity, M::angle_deg, {5, 60}}, "nominal contact angle",
        When{"bearing.*.type=angular-contact-ball|four-point-ball|tapered-roller|spherical-roller"},
        Example{"16 deg"}, fills<bearing, &BearingInput::contact_angle_deg>),
    row("bearing.*.big_end", {K::word, accepted_words<Facing>},
        "where the thick end of the rollers points; ball: the high shoulder of the inner ring",
        needed, When{"bearing.*.type=angular-contact-ball|tapered-roller"},
        fills<bearing, &BearingInput::big_end>),
    row("bearing.*.clearance", {K::word, accepted_words<ClearanceClass>}, "ISO 5753 class",
        Standard{"\"CN\"", judgement}, fills<bearing, &BearingInput::clearance>),
    row("bearing.*.dynamic_rating", {K::quantity, M::force_N, {100, 1e7}, "estimate"},
        "C of ISO 281; \"estimate\": from its size",
        Standard{"\"estimate\"", "estimated from its size"},
        fills<bearing, &BearingInput::dynamic_rating_N>),
    row("bearing.*.static_rating", {K::quantity, M::force_N, {100, 1e7}, "estimate"},
        "C_0 of ISO 76; \"estimate\": from its size",
        Standard{"\"estimate\"", "estimated from its size"},
        fills<bearing, &BearingInput::static_rating_N>),
    row("bearing.*.fatigue_limit", {K::quantity, M::force_N, {1, 1e6}, "estimate"},
        "C_u of ISO 281; \"estimate\": from C_0", Standard{"\"estimate\"", "estimated from C_0"},
        fills<bearing, &BearingInput::fatigue_limit_N>),
    row("bearing.*.f0", {K::number, {0.1, 20}},
        "friction factor of the load-independent torque; left out: by kind and oil",
        fills<bearing, &BearingInput::f0>),
    row("bearing.*.f1", {K::number, {0.00005, 0.01}},
        "friction factor of the load-dependent torque; left out: by kind and load",
        fills<bearing, &BearingInput::f1>),
    row("bearing.*.heat_code", {K::word, accepted_words<HeatCode>},
        "mark of the rings: stabilised to 120 (SN), 150 (S0), 200 degC (S1)",
        Standard{"\"SN\"", "DIN 623-1: rings without a mark"},
        fills<bearing, &BearingInput::heat_code>),
    row("bearing.*.cage", {K::word, accepted_words<CageMaterial>},
        "of the cage; unknown: not checked", Standard{"\"unknown\"", judgement},
        fills<bearing, &BearingInput::cage>),
    row("bearing.*.oil", {K::word, accepted_words<OilSupply>}, "what reaches this bearing",
        Credible{"\"mist\"", "\"splash\""},
        [](Setup& s, const Item& i) {
            bearing(s, i).oil = chosen<OilSupply>(i);
            bearing(s, i).oil_reaching_Lpmin = i.preset.at(0);
        }),
    row("bearing.*.seat.carrier", {K::word, accepted_words<Carrier>},
        "what holds the outer ring; aluminium: the housing itself, whatever its material",
        When{"bearing.*.seat"}, Standard{"\"aluminium\"", judgement},
        fills<seat, &SeatInput::carrier>),
    row("bearing.*.seat.held", {K::word, accepted_words<Held>},
        "what keeps the outer ring from turning, beside its fit", When{"bearing.*.seat"},
        Standard{"\"none\"", "no flange, pin or glue is known of"}, fills<seat, &SeatInput::held>),
    row("bearing.*.seat.ring_interference", {K::quantity, M::length_mm, {-0.2, 0.5}},
        "outer ring in its seat, on diameter, at 20 degC; negative: clearance", Example{"0.03 mm"},
        fills<seat, &SeatInput::ring_interference_mm>),
    row("bearing.*.seat.ring_fit", {K::word, "H7 | J7 | K7 | M7 | N7 | P7"},
        "ISO 286 fit of the seat, in place of the interference; rings from 80 mm outside",
        fills<seat, &SeatInput::ring_fit>),
    row("bearing.*.seat.retainer_outside", {K::quantity, M::length_mm, {10, 1200}},
        "outside diameter of the steel ring", needed, When{"bearing.*.seat.carrier=steel-retainer"},
        Example{"160 mm"}, fills<seat, &SeatInput::retainer_outside_mm>),
    row("bearing.*.seat.retainer_interference", {K::quantity, M::length_mm, {0, 1}},
        "of the steel ring in the housing, on diameter, at 20 degC", needed,
        When{"bearing.*.seat.carrier=steel-retainer"}, Example{"0.2 mm"},
        fills<seat, &SeatInput::retainer_interference_mm>),
    row("bearing.*.seat.boss_outside", {K::quantity, M::length_mm, {10, 1500}},
        "largest circle inside the boss round the seat; left out: 50 mm over the ring or sleeve",
        Example{"196 mm"}, fills<seat, &SeatInput::boss_outside_mm>),
    row("bearing.*.seat.shaft_interference", {K::quantity, M::length_mm, {-0.1, 0.3}},
        "inner ring on its shaft, on diameter", Example{"0.02 mm"},
        fills<seat, &SeatInput::shaft_interference_mm>),

    row("joint.*.shaft", K::text, "the shaft it sits on", needed, Example{"output"},
        fills<joint, &JointInput::shaft>),
    row("joint.*.from", K::part, "a joint of the library, in place of slip and slip_diameter",
        Example{"coated_58"}),
    row("joint.*.end", {K::word, accepted_words<End>},
        "end of the shaft; a joint named front or rear sits there", fills<joint, &JointInput::end>),
    row("joint.*.angle_down", {K::quantity, M::angle_deg, {-45, 45}},
        "the prop shaft, followed away from the case, goes down", Standard{"\"0 deg\"", judgement},
        Credible{"\"0 deg\"", "\"8 deg\""}, fills<joint, &JointInput::angle_down_deg>),
    row("joint.*.angle_right", {K::quantity, M::angle_deg, {-45, 45}}, "and to the right",
        Standard{"\"0 deg\"", judgement}, fills<joint, &JointInput::angle_right_deg>),
    row("joint.*.torque_share", {K::number, M::share, {0, 1}}, "of the shaft's torque",
        Standard{"1.0", judgement}, fills<joint, &JointInput::torque_share>),
    row("joint.*.slip", {K::word, "greased-steel | coated | rolling | none"},
        "sliding spline of the prop shaft", Standard{"\"none\"", judgement},
        Credible{"\"none\"", "\"greased-steel\""},
        [](Setup& s, const Item& i) { joint(s, i).slip_friction = i.preset.at(0); }),
    row("joint.*.slip_diameter", {K::quantity, M::length_mm, {10, 200}}, "of the sliding spline",
        needed, When{"joint.*.slip!=none"}, Example{"58 mm"},
        fills<joint, &JointInput::slip_diameter_mm>),

    row("spline.*.shaft", K::text,
        "the shaft whose torque it passes on; one named like a joint takes that joint's share",
        needed, Example{"output"}, fills<spline, &SplineInput::shaft>),
    row("spline.*.teeth", {K::integer, {6, 100}}, "number of teeth", needed, Example{"32"},
        fills<spline, &SplineInput::teeth>),
    row("spline.*.pitch_diameter", {K::quantity, M::length_mm, {10, 200}},
        "of the spline: teeth x module", needed, Example{"64 mm"},
        fills<spline, &SplineInput::pitch_diameter_mm>),
    row("spline.*.length", {K::quantity, M::length_mm, {5, 600}}, "in mesh; up to three diameters",
        needed, Example{"42 mm"}, fills<spline, &SplineInput::length_mm>),
    row("spline.*.height", {K::quantity, M::length_mm, {0.2, 24}},
        "of the teeth in contact, along the radius; left out: 0.9 modules of the spline",
        fills<spline, &SplineInput::height_mm>),
    row("spline.*.fit", {K::word, accepted_words<SplineFit>},
        "piloted: tight or ringed at both ends and clamped; loose: a gear that slides on by hand; "
        "sliding: a slip joint",
        needed, Example{"loose"}, fills<spline, &SplineInput::fit>),
    row("spline.*.hardness", {K::word, accepted_words<SplineHardness>},
        "soft (33-38 HRC, a file cuts it), surface (48-53) or case (58-63); left out: soft where "
        "it slides, case for hubs",
        fills<spline, &SplineInput::hardness>),
    row("spline.*.misalignment", {K::quantity, M::slope_mmpm, {0, 17}},
        "of hub and shaft; left out: 1 mm/m piloted, 4 loose, 2 sliding",
        fills<spline, &SplineInput::misalignment_mmpm>),
    row("spline.*.bore", {K::quantity, M::length_mm, {0, 190}},
        "of the shaft with the outer teeth; 0: solid", Standard{"\"0 mm\"", judgement},
        fills<spline, &SplineInput::bore_mm>),
    row("spline.*.oiled", K::flag, "false: dry or greased", Standard{"true", judgement},
        fills<spline, &SplineInput::oiled>),

    row("seal.*.shaft", K::text,
        "the shaft it runs on; left out: the shaft of its name, else the output shaft",
        fills<seal, &SealInput::shaft>),
    row("seal.*.diameter", {K::quantity, M::length_mm, {5, 400}}, "of the running surface", needed,
        Example{"80 mm"}, fills<seal, &SealInput::diameter_mm>),
    row("seal.*.material", {K::word, accepted_words<SealMaterial>}, "of the lip",
        Standard{"\"FKM\"", judgement}, fills<seal, &SealInput::material>),
    row("seal.*.lips", {K::integer, {1, 3}}, "running lips", Standard{"1", judgement},
        fills<seal, &SealInput::lips>),
};

}  // namespace

std::span<const Field> part_fields() {
    return parts_rows;
}

}  // namespace caseload::input
