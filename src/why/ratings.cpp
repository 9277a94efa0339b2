// SPDX-License-Identifier: MIT
// Ratings and sizes of the bearings: entered, or from their size.
#include "caseload/formulas/bearing_estimate.hpp"
#include "why/places.hpp"

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
        if (!data.radial)
            number("seat_path_WpK").value_of = "0.3 * 3.2e-4 * pi * width_mm * outside_mm";
        to.steps_of(place);
    }
}

}  // namespace caseload::why_detail
