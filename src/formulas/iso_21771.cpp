// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_21771.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>
#include <utility>

namespace caseload::iso_21771 {
namespace {

// Basic rack ISO 53 A, heights and radius in modules.
constexpr double addendum = 1.0;
constexpr double dedendum = rack_dedendum;
constexpr double root_radius = rack_root_radius;
// Sum of profile shifts a quick-change pair may have: judgement.
constexpr double least_shift_sum = -1.0;
constexpr double largest_shift_sum = 1.2;
constexpr int least_teeth = 5;

struct Transverse {
    double alpha_t;
    double m_t;
    double a_0;
};

Transverse transverse(const PairInput& in, int sum) {
    const double cos_beta = std::cos(in.helix_angle_rad);
    const double m_t = in.module_mm / cos_beta;
    return {std::atan(std::tan(in.pressure_angle_rad) / cos_beta), m_t, m_t * sum / 2.0};
}

struct Working {
    double alpha_wt;
    double X;
};

/// How a sum of teeth runs on the centre distance; nothing where the base circles are too large.
std::optional<Working> working(const PairInput& in, int sum) {
    const Transverse t = transverse(in, sum);
    const double cosine = t.a_0 * std::cos(t.alpha_t) / in.centre_distance_mm;
    if (cosine >= 1) return std::nullopt;
    const double alpha_wt = std::acos(cosine);
    return Working{alpha_wt, sum * (involute(alpha_wt) - involute(t.alpha_t)) /
                                 (2 * std::tan(in.pressure_angle_rad))};
}

Working working_or_throw(const PairInput& in) {
    const int sum = in.z_1 + in.z_2;
    const std::optional<Working> run = working(in, sum);
    if (run) return *run;
    const Transverse t = transverse(in, sum);
    throw Error(Error::Kind::domain,
                fmt::format("{}/{} teeth of module {} mm do not go on a centre distance of {} mm: "
                            "at {:.2f} mm their base circles already touch",
                            in.z_1, in.z_2, in.module_mm, in.centre_distance_mm,
                            t.a_0 * std::cos(t.alpha_t)));
}

void check(const PairInput& in) {
    constexpr Limits angles{rad_from_deg(10), rad_from_deg(35)};
    constexpr Limits helices{0, rad_from_deg(45)};
    require_within(in.z_1, {least_teeth, 1000}, "z_1");
    require_within(in.z_2, {least_teeth, 1000}, "z_2");
    require_positive(in.module_mm, "module_mm");
    require_within(in.pressure_angle_rad, angles, "pressure_angle_rad");
    require_within(in.helix_angle_rad, helices, "helix_angle_rad");
    require_positive(in.centre_distance_mm, "centre_distance_mm");
    require_within(in.shift_share_1, {0, 1}, "shift_share_1");
    require_positive(in.face_width_mm, "face_width_mm");
}

/// One gear of the pair.
struct Wheel {
    int z;
    double x;
    double d;
    double d_b;
    double d_w;
    double d_a;
    double d_f;
    double reach;  ///< from its tangent point to where its tip meets the line of action
};

Wheel wheel(const PairInput& in, const Transverse& t, const std::pair<int, double>& teeth_shift,
            double shortening) {
    const auto [z, x] = teeth_shift;
    Wheel w{};
    w.z = z;
    w.x = x;
    w.d = z * t.m_t;
    w.d_b = w.d * std::cos(t.alpha_t);
    w.d_w = 2 * in.centre_distance_mm * z / (in.z_1 + in.z_2);
    w.d_a = w.d + 2 * in.module_mm * (addendum + x + shortening);
    w.d_f = w.d - 2 * in.module_mm * (dedendum - x);
    return w;
}

void set_reach(Wheel& w) {
    if (!(w.d_a > w.d_b))
        throw Error(Error::Kind::domain,
                    fmt::format("the {} tooth gear's tip diameter {:.2f} mm is not above its "
                                "base circle of {:.2f} mm",
                                w.z, w.d_a, w.d_b));
    w.reach = std::sqrt(w.d_a * w.d_a - w.d_b * w.d_b) / 2;
}

double tip_thickness_mm(const Wheel& w, const PairInput& in, const Transverse& t) {
    return w.d_a * ((pi / 2 + 2 * w.x * std::tan(in.pressure_angle_rad)) / w.z +
                    involute(t.alpha_t) - involute(std::acos(w.d_b / w.d_a)));
}

double form_diameter_mm(const Wheel& w, const PairInput& in, const Transverse& t) {
    const double h =
        in.module_mm * (dedendum - root_radius * (1 - std::sin(in.pressure_angle_rad)) - w.x);
    const double along = w.d / 2 * std::sin(t.alpha_t) - h / std::sin(t.alpha_t);
    return 2 * std::hypot(std::max(along, 0.0), w.d_b / 2);  // undercut: not below the base circle
}

/// Specific sliding where the mate's tip works: `from` its own tangent point, `ratio` mate over
/// own.
struct RootContact {
    double from_mm;
    double T1T2_mm;
    double ratio;
};

double specific_sliding(const RootContact& c) {
    if (c.from_mm <= 0) return -std::numeric_limits<double>::infinity();
    return 1 - (c.T1T2_mm - c.from_mm) / (c.ratio * c.from_mm);
}

}  // namespace

double involute(double angle_rad) {
    require_within(angle_rad, {0, pi / 2}, "angle_rad");
    return std::tan(angle_rad) - angle_rad;
}

Pair pair(const PairInput& input) {
    return pair(input, {.d_a1_mm = 0, .d_a2_mm = 0});
}

Pair pair(const PairInput& in, const TipDiameters& measured) {
    check(in);
    const double X = working_or_throw(in).X;
    const double x_1 = in.shift_share_1 * X;
    return pair(in, {.x_1 = x_1, .x_2 = X - x_1}, measured);
}

// Long: one size after the other, in the order of the standard.
Pair pair(const PairInput& in, const Shifts& cut, const TipDiameters& measured) {
    check(in);
    require_not_negative(measured.d_a1_mm, "d_a1_mm");
    require_not_negative(measured.d_a2_mm, "d_a2_mm");
    const Working run = working_or_throw(in);
    const Transverse t = transverse(in, in.z_1 + in.z_2);
    const double a = in.centre_distance_mm;
    const double shortening = std::min(0.0, (a - t.a_0) / in.module_mm - run.X);
    Wheel one = wheel(in, t, {in.z_1, cut.x_1}, shortening);
    Wheel two = wheel(in, t, {in.z_2, cut.x_2}, shortening);
    if (measured.d_a1_mm > 0) one.d_a = measured.d_a1_mm;
    if (measured.d_a2_mm > 0) two.d_a = measured.d_a2_mm;
    set_reach(one);
    set_reach(two);

    Pair p{};
    p.z_1 = in.z_1;
    p.z_2 = in.z_2;
    p.module_mm = in.module_mm;
    p.alpha_n_rad = in.pressure_angle_rad;
    p.beta_rad = in.helix_angle_rad;
    p.alpha_t_rad = t.alpha_t;
    p.alpha_wt_rad = run.alpha_wt;
    p.beta_b_rad = std::asin(std::sin(in.helix_angle_rad) * std::cos(in.pressure_angle_rad));
    p.beta_w_rad = std::atan(one.d_w / one.d * std::tan(in.helix_angle_rad));
    p.d_1_mm = one.d;
    p.d_2_mm = two.d;
    p.d_b1_mm = one.d_b;
    p.d_b2_mm = two.d_b;
    p.d_w1_mm = one.d_w;
    p.d_w2_mm = two.d_w;
    p.x_sum = run.X;
    p.x_1 = one.x;
    p.x_2 = two.x;
    p.tip_shortening = shortening;
    p.d_a1_mm = one.d_a;
    p.d_a2_mm = two.d_a;
    p.d_f1_mm = one.d_f;
    p.d_f2_mm = two.d_f;
    p.clearance_1_mm = a - one.d_a / 2 - two.d_f / 2;
    p.clearance_2_mm = a - two.d_a / 2 - one.d_f / 2;
    p.p_bt_mm = pi * t.m_t * std::cos(t.alpha_t);
    const double sin_w = std::sin(p.alpha_wt_rad);
    const double rho_1 = one.d_w / 2 * sin_w;
    const double rho_2 = two.d_w / 2 * sin_w;
    p.g_1_mm = one.reach - rho_1;
    p.g_2_mm = two.reach - rho_2;
    p.eps_1 = p.g_1_mm / p.p_bt_mm;
    p.eps_2 = p.g_2_mm / p.p_bt_mm;
    p.eps_alpha = p.eps_1 + p.eps_2;
    p.eps_beta = overlap_ratio({.face_width_mm = in.face_width_mm,
                                .angle_rad = in.helix_angle_rad,
                                .module_mm = in.module_mm});
    p.rho_redC_mm = rho_1 * rho_2 / (rho_1 + rho_2) / std::cos(p.beta_b_rad);
    p.T1T2_mm = a * sin_w;
    p.T1A_mm = p.T1T2_mm - two.reach;
    p.T2E_mm = p.T1T2_mm - one.reach;
    const double u = static_cast<double>(in.z_2) / in.z_1;
    p.zeta_1 = specific_sliding({p.T1A_mm, p.T1T2_mm, u});
    p.zeta_2 = specific_sliding({p.T2E_mm, p.T1T2_mm, 1 / u});
    p.s_a1_mm = tip_thickness_mm(one, in, t);
    p.s_a2_mm = tip_thickness_mm(two, in, t);
    p.d_Nf1_mm = 2 * std::hypot(p.T1A_mm, one.d_b / 2);
    p.d_Nf2_mm = 2 * std::hypot(p.T2E_mm, two.d_b / 2);
    p.d_Ff1_mm = form_diameter_mm(one, in, t);
    p.d_Ff2_mm = form_diameter_mm(two, in, t);
    return p;
}

std::vector<double> shifts_of_tips(const MeasuredTips& tips) {
    const std::size_t count = tips.meshes.size();
    const auto meshes = static_cast<double>(count);
    require_within(meshes, {1, 2}, "meshes");
    require_within(static_cast<double>(tips.d_a_mm.size()), {meshes + 1, meshes + 1}, "d_a_mm");
    // Height of a tip over the reference circle, modules, beyond the rack's addendum.
    const auto height = [&](std::size_t gear) {
        const PairInput& in = tips.meshes[gear == 0 ? 0 : gear - 1];
        require_positive(tips.d_a_mm[gear], "d_a_mm");
        const int z = gear == 0 ? in.z_1 : in.z_2;
        return (tips.d_a_mm[gear] - z * transverse(in, z).m_t) / (2 * in.module_mm) - addendum;
    };
    std::vector<double> sums;
    double topped = 0;
    for (std::size_t mesh = 0; mesh < count; ++mesh) {
        check(tips.meshes[mesh]);
        sums.push_back(working_or_throw(tips.meshes[mesh]).X);
        topped += (height(mesh) + height(mesh + 1) - sums.back()) / 2 / meshes;
    }
    std::vector<double> x(count + 1);
    x[1] = height(1) - topped;
    x[0] = sums[0] - x[1];
    if (count == 2) x[2] = sums[1] - x[1];
    return x;
}

double overlap_ratio(const Helix& helix) {
    require_not_negative(helix.face_width_mm, "face_width_mm");
    require_within(helix.angle_rad, {0, rad_from_deg(45)}, "angle_rad");
    require_positive(helix.module_mm, "module_mm");
    return helix.face_width_mm * std::sin(helix.angle_rad) / (pi * helix.module_mm);
}

double least_shift(const Tooth& tooth) {
    require_within(tooth.z, {least_teeth, 1000}, "z");
    const double cos_beta = std::cos(tooth.helix_angle_rad);
    const double sin_t = std::sin(std::atan(std::tan(tooth.pressure_angle_rad) / cos_beta));
    return dedendum - root_radius * (1 - std::sin(tooth.pressure_angle_rad)) -
           tooth.z * sin_t * sin_t / (2 * cos_beta);
}

std::vector<Finding> findings(const PairInput& in, const Pair& p) {
    using Severity = Finding::Severity;
    struct Side {
        int z;
        double x;
        double T_mm;
        double d_Nf_mm;
        double d_Ff_mm;
        double clearance_mm;
        double s_a_mm;
    };
    const Side one{in.z_1, p.x_1, p.T1A_mm, p.d_Nf1_mm, p.d_Ff1_mm, p.clearance_1_mm, p.s_a1_mm};
    const Side two{in.z_2, p.x_2, p.T2E_mm, p.d_Nf2_mm, p.d_Ff2_mm, p.clearance_2_mm, p.s_a2_mm};
    std::vector<Finding> all;
    for (const Side& side : {one, two}) {
        const double x_min = least_shift({.z = side.z,
                                          .pressure_angle_rad = in.pressure_angle_rad,
                                          .helix_angle_rad = in.helix_angle_rad});
        if (side.x < x_min)
            all.push_back({side.x < x_min - 0.02 ? Severity::watch : Severity::note, "undercut",
                           fmt::format("the {} tooth gear is undercut: profile shift {:.3f}, from "
                                       "{:.3f} on it would not be",
                                       side.z, side.x, x_min)});
        if (side.T_mm < 0 || side.d_Nf_mm < side.d_Ff_mm)
            all.push_back(
                {Severity::stop, "interference",
                 fmt::format("the mate's tip runs into the root fillet of the {} tooth gear",
                             side.z)});
        // The designed value is 0.25 m exactly; the small part keeps 0.20 m itself out.
        constexpr double rounding = 1e-9;
        const double clearance = side.clearance_mm / in.module_mm + rounding;
        if (clearance < 0.2)
            all.push_back(
                {clearance < 0.15 ? Severity::stop : Severity::watch, "clearance",
                 fmt::format("the tips of the {} tooth gear clear the roots of their mate "
                             "by {:.2f} modules; 0.20 is usual, 0.15 the least",
                             side.z, clearance)});
        const double s_a = side.s_a_mm / in.module_mm;
        if (s_a < 0.4)
            all.push_back({s_a < 0.2 ? Severity::stop : Severity::watch, "tip_thickness",
                           fmt::format("teeth of the {} tooth gear are {:.2f} modules thick at the "
                                       "tip; 0.40 is the usual least when case-hardened",
                                       side.z, s_a)});
    }
    if (p.eps_alpha < 1.1)
        all.push_back({p.eps_alpha < 1.0 ? Severity::stop : Severity::watch, "contact_ratio",
                       fmt::format("contact ratio {:.2f}: below 1.1 the mesh is rough, below 1.0 "
                                   "it cannot run",
                                   p.eps_alpha)});
    const int common = std::gcd(in.z_1, in.z_2);
    all.push_back({Severity::note, "hunting_tooth",
                   common == 1
                       ? fmt::format("{}/{}: every tooth meets every other; keep the pair together",
                                     in.z_1, in.z_2)
                       : fmt::format("{}/{}: the same teeth meet every {} turns of the first gear; "
                                     "mark and re-pair them",
                                     in.z_1, in.z_2, in.z_2 / common)});
    return all;
}

std::vector<Finding> rim_findings(const Rim& rim) {
    require_positive(rim.module_mm, "module_mm");
    require_positive(rim.d_f_mm, "d_f_mm");
    require_not_negative(rim.bore_mm, "bore_mm");
    using Severity = Finding::Severity;
    const double thickness = (rim.d_f_mm - rim.bore_mm) / 2 / rim.module_mm;
    constexpr double usual = 3.5;
    constexpr double least = 1.2 * (addendum + dedendum);
    if (thickness >= usual) return {};
    Severity severity = Severity::note;
    if (thickness < least) severity = Severity::watch;
    if (thickness <= 0) severity = Severity::stop;
    return {
        {severity, "rim",
         fmt::format("the {} tooth gear has {:.2f} modules of rim between roots and bore; {:.1f} "
                     "is usual, below {:.1f} the roots are weaker than calculated",
                     rim.z, thickness, usual, least)}};
}

std::vector<int> fitting_tooth_sums(const PairInput& in) {
    check(in);
    std::vector<int> sums;
    const int middle =
        static_cast<int>(2 * in.centre_distance_mm * std::cos(in.helix_angle_rad) / in.module_mm);
    for (int sum = std::max(middle - 5, 2 * least_teeth); sum <= middle + 5; ++sum) {
        const std::optional<Working> run = working(in, sum);
        if (run && run->X >= least_shift_sum && run->X <= largest_shift_sum) sums.push_back(sum);
    }
    return sums;
}

}  // namespace caseload::iso_21771
