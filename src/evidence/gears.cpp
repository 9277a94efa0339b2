// SPDX-License-Identifier: MIT
// Tooth geometry, forces, roots, mesh loss and pumps.
#include "caseload/evidence.hpp"
#include "caseload/formulas/gear_forces.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/formulas/pump.hpp"
#include "caseload/formulas/statics.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace caseload {
namespace {

using iso_21771::Pair;

// --- geometry ------------------------------------------------------------------------------------

struct Gears {
    int z_1;
    int z_2;
    double module_mm;
    double alpha_deg;
    double beta_deg;
    double a_mm;  // 0: without profile shift
};

iso_21771::PairInput input(const Gears& g) {
    const double beta = rad_from_deg(g.beta_deg);
    return {.z_1 = g.z_1,
            .z_2 = g.z_2,
            .module_mm = g.module_mm,
            .pressure_angle_rad = rad_from_deg(g.alpha_deg),
            .helix_angle_rad = beta,
            .centre_distance_mm =
                g.a_mm > 0 ? g.a_mm : g.module_mm / std::cos(beta) * (g.z_1 + g.z_2) / 2,
            .shift_share_1 = 0.5,
            .face_width_mm = 45};
}

Pair pair_of(const Gears& g) {
    return iso_21771::pair(input(g));
}

Pair khurmi_3() {  // addendum 10 mm
    return iso_21771::pair(input({30, 80, 12, 20, 0, 0}), {.d_a1_mm = 380, .d_a2_mm = 980});
}
Pair khurmi_4() {
    return pair_of({20, 40, 5, 20, 0, 0});
}
Pair khurmi_6() {
    return pair_of({17, 49, 6, 20, 0, 0});
}
Pair jindal_1() {
    return pair_of({20, 50, 4, 20, 15, 0});
}
Pair geometry_rig() {
    return iso_21771::pair(input({40, 40, 2.3185, 28, 0, 91.5}),
                           {.d_a1_mm = 95.95, .d_a2_mm = 95.95});
}
iso_21771::PairInput rig_gears() {
    return input({16, 24, 4.5, 20, 0, 91.5});
}
Pair type_c() {
    iso_21771::PairInput in = rig_gears();
    in.shift_share_1 = 0.1817 / 0.3532;
    return iso_21771::pair(in, {.d_a1_mm = 82.46, .d_a2_mm = 118.36});
}

double turned_deg(const Pair& p, int z) {
    return 360 * p.eps_alpha / z;
}

/// Sliding speed along the path of contact, at a distance from the pitch point.
double sliding_mmps(const Pair& p, double x_mm, double omega_1_radps) {
    return x_mm * omega_1_radps * (1 + static_cast<double>(p.z_1) / p.z_2);
}

/// Sliding over rolling at the pitch circle.
double slide_per_roll(const Pair& p, double x_mm) {
    return sliding_mmps(p, x_mm, 1) / (p.d_w1_mm / 2);
}

/// Fewest teeth of a gear whose base circle the mate, `times` its teeth, does not run beyond.
double fewest_teeth(int times) {
    int z = 8;
    while (pair_of({z, z * times, 5, 20, 0, 0}).T1A_mm < 0) ++z;
    return z;
}

double fewest_teeth_with_rack() {
    int z = 8;
    while (iso_21771::least_shift(
               {.z = z, .pressure_angle_rad = rad_from_deg(20), .helix_angle_rad = 0}) > 0)
        ++z;
    return z;
}

// --- forces --------------------------------------------------------------------------------------

gear_forces::Forces khurmi_1() {
    return gear_forces::forces({.torque_Nm = 120e3 / radps_from_rpm(650),
                                .d_w_mm = 250,
                                .alpha_wt_rad = rad_from_deg(20),
                                .beta_w_rad = 0});
}
gear_forces::Forces jindal_2() {
    const Pair p = pair_of({25, 25, 4, 20, 20, 0});
    return gear_forces::forces({.torque_Nm = 5e3 / radps_from_rpm(1200),
                                .d_w_mm = p.d_w1_mm,
                                .alpha_wt_rad = p.alpha_wt_rad,
                                .beta_w_rad = p.beta_w_rad});
}
gear_forces::Forces wentzell_1() {
    return gear_forces::forces({.torque_Nm = W_from_hp(5) / radps_from_rpm(1725),
                                .d_w_mm = mm_from_in(2.5),
                                .alpha_wt_rad = rad_from_deg(20),
                                .beta_w_rad = 0});
}
gear_forces::Forces shigley_7() {
    return gear_forces::forces({.torque_Nm = 2.5e3 / radps_from_rpm(1750),
                                .d_w_mm = 50,
                                .alpha_wt_rad = rad_from_deg(20),
                                .beta_w_rad = 0});
}

struct Meshes {
    double driver_deg;  ///< of its centre, seen from the idler, which turns the positive way
    double driven_deg;
};

/// Force on the idler's shaft from both meshes: both bearings together.
double shigley_7_shaft_kN(const Meshes& at) {
    const gear_forces::Forces f = shigley_7();
    const auto load = [&](double angle_deg, double along) {
        const double a = rad_from_deg(angle_deg);
        return statics::PointLoad{.x_mm = 10,
                                  .F_y_N = -along * f.F_t_N * std::sin(a) - f.F_r_N * std::cos(a),
                                  .F_z_N = along * f.F_t_N * std::cos(a) - f.F_r_N * std::sin(a)};
    };
    const std::array<statics::PointLoad, 2> loads{load(at.driver_deg, 1), load(at.driven_deg, -1)};
    const statics::Reactions r = statics::reactions({.A_mm = 0, .B_mm = 20}, loads, {0, 0});
    return std::hypot(r.A_y_N + r.B_y_N, r.A_z_N + r.B_z_N) / 1000;
}

/// Shaft from the bending moment at the overhung pulley's bearing and the twist.
double sadhu_singh_4_mm() {
    const double torque_Nm = 25e3 / radps_from_rpm(600);
    const gear_forces::Forces f = gear_forces::forces(
        {.torque_Nm = torque_Nm, .d_w_mm = 300, .alpha_wt_rad = rad_from_deg(20), .beta_w_rad = 0});
    const double belts_N = 2 * torque_Nm / 0.200;  // tensions 3:1 on 400 mm
    const std::array<statics::PointLoad, 2> loads{{{.x_mm = 300, .F_y_N = 0, .F_z_N = -f.F_r_N},
                                                   {.x_mm = 900, .F_y_N = 0, .F_z_N = -belts_N}}};
    const statics::Reactions r = statics::reactions({.A_mm = 0, .B_mm = 600}, loads, {0, 0});
    const double bending_Nm = std::fabs(m_from_mm(600) * r.A_z_N - m_from_mm(300) * f.F_r_N);
    const double allowed_Pa = 94.5e6;
    const double factor = 1.5;
    const double d_m =
        std::cbrt(16 / (pi * allowed_Pa) * factor * std::hypot(bending_Nm, torque_Nm));
    return d_m / m_from_mm(1);
}

// --- mesh loss -----------------------------------------------------------------------------------

struct Run {
    double torque_Nm;
    double n_rpm;
    double b_mm;
    double eta_mPas;
    double Ra_um;
    double X_L;
};

double loss_W(const Pair& p, const Run& r) {
    const double F_bt_N = gear_forces::forces({.torque_Nm = r.torque_Nm,
                                               .d_w_mm = p.d_w1_mm,
                                               .alpha_wt_rad = p.alpha_wt_rad,
                                               .beta_w_rad = 0})
                              .F_bt_N;
    const double v_mps = radps_from_rpm(r.n_rpm) * m_from_mm(p.d_w1_mm / 2);
    const double mu = schlenk::friction(
        {.w_Npmm = F_bt_N / r.b_mm,
         .v_sumC_mps = schlenk::sum_speed_mps({.v_mps = v_mps, .alpha_wt_rad = p.alpha_wt_rad}),
         .rho_redC_mm = p.rho_redC_mm,
         .eta_mPas = r.eta_mPas,
         .Ra_um = r.Ra_um,
         .X_L = r.X_L});
    return mu * mesh_loss::loss_factor(p) * r.torque_Nm * radps_from_rpm(r.n_rpm);
}

double rig_W(double n_rpm) {
    return loss_W(geometry_rig(), {413, n_rpm, 26.7, 10.6, 0.056, schlenk::X_L_synthetic});
}

// --- roots ---------------------------------------------------------------------------------------

/// Largest deviation in per cent from the printed form and stress factors of tip-loaded teeth.
double worst_root_table() {
    constexpr std::array<std::array<double, 3>, 8> table{{{17, 2.97, 1.52},
                                                          {20, 2.80, 1.55},
                                                          {25, 2.62, 1.59},
                                                          {30, 2.52, 1.625},
                                                          {40, 2.40, 1.67},
                                                          {60, 2.28, 1.73},
                                                          {100, 2.18, 1.79},
                                                          {200, 2.12, 1.865}}};
    double worst = 0;
    for (const auto& [teeth, Y_F, Y_S] : table) {
        const int z = static_cast<int>(teeth);
        const auto tip = iso_6336_3::root_form(pair_of({z, z, 5, 20, 0, 0}),
                                               iso_6336_3::Gear::driver, iso_6336_3::LoadAt::tip);
        worst = std::max({worst, std::fabs(tip.Y_F / Y_F - 1), std::fabs(tip.Y_S / Y_S - 1)});
    }
    return 100 * worst;
}

// --- pumps ---------------------------------------------------------------------------------------

// Esposito 5.8: 5 in3 a turn, 20 gal/min, 1000 r/min, 1000 psi, 900 lbf in.
double psi_Pa(double p_psi) {
    return p_psi * N_from_lbf(1) / m2_from_mm2(mm_from_in(1) * mm_from_in(1));
}
double in3_Lpmin(double flow_in3pmin) {
    return L_from_mm3(flow_in3pmin * mm_from_in(1) * mm_from_in(1) * mm_from_in(1));
}
double lbfin_Nm(double torque_lbfin) {
    return N_from_lbf(torque_lbfin) * m_from_mm(mm_from_in(1));
}

double esposito_8_percent() {
    return 100 *
           pump::shaft_power_W(
               {.flow_Lpmin = in3_Lpmin(20 * 231), .pressure_Pa = psi_Pa(1000), .efficiency = 1}) /
           (lbfin_Nm(900) * radps_from_rpm(1000));
}
double esposito_8_lbfin() {
    return pump::shaft_power_W(
               {.flow_Lpmin = in3_Lpmin(5 * 1000), .pressure_Pa = psi_Pa(1000), .efficiency = 1}) /
           radps_from_rpm(1000) / lbfin_Nm(1);
}

constexpr Calculation own_gears[] = {
    {"khurmi-12-3-path", [] { return khurmi_3().g_1_mm + khurmi_3().g_2_mm; }},
    {"khurmi-12-3-arc",
     [] { return (khurmi_3().g_1_mm + khurmi_3().g_2_mm) / std::cos(khurmi_3().alpha_wt_rad); }},
    {"khurmi-12-3-ratio", [] { return khurmi_3().eps_alpha; }},
    {"khurmi-12-4-sliding",
     [] { return sliding_mmps(khurmi_4(), khurmi_4().g_2_mm, 1.2 / 0.050); }},
    {"khurmi-12-5-start",
     [] { return sliding_mmps(khurmi_4(), khurmi_4().g_2_mm, radps_from_rpm(2000)); }},
    {"khurmi-12-5-end",
     [] { return sliding_mmps(khurmi_4(), khurmi_4().g_1_mm, radps_from_rpm(2000)); }},
    {"khurmi-12-6-start", [] { return slide_per_roll(khurmi_6(), khurmi_6().g_2_mm); }},
    {"khurmi-12-6-end", [] { return slide_per_roll(khurmi_6(), khurmi_6().g_1_mm); }},
    {"khurmi-12-4-angle", [] { return turned_deg(khurmi_4(), 20); }},
    {"khurmi-12-6-pinion", [] { return turned_deg(khurmi_6(), 17); }},
    {"khurmi-12-6-wheel", [] { return turned_deg(khurmi_6(), 49); }},
    {"bevan-10-4-rack", fewest_teeth_with_rack},
    {"bevan-10-4-equal", [] { return fewest_teeth(1); }},
    {"bevan-10-4-three", [] { return fewest_teeth(3); }},
    {"jindal-26-1-module", [] { return jindal_1().d_1_mm / 20; }},
    {"jindal-26-1-angle", [] { return deg_from_rad(jindal_1().alpha_t_rad); }},
    {"jindal-26-1-tip-1", [] { return jindal_1().d_a1_mm; }},
    {"jindal-26-1-tip-2", [] { return jindal_1().d_a2_mm; }},
    {"jindal-26-1-root-1", [] { return jindal_1().d_f1_mm; }},
    {"jindal-26-1-root-2", [] { return jindal_1().d_f2_mm; }},
    {"jindal-26-1-width", [] { return 45 / jindal_1().eps_beta; }},
    {"fzg-c-shift", [] { return type_c().x_sum; }},
    {"fzg-c-shift-1",
     [] { return iso_21771::shifts_of_tips({{rig_gears()}, {82.46, 118.36}}).front(); }},
    {"fzg-a-shift-1",
     [] { return iso_21771::shifts_of_tips({{rig_gears()}, {88.77, 112.5}}).front(); }},
    {"fzg-c-loss", [] { return mesh_loss::loss_factor(type_c()); }},
    {"petry-johnson-base", [] { return geometry_rig().d_b1_mm; }},
    {"petry-johnson-active", [] { return geometry_rig().d_Nf1_mm; }},
    {"khurmi-12-1", [] { return khurmi_1().F_bt_N / 1000; }},
    {"jindal-26-2-t", [] { return jindal_2().F_t_N; }},
    {"jindal-26-2-a", [] { return jindal_2().F_a_N; }},
    {"jindal-26-2-r", [] { return jindal_2().F_r_N; }},
    {"wentzell-12-1-t", [] { return wentzell_1().F_t_N / N_from_lbf(1); }},
    {"wentzell-12-1-r", [] { return wentzell_1().F_r_N / N_from_lbf(1); }},
    {"wentzell-12-1-n", [] { return wentzell_1().F_bt_N / N_from_lbf(1); }},
    {"sadhu-singh-6-4", sadhu_singh_4_mm},
    {"shigley-13-7-t", [] { return shigley_7().F_t_N / 1000; }},
    {"shigley-13-7-r", [] { return shigley_7().F_r_N / 1000; }},
    {"shigley-13-7-n", [] { return shigley_7().F_bt_N / 1000; }},
    {"shigley-13-7-shaft", [] { return shigley_7_shaft_kN({180, -90}); }},
    {"petry-johnson-2000", [] { return rig_W(2000); }},
    {"petry-johnson-6000", [] { return rig_W(6000); }},
    {"petry-johnson-10000", [] { return rig_W(10000); }},
    {"pu-10-5-table", worst_root_table},
    {"esposito-5-8-efficiency", esposito_8_percent},
    {"esposito-5-8-torque", esposito_8_lbfin},
};

}  // namespace

std::span<const Calculation> gear_calculations() {
    return own_gears;
}

}  // namespace caseload
