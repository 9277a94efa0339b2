// SPDX-License-Identifier: MIT
// ISO 21771: geometry of an external involute gear pair on a given centre distance. Relations from
// memory, derived again and checked on the textbook pairs of the published figures.
#pragma once

#include <string>
#include <vector>

namespace caseload::iso_21771 {

/// Basic rack ISO 53 A: dedendum and root radius of the tool's tooth, modules.
inline constexpr double rack_dedendum = 1.25;
inline constexpr double rack_root_radius = 0.38;

/// inv a = tan a - a.
///
/// Range    0 <= a < 90 deg.
/// Source   iso-21771, involute
[[nodiscard]] double involute(double angle_rad);

/// Gear 1 drives, gear 2 is driven; either may be the larger.
struct PairInput {
    int z_1;
    int z_2;
    double module_mm;           ///< m_n, normal
    double pressure_angle_rad;  ///< alpha_n, normal, at the reference cylinder
    double helix_angle_rad;     ///< beta, at the reference cylinder; 0: spur
    double centre_distance_mm;  ///< a, working
    double shift_share_1;  ///< share of the sum of profile shifts on gear 1; 0.5 when gears swap
    double face_width_mm;  ///< b, common
};

/// Tip diameters measured or from a drawing; 0: calculated.
struct TipDiameters {
    double d_a1_mm;
    double d_a2_mm;
};

/// Profile shifts the two gears were cut with, modules.
struct Shifts {
    double x_1;
    double x_2;
};

struct Pair {
    int z_1;
    int z_2;
    double module_mm;
    double alpha_n_rad;   ///< normal pressure angle
    double beta_rad;      ///< helix at the reference cylinder
    double alpha_t_rad;   ///< transverse pressure angle
    double alpha_wt_rad;  ///< working transverse pressure angle
    double beta_b_rad;    ///< helix at the base cylinder
    double beta_w_rad;    ///< helix at the working pitch cylinder
    double d_1_mm;
    double d_2_mm;
    double d_b1_mm;
    double d_b2_mm;
    double d_w1_mm;
    double d_w2_mm;
    double x_sum;  ///< that the centre distance asks for: x_1 + x_2 unless they are as cut
    double x_1;
    double x_2;
    double tip_shortening;  ///< k, modules, <= 0
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
    double T1T2_mm;      ///< between the points where the line of action touches the base circles
    double T1A_mm;       ///< from the tangent point on gear 1 to the start of contact
    double T2E_mm;       ///< from the tangent point on gear 2 to the end of contact
    double zeta_1;       ///< specific sliding at the root of gear 1; -infinity where T1A <= 0
    double zeta_2;
    double s_a1_mm;  ///< tip thickness, transverse
    double s_a2_mm;
    double d_Nf1_mm;  ///< start of the active profile
    double d_Nf2_mm;
    double d_Ff1_mm;  ///< where the involute ends in the fillet of a rack-cut tooth
    double d_Ff2_mm;

    bool operator==(const Pair&) const = default;
};

/// Geometry of the pair. Rack: addendum 1.0, dedendum 1.25, root radius 0.38 modules; tips
/// shortened where the shifts ask for it.
///
///     cos a_wt = a_0 cos a_t / a        X = (z_1 + z_2)(inv a_wt - inv a_t) / (2 tan a_n)
///     k = min(0, (a - a_0)/m - X)       d_a = d + 2 m (1 + x + k)       d_f = d - 2 m (1.25 - x)
///     g_1 = sqrt(r_a1^2 - r_b1^2) - r_w1 sin a_wt                       eps = g / p_bt
///
/// Range    z from 5; alpha_n 10 to 35 deg; helix 0 to 45 deg; share 0 to 1. Throws Error{domain}
///          when the base circles do not leave room on this centre distance, or when a tip does not
///          lie above its base circle.
/// Source   iso-21771, pair
[[nodiscard]] Pair pair(const PairInput& input);

/// The same with measured tip diameters, which always win over calculated ones.
/// Source   iso-21771, measured-tips
[[nodiscard]] Pair pair(const PairInput& input, const TipDiameters& measured);

/// The same for gears as they were cut: teeth of these shifts, tips as measured or calculated from
/// them. The centre distance alone sets the working pressure angle and x_sum; shifts that leave a
/// little of it are teeth cut thinner, for backlash.
/// Source   iso-21771, cut
[[nodiscard]] Pair pair(const PairInput& input, const Shifts& cut, const TipDiameters& measured);

/// Gears of a train as measured over their tips.
struct MeasuredTips {
    std::vector<PairInput> meshes;  ///< in train order
    std::vector<double> d_a_mm;     ///< one more than meshes
};

/// Profile shifts, in train order, that put these tips on gears all topped by the same k modules:
///
///     h = (d_a - d)/(2 m) - 1 = x + k       of each mesh: k = (h_1 + h_2 - X)/2
///
/// with the mean k of two meshes; the sums of shifts are those of the centre distances exactly. One
/// gear topped by t modules more than its mate gives a shift that is t/2 too small on it.
///
/// Range    one or two meshes, tips > 0. Throws Error{domain} as pair does.
/// Source   iso-21771, cut-from-tips
[[nodiscard]] std::vector<double> shifts_of_tips(const MeasuredTips& tips);

struct Helix {
    double face_width_mm;
    double angle_rad;  ///< at the reference cylinder
    double module_mm;  ///< normal
};

/// Overlap ratio eps_beta = b sin beta / (pi m_n): teeth in contact along the face; 0 for spur.
/// Range    width >= 0, angle 0 to 45 deg, module > 0.
/// Source   iso-21771, overlap
[[nodiscard]] double overlap_ratio(const Helix& helix);

struct Tooth {
    int z;
    double pressure_angle_rad;
    double helix_angle_rad;
};

/// Smallest profile shift x at which the rack (1.25, 0.38) does not undercut the tooth.
///
///     x_min = 1.25 - 0.38 (1 - sin a_n) - z sin^2 a_t / (2 cos b)
///
/// Source   iso-21771, undercut
[[nodiscard]] double least_shift(const Tooth& tooth);

struct Finding {
    enum class Severity { note, watch, stop };
    Severity severity;
    std::string id;
    std::string text;

    bool operator==(const Finding&) const = default;
};

/// What is wrong or tight with a pair: undercut, interference, clearance, tip thickness, contact
/// ratio, and which teeth meet again.
///
/// Note     limits are common practice: clearance 0.20 modules (watch) and 0.15 (stop), tip
///          thickness 0.40 and 0.20 modules, contact ratio 1.1 and 1.0; undercut by less than 0.02
///          modules of shift is a note.
/// Source   iso-21771, findings
[[nodiscard]] std::vector<Finding> findings(const PairInput& input, const Pair& pair);

struct Rim {
    int z;
    double module_mm;
    double d_f_mm;
    double bore_mm;
};

/// Steel left between tooth roots and bore: note below 3.5 modules, watch below 1.2 tooth heights
/// (2.7 modules: the root stress then rises, ISO 6336-3 rim factor), stop at none.
/// Source   gear-practice, rim
[[nodiscard]] std::vector<Finding> rim_findings(const Rim& rim);

/// Sums of teeth that fit the centre distance with a sum of profile shifts from -1.0 to 1.2
/// (judgement: beyond, undercut or pointed teeth follow).
/// Source   iso-21771, sums
[[nodiscard]] std::vector<int> fitting_tooth_sums(const PairInput& input);

}  // namespace caseload::iso_21771
