// SPDX-License-Identifier: MIT
// Published and recomputed figures on tooth strength, scuffing and film, by the formula functions.
#include "caseload/evidence.hpp"
#include "caseload/formulas/film_ratio.hpp"
#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/iso_6336_1.hpp"
#include "caseload/formulas/iso_6336_2.hpp"
#include "caseload/formulas/iso_6336_20.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/formulas/iso_6336_5.hpp"
#include "caseload/formulas/iso_6336_6.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace caseload {
namespace {

using iso_21771::Pair;
using iso_6336_3::Gear;
using iso_6336_3::LoadAt;

/// Spur pair of module 5 mm, 20 deg, no profile shift.
Pair spur(const std::array<int, 2>& z, double face_width_mm) {
    return iso_21771::pair({.z_1 = z[0],
                            .z_2 = z[1],
                            .module_mm = 5,
                            .pressure_angle_rad = rad_from_deg(20),
                            .helix_angle_rad = 0,
                            .centre_distance_mm = 2.5 * (z[0] + z[1]),
                            .shift_share_1 = 0.5,
                            .face_width_mm = face_width_mm});
}
Pair ref() {
    return spur({36, 44}, 45);
}
Pair duty() {
    return spur({30, 50}, 40);
}
Pair rig() {
    return iso_21771::pair({.z_1 = 40,
                            .z_2 = 40,
                            .module_mm = 2.3185,
                            .pressure_angle_rad = rad_from_deg(28),
                            .helix_angle_rad = 0,
                            .centre_distance_mm = 91.5,
                            .shift_share_1 = 0.5,
                            .face_width_mm = 26.7});
}
Pair helical() {  // without profile shift
    const double beta = rad_from_deg(14);
    return iso_21771::pair({.z_1 = 20,
                            .z_2 = 50,
                            .module_mm = 4,
                            .pressure_angle_rad = rad_from_deg(20),
                            .helix_angle_rad = beta,
                            .centre_distance_mm = 140 / std::cos(beta),
                            .shift_share_1 = 0.5,
                            .face_width_mm = 45});
}

// --- dynamic factor of 36/44, 1.5 x 600 N m ------------------------------------------------------

constexpr iso_6336_1::Rims solid{.q_1 = 0, .q_2 = 0};
constexpr iso_6336_1::Rims rings{.q_1 = 0.6, .q_2 = 0.6};

double K_v(const iso_6336_1::Rims& rims, double n_rpm) {
    return iso_6336_1::dynamic_factor(
        ref(), rims,
        {.w_Npmm = 1.5 * iso_6336_1::reference_force_N(ref(), 600) / 45,
         .n_1_rpm = n_rpm,
         .f_pb_um = iso_6336_1::deviation_um(6),
         .f_f_um = iso_6336_1::deviation_um(6),
         .tip_relief_um = 15});
}

// --- stresses and lives --------------------------------------------------------------------------

struct Bin {
    double torque_Nm;
    double n_rpm;
    double share;
    double K_v;
};
constexpr std::array<Bin, 3> duty_bins{
    {{3500, 2000, 0.05, 1.15}, {2000, 4000, 0.25, 1.2}, {800, 6000, 0.70, 1.2}}};

iso_6336_1::ToothLoad load(const Pair& pair, const Bin& bin, double face_width_mm) {
    return {.F_t_N = iso_6336_1::reference_force_N(pair, bin.torque_Nm),
            .face_width_mm = face_width_mm};
}
iso_6336_2::FlankStress flanks(std::size_t bin) {
    const Bin& b = duty_bins.at(bin);
    return iso_6336_2::stress(duty(), load(duty(), b, 40),
                              {.K_A = 1, .K_v = b.K_v, .K_beta = 1.2, .K_alpha = 1});
}
double root_MPa(std::size_t bin) {
    const Bin& b = duty_bins.at(bin);
    return iso_6336_3::stress_MPa(duty(), iso_6336_3::root_form(duty(), Gear::driver),
                                  load(duty(), b, 40),
                                  {.K_A = 1, .K_v = b.K_v, .K_beta = 1.17, .K_alpha = 1});
}
/// Endurable contact stress of MQ, Rz 3 um, oil of 100 mm2/s.
double flank_limit_MPa(std::size_t bin) {
    const double v_mps = radps_from_rpm(duty_bins.at(bin).n_rpm) * m_from_mm(duty().d_w1_mm / 2);
    return iso_6336_2::limit_MPa(
        {.sigma_Hlim_MPa = iso_6336_5::material("carburised-MQ").sigma_Hlim_MPa,
         .Z_L = iso_6336_2::oil_factor(100),
         .Z_v = iso_6336_2::speed_factor(v_mps),
         .Z_R = iso_6336_2::roughness_factor(duty(), 3)});
}
double pinion_cycles(std::size_t bin) {
    return iso_6336_6::allowed_cycles(iso_6336_2::no_pitting,
                                      flanks(bin).sigma_H1_MPa / flank_limit_MPa(bin));
}
double pitting_h(Gear gear) {
    double per_h = 0;
    for (std::size_t i = 0; i < duty_bins.size(); ++i) {
        const double sigma_MPa =
            gear == Gear::driver ? flanks(i).sigma_H1_MPa : flanks(i).sigma_H2_MPa;
        const double n_rpm = duty_bins.at(i).n_rpm * (gear == Gear::driver ? 1 : 30.0 / 50);
        per_h +=
            iso_6336_6::load_cycles({.n_rpm = n_rpm, .time_h = duty_bins.at(i).share}) *
            iso_6336_6::damage_per_cycle(iso_6336_2::no_pitting, sigma_MPa / flank_limit_MPa(i));
    }
    return 1 / per_h;
}
constexpr Bin heavy{.torque_Nm = 2500, .n_rpm = 2500, .share = 1, .K_v = 1.15};

iso_6336_3::RootForm form(const Pair& pair, Gear gear) {
    return iso_6336_3::root_form(pair, gear);
}

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
        const auto tip = iso_6336_3::root_form(spur({z, z}, 40), Gear::driver, LoadAt::tip);
        worst = std::max({worst, std::fabs(tip.Y_F / Y_F - 1), std::fabs(tip.Y_S / Y_S - 1)});
    }
    return 100 * worst;
}

// --- scuffing and film ---------------------------------------------------------------------------

struct Drive {
    double torque_Nm;
    double n_rpm;
    double K;
};
constexpr Drive fast{.torque_Nm = 600, .n_rpm = 7000, .K = 1.3};
constexpr Drive strong{.torque_Nm = 2500, .n_rpm = 3000, .K = 1.3};

double w_Npmm(const Drive& d) {
    return d.K * d.torque_Nm / m_from_mm(ref().d_b1_mm / 2) / 45;
}
double flash_mu(const Drive& d) {
    return iso_6336_20::friction(
        ref(),
        {.w_Npmm = w_Npmm(d), .n_1_rpm = d.n_rpm, .eta_mPas = 12.5, .Ra_um = 0.4, .X_L = 0.8});
}
double flash_K(const Drive& d) {
    return iso_6336_20::largest_flash_K(
        ref(), {.mu = flash_mu(d), .w_Npmm = w_Npmm(d), .n_1_rpm = d.n_rpm});
}
double worst_stage_torque() {
    constexpr std::array<std::array<double, 2>, 4> table{
        {{6, 135.3}, {9, 302.0}, {10, 372.6}, {12, 534.5}}};
    double worst = 0;
    for (const auto& [stage, torque_Nm] : table)
        worst = std::max(worst, std::fabs(iso_6336_20::stage_torque_Nm(stage) / torque_Nm - 1));
    return 100 * worst;
}

film_ratio::Line ref_line() {
    return film_ratio::pitch_contact(
        ref(),
        {.F_bt_N = 600 / m_from_mm(ref().d_b1_mm / 2), .face_width_mm = 45, .n_1_rpm = 7000});
}
film_ratio::Line rig_line() {
    return film_ratio::pitch_contact(
        rig(),
        {.F_bt_N = 413 / m_from_mm(rig().d_b1_mm / 2), .face_width_mm = 26.7, .n_1_rpm = 6000});
}
double ref_film_um() {
    return film_ratio::least_film_um(ref_line(), {.eta_mPas = 12.5, .alpha_pGPa = 14});
}
double ref_shear() {
    return film_ratio::inlet_shear({.p_H_MPa = film_ratio::hertz_pressure_MPa(ref_line()),
                                    .slide_roll = 0,
                                    .eta_mPas = 12.5,
                                    .u_mps = ref_line().u_mps,
                                    .thinning_pK = film_ratio::usual_thinning_pK,
                                    .conductivity_WpmK = film_ratio::usual_conductivity_WpmK});
}

constexpr Calculation own_teeth[] = {
    {"pu-10-5-table", []() -> double { return worst_root_table(); }},
    {"stage-torque-table", []() -> double { return worst_stage_torque(); }},

    {"own-teeth-mass", []() -> double { return iso_6336_1::reduced_mass_kgpmm(ref(), solid); }},
    {"own-teeth-resonance",
     []() -> double { return iso_6336_1::resonance_speed_rpm(ref(), solid); }},
    {"own-teeth-resonance-rings",
     []() -> double { return iso_6336_1::resonance_speed_rpm(ref(), rings); }},
    {"own-teeth-ratio",
     []() -> double { return 7000 / iso_6336_1::resonance_speed_rpm(ref(), solid); }},
    {"own-teeth-ratio-rings",
     []() -> double { return 7000 / iso_6336_1::resonance_speed_rpm(ref(), rings); }},
    {"own-teeth-kv", []() -> double { return K_v(solid, 7000); }},
    {"own-teeth-kv-rings", []() -> double { return K_v(rings, 7000); }},
    {"own-teeth-kv-resonant", []() -> double { return K_v(solid, 4795); }},
    {"own-teeth-kv-above", []() -> double { return K_v(solid, 8000); }},

    {"own-teeth-zh", []() -> double { return iso_6336_2::zone_factor(ref()); }},
    {"own-teeth-zh-helical", []() -> double { return iso_6336_2::zone_factor(helical()); }},
    {"own-teeth-zeps", []() -> double { return iso_6336_2::contact_ratio_factor(ref()); }},
    {"own-teeth-zb", []() -> double { return iso_6336_2::single_contact(ref()).Z_1; }},
    {"own-teeth-sigma-h0",
     []() -> double {
         return iso_6336_2::nominal_stress_MPa(
             ref(), {.F_t_N = iso_6336_1::reference_force_N(ref(), 600), .face_width_mm = 45});
     }},

    {"own-teeth-yf-36", []() -> double { return form(ref(), Gear::driver).Y_F; }},
    {"own-teeth-ys-36", []() -> double { return form(ref(), Gear::driver).Y_S; }},
    {"own-teeth-chord-36", []() -> double { return form(ref(), Gear::driver).s_Fn; }},
    {"own-teeth-lever-36", []() -> double { return form(ref(), Gear::driver).h_Fe; }},
    {"own-teeth-fillet-36", []() -> double { return form(ref(), Gear::driver).rho_F; }},
    {"own-teeth-yf-44", []() -> double { return form(ref(), Gear::driven).Y_F; }},
    {"own-teeth-ys-44", []() -> double { return form(ref(), Gear::driven).Y_S; }},

    {"own-teeth-znt-1e6",
     []() -> double { return iso_6336_6::life_factor(iso_6336_2::no_pitting, 1e6); }},
    {"own-teeth-znt-1e8",
     []() -> double { return iso_6336_6::life_factor(iso_6336_2::some_pitting, 1e8); }},
    {"own-teeth-ynt-1e5",
     []() -> double { return iso_6336_6::life_factor(iso_6336_3::root_life, 1e5); }},

    {"own-teeth-duty-zb", []() -> double { return iso_6336_2::single_contact(duty()).Z_1; }},
    {"own-teeth-duty-zeps", []() -> double { return iso_6336_2::contact_ratio_factor(duty()); }},
    {"own-teeth-duty-yf", []() -> double { return form(duty(), Gear::driver).Y_F; }},
    {"own-teeth-duty-ys", []() -> double { return form(duty(), Gear::driver).Y_S; }},
    {"own-teeth-duty-h-1", []() -> double { return flanks(0).sigma_H1_MPa; }},
    {"own-teeth-duty-h-2", []() -> double { return flanks(1).sigma_H1_MPa; }},
    {"own-teeth-duty-h-3", []() -> double { return flanks(2).sigma_H1_MPa; }},
    {"own-teeth-duty-f-1", []() -> double { return root_MPa(0); }},
    {"own-teeth-duty-f-2", []() -> double { return root_MPa(1); }},
    {"own-teeth-duty-f-3", []() -> double { return root_MPa(2); }},
    {"own-teeth-duty-film-1", []() -> double { return flank_limit_MPa(0) / 1500; }},
    {"own-teeth-duty-film-2", []() -> double { return flank_limit_MPa(1) / 1500; }},
    {"own-teeth-duty-film-3", []() -> double { return flank_limit_MPa(2) / 1500; }},
    {"own-teeth-duty-cycles-1", []() -> double { return pinion_cycles(0); }},
    {"own-teeth-duty-cycles-2", []() -> double { return pinion_cycles(1); }},
    {"own-teeth-duty-pinion", []() -> double { return pitting_h(Gear::driver); }},
    {"own-teeth-duty-wheel", []() -> double { return pitting_h(Gear::driven); }},
    {"own-teeth-heavy-h",
     []() -> double {
         return iso_6336_2::stress(ref(), load(ref(), heavy, 45),
                                   {.K_A = 1, .K_v = heavy.K_v, .K_beta = 1.2, .K_alpha = 1})
             .sigma_H1_MPa;
     }},
    {"own-teeth-heavy-f",
     []() -> double {
         return iso_6336_3::stress_MPa(ref(), form(ref(), Gear::driver), load(ref(), heavy, 45),
                                       {.K_A = 1, .K_v = heavy.K_v, .K_beta = 1.17, .K_alpha = 1});
     }},

    {"own-flash-mu-fast", []() -> double { return flash_mu(fast); }},
    {"own-flash-mu-strong", []() -> double { return flash_mu(strong); }},
    {"own-flash-fast", []() -> double { return flash_K(fast); }},
    {"own-flash-strong", []() -> double { return flash_K(strong); }},
    {"own-flash-plain",
     []() -> double {
         const Drive d{.torque_Nm = 600, .n_rpm = 7000, .K = 1};
         return iso_6336_20::largest_flash_K(
             ref(), {.mu = 0.02075, .w_Npmm = w_Npmm(d), .n_1_rpm = d.n_rpm});
     }},
    {"own-scuffing-safety",
     []() -> double {
         return iso_6336_20::safety(
             {.scuffing_degC = iso_6336_20::scuffing_temp_degC({.load_stage = 12, .X_L = 0.8}),
              .contact_degC = 119.3 + flash_K(strong),
              .oil_degC = 100});
     }},

    {"own-film-speed", []() -> double { return ref_line().u_mps; }},
    {"own-film-load", []() -> double { return ref_line().w_Npmm; }},
    {"own-film-pressure", []() -> double { return film_ratio::hertz_pressure_MPa(ref_line()); }},
    {"own-film-least", []() -> double { return ref_film_um(); }},
    {"own-film-shear", []() -> double { return ref_shear(); }},
    {"own-film-ratio",
     []() -> double {
         return film_ratio::ratio({.h_um = ref_film_um() * ref_shear(),
                                   .Rq_1_um = film_ratio::Rq_um(0.4),
                                   .Rq_2_um = film_ratio::Rq_um(0.4)});
     }},
    {"own-film-rig-pressure",
     []() -> double { return film_ratio::hertz_pressure_MPa(rig_line()); }},
    {"own-film-rig-least",
     []() -> double {
         return film_ratio::least_film_um(rig_line(), {.eta_mPas = 10.6, .alpha_pGPa = 9.68});
     }},
};

}  // namespace

std::span<const Calculation> teeth_calculations() {
    return own_teeth;
}

}  // namespace caseload
