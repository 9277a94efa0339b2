// SPDX-License-Identifier: MIT
// Fields of what lies on the shelf to choose from: [core] and [candidate].
#include "input/fields.hpp"
#include "input/item.hpp"

namespace caseload::input {
namespace {

using K = FieldKind;
using M = Measure;

CoreInput& core(Setup& s, const Item& i) {
    return s.cores[i.name];
}

CoolerRating& rating(Setup& s, const Item& i) {
    auto& entered = s.cores[i.name].rating;
    if (!entered) entered.emplace();
    return *entered;
}

BearingInput& candidate(Setup& s, const Item& i) {
    BearingInput& bearing = s.candidates[i.name];
    bearing.name = i.name;
    return bearing;
}

constexpr Field shop_rows[] = {
    {.key = "core.*.size",
     .kind = K::size,
     .measure = M::length_mm,
     .range = {10, 1500},
     .need = true,
     .example = "280x150x45 mm",
     .words = "width x height x depth of a core of your own, for `caseload cooler`",
     .put =
         [](Setup& s, const Item& i) {
             core(s, i).width_mm = i.numbers[0];
             core(s, i).height_mm = i.numbers[1];
             core(s, i).depth_mm = i.numbers[2];
         }},
    {.key = "core.*.construction",
     .kind = K::word,
     .accepted = "plate-fin | tube-fin",
     .fallback = "\"plate-fin\"",
     .words = "gives its rating when none is entered",
     .source = judgement,
     .put =
         [](Setup& s, const Item& i) {
             core(s, i).construction = i.choice == 0 ? "plate-fin" : "tube-fin";
         }},
    {.key = "core.*.rating.heat",
     .kind = K::quantity,
     .measure = M::power_W,
     .range = {100, 200000},
     .example = "6 kW",
     .words = "rated heat",
     .put = [](Setup& s, const Item& i) { rating(s, i).heat_W = i.number; }},
    {.key = "core.*.rating.difference",
     .kind = K::quantity,
     .measure = M::difference_K,
     .range = {5, 150},
     .example = "60 K",
     .words = "oil inlet over air inlet at the rating",
     .put = [](Setup& s, const Item& i) { rating(s, i).difference_K = i.number; }},
    {.key = "core.*.rating.oil_flow",
     .kind = K::quantity,
     .measure = M::flow_Lpmin,
     .range = {0.5, 200},
     .example = "8 L/min",
     .words = "oil flow at the rating",
     .put = [](Setup& s, const Item& i) { rating(s, i).oil_flow_Lpmin = i.number; }},
    {.key = "core.*.rating.face_speed",
     .kind = K::quantity,
     .measure = M::speed_mps,
     .range = {0.5, 40},
     .example = "8 m/s",
     .words = "air speed at the core's face at the rating",
     .put = [](Setup& s, const Item& i) { rating(s, i).face_speed_mps = i.number; }},
    {.key = "candidate.*.type",
     .kind = K::word,
     .accepted = accepted_words<BearingKind>,
     .need = true,
     .words = "kind of a bearing to choose from, for `caseload bearings`",
     .put = [](Setup& s, const Item& i) { candidate(s, i).kind = chosen<BearingKind>(i); }},
    {.key = "candidate.*.size",
     .kind = K::size,
     .measure = M::length_mm,
     .range = {5, 1000},
     .need = true,
     .example = "90x140x24 mm",
     .words = "bore x outside x width",
     .put =
         [](Setup& s, const Item& i) {
             candidate(s, i).bore_mm = i.numbers[0];
             candidate(s, i).outside_mm = i.numbers[1];
             candidate(s, i).width_mm = i.numbers[2];
         }},
    {.key = "candidate.*.contact_angle",
     .kind = K::quantity,
     .measure = M::angle_deg,
     .range = {5, 60},
     .example = "16 deg",
     .words = "nominal contact angle",
     .put = [](Setup& s, const Item& i) { candidate(s, i).contact_angle_deg = i.number; }},
    {.key = "candidate.*.dynamic_rating",
     .kind = K::quantity,
     .measure = M::force_N,
     .range = {1000, 5000000},
     .example = "58 kN",
     .words = "C of ISO 281; left out: estimated from the size",
     .put = [](Setup& s, const Item& i) { candidate(s, i).dynamic_rating_N = i.number; }},
    {.key = "candidate.*.static_rating",
     .kind = K::quantity,
     .measure = M::force_N,
     .range = {1000, 5000000},
     .example = "50 kN",
     .words = "C0 of ISO 76; left out: estimated from the size",
     .put = [](Setup& s, const Item& i) { candidate(s, i).static_rating_N = i.number; }},
    {.key = "candidate.*.fatigue_limit",
     .kind = K::quantity,
     .measure = M::force_N,
     .range = {10, 500000},
     .example = "2 kN",
     .words = "C_u of ISO 281; left out: estimated from the size",
     .put = [](Setup& s, const Item& i) { candidate(s, i).fatigue_limit_N = i.number; }},
};

}  // namespace

std::span<const Field> shop_fields() {
    return shop_rows;
}

}  // namespace caseload::input
