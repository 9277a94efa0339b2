// SPDX-License-Identifier: MIT
// Published figures on tooth geometry, forces and mesh loss, recomputed by the formula functions.
#include "evidence/drag.hpp"

#include "caseload/evidence.hpp"
#include "caseload/formulas/gear_forces.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/formulas/statics.hpp"
#include "caseload/units.hpp"

#include <array>
#include <cmath>
#include <vector>

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
Pair geometry_ref() {
    return pair_of({36, 44, 5, 20, 0, 200});
}
Pair geometry_rig() {
    return iso_21771::pair(input({40, 40, 2.3185, 28, 0, 91.5}),
                           {.d_a1_mm = 95.95, .d_a2_mm = 95.95});
}
Pair type_c() {
    iso_21771::PairInput in = input({16, 24, 4.5, 20, 0, 91.5});
    in.shift_share_1 = 0.1817 / 0.3532;
    return iso_21771::pair(in, {.d_a1_mm = 82.46, .d_a2_mm = 118.36});
}
Pair type_a() {
    return iso_21771::pair(input({16, 24, 4.5, 20, 0, 91.5}), {.d_a1_mm = 88.77, .d_a2_mm = 112.5});
}

double turned_deg(const Pair& p, int z) {
    return 360 * p.eps_alpha / z;
}

/// Sliding over rolling at the pitch circle, at distance x along the path of contact.
double slide_per_roll(const Pair& p, double x_mm) {
    return iso_21771::sliding_speed_mps(p, {.x_mm = x_mm, .omega_1_radps = 1}) /
           m_from_mm(p.d_w1_mm / 2);
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
constexpr Run ref_run{600, 7000, 45, 12.5, 0.4, schlenk::X_L_synthetic};

double friction_at(const Pair& p, const Run& r, double v_sumC_mps) {
    const double F_bt_N = gear_forces::forces({.torque_Nm = r.torque_Nm,
                                               .d_w_mm = p.d_w1_mm,
                                               .alpha_wt_rad = p.alpha_wt_rad,
                                               .beta_w_rad = 0})
                              .F_bt_N;
    return schlenk::friction({.w_Npmm = F_bt_N / r.b_mm,
                              .v_sumC_mps = v_sumC_mps,
                              .rho_redC_mm = p.rho_redC_mm,
                              .eta_mPas = r.eta_mPas,
                              .Ra_um = r.Ra_um,
                              .X_L = r.X_L});
}

double friction(const Pair& p, const Run& r) {
    return friction_at(
        p, r,
        schlenk::sum_speed_mps({.v_mps = radps_from_rpm(r.n_rpm) * m_from_mm(p.d_w1_mm / 2),
                                .alpha_wt_rad = p.alpha_wt_rad}));
}

gear_forces::Forces ref_forces() {
    return gear_forces::forces({.torque_Nm = ref_run.torque_Nm,
                                .d_w_mm = geometry_ref().d_w1_mm,
                                .alpha_wt_rad = geometry_ref().alpha_wt_rad,
                                .beta_w_rad = 0});
}

double loss_at_W(const Pair& p, const Run& r, double mu) {
    return mu * mesh_loss::loss_factor(p) * r.torque_Nm * radps_from_rpm(r.n_rpm);
}

double loss_W(const Pair& p, const Run& r) {
    return loss_at_W(p, r, friction(p, r));
}

double rig_W(double n_rpm) {
    return loss_W(geometry_rig(), {413, n_rpm, 26.7, 10.6, 0.056, schlenk::X_L_synthetic});
}
double rig_xu_W(double n_rpm) {
    return xu::mesh_loss_W(geometry_rig(), {.torque_1_Nm = 413,
                                            .omega_1_radps = radps_from_rpm(n_rpm),
                                            .face_width_mm = 26.7,
                                            .eta_mPas = 10.6,
                                            .S_um = 0.07});
}

double ref_W(double X_L) {
    Run r = ref_run;
    r.X_L = X_L;
    return loss_W(geometry_ref(), r);
}

/// The same without the limit of speed that the method puts on its friction.
double ref_unlimited_W() {
    const double v_sumC_mps =
        iso_21771::sum_speed_mps(geometry_ref(), radps_from_rpm(ref_run.n_rpm));
    return loss_at_W(geometry_ref(), ref_run, friction_at(geometry_ref(), ref_run, v_sumC_mps));
}

constexpr Calculation own_gears[] = {
    {"khurmi-12-3-path", []() -> double { return khurmi_3().g_1_mm + khurmi_3().g_2_mm; }},
    {"khurmi-12-3-arc",
     []() -> double {
         return (khurmi_3().g_1_mm + khurmi_3().g_2_mm) / std::cos(khurmi_3().alpha_wt_rad);
     }},
    {"khurmi-12-3-ratio", []() -> double { return khurmi_3().eps_alpha; }},
    {"khurmi-12-4-sliding",
     []() -> double {
         return 1000 * iso_21771::sliding_speed_mps(
                           khurmi_4(), {.x_mm = khurmi_4().g_2_mm, .omega_1_radps = 1.2 / 0.050});
     }},
    {"khurmi-12-4-angle", []() -> double { return turned_deg(khurmi_4(), 20); }},
    {"khurmi-12-5-start",
     []() -> double {
         return 1000 *
                iso_21771::sliding_speed_mps(
                    khurmi_4(), {.x_mm = khurmi_4().g_2_mm, .omega_1_radps = radps_from_rpm(2000)});
     }},
    {"khurmi-12-5-end",
     []() -> double {
         return 1000 *
                iso_21771::sliding_speed_mps(
                    khurmi_4(), {.x_mm = khurmi_4().g_1_mm, .omega_1_radps = radps_from_rpm(2000)});
     }},
    {"khurmi-12-6-pinion", []() -> double { return turned_deg(khurmi_6(), 17); }},
    {"khurmi-12-6-wheel", []() -> double { return turned_deg(khurmi_6(), 49); }},
    {"khurmi-12-6-start", []() -> double { return slide_per_roll(khurmi_6(), khurmi_6().g_2_mm); }},
    {"khurmi-12-6-end", []() -> double { return slide_per_roll(khurmi_6(), khurmi_6().g_1_mm); }},
    {"bevan-10-4-rack", []() -> double { return fewest_teeth_with_rack(); }},
    {"bevan-10-4-equal", []() -> double { return fewest_teeth(1); }},
    {"bevan-10-4-three", []() -> double { return fewest_teeth(3); }},
    {"jindal-26-1-module", []() -> double { return jindal_1().d_1_mm / 20; }},
    {"jindal-26-1-angle", []() -> double { return deg_from_rad(jindal_1().alpha_t_rad); }},
    {"jindal-26-1-tip-1", []() -> double { return jindal_1().d_a1_mm; }},
    {"jindal-26-1-tip-2", []() -> double { return jindal_1().d_a2_mm; }},
    {"jindal-26-1-root-1", []() -> double { return jindal_1().d_f1_mm; }},
    {"jindal-26-1-root-2", []() -> double { return jindal_1().d_f2_mm; }},
    {"jindal-26-1-width", []() -> double { return 45 / jindal_1().eps_beta; }},
    {"fzg-c-shift", []() -> double { return type_c().x_sum; }},
    {"fzg-c-loss", []() -> double { return mesh_loss::loss_factor(type_c()); }},
    {"petry-johnson-base", []() -> double { return geometry_rig().d_b1_mm; }},
    {"petry-johnson-active", []() -> double { return geometry_rig().d_Nf1_mm; }},
    {"khurmi-12-1", []() -> double { return khurmi_1().F_bt_N / 1000; }},
    {"jindal-26-2-t", []() -> double { return jindal_2().F_t_N; }},
    {"jindal-26-2-a", []() -> double { return jindal_2().F_a_N; }},
    {"jindal-26-2-r", []() -> double { return jindal_2().F_r_N; }},
    {"wentzell-12-1-t", []() -> double { return wentzell_1().F_t_N / N_from_lbf(1); }},
    {"wentzell-12-1-r", []() -> double { return wentzell_1().F_r_N / N_from_lbf(1); }},
    {"wentzell-12-1-n", []() -> double { return wentzell_1().F_bt_N / N_from_lbf(1); }},
    {"sadhu-singh-6-4", []() -> double { return sadhu_singh_4_mm(); }},
    {"shigley-13-7-t", []() -> double { return shigley_7().F_t_N / 1000; }},
    {"shigley-13-7-r", []() -> double { return shigley_7().F_r_N / 1000; }},
    {"shigley-13-7-n", []() -> double { return shigley_7().F_bt_N / 1000; }},
    {"shigley-13-7-shaft", []() -> double { return shigley_7_shaft_kN({180, -90}); }},
    {"idler-other-side", []() -> double { return shigley_7_shaft_kN({180, 90}); }},
    {"idler-240", []() -> double { return shigley_7_shaft_kN({150, 30}); }},
    {"petry-johnson-2000", []() -> double { return rig_W(2000); }},
    {"petry-johnson-6000", []() -> double { return rig_W(6000); }},
    {"petry-johnson-10000", []() -> double { return rig_W(10000); }},
    {"own-ref-base-1", []() -> double { return geometry_ref().d_b1_mm; }},
    {"own-ref-base-2", []() -> double { return geometry_ref().d_b2_mm; }},
    {"own-ref-eps-1", []() -> double { return geometry_ref().eps_1; }},
    {"own-ref-eps-2", []() -> double { return geometry_ref().eps_2; }},
    {"own-ref-eps", []() -> double { return geometry_ref().eps_alpha; }},
    {"own-ref-loss-factor", []() -> double { return mesh_loss::loss_factor(geometry_ref()); }},
    {"own-ref-rho", []() -> double { return geometry_ref().rho_redC_mm; }},
    {"own-ref-zeta-1", []() -> double { return geometry_ref().zeta_1; }},
    {"own-ref-zeta-2", []() -> double { return geometry_ref().zeta_2; }},
    {"own-ref-tip", []() -> double { return geometry_ref().s_a1_mm; }},
    {"own-ref-sum-speed",
     []() -> double { return iso_21771::sum_speed_mps(geometry_ref(), radps_from_rpm(7000)); }},
    {"own-ref-slide-start",
     []() -> double {
         return iso_21771::sliding_speed_mps(
             geometry_ref(),
             {.x_mm = geometry_ref().g_2_mm, .omega_1_radps = radps_from_rpm(7000)});
     }},
    {"own-ref-slide-end",
     []() -> double {
         return iso_21771::sliding_speed_mps(
             geometry_ref(),
             {.x_mm = geometry_ref().g_1_mm, .omega_1_radps = radps_from_rpm(7000)});
     }},
    {"own-ref-force-t", []() -> double { return ref_forces().F_t_N; }},
    {"own-ref-force-r", []() -> double { return ref_forces().F_r_N; }},
    {"own-ref-force-bt", []() -> double { return ref_forces().F_bt_N; }},
    {"own-ref-friction", []() -> double { return friction(geometry_ref(), ref_run); }},
    {"own-ref-loss", []() -> double { return loss_W(geometry_ref(), ref_run); }},
    {"own-ref-loss-unlimited", ref_unlimited_W},
    {"own-ref-loss-mineral", []() -> double { return ref_W(schlenk::X_L_mineral); }},
    {"own-ref-loss-light",
     []() -> double {
         return loss_W(geometry_ref(),
                       {125e3 / radps_from_rpm(7000), 7000, 45, 12.5, 0.4, schlenk::X_L_synthetic});
     }},
    {"own-ref-xu",
     []() -> double {
         return xu::mesh_loss_W(geometry_ref(), {.torque_1_Nm = 600,
                                                 .omega_1_radps = radps_from_rpm(7000),
                                                 .face_width_mm = 45,
                                                 .eta_mPas = 12.5,
                                                 .S_um = 0.5});
     }},
    {"own-rig-loss-factor", []() -> double { return mesh_loss::loss_factor(geometry_rig()); }},
    {"own-rig-eps", []() -> double { return geometry_rig().eps_alpha; }},
    {"own-rig-shift", []() -> double { return geometry_rig().x_sum; }},
    {"own-rig-loss-2000", []() -> double { return rig_W(2000); }},
    {"own-rig-xu-2000", []() -> double { return rig_xu_W(2000); }},
    {"own-rig-loss-6000", []() -> double { return rig_W(6000); }},
    {"own-rig-xu-6000", []() -> double { return rig_xu_W(6000); }},
    {"own-rig-loss-10000", []() -> double { return rig_W(10000); }},
    {"own-rig-xu-10000", []() -> double { return rig_xu_W(10000); }},
    {"own-type-a-eps-1", []() -> double { return type_a().eps_1; }},
    {"own-type-a-loss", []() -> double { return mesh_loss::loss_factor(type_a()); }},
    {"own-helical-loss-14",
     []() -> double {
         return mesh_loss::loss_factor_closed(pair_of({31, 50, 4.75, 20, 14, 200}));
     }},
    {"own-helical-loss-18",
     []() -> double {
         return mesh_loss::loss_factor_closed(pair_of({36, 44, 4.75, 20, 18, 200}));
     }},
    {"own-shift-79", []() -> double { return pair_of({35, 44, 5, 20, 0, 200}).x_sum; }},
    {"own-shift-81", []() -> double { return pair_of({37, 44, 5, 20, 0, 200}).x_sum; }},
    {"own-shift-78", []() -> double { return pair_of({34, 44, 5, 20, 0, 200}).x_sum; }},
    {"own-shift-82", []() -> double { return pair_of({38, 44, 5, 20, 0, 200}).x_sum; }},
    {"own-angle-79",
     []() -> double { return deg_from_rad(pair_of({35, 44, 5, 20, 0, 200}).alpha_wt_rad); }},
    {"own-involute-20", []() -> double { return iso_21771::involute(rad_from_deg(20)); }},
};

}  // namespace

std::span<const Calculation> gear_calculations() {
    static const std::vector<Calculation> all = [] {
        std::vector<Calculation> both(std::begin(own_gears), std::end(own_gears));
        for (const auto part : {drag_calculations(), duty_calculations()})
            both.insert(both.end(), part.begin(), part.end());
        return both;
    }();
    return all;
}

}  // namespace caseload
