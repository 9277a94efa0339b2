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
/// of a plain tube it stands for the ring in a press fit.
/// Source   bearing-practice, outer-raceway
[[nodiscard]] double outer_raceway_mm(const Elements& elements);

/// The same of the inner ring, its outer side: D_pw - D_w cos(alpha).
/// Source   bearing-practice, inner-raceway
[[nodiscard]] double inner_raceway_mm(const Elements& elements);

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

struct OuterFit {
    double interference_mm;
    double raceway_mm;
    double outside_mm;
    double housing_outside_mm;
};
/// Shrink of the outer raceway E in a housing of the ring's own material; other materials and three
/// bodies: `thick_ring`.
///
///     delta (E/D) (1 - (D/D_h)^2)/(1 - (E/D_h)^2)        0 without interference
///
/// Range    0 < E < D < D_h.
/// Source   bearing-practice, outer-reduction
[[nodiscard]] double outer_reduction_mm(const OuterFit& fit);

struct Warm {
    double D_pw_mm;
    double expansion_pK;
    double inner_degC;
    double outer_degC;
};
/// Clearance lost to an inner ring warmer than the outer: alpha D_pw (T_i - T_o), elements at the
/// mean of both. Negative: gained.
/// Source   bearing-practice, thermal-reduction
[[nodiscard]] double thermal_reduction_mm(const Warm& warm);

struct Reductions {
    double inner_mm;
    double outer_mm;
    double thermal_mm;
};
/// Operating clearance; negative: preload.
/// Source   bearing-practice, operating-clearance
[[nodiscard]] double clearance_mm(const Reductions& reductions, double delivered_mm);

/// Grooves of a ball bearing: radius over ball diameter.
struct Grooves {
    double D_w_mm;
    double f_i;
    double f_e;
};
/// Contact angle at which a ball bearing with radial clearance takes an axial force, unloaded:
/// cos(alpha) = 1 - P_d/(2 (f_i + f_e - 1) D_w).
///
/// Range    clearance from 0 to the wear-through 2 (f_i + f_e - 1) D_w.
/// Source   harris-4e, 2-free-angle
[[nodiscard]] double free_contact_angle_deg(const Grooves& grooves, double clearance_mm);

/// Axial play of a ball bearing from its radial clearance: 2 (f_i + f_e - 1) D_w sin(alpha).
/// Source   harris-4e, 2-end-play
[[nodiscard]] double ball_end_play_mm(const Grooves& grooves, double clearance_mm);

}  // namespace caseload::operating_clearance
