// SPDX-License-Identifier: MIT
// ISO 21771: geometry of an external involute gear pair on a given centre distance.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace caseload::iso_21771 {

/// inv a = tan a - a.
/// Source   iso-21771, involute
[[nodiscard]] double involute(double angle_rad);

/// Angle whose involute is given, for involutes from 0 to inv 60 deg. Newton from a series start.
/// Source   iso-21771, inverse
[[nodiscard]] double inverse_involute(double value);

/// Gear 1 drives, gear 2 is driven; either may be the larger.
struct PairInput {
    int z_1;
    int z_2;
    double module_mm;  ///< normal
    double pressure_angle_rad;
    double helix_angle_rad;
    double centre_distance_mm;
    double shift_share_1;  ///< share of the sum of profile shifts on gear 1
    double face_width_mm;
};

struct Pair {
    int z_1;
    int z_2;
    double module_mm;
    double alpha_t_rad;
    double alpha_wt_rad;
    double beta_b_rad;
    double beta_w_rad;
    double d_1_mm;
    double d_2_mm;
    double d_b1_mm;
    double d_b2_mm;
    double d_w1_mm;
    double d_w2_mm;
    double x_1;
    double x_2;
    double d_a1_mm;
    double d_a2_mm;
    double d_f1_mm;
    double d_f2_mm;
    double clearance_1_mm;  ///< tip of 1 to root of 2
    double clearance_2_mm;
    double p_bt_mm;  ///< transverse base pitch
    double g_1_mm;   ///< path of contact beyond the pitch point towards the tip of gear 1
    double g_2_mm;
    double eps_1;
    double eps_2;
    double eps_alpha;
    double eps_beta;
    double rho_redC_mm;  ///< reduced curvature at the pitch point, normal section
    double T1A_mm;       ///< from the tangent point on gear 1 to the start of contact
    double T2E_mm;
    double zeta_1;  ///< specific sliding at the root of gear 1
    double zeta_2;
    double s_a1_mm;  ///< tip thickness
    double s_a2_mm;
};

/// Geometry of the pair: addendum 1.0, dedendum 1.25, root radius 0.38 modules; tips shortened for
/// clearance where the shifts ask for it.
/// Range    throws Error{domain} when the base circles do not reach this centre distance.
/// Source   iso-21771, pair
[[nodiscard]] Pair pair(const PairInput& input);

struct Finding {
    enum class Severity { note, watch, stop };
    Severity severity;
    std::string id;
    std::string text;
};

/// What is wrong or tight with a pair: undercut, interference, clearance, tip thickness, contact
/// ratio, and which teeth meet again.
/// Source   iso-21771, findings
[[nodiscard]] std::vector<Finding> findings(const PairInput& input, const Pair& pair);

/// Sums of teeth that fit the centre distance with a sum of profile shifts from -1.0 to 1.2
/// (judgement: beyond, undercut or pointed teeth follow).
/// Source   iso-21771, sums
[[nodiscard]] std::vector<int> fitting_tooth_sums(const PairInput& input);

}  // namespace caseload::iso_21771
