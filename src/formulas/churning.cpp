// SPDX-License-Identifier: MIT
#include "caseload/formulas/churning.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

struct Groups {
    double theta = 0;
    double disc_m2 = 0;    ///< wetted sides and rim
    double flanks_m2 = 0;  ///< wetted tooth flanks
    double h_D = 0;
    double V_D3 = 0;
    double Fr = 0;
    double Re = 0;
    double drag_Nm = 0;  ///< rho omega^2 R^3 / 2 per m2 of wetted surface and unit coefficient
    bool runs = false;
};

Groups groups(const churning::Gear& gear, const churning::Bath& bath) {
    // Tooth height on which both flanks drag, modules.
    constexpr double tooth_height = 2.25;
    constexpr Limits angles{0, rad_from_deg(60)};
    require_positive(gear.R_m, "R_m");
    require_positive(gear.b_m, "b_m");
    require_positive(gear.module_m, "module_m");
    require_positive(gear.z, "z");
    require_within(gear.alpha_t_rad, angles, "alpha_t_rad");
    require_within(gear.beta_rad, angles, "beta_rad");
    require_not_negative(bath.omega_radps, "omega_radps");
    require_positive(bath.oil_volume_m3, "oil_volume_m3");
    require_positive(bath.density_kgpm3, "density_kgpm3");
    require_positive(bath.nu_m2ps, "nu_m2ps");
    const double R = gear.R_m;
    const double D = 2 * R;
    const double omega = bath.omega_radps;
    Groups g;
    const auto wet = churning::immersion({.R_m = R, .depth_m = bath.depth_m});
    g.runs = wet.theta_rad > 0 && omega > 0;
    g.theta = wet.theta_rad;
    g.disc_m2 = 2 * wet.segment_m2 + D * gear.b_m * g.theta;
    g.flanks_m2 = 2 * gear.z * g.theta * tooth_height * gear.module_m * gear.b_m /
                  (pi * std::cos(gear.alpha_t_rad) * std::cos(gear.beta_rad));
    g.h_D = std::clamp(bath.depth_m, 0.0, D) / D;
    g.V_D3 = bath.oil_volume_m3 / (D * D * D);
    g.Fr = omega * omega * R / g_mps2;
    g.Re = omega * R * R / bath.nu_m2ps;
    g.drag_Nm = bath.density_kgpm3 * omega * omega * R * R * R / 2;
    return g;
}

/// 0 up to low, 1 from high, linear between.
double blend(double x, const Limits& range) {
    return std::clamp((x - range.low) / (range.high - range.low), 0.0, 1.0);
}

}  // namespace

namespace churning {

Immersion immersion(const Dip& dip) {
    require_positive(dip.R_m, "R_m");
    const double share = std::clamp(dip.depth_m / dip.R_m, 0.0, 2.0);
    const double theta = std::acos(1 - share);
    return {.theta_rad = theta,
            .segment_m2 = dip.R_m * dip.R_m * (theta - std::sin(theta) * std::cos(theta))};
}

double dry_share(const Dip& dip) {
    return 1 - immersion(dip).theta_rad / pi;
}

}  // namespace churning

namespace changenet {

double fast_range_share(double v_mps) {
    const double t = blend(v_mps, {slow_range_to_mps, fast_range_from_mps});
    return t * t * (3 - 2 * t);
}

double branch_acceleration_mps2(const churning::Gear& gear, double omega_radps) {
    require_not_negative(omega_radps, "omega_radps");
    return omega_radps * omega_radps * std::cbrt(gear.R_m * gear.b_m * gear.module_m);
}

double churning_torque_Nm(const churning::Gear& gear, const churning::Bath& bath) {
    const Groups g = groups(gear, bath);
    if (!g.runs) return 0;
    const double volume = std::max(g.V_D3, least_volume_ratio);
    const double gamma = branch_acceleration_mps2(gear, bath.omega_radps);
    const double slow = 1.366 * std::pow(g.h_D, 0.45) * std::pow(volume, 0.1) *
                        std::pow(g.Fr, -0.6) * std::pow(g.Re, -0.21);
    const double fast = 3.644 * std::pow(g.h_D, 0.1) * std::pow(volume, -0.35) *
                        std::pow(g.Fr, -0.88) * std::pow(gear.b_m / (2 * gear.R_m), 0.85);
    const double share = blend(gamma, {slow_to_mps2, fast_from_mps2});
    return g.drag_Nm * (g.disc_m2 + g.flanks_m2) * (slow + share * (fast - slow));
}

}  // namespace changenet

}  // namespace caseload
