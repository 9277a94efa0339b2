// SPDX-License-Identifier: MIT
// Parts of the chain against measurements: bearings on rigs, a cylinder in a wind tunnel, the motor
// of a gear rig.
#include "caseload/evidence.hpp"
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/convection.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload {
namespace {

struct TaperedRun {
    double contact_angle_deg;
    double d_m_mm;
    double F_r_N;
    double F_a_N;
    double nu_mm2ps;
};

/// Torque of one tapered bearing in an oil bath, N mm.
double tapered_Nmm(const TaperedRun& run, double n_rpm) {
    constexpr BearingKind kind = BearingKind::tapered_roller;
    const double P_1_N =
        palmgren::friction_load_P1_N({.kind = kind,
                                      .contact_angle_deg = run.contact_angle_deg,
                                      .F_r_N = run.F_r_N,
                                      .F_a_N = run.F_a_N,
                                      .C_0_N = 1});  // of no effect on a tapered bearing
    return palmgren::idle_torque_Nmm(
               {.f0 = palmgren::f0_default(kind, {}, palmgren::Supply::splash),
                .nu_mm2ps = run.nu_mm2ps,
                .n_rpm = n_rpm,
                .d_m_mm = run.d_m_mm}) +
           palmgren::load_torque_Nmm(
               {.f1 = palmgren::f1(kind, 0), .P_1_N = P_1_N, .d_m_mm = run.d_m_mm});
}

/// The oil of the rig with the 80x140 bearing, by the fits of its authors.
double mineral_oil_mm2ps(double temp_degC) {
    const double eta_mPas = 0.062 * std::exp(1021.7 / (temp_degC + 101.55));
    return 1000 * eta_mPas / (887.6 - 0.6 * (temp_degC - 15));
}

double trb_80x140_axial(double n_rpm) {
    return tapered_Nmm({14, 110, 0, 6000, mineral_oil_mm2ps(50)}, n_rpm);
}
double trb_80x140_combined(double n_rpm) {
    return tapered_Nmm({14, 110, 6500, 6000, mineral_oil_mm2ps(50)}, n_rpm);
}

double trb_40x68(double temp_degC, double n_rpm) {
    static const astm_d341::Line oil =
        astm_d341::line({.nu_40C_mm2ps = 90.02, .nu_100C_mm2ps = 10.41});
    return tapered_Nmm({14.17, 54, 0, 12850, astm_d341::viscosity_mm2ps(oil, temp_degC)}, n_rpm);
}

/// Incropera 7.4: a cylinder of 12.7 mm across a stream of 10 m/s; air at its film's 350 K. The
/// length of the body law is half its circumference.
double cylinder_Wpm2K() {
    const double length_m = pi * 0.0127 / 2;
    return convection::nusselt_body({.Re = 10 * length_m / 20.92e-6, .Pr = 0.70}) * 0.030 /
           length_m;
}

/// Tooth loss of both boxes of the rig: gears type A, whose tips alone decide the path of contact;
/// 534.5 N m on the pinion, the motor's 1450
/// r/min on the wheel. Oil ISO VG 100 of viscosity index 95 at 90 degC (11.1 mm2/s, 840 kg/m3) and
/// flanks of Ra 0.5 um: not given by the procedure, common practice.
double type_A_rig_kW() {
    const iso_21771::Pair pair = iso_21771::pair({.z_1 = 16,
                                                  .z_2 = 24,
                                                  .module_mm = 4.5,
                                                  .pressure_angle_rad = rad_from_deg(20),
                                                  .helix_angle_rad = 0,
                                                  .centre_distance_mm = 91.5,
                                                  .shift_share_1 = 0.5,
                                                  .face_width_mm = 20},
                                                 {.d_a1_mm = 88.77, .d_a2_mm = 112.5});
    constexpr double torque_Nm = 534.5;
    const double omega_radps = radps_from_rpm(1450.0 * 24 / 16);
    const double r_1_mm = pair.d_w1_mm / 2;
    const double mu = schlenk::friction(
        {.w_Npmm = torque_Nm / (r_1_mm / 1000 * std::cos(pair.alpha_wt_rad)) / 20,
         .v_sumC_mps = schlenk::sum_speed_mps(
             {.v_mps = omega_radps * r_1_mm / 1000, .alpha_wt_rad = pair.alpha_wt_rad}),
         .rho_redC_mm = pair.rho_redC_mm,
         .eta_mPas = 11.1 * 0.840,
         .Ra_um = 0.5,
         .X_L = schlenk::X_L_mineral});
    return 2 * torque_Nm * omega_radps * mesh_loss::loss_factor(pair) * mu / 1000;
}

constexpr Calculation rigs[] = {
    {"trb-80x140-axial-500", [] { return trb_80x140_axial(500); }},
    {"trb-80x140-axial-2000", [] { return trb_80x140_axial(2000); }},
    {"trb-80x140-axial-4000", [] { return trb_80x140_axial(4000); }},
    {"trb-80x140-combined-500", [] { return trb_80x140_combined(500); }},
    {"trb-80x140-combined-1000", [] { return trb_80x140_combined(1000); }},
    {"trb-80x140-combined-2000", [] { return trb_80x140_combined(2000); }},
    {"trb-80x140-combined-4000", [] { return trb_80x140_combined(4000); }},
    {"trb-40x68-55-1000", [] { return trb_40x68(55, 1000); }},
    {"trb-40x68-55-1400", [] { return trb_40x68(55, 1400); }},
    {"trb-40x68-55-1800", [] { return trb_40x68(55, 1800); }},
    {"trb-40x68-55-2200", [] { return trb_40x68(55, 2200); }},
    {"trb-40x68-65-1000", [] { return trb_40x68(65, 1000); }},
    {"trb-40x68-65-1400", [] { return trb_40x68(65, 1400); }},
    {"trb-40x68-65-1800", [] { return trb_40x68(65, 1800); }},
    {"trb-40x68-65-2200", [] { return trb_40x68(65, 2200); }},
    {"cylinder-cross-flow-10", cylinder_Wpm2K},
    {"fzg-a12-motor", type_A_rig_kW},
};

}  // namespace

std::span<const Calculation> measured_calculations() {
    return rigs;
}

}  // namespace caseload
