// SPDX-License-Identifier: MIT
// What is left of a bearing's clearance when it is fitted and warm. All clearances and reductions
// on diameter.
#pragma once

namespace caseload::operating_clearance {

struct Elements {
    double D_pw_mm;
    double D_w_mm;
    double contact_angle_deg;
};
/// Diameter at which the outer ring carries its elements: D_pw + D_w cos(alpha). As inner diameter
/// of a plain tube it is taken for the ring in a press fit.
/// Source   bearing-practice, outer-raceway
[[nodiscard]] double outer_raceway_mm(const Elements& elements);

/// The same of the inner ring, its outer side: D_pw - D_w cos(alpha).
/// Source   bearing-practice, inner-raceway
[[nodiscard]] double inner_raceway_mm(const Elements& elements);

/// A shaft's bore is never so wide that nothing is left round it: at most this share of the ring's.
/// Judgement.
inline constexpr double most_hollow_share = 0.9;

struct InnerFit {
    double interference_mm;
    double shaft_bore_mm;  ///< 0: solid
    double bore_mm;
    double raceway_mm;
};
/// Growth of the inner raceway F from the fit on a shaft of the ring's own stiffness.
///
///     delta (d/F) (1 - (d_s/d)^2)/(1 - (d_s/F)^2)        0 without interference
///
/// Range    0 <= d_s < d < F.
/// Source   bearing-practice, inner-reduction
[[nodiscard]] double inner_reduction_mm(const InnerFit& fit);

struct Reductions {
    double inner_mm;
    double outer_mm;
    double thermal_mm;
};
/// Operating clearance; negative: preload.
/// Source   bearing-practice, operating-clearance
[[nodiscard]] double clearance_mm(const Reductions& reductions, double delivered_mm);

}  // namespace caseload::operating_clearance
