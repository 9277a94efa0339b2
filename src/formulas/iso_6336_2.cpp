// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_2.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::iso_6336_2 {
namespace {

constexpr Limits contact_ratios{1, 2.5};

struct Flank {
    int z;
    double d_a_mm;
    double d_b_mm;
};

/// Roll angle where the tip of the gear works.
double tip_roll(const Flank& flank) {
    return std::sqrt(std::pow(flank.d_a_mm / flank.d_b_mm, 2) - 1);
}

struct Meeting {
    Flank own;
    Flank mate;
};

double single_contact_of(const iso_21771::Pair& pair, const Meeting& flanks) {
    const double at_own = tip_roll(flanks.own) - 2 * pi / flanks.own.z;
    const double at_mate = tip_roll(flanks.mate) - (pair.eps_alpha - 1) * 2 * pi / flanks.mate.z;
    require_positive(at_own, "roll angle at the inner point of single contact");
    require_positive(at_mate, "mate's roll angle at the inner point of single contact");
    const double M = std::max(1.0, std::tan(pair.alpha_wt_rad) / std::sqrt(at_own * at_mate));
    return M - std::min(pair.eps_beta, 1.0) * (M - 1);
}

}  // namespace

double zone_factor(const iso_21771::Pair& pair) {
    const double cos_t = std::cos(pair.alpha_t_rad);
    return std::sqrt(2 * std::cos(pair.beta_b_rad) * std::cos(pair.alpha_wt_rad) /
                     (cos_t * cos_t * std::sin(pair.alpha_wt_rad)));
}

double contact_ratio_factor(const iso_21771::Pair& pair) {
    require_within(pair.eps_alpha, contact_ratios, "eps_alpha");
    const double e = std::min(pair.eps_beta, 1.0);
    return std::sqrt((4 - pair.eps_alpha) / 3 * (1 - e) + e / pair.eps_alpha);
}

double helix_factor(const iso_21771::Pair& pair) {
    return 1 / std::sqrt(std::cos(pair.beta_rad));
}

SingleContact single_contact(const iso_21771::Pair& pair) {
    require_within(pair.eps_alpha, contact_ratios, "eps_alpha");
    const Flank one{.z = pair.z_1, .d_a_mm = pair.d_a1_mm, .d_b_mm = pair.d_b1_mm};
    const Flank two{.z = pair.z_2, .d_a_mm = pair.d_a2_mm, .d_b_mm = pair.d_b2_mm};
    return {.Z_1 = single_contact_of(pair, {.own = one, .mate = two}),
            .Z_2 = single_contact_of(pair, {.own = two, .mate = one})};
}

double nominal_stress_MPa(const iso_21771::Pair& pair, const iso_6336_1::ToothLoad& load) {
    require_not_negative(load.F_t_N, "F_t_N");
    require_positive(load.face_width_mm, "face_width_mm");
    return zone_factor(pair) * Z_E_steel * contact_ratio_factor(pair) * helix_factor(pair) *
           std::sqrt(load.F_t_N / load.face_width_mm * (1 / pair.d_1_mm + 1 / pair.d_2_mm));
}

FlankStress stress(const iso_21771::Pair& pair, const iso_6336_1::ToothLoad& load,
                   const iso_6336_1::LoadFactors& factors) {
    const double at_pitch_point =
        nominal_stress_MPa(pair, load) * std::sqrt(iso_6336_1::load_factor(factors));
    const SingleContact inner = single_contact(pair);
    return {.sigma_H1_MPa = inner.Z_1 * at_pitch_point, .sigma_H2_MPa = inner.Z_2 * at_pitch_point};
}

double oil_factor(double nu_40C_mm2ps) {
    require_positive(nu_40C_mm2ps, "nu_40C_mm2ps");
    constexpr double C = 0.91;
    return C + 4 * (1 - C) / std::pow(1.2 + 134 / nu_40C_mm2ps, 2);
}

double speed_factor(double v_mps) {
    require_positive(v_mps, "v_mps");
    constexpr double C = 0.93;
    return C + 2 * (1 - C) / std::sqrt(0.8 + 32 / v_mps);
}

double roughness_factor(const iso_21771::Pair& pair, double Rz_um) {
    require_positive(Rz_um, "Rz_um");
    const double rho_mm = pair.rho_redC_mm * std::cos(pair.beta_b_rad);
    return std::pow(3 / (Rz_um * std::cbrt(10 / rho_mm)), 0.08);
}

double limit_MPa(const FlankLimit& limit) {
    require_within(limit.sigma_Hlim_MPa, {1200, 3000}, "sigma_Hlim_MPa");
    require_positive(limit.Z_L, "Z_L");
    require_positive(limit.Z_v, "Z_v");
    require_positive(limit.Z_R, "Z_R");
    return limit.sigma_Hlim_MPa * limit.Z_L * limit.Z_v * limit.Z_R;
}

}  // namespace caseload::iso_6336_2
