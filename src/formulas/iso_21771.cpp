// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_21771.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace caseload::iso_21771 {
namespace {

constexpr double addendum = 1.0;
constexpr double dedendum = 1.25;
constexpr double root_radius = 0.38;
constexpr double least_shift_sum = -1.0;
constexpr double largest_shift_sum = 1.2;

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

/// Sum of the profile shifts that puts a tooth sum on the centre distance; NaN-free: false if the
/// base circles do not reach.
bool shift_sum(const PairInput& in, int sum, double& X, double& alpha_wt) {
    const Transverse t = transverse(in, sum);
    const double cosine = t.a_0 * std::cos(t.alpha_t) / in.centre_distance_mm;
    if (cosine >= 1) return false;
    alpha_wt = std::acos(cosine);
    X = sum * (involute(alpha_wt) - involute(t.alpha_t)) / (2 * std::tan(in.pressure_angle_rad));
    return true;
}

double tip_thickness_mm(double d_a, double d_b, double x, int z, double alpha_n, double alpha_t) {
    const double alpha_a = std::acos(d_b / d_a);
    return d_a * ((pi / 2 + 2 * x * std::tan(alpha_n)) / z + involute(alpha_t) - involute(alpha_a));
}

double form_diameter_mm(double d, double d_b, double x, double m, double alpha_t, double alpha_n) {
    const double h = m * (dedendum - root_radius * (1 - std::sin(alpha_n)) - x);
    const double along = d / 2 * std::sin(alpha_t) - h / std::sin(alpha_t);
    return 2 * std::hypot(along, d_b / 2);
}

}  // namespace

double involute(double angle_rad) { return std::tan(angle_rad) - angle_rad; }

double inverse_involute(double value) {
    require_within(value, {0, 0.685}, "involute");
    if (value == 0) return 0;
    const double s = std::cbrt(3 * value);
    const double s2 = s * s;
    double angle = s * (1 + s2 * (-2.0 / 15 + s2 * (3.0 / 175 - s2 * 2.0 / 1575)));
    for (int i = 0; i < 4; ++i) {  // two suffice to 22 degrees, three to 45
        const double slope = std::tan(angle);
        angle -= (slope - angle - value) / (slope * slope);
    }
    return angle;
}

Pair pair(const PairInput& in) {
    require_positive(in.module_mm, "module_mm");
    require_positive(in.centre_distance_mm, "centre_distance_mm");
    require_positive(in.face_width_mm, "face_width_mm");
    const int sum = in.z_1 + in.z_2;
    const Transverse t = transverse(in, sum);
    Pair p{};
    p.z_1 = in.z_1;
    p.z_2 = in.z_2;
    p.module_mm = in.module_mm;
    p.alpha_t_rad = t.alpha_t;
    double X = 0;
    if (!shift_sum(in, sum, X, p.alpha_wt_rad))
        throw Error(Error::Kind::domain,
                    fmt::format("{}/{} teeth of module {} mm are too large for a centre distance of "
                                "{} mm",
                                in.z_1, in.z_2, in.module_mm, in.centre_distance_mm));
    p.beta_b_rad = std::asin(std::sin(in.helix_angle_rad) * std::cos(in.pressure_angle_rad));
    p.x_1 = in.shift_share_1 * X;
    p.x_2 = X - p.x_1;
    p.d_1_mm = in.z_1 * t.m_t;
    p.d_2_mm = in.z_2 * t.m_t;
    p.d_b1_mm = p.d_1_mm * std::cos(t.alpha_t);
    p.d_b2_mm = p.d_2_mm * std::cos(t.alpha_t);
    p.d_w1_mm = 2 * in.centre_distance_mm * in.z_1 / sum;
    p.d_w2_mm = 2 * in.centre_distance_mm - p.d_w1_mm;
    p.beta_w_rad = std::atan(p.d_w1_mm / p.d_1_mm * std::tan(in.helix_angle_rad));
    const double shortening =
        std::min(0.0, (in.centre_distance_mm - t.a_0) / in.module_mm - X);
    p.d_a1_mm = p.d_1_mm + 2 * in.module_mm * (addendum + p.x_1 + shortening);
    p.d_a2_mm = p.d_2_mm + 2 * in.module_mm * (addendum + p.x_2 + shortening);
    p.d_f1_mm = p.d_1_mm - 2 * in.module_mm * (dedendum - p.x_1);
    p.d_f2_mm = p.d_2_mm - 2 * in.module_mm * (dedendum - p.x_2);
    p.clearance_1_mm = in.centre_distance_mm - p.d_a1_mm / 2 - p.d_f2_mm / 2;
    p.clearance_2_mm = in.centre_distance_mm - p.d_a2_mm / 2 - p.d_f1_mm / 2;
    p.p_bt_mm = pi * t.m_t * std::cos(t.alpha_t);
    const double sin_w = std::sin(p.alpha_wt_rad);
    const auto reach = [](double d_a, double d_b) {
        return std::sqrt(std::max(d_a * d_a - d_b * d_b, 0.0)) / 2;
    };
    p.g_1_mm = reach(p.d_a1_mm, p.d_b1_mm) - p.d_w1_mm / 2 * sin_w;
    p.g_2_mm = reach(p.d_a2_mm, p.d_b2_mm) - p.d_w2_mm / 2 * sin_w;
    p.eps_1 = p.g_1_mm / p.p_bt_mm;
    p.eps_2 = p.g_2_mm / p.p_bt_mm;
    p.eps_alpha = p.eps_1 + p.eps_2;
    p.eps_beta = in.face_width_mm * std::sin(in.helix_angle_rad) / (pi * in.module_mm);
    const double rho_1 = p.d_w1_mm / 2 * sin_w;
    const double rho_2 = p.d_w2_mm / 2 * sin_w;
    p.rho_redC_mm = rho_1 * rho_2 / (rho_1 + rho_2) / std::cos(p.beta_b_rad);
    const double T1T2 = in.centre_distance_mm * sin_w;
    p.T1A_mm = T1T2 - reach(p.d_a2_mm, p.d_b2_mm);
    p.T2E_mm = T1T2 - reach(p.d_a1_mm, p.d_b1_mm);
    const double u = static_cast<double>(in.z_2) / in.z_1;
    p.zeta_1 = 1 - (T1T2 - p.T1A_mm) / (u * p.T1A_mm);
    p.zeta_2 = 1 - u * (T1T2 - p.T2E_mm) / p.T2E_mm;
    p.s_a1_mm = tip_thickness_mm(p.d_a1_mm, p.d_b1_mm, p.x_1, in.z_1, in.pressure_angle_rad,
                                 t.alpha_t);
    p.s_a2_mm = tip_thickness_mm(p.d_a2_mm, p.d_b2_mm, p.x_2, in.z_2, in.pressure_angle_rad,
                                 t.alpha_t);
    return p;
}

std::vector<Finding> findings(const PairInput& in, const Pair& p) {
    std::vector<Finding> all;
    using Severity = Finding::Severity;
    const auto gear = [&](int which) { return which == 1 ? in.z_1 : in.z_2; };
    const double sin_n = std::sin(in.pressure_angle_rad);
    const double sin_t = std::sin(p.alpha_t_rad);
    for (const int which : {1, 2}) {
        const int z = gear(which);
        const double x = which == 1 ? p.x_1 : p.x_2;
        const double x_min = dedendum - root_radius * (1 - sin_n) -
                             z * sin_t * sin_t / (2 * std::cos(in.helix_angle_rad));
        if (x < x_min)
            all.push_back({x < x_min - 0.02 ? Severity::watch : Severity::note, "undercut",
                           fmt::format("the {} tooth gear is undercut: profile shift {:.3f}, from "
                                       "{:.3f} it would not be",
                                       z, x, x_min)});
        const double d = which == 1 ? p.d_1_mm : p.d_2_mm;
        const double d_b = which == 1 ? p.d_b1_mm : p.d_b2_mm;
        const double T = which == 1 ? p.T1A_mm : p.T2E_mm;
        const double d_Ff =
            form_diameter_mm(d, d_b, x, in.module_mm, p.alpha_t_rad, in.pressure_angle_rad);
        if (T < 0 || 2 * std::hypot(T, d_b / 2) < d_Ff)
            all.push_back({Severity::stop, "interference",
                           fmt::format("the mate's tip runs into the root fillet of the {} tooth "
                                       "gear",
                                       z)});
        const double c = (which == 1 ? p.clearance_1_mm : p.clearance_2_mm) / in.module_mm;
        if (c < 0.2 - 1e-9)
            all.push_back({c < 0.15 ? Severity::stop : Severity::watch, "clearance",
                           fmt::format("tip clearance over the {} tooth gear is {:.2f} modules; "
                                       "0.20 is usual, 0.15 the least",
                                       z, c)});
        const double s = (which == 1 ? p.s_a1_mm : p.s_a2_mm) / in.module_mm;
        if (s < 0.4)
            all.push_back({s < 0.2 ? Severity::stop : Severity::watch, "tip_thickness",
                           fmt::format("teeth of the {} tooth gear are {:.2f} modules thick at the "
                                       "tip; 0.40 is the usual least when case-hardened",
                                       z, s)});
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

std::vector<int> fitting_tooth_sums(const PairInput& in) {
    std::vector<int> sums;
    const int middle = static_cast<int>(2 * in.centre_distance_mm *
                                        std::cos(in.helix_angle_rad) / in.module_mm);
    for (int sum = std::max(middle - 5, 12); sum <= middle + 5; ++sum) {
        double X = 0;
        double alpha_wt = 0;
        if (shift_sum(in, sum, X, alpha_wt) && X >= least_shift_sum && X <= largest_shift_sum)
            sums.push_back(sum);
    }
    return sums;
}

}  // namespace caseload::iso_21771
