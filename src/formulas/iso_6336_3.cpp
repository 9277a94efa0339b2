// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_3.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace caseload::iso_6336_3 {
namespace {

using iso_21771::involute;

/// Spur tooth that bends as the helical one does, lengths in modules.
struct VirtualTooth {
    double z_n;
    double alpha_n;
    double x;
    double d_an;
    double d_bn;
    double eps_alpha_n;
};

VirtualTooth virtual_tooth(const iso_21771::Pair& pair, Gear gear) {
    const bool driver = gear == Gear::driver;
    const double cos_b = std::cos(pair.beta_b_rad);
    const double z_n = (driver ? pair.z_1 : pair.z_2) / (cos_b * cos_b * std::cos(pair.beta_rad));
    const double above_mm = driver ? pair.d_a1_mm - pair.d_1_mm : pair.d_a2_mm - pair.d_2_mm;
    return {.z_n = z_n,
            .alpha_n = pair.alpha_n_rad,
            .x = driver ? pair.x_1 : pair.x_2,
            .d_an = z_n + above_mm / pair.module_mm,
            .d_bn = z_n * std::cos(pair.alpha_n_rad),
            .eps_alpha_n = pair.eps_alpha / (cos_b * cos_b)};
}

/// Diameter of the circle the load acts on.
double load_diameter(const VirtualTooth& tooth, LoadAt at) {
    if (at == LoadAt::tip) return tooth.d_an;
    const double tip = std::sqrt(tooth.d_an * tooth.d_an - tooth.d_bn * tooth.d_bn) / 2;
    const double below = pi * std::cos(tooth.alpha_n) * (tooth.eps_alpha_n - 1);
    return 2 * std::hypot(tip - below, tooth.d_bn / 2);
}

}  // namespace

RootForm root_form(const iso_21771::Pair& pair, Gear gear, LoadAt at) {
    require_within(pair.eps_alpha, {1, 2.5}, "eps_alpha");
    constexpr double h = iso_21771::rack_dedendum;
    constexpr double r = iso_21771::rack_root_radius;
    const VirtualTooth t = virtual_tooth(pair, gear);
    const double cos_n = std::cos(t.alpha_n);
    const double tan_n = std::tan(t.alpha_n);

    const double E = pi / 4 - h * tan_n - (1 - std::sin(t.alpha_n)) * r / cos_n;
    const double G = r - h + t.x;
    const double H = 2 / t.z_n * (pi / 2 - E) - pi / 3;
    double theta = pi / 6;
    for (int i = 0; i < 60; ++i)  // each step takes more than a third off the error, from 5 teeth
        theta = 2 * G / t.z_n * std::tan(theta) - H;
    const double cos_th = std::cos(theta);
    const double up = G / cos_th - r;
    const double s_Fn = t.z_n * std::sin(pi / 3 - theta) + std::numbers::sqrt3 * up;
    const double rho_F = r + 2 * G * G / (cos_th * (t.z_n * cos_th * cos_th - 2 * G));

    const double d_en = load_diameter(t, at);
    const double alpha_en = std::acos(t.d_bn / d_en);
    const double gamma =
        (pi / 2 + 2 * t.x * tan_n) / t.z_n + involute(t.alpha_n) - involute(alpha_en);
    const double alpha_Fen = alpha_en - gamma;
    const double h_Fe = ((std::cos(gamma) - std::sin(gamma) * std::tan(alpha_Fen)) * d_en -
                         t.z_n * std::cos(pi / 3 - theta) - up) /
                        2;

    const double q = s_Fn / (2 * rho_F);
    require_within(q, {1, 8}, "notch parameter q_s");
    require_positive(h_Fe, "h_Fe");
    const double L = s_Fn / h_Fe;
    return {.s_Fn = s_Fn,
            .h_Fe = h_Fe,
            .rho_F = rho_F,
            .alpha_Fen_rad = alpha_Fen,
            .Y_F = 6 * h_Fe * std::cos(alpha_Fen) / (s_Fn * s_Fn * cos_n),
            .Y_S = (1.2 + 0.13 * L) * std::pow(q, 1 / (1.21 + 2.3 / L))};
}

double helix_factor(const iso_21771::Pair& pair) {
    return 1 - std::min(pair.eps_beta, 1.0) * std::min(deg_from_rad(pair.beta_rad), 30.0) / 120;
}

double nominal_stress_MPa(const iso_21771::Pair& pair, const RootForm& form,
                          const iso_6336_1::ToothLoad& load) {
    require_not_negative(load.F_t_N, "F_t_N");
    require_positive(load.face_width_mm, "face_width_mm");
    return load.F_t_N / (load.face_width_mm * pair.module_mm) * form.Y_F * form.Y_S *
           helix_factor(pair);
}

double stress_MPa(const iso_21771::Pair& pair, const RootForm& form,
                  const iso_6336_1::ToothLoad& load, const iso_6336_1::LoadFactors& factors) {
    return nominal_stress_MPa(pair, form, load) * iso_6336_1::load_factor(factors);
}

double surface_factor(double Rz_um) {
    require_positive(Rz_um, "Rz_um");
    require_within(Rz_um, {0, 40}, "Rz_um");
    return Rz_um < 1 ? 1.12 : 1.674 - 0.529 * std::pow(Rz_um + 1, 0.1);
}

double size_factor(double module_mm) {
    require_positive(module_mm, "module_mm");
    return 1.05 - 0.01 * std::clamp(module_mm, 5.0, 25.0);
}

double limit_MPa(const RootLimit& limit) {
    require_positive(limit.sigma_Flim_MPa, "sigma_Flim_MPa");
    return limit.sigma_Flim_MPa * Y_ST * surface_factor(limit.Rz_um) *
           size_factor(limit.module_mm) * (limit.reversed ? full_reversal : 1);
}

}  // namespace caseload::iso_6336_3
