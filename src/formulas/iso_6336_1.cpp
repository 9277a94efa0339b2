// SPDX-License-Identifier: MIT
#include "caseload/formulas/iso_6336_1.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::iso_6336_1 {
namespace {

constexpr double density_kgpmm3 = 7.83e-6;  // steel
constexpr double c_single_Npmmum = 14;      // c', one pair of steel teeth
// Ends of the main resonance and start of the range above it, as n / n_E.
constexpr double resonance_from = 0.85;
constexpr double resonance_to = 1.15;
constexpr double supercritical = 1.5;

/// c_gamma of both uses: of the mesh along the line of action, per face width.
double mesh_stiffness_Npmmum(const iso_21771::Pair& pair) {
    return c_single_Npmmum * (0.75 * pair.eps_alpha + 0.25);
}

double rim(double q) {
    return 1 - q * q * q * q;
}

}  // namespace

double reference_force_N(const iso_21771::Pair& pair, double torque_1_Nm) {
    require_not_negative(torque_1_Nm, "torque_1_Nm");
    return torque_1_Nm / m_from_mm(pair.d_1_mm / 2);
}

double load_factor(const LoadFactors& factors) {
    require_within(factors.K_A, {1, 100}, "K_A");
    require_within(factors.K_v, {1, 100}, "K_v");
    require_within(factors.K_beta, {1, 100}, "K_beta");
    require_within(factors.K_alpha, {1, 100}, "K_alpha");
    return factors.K_A * factors.K_v * factors.K_beta * factors.K_alpha;
}

double reduced_mass_kgpmm(const iso_21771::Pair& pair, const Rims& rims) {
    require_within(rims.q_1, {0, 0.95}, "q_1");
    require_within(rims.q_2, {0, 0.95}, "q_2");
    const bool first = pair.z_1 <= pair.z_2;  // gear 1 is the smaller one
    const double u =
        first ? static_cast<double>(pair.z_2) / pair.z_1 : static_cast<double>(pair.z_1) / pair.z_2;
    const double d_m =
        first ? (pair.d_a1_mm + pair.d_f1_mm) / 2 : (pair.d_a2_mm + pair.d_f2_mm) / 2;
    const double d_b = first ? pair.d_b1_mm : pair.d_b2_mm;
    const double pinion = rim(first ? rims.q_1 : rims.q_2) * density_kgpmm3;
    const double wheel = rim(first ? rims.q_2 : rims.q_1) * density_kgpmm3 * u * u;
    return pi / 8 * std::pow(d_m / d_b, 2) * d_m * d_m / (1 / pinion + 1 / wheel);
}

double resonance_speed_rpm(const iso_21771::Pair& pair, const Rims& rims) {
    require_within(pair.eps_alpha, {1, 2.5}, "eps_alpha");
    return 30000 / (pi * pair.z_1) *
           std::sqrt(mesh_stiffness_Npmmum(pair) / reduced_mass_kgpmm(pair, rims));
}

SpeedRange resonance_range(const iso_21771::Pair& pair, const Rims& rims) {
    const double n_E_rpm = resonance_speed_rpm(pair, rims);
    return {.from_rpm = resonance_from * n_E_rpm, .to_rpm = resonance_to * n_E_rpm};
}

double deviation_um(int grade) {
    require_within(grade, {3, 12}, "grade");
    return 8 * std::pow(2, (grade - 6) / 2.0);
}

double run_in_deviation_um(double deviation_um) {
    require_not_negative(deviation_um, "deviation_um");
    return deviation_um - std::min(0.075 * deviation_um, 3.0);
}

DynamicCoefficients dynamic_coefficients(double eps_gamma) {
    require_within(eps_gamma, {1, 11}, "eps_gamma");
    const double e = eps_gamma;
    double C_v7 = 0.75;
    if (e > 2.5)
        C_v7 = 1;
    else if (e > 1.5)
        C_v7 = 0.125 * std::sin(pi * (e - 2)) + 0.875;
    if (e <= 2)
        return {.C_v1 = 0.32,
                .C_v2 = 0.34,
                .C_v3 = 0.23,
                .C_v4 = 0.90,
                .C_v5 = 0.47,
                .C_v6 = 0.47,
                .C_v7 = C_v7};
    return {.C_v1 = 0.32,
            .C_v2 = 0.57 / (e - 0.3),
            .C_v3 = 0.096 / (e - 1.56),
            .C_v4 = (0.57 - 0.05 * e) / (e - 1.44),
            .C_v5 = 0.47,
            .C_v6 = 0.12 / (e - 1.74),
            .C_v7 = C_v7};
}

double dynamic_factor(const iso_21771::Pair& pair, const Rims& rims, const Running& running) {
    require_not_negative(running.w_Npmm, "w_Npmm");
    require_not_negative(running.n_1_rpm, "n_1_rpm");
    require_not_negative(running.tip_relief_um, "tip_relief_um");
    const double per_um = c_single_Npmmum / std::max(running.w_Npmm, least_w_Npmm);
    const double B_p = per_um * run_in_deviation_um(running.f_pb_um);
    const double B_f = per_um * run_in_deviation_um(running.f_f_um);
    const double B_k = std::fabs(1 - per_um * running.tip_relief_um);
    const DynamicCoefficients c = dynamic_coefficients(pair.eps_alpha + pair.eps_beta);
    const double N = running.n_1_rpm / resonance_speed_rpm(pair, rims);
    if (N <= resonance_from) return 1 + N * (c.C_v1 * B_p + c.C_v2 * B_f + c.C_v3 * B_k);
    const double resonant = 1 + c.C_v1 * B_p + c.C_v2 * B_f + c.C_v4 * B_k;
    if (N <= resonance_to) return resonant;
    const double above = std::max(1.0, c.C_v5 * B_p + c.C_v6 * B_f + c.C_v7);
    if (N >= supercritical) return above;
    return above + (resonant - above) * (supercritical - N) / (supercritical - resonance_to);
}

double face_factor(const Misaligned& mesh) {
    require_not_negative(mesh.F_betay_um, "F_betay_um");
    require_not_negative(mesh.w_m_Npmm, "w_m_Npmm");
    if (mesh.F_betay_um == 0) return 1;
    const double x = mesh.F_betay_um * c_gamma_beta_Npmmum / (2 * mesh.w_m_Npmm);
    return std::min(x <= 1 ? 1 + x : std::sqrt(4 * x), largest_K_Hbeta);
}

TransverseFactors transverse_factors(const iso_21771::Pair& pair, const Transverse& mesh) {
    require_within(pair.eps_alpha, {1, 2.5}, "eps_alpha");
    require_not_negative(mesh.w_H_Npmm, "w_H_Npmm");
    require_positive(mesh.Z_eps_squared, "Z_eps_squared");
    const double eps = pair.eps_alpha + pair.eps_beta;
    const double largest_H = eps / (pair.eps_alpha * mesh.Z_eps_squared);
    const double largest_F = eps / (0.25 * pair.eps_alpha + 0.75);
    if (mesh.w_H_Npmm == 0) return {.K_Halpha = largest_H, .K_Falpha = largest_F};
    const double off =
        0.4 * mesh_stiffness_Npmmum(pair) * run_in_deviation_um(mesh.deviation_um) / mesh.w_H_Npmm;
    const double K = eps <= 2 ? eps / 2 * (0.9 + off) : 0.9 + std::sqrt(2 * (eps - 1) / eps) * off;
    return {.K_Halpha = std::max(1.0, std::min(K, largest_H)),
            .K_Falpha = std::max(1.0, std::min(K, largest_F))};
}

double root_face_factor(const Face& face) {
    require_within(face.K_Hbeta, {1, 10}, "K_Hbeta");
    require_positive(face.face_width_mm, "face_width_mm");
    require_positive(face.module_mm, "module_mm");
    const double slender = face.face_width_mm / (2.25 * face.module_mm);
    return std::pow(face.K_Hbeta, slender * slender / (1 + slender + slender * slender));
}

}  // namespace caseload::iso_6336_1
