// SPDX-License-Identifier: MIT
#include "caseload/formulas/operating_clearance.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::operating_clearance {
namespace {

double radial_part_mm(const Elements& elements) {
    require_positive(elements.D_w_mm, "D_w_mm");
    require_positive(elements.D_pw_mm - elements.D_w_mm, "D_pw - D_w_mm");
    require_within(elements.contact_angle_deg, {0, 60}, "contact_angle_deg");
    return elements.D_w_mm * std::cos(rad_from_deg(elements.contact_angle_deg));
}

/// Distance between the centres of both grooves.
double groove_offset_mm(const Grooves& grooves) {
    require_positive(grooves.D_w_mm, "D_w_mm");
    require_positive(grooves.f_i + grooves.f_e - 1, "f_i + f_e - 1");
    return (grooves.f_i + grooves.f_e - 1) * grooves.D_w_mm;
}

double square(double x) {
    return x * x;
}

}  // namespace

double outer_raceway_mm(const Elements& elements) {
    return elements.D_pw_mm + radial_part_mm(elements);
}

double inner_raceway_mm(const Elements& elements) {
    return elements.D_pw_mm - radial_part_mm(elements);
}

double inner_reduction_mm(const InnerFit& fit) {
    require_not_negative(fit.shaft_bore_mm, "shaft_bore_mm");
    require_positive(fit.bore_mm - fit.shaft_bore_mm, "bore - shaft_bore_mm");
    require_positive(fit.raceway_mm - fit.bore_mm, "raceway - bore_mm");
    require_within(fit.interference_mm, {-5, 5}, "interference_mm");
    return std::max(fit.interference_mm, 0.0) * fit.bore_mm / fit.raceway_mm *
           (1 - square(fit.shaft_bore_mm / fit.bore_mm)) /
           (1 - square(fit.shaft_bore_mm / fit.raceway_mm));
}

double outer_reduction_mm(const OuterFit& fit) {
    require_positive(fit.raceway_mm, "raceway_mm");
    require_positive(fit.outside_mm - fit.raceway_mm, "outside - raceway_mm");
    require_positive(fit.housing_outside_mm - fit.outside_mm, "housing - outside_mm");
    require_within(fit.interference_mm, {-5, 5}, "interference_mm");
    return std::max(fit.interference_mm, 0.0) * fit.raceway_mm / fit.outside_mm *
           (1 - square(fit.outside_mm / fit.housing_outside_mm)) /
           (1 - square(fit.raceway_mm / fit.housing_outside_mm));
}

double thermal_reduction_mm(const Warm& warm) {
    require_positive(warm.D_pw_mm, "D_pw_mm");
    require_within(warm.expansion_pK, {0, 1e-3}, "expansion_pK");
    require_within(warm.inner_degC, {-100, 300}, "inner_degC");
    require_within(warm.outer_degC, {-100, 300}, "outer_degC");
    return warm.expansion_pK * warm.D_pw_mm * (warm.inner_degC - warm.outer_degC);
}

double clearance_mm(const Reductions& reductions, double delivered_mm) {
    require_within(delivered_mm, {-5, 5}, "delivered_mm");
    return delivered_mm - reductions.inner_mm - reductions.outer_mm - reductions.thermal_mm;
}

double free_contact_angle_deg(const Grooves& grooves, double clearance_mm) {
    const double offset_mm = groove_offset_mm(grooves);
    require_within(clearance_mm, {0, 2 * offset_mm}, "clearance_mm");
    return deg_from_rad(std::acos(1 - clearance_mm / (2 * offset_mm)));
}

double ball_end_play_mm(const Grooves& grooves, double clearance_mm) {
    return 2 * groove_offset_mm(grooves) *
           std::sin(rad_from_deg(free_contact_angle_deg(grooves, clearance_mm)));
}

}  // namespace caseload::operating_clearance
