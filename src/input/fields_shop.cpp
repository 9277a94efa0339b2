// SPDX-License-Identifier: MIT
// Fields of what lies on the shelf to choose from: [core] and [candidate].
#include "input/field_rows.hpp"

namespace caseload::input {
namespace {

CoreInput& core(Setup& s, const Item& i) {
    return s.cores[i.name];
}

CoolerRating& rating(Setup& s, const Item& i) {
    return there(core(s, i).rating);
}

BearingInput& candidate(Setup& s, const Item& i) {
    BearingInput& bearing = s.candidates[i.name];
    bearing.name = i.name;
    return bearing;
}

constexpr Field shop_rows[] = {
    row("core.*.size", {K::size, M::length_mm, {10, 1500}},
        "width x height x depth of a core of your own, for `caseload cooler`", needed,
        Example{"280x150x45 mm"},
        fills_size<core, &CoreInput::width_mm, &CoreInput::height_mm, &CoreInput::depth_mm>),
    row("core.*.construction", {K::word, "plate-fin | tube-fin"},
        "gives its rating when none is entered", Standard{"\"plate-fin\"", judgement},
        [](Setup& s, const Item& i) {
            core(s, i).construction = i.choice == 0 ? "plate-fin" : "tube-fin";
        }),
    row("core.*.rating.heat", {K::quantity, M::power_W, {100, 200000}}, "rated heat",
        Example{"6 kW"}, fills<rating, &CoolerRating::heat_W>),
    row("core.*.rating.difference", {K::quantity, M::difference_K, {5, 150}},
        "oil inlet over air inlet at the rating", Example{"60 K"},
        fills<rating, &CoolerRating::difference_K>),
    row("core.*.rating.oil_flow", {K::quantity, M::flow_Lpmin, {0.5, 200}},
        "oil flow at the rating", Example{"8 L/min"}, fills<rating, &CoolerRating::oil_flow_Lpmin>),
    row("core.*.rating.face_speed", {K::quantity, M::speed_mps, {0.5, 40}},
        "air speed at the core's face at the rating", Example{"8 m/s"},
        fills<rating, &CoolerRating::face_speed_mps>),
    row("candidate.*.type", {K::word, accepted_words<BearingKind>},
        "kind of a bearing to choose from, for `caseload bearings`", needed,
        fills<candidate, &BearingInput::kind>),
    row("candidate.*.size", {K::size, M::length_mm, {5, 1000}}, "bore x outside x width", needed,
        Example{"90x140x24 mm"},
        fills_size<candidate, &BearingInput::bore_mm, &BearingInput::outside_mm,
                   &BearingInput::width_mm>),
    row("candidate.*.contact_angle", {K::quantity, M::angle_deg, {5, 60}}, "nominal contact angle",
        Example{"16 deg"}, fills<candidate, &BearingInput::contact_angle_deg>),
    row("candidate.*.dynamic_rating", {K::quantity, M::force_N, {1000, 5000000}},
        "C of ISO 281; left out: estimated from the size", Example{"58 kN"},
        fills<candidate, &BearingInput::dynamic_rating_N>),
    row("candidate.*.static_rating", {K::quantity, M::force_N, {1000, 5000000}},
        "C0 of ISO 76; left out: estimated from the size", Example{"50 kN"},
        fills<candidate, &BearingInput::static_rating_N>),
    row("candidate.*.fatigue_limit", {K::quantity, M::force_N, {10, 500000}},
        "C_u of ISO 281; left out: estimated from the size", Example{"2 kN"},
        fills<candidate, &BearingInput::fatigue_limit_N>),
};

}  // namespace

std::span<const Field> shop_fields() {
    return shop_rows;
}

}  // namespace caseload::input
