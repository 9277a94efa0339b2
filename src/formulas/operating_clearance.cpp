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

double clearance_mm(const Reductions& reductions, double delivered_mm) {
    require_within(delivered_mm, {-5, 5}, "delivered_mm");
    return delivered_mm - reductions.inner_mm - reductions.outer_mm - reductions.thermal_mm;
}

}  // namespace caseload::operating_clearance
