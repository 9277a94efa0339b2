// SPDX-License-Identifier: MIT
#include "caseload/formulas/mesh_loss.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <boost/math/quadrature/gauss.hpp>

#include <algorithm>
#include <array>
#include <cmath>

namespace caseload {
namespace {

// Contact ratios above are not gears: more than three pairs share the load.
constexpr int most_pairs = 4;
constexpr double largest_contact_ratio = most_pairs;

/// Integral along the path of contact x from -g_2 (start) to g_1 (end), pitch point at 0, of
/// f(x, share of the load). Another pair is in contact a whole number of base pitches ahead or
/// behind where that point lies on the path too; between the cuts their number is constant.
template <class F>
double along_path(const iso_21771::Pair& pair, const F& f) {
    require_within(pair.eps_alpha, {0, largest_contact_ratio}, "eps_alpha");
    const double p = pair.p_bt_mm;
    const double start = -pair.g_2_mm;
    const double end = pair.g_1_mm;
    std::array<double, 2 * most_pairs + 1> cuts{};
    std::size_t count = 0;
    for (int k = 0; k < most_pairs; ++k) {
        cuts.at(count++) = std::min(start + k * p, end);
        cuts.at(count++) = std::max(end - k * p, start);
    }
    cuts.at(count++) = std::clamp(0.0, start, end);  // |x| has a corner there
    std::sort(cuts.begin(), cuts.end());
    double integral = 0;
    for (std::size_t i = 1; i < cuts.size(); ++i) {
        if (!(cuts.at(i) > cuts.at(i - 1))) continue;
        const double middle = (cuts.at(i - 1) + cuts.at(i)) / 2;
        int pairs = 1;
        for (int k = 1; k < most_pairs; ++k)
            pairs += (middle - k * p >= start ? 1 : 0) + (middle + k * p <= end ? 1 : 0);
        const double share = 1.0 / pairs;
        integral += boost::math::quadrature::gauss<double, 15>::integrate(
            [&](double x) { return f(x, share); }, cuts.at(i - 1), cuts.at(i));
    }
    return integral;
}

}  // namespace

namespace mesh_loss {

double loss_factor_closed(const iso_21771::Pair& pair) {
    require_within(pair.eps_alpha, {1, 2}, "eps_alpha");
    require_within(pair.eps_1, {0, 1}, "eps_1");
    require_within(pair.eps_2, {0, 1}, "eps_2");
    const double u = static_cast<double>(pair.z_2) / pair.z_1;
    return pi * (u + 1) / (pair.z_1 * u * std::cos(pair.beta_b_rad)) *
           (1 - pair.eps_alpha + pair.eps_1 * pair.eps_1 + pair.eps_2 * pair.eps_2);
}

double loss_factor(const iso_21771::Pair& pair) {
    const double integral =
        along_path(pair, [](double x, double share) { return share * std::fabs(x); });
    return (2 / pair.d_b1_mm + 2 / pair.d_b2_mm) / pair.p_bt_mm * integral /
           std::cos(pair.beta_b_rad);
}

}  // namespace mesh_loss

namespace schlenk {

double sum_speed_mps(const PitchPoint& point) {
    require_not_negative(point.v_mps, "v_mps");
    return 2 * std::min(point.v_mps, largest_v_mps) * std::sin(point.alpha_wt_rad);
}

double friction(const Friction& state) {
    require_not_negative(state.w_Npmm, "w_Npmm");
    Friction limited = state;
    limited.w_Npmm = std::max(state.w_Npmm, least_w_Npmm);
    return friction_unlimited(limited);
}

double friction_unlimited(const Friction& state) {
    require_positive(state.w_Npmm, "w_Npmm");
    require_positive(state.v_sumC_mps, "v_sumC_mps");
    require_positive(state.rho_redC_mm, "rho_redC_mm");
    require_positive(state.eta_mPas, "eta_mPas");
    require_positive(state.Ra_um, "Ra_um");
    require_positive(state.X_L, "X_L");
    return 0.048 * std::pow(state.w_Npmm / (state.v_sumC_mps * state.rho_redC_mm), 0.2) *
           std::pow(state.eta_mPas, -0.05) * std::pow(state.Ra_um, 0.25) * state.X_L;
}

}  // namespace schlenk

namespace xu {

// E / (1 - nu^2) of steel, 206 GPa and 0.3.
constexpr double E_steel_GPa = 206 / (1 - 0.3 * 0.3);

double friction(const Contact& c) {
    require_positive(c.P_h_GPa, "P_h_GPa");
    require_not_negative(c.slide_roll, "slide_roll");
    require_positive(c.v_e_mps, "v_e_mps");
    require_within(c.eta_mPas, {1, 1e5}, "eta_mPas");
    require_positive(c.R_m, "R_m");
    require_not_negative(c.S_um, "S_um");
    const double q = c.slide_roll * c.P_h_GPa * std::log10(c.eta_mPas);
    const double f =
        -8.916465 - 0.354068 * q + 2.812084 * std::exp(-q) + 0.620305 * std::exp(c.S_um);
    return std::exp(f) * std::pow(c.P_h_GPa, 1.03303) * std::pow(c.slide_roll, 1.036077) *
           std::pow(c.v_e_mps, -0.100601) * std::pow(c.eta_mPas, 0.752755) *
           std::pow(c.R_m, -0.390958);
}

double mesh_loss_W(const iso_21771::Pair& pair, const Drive& drive) {
    require_positive(drive.torque_1_Nm, "torque_1_Nm");
    require_positive(drive.omega_1_radps, "omega_1_radps");
    require_positive(drive.face_width_mm, "face_width_mm");
    require_within(pair.beta_b_rad, {0, 0}, "beta_b_rad");
    const double F_bt_N = drive.torque_1_Nm / m_from_mm(pair.d_b1_mm / 2);
    const double omega_2_radps = drive.omega_1_radps * pair.z_1 / pair.z_2;
    const double sin_w = std::sin(pair.alpha_wt_rad);
    const double loss_W = along_path(pair, [&](double x, double share) {
        const double rho_1_mm = pair.d_w1_mm / 2 * sin_w + x;
        const double rho_2_mm = pair.d_w2_mm / 2 * sin_w - x;
        const double rho_mm = rho_1_mm * rho_2_mm / (rho_1_mm + rho_2_mm);
        const double v_1_mps = drive.omega_1_radps * m_from_mm(rho_1_mm);
        const double v_2_mps = omega_2_radps * m_from_mm(rho_2_mm);
        const double slide_mps = std::fabs(v_1_mps - v_2_mps);
        const double roll_mps = (v_1_mps + v_2_mps) / 2;
        const double w_Npmm = share * F_bt_N / drive.face_width_mm;
        const double mu =
            friction({.P_h_GPa = std::sqrt(GPa_from_MPa(w_Npmm / rho_mm) * E_steel_GPa / (2 * pi)),
                      .slide_roll = slide_mps / roll_mps,
                      .v_e_mps = roll_mps,
                      .eta_mPas = drive.eta_mPas,
                      .R_m = m_from_mm(rho_mm),
                      .S_um = drive.S_um});
        return mu * share * F_bt_N * slide_mps;
    });
    return loss_W / pair.p_bt_mm;
}

}  // namespace xu
}  // namespace caseload
