// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_estimate.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"
#include "loads/parts.hpp"

#include <fmt/format.h>

namespace caseload {
namespace {

// Bores of the table of standard sizes.
constexpr double least_listed_bore_mm = 50;
constexpr double largest_listed_bore_mm = 120;

void note_estimate(const BearingInput& input, const bearing_estimate::Estimate& size,
                   Notes& notes) {
    const std::string about = "bearing." + input.name;
    add_note(notes,
             {"bearing.rating_estimated", about,
              fmt::format("ratings of {} estimated from its size within {:.0f} %: C {:.1f} "
                          "kN, C0 {:.1f} kN; enter dynamic_rating and static_rating from "
                          "its documents",
                          input.name, size.spread * 100, size.C_N / 1000, size.C_0_N / 1000)});
    if (input.kind == BearingKind::spherical_roller)
        add_note(notes, {"bearing.rating_spherical", about,
                         fmt::format("{}: the rule for spherical roller bearings has the inside of "
                                     "one bearing, from memory, behind it",
                                     input.name)});
    if (!size.within_tested)
        add_note(notes, {"bearing.rating_small_bore", about,
                         fmt::format("{}: the size rule was tested from 45 mm bore; this one has "
                                     "{} mm",
                                     input.name, input.bore_mm)});
    const bool listed =
        input.bore_mm >= least_listed_bore_mm && input.bore_mm <= largest_listed_bore_mm;
    if (listed && !bearing_estimate::is_standard_size(input.kind, {.bore_mm = input.bore_mm,
                                                                   .outside_mm = input.outside_mm,
                                                                   .width_mm = input.width_mm}))
        add_note(notes,
                 {"bearing.size_not_listed", about,
                  fmt::format("{}: {}x{}x{} mm is not among the {} sizes known here (from memory, "
                              "not every series): check the figures",
                              input.name, input.bore_mm, input.outside_mm, input.width_mm,
                              input.kind == BearingKind::tapered_roller ? "ISO 355" : "ISO 15")});
}

}  // namespace

BearingData bearing_data(const BearingInput& input, int shaft, Notes& notes) {
    BearingData data;
    data.name = input.name;
    data.kind = input.kind;
    data.shaft = shaft;
    data.at_mm = input.at_mm;
    data.radial = input.radial;
    data.bore_mm = input.bore_mm;
    data.outside_mm = input.outside_mm;
    data.width_mm = input.width_mm;
    data.d_m_mm = (input.bore_mm + input.outside_mm) / 2;
    data.oil_reaching_Lpmin = input.oil_reaching_Lpmin;
    data.estimated = !input.dynamic_rating_N || !input.static_rating_N;
    // Entered ratings are used; elements and the ISO 76 factor come from the size in any case.
    const bearing_estimate::Estimate size = bearing_estimate::estimate(
        input.kind,
        {.bore_mm = input.bore_mm, .outside_mm = input.outside_mm, .width_mm = input.width_mm},
        input.contact_angle_deg);
    data.element_mm = size.D_w_mm;
    data.elements = size.Z;
    data.element_stiffness_N = element_stiffness::K_n(
        {element_stiffness::contact_of(input.kind), size.D_w_mm, size.L_we_mm});
    data.C_N = size.C_N;
    data.C_0_N = size.C_0_N;
    data.f_0 = size.f_0;
    data.contact_angle_deg = size.contact_angle_deg;
    if (data.estimated) note_estimate(input, size, notes);
    if (input.contact_angle_deg) data.contact_angle_deg = *input.contact_angle_deg;
    if (input.dynamic_rating_N) data.C_N = *input.dynamic_rating_N;
    if (input.static_rating_N) data.C_0_N = *input.static_rating_N;
    data.C_u_N = input.fatigue_limit_N.value_or(
        iso_281::fatigue_limit_N(input.kind, {.C_0_N = data.C_0_N, .D_pw_mm = data.d_m_mm}));
    data.f0 = input.f0.value_or(palmgren::f0_default(
        input.kind,
        bearing_estimate::friction_series(
            {.bore_mm = input.bore_mm, .outside_mm = input.outside_mm, .width_mm = input.width_mm}),
        input.oil));
    return data;
}

}  // namespace caseload
