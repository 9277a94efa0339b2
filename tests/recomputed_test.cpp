// SPDX-License-Identifier: MIT
// Figures of several formulas together, calculated a second time in Python from the cited formulas
// (tests/reference), or worked from examples whose printed answers nobody saw. Tolerances are half
// a unit of the last digit unless they say otherwise.
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/exchanger.hpp"
#include "caseload/formulas/gear_forces.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"
#include "caseload/formulas/iso_6336_1.hpp"
#include "caseload/formulas/iso_6336_2.hpp"
#include "caseload/formulas/iso_6336_20.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/formulas/iso_76.hpp"
#include "caseload/formulas/mesh_loss.hpp"
#include "caseload/formulas/oil_acceleration.hpp"
#include "caseload/formulas/oil_thermal.hpp"
#include "caseload/formulas/palmgren.hpp"
#include "caseload/formulas/prop_shaft.hpp"
#include "caseload/formulas/road_load.hpp"
#include "caseload/formulas/windage.hpp"
#include "caseload/input.hpp"
#include "caseload/loads.hpp"
#include "caseload/units.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <array>
#include <cmath>

namespace caseload::recomputed_tests {

using BK = BearingKind;
using iso_21771::Pair;

namespace {

struct MeshRun {
    double torque_Nm;
    double n_rpm;
    double b_mm;
    double eta_mPas;
    double Ra_um;
};

double mesh_loss_W(const Pair& p, const MeshRun& r, double X_L = schlenk::X_L_synthetic) {
    const double F_bt_N = gear_forces::forces({.torque_Nm = r.torque_Nm,
                                               .d_w_mm = p.d_w1_mm,
                                               .alpha_wt_rad = p.alpha_wt_rad,
                                               .beta_w_rad = 0})
                              .F_bt_N;
    const double v_mps = radps_from_rpm(r.n_rpm) * m_from_mm(p.d_w1_mm / 2);
    const schlenk::Friction state{
        .w_Npmm = F_bt_N / r.b_mm,
        .v_sumC_mps = schlenk::sum_speed_mps({.v_mps = v_mps, .alpha_wt_rad = p.alpha_wt_rad}),
        .rho_redC_mm = p.rho_redC_mm,
        .eta_mPas = r.eta_mPas,
        .Ra_um = r.Ra_um,
        .X_L = X_L};
    return schlenk::friction(state) * mesh_loss::loss_factor(p) * r.torque_Nm *
           radps_from_rpm(r.n_rpm);
}

}  // namespace

TEST_CASE("recomputed: forces and mesh loss of 36 to 44 teeth and of a spur rig") {
    const Pair ref = gear_pairs::reference();
    const gear_forces::Forces f = gear_forces::forces({.torque_Nm = 600,
                                                       .d_w_mm = ref.d_w1_mm,
                                                       .alpha_wt_rad = ref.alpha_wt_rad,
                                                       .beta_w_rad = 0});
    CHECK(within(f.F_t_N, 6666.67, 0.005));
    CHECK(within(f.F_r_N, 2426.47, 0.005));
    CHECK(within(f.F_bt_N, 7094.52, 0.005));
    CHECK(within(mesh_loss_W(ref, {600, 7000, 45, 12.5, 0.4}), 1091, 0.5));
    CHECK(within(mesh_loss_W(ref, {600, 7000, 45, 12.5, 0.4}, schlenk::X_L_mineral), 1364, 0.5));
    // 125 kW: the line load is held at 150 N/mm.
    const double light_Nm = 125e3 / radps_from_rpm(7000);
    CHECK(within(mesh_loss_W(ref, {light_Nm, 7000, 45, 12.5, 0.4}), 307, 1));

    iso_21771::PairInput in = gear_pairs::spur(40, 40, 26.7);
    in.module_mm = 2.3185;
    in.pressure_angle_rad = rad_from_deg(28);
    in.centre_distance_mm = 91.5;
    const Pair rig = iso_21771::pair(in, {.d_a1_mm = 95.95, .d_a2_mm = 95.95});
    CHECK(within(rig.eps_alpha, 1.4278, 5e-5));
    CHECK(within(rig.x_sum, -0.5218, 5e-5));
    for (const auto& [n_rpm, loss_W] :
         {std::array{2000.0, 179.0}, std::array{6000.0, 431.0}, std::array{10000.0, 648.0}})
        CHECK(within(mesh_loss_W(rig, {413, n_rpm, 26.7, 10.6, 0.056}), loss_W, 0.5));
}

TEST_CASE("recomputed: stresses and flash of two gear pairs") {
    const Pair duty = gear_pairs::duty();
    const iso_6336_3::RootForm root = iso_6336_3::root_form(duty, iso_6336_3::Gear::driver);
    CHECK(within(root.Y_F, 1.3455, 5e-5));
    CHECK(within(root.Y_S, 1.9604, 5e-5));
    // MQ, Rz 3 um, oil of 100 mm2/s. N m, r/min, K_v; contact stress; oil, speed and roughness.
    const double bins[][5] = {{3500, 2000, 1.15, 1757.2, 0.9909},
                              {2000, 4000, 1.2, 1356.9, 1.0111},
                              {800, 6000, 1.2, 858.2, 1.0222}};
    for (const auto& [torque_Nm, n_rpm, K_v, stress_MPa, film] : bins) {
        const auto flank = iso_6336_2::stress(
            duty, {.F_t_N = iso_6336_1::reference_force_N(duty, torque_Nm), .face_width_mm = 40},
            {.K_A = 1, .K_v = K_v, .K_beta = 1.2, .K_alpha = 1});
        CHECK(within(flank.sigma_H1_MPa, stress_MPa, 0.05));
        const double v_mps = radps_from_rpm(n_rpm) * m_from_mm(duty.d_w1_mm / 2);
        CHECK(within(iso_6336_2::limit_MPa({.sigma_Hlim_MPa = 1500,
                                            .Z_L = iso_6336_2::oil_factor(100),
                                            .Z_v = iso_6336_2::speed_factor(v_mps),
                                            .Z_R = iso_6336_2::roughness_factor(duty, 3)}),
                     1500 * film, 1500 * 5e-5));
    }
    const Pair ref = gear_pairs::reference();
    const iso_6336_1::ToothLoad heavy{.F_t_N = iso_6336_1::reference_force_N(ref, 2500),
                                      .face_width_mm = 45};
    CHECK(
        within(iso_6336_2::stress(ref, heavy, {.K_A = 1, .K_v = 1.15, .K_beta = 1.2, .K_alpha = 1})
                   .sigma_H1_MPa,
               1224, 0.5));
    CHECK(
        within(iso_6336_3::stress_MPa(ref, iso_6336_3::root_form(ref, iso_6336_3::Gear::driver),
                                      heavy, {.K_A = 1, .K_v = 1.15, .K_beta = 1.17, .K_alpha = 1}),
               432, 0.5));
    CHECK(within(
        iso_6336_20::flash_K(
            iso_6336_20::flash_shape(ref).largest,
            {.mu = 0.02075, .w_Npmm = 600 / m_from_mm(ref.d_b1_mm / 2) / 45, .n_1_rpm = 7000}),
        12.59, 0.005));
}

TEST_CASE("recomputed: windage, thrown oil, prop shafts") {
    // 36/44 teeth at 7000 r/min, walls at 0.1 R: mist, which the source rounds, and air of 90 degC.
    const auto windage_W = [](double density_kgpm3) {
        double all_W = 0;
        for (const auto& [R_m, z, n_rpm] :
             {std::array{0.090, 36.0, 7000.0}, std::array{0.110, 44.0, 7000.0 * 36 / 44}}) {
            const double omega = radps_from_rpm(n_rpm);
            all_W += omega *
                     diab::windage_torque_Nm(
                         {.R_m = R_m,
                          .b_m = 0.045,
                          .z = static_cast<int>(z),
                          .h_1_m = 0.1 * R_m,
                          .h_2_m = 0.1 * R_m},
                         {.omega_radps = omega, .density_kgpm3 = density_kgpm3, .mu_Pas = 2.15e-5});
        }
        return all_W;
    };
    CHECK(within(windage_W(2.7), 1026, 20));
    CHECK(within(windage_W(0.972), 476, 2));
    // 8 L/min of 830 kg/m3, teeth 66 m/s, jet 20 m/s, met one and a half times.
    CHECK(within(oil_acceleration::power_W({.mass_flow_kgps = 830 * m3ps_from_Lpmin(8),
                                            .v_mps = 66,
                                            .jet_speed_mps = 20,
                                            .rehit = 1.5}),
                 504, 0.5));
    const double lengths_mm[] = {1000, 1200, 1500, 1800};
    const double tubes[][5] = {{76.2, 12497, 8679, 5554, 3857},
                               {88.9, 14664, 10183, 6517, 4526},
                               {101.6, 16830, 11688, 7480, 5195}};
    for (const auto& tube : tubes)
        for (int i = 0; i < 4; ++i)
            CHECK(within(prop_shaft::critical_speed_rpm(
                             {.length_mm = lengths_mm[i], .outside_mm = tube[0], .wall_mm = 3.05}),
                         tube[i + 1], 0.5));
}

TEST_CASE("recomputed: wheel power, torque and speed at the input") {
    // 39 in tyres and axle 5.43; 40 in tyres and axle 4.56; both with an underdrive of 1.25.
    constexpr road_load::Driveline truck{
        .rolling_radius_m = 0.475488, .axle_ratio = 5.43, .drop_ratio = 1.25};
    constexpr road_load::Driveline heavier{
        .rolling_radius_m = 0.48768, .axle_ratio = 4.56, .drop_ratio = 1.25};
    const auto rpm = [](const road_load::Driveline& driveline, double v_mps) {
        return rpm_from_radps(v_mps / road_load::input_lever_m(driveline));
    };
    const double truck_N =
        road_load::force_N({.mass_kg = 2300, .drag_area_m2 = 2.3, .rotating_mass_factor = 1.06},
                           {.resistance = 0.15,
                            .grade = 0.05,
                            .speed_mps = 30,
                            .acceleration_mps2 = 0.5,
                            .air_density_kgpm3 = 1.10});
    CHECK(within(truck_N * road_load::input_lever_m(truck) / (0.97 * 0.97), 511.1, 0.15));
    CHECK(within(rpm(truck, 110 / mph_from_mps(1)), 6703.2, 0.05));
    CHECK(within(rpm(truck, 110 / mph_from_mps(1)) / 1.25, 5362.5, 0.05));
    const double grip_Nm = 0.6 * 2300 * g_mps2 * road_load::input_lever_m(truck);
    CHECK(within(grip_Nm, 948.4, 0.4));
    for (const auto& [share, printed_Nm] :
         {std::array{0.35, 734.0}, std::array{0.5, 1049.0}, std::array{0.8, 1679.0}})
        CHECK(within(share * 2500 * g_mps2 * road_load::input_lever_m(heavier), printed_Nm, 1.1));
    // 2500 kg on six surfaces at 26, 45 and 58 m/s: kW at the wheels, N m at the input, one mesh of
    // 0.97. The source rounds g and its radius.
    const double speeds_mps[] = {26, 45, 58};
    const double lines[][7] = {
        {0.02, 37, 148, 298, 126, 290, 453},  {0.04, 50, 170, 326, 169, 333, 496},
        {0.08, 75, 214, 383, 255, 420, 583},  {0.15, 120, 291, 483, 407, 571, 734},
        {0.20, 152, 347, 554, 515, 679, 842}, {0.30, 216, 457, 696, 731, 895, 1058}};
    for (const auto& line : lines)
        for (int i = 0; i < 3; ++i) {
            const double force_N = road_load::force_N(
                {.mass_kg = 2500, .drag_area_m2 = 2.4, .rotating_mass_factor = 1},
                {.resistance = line[0],
                 .grade = 0,
                 .speed_mps = speeds_mps[i],
                 .acceleration_mps2 = 0,
                 .air_density_kgpm3 = 1.15});
            CHECK(within(force_N * speeds_mps[i] / 1000, line[i + 1], 0.65));
            CHECK(within(force_N * road_load::input_lever_m(heavier) / 0.97, line[i + 4], 0.8));
        }
    const double input_rpm[] = {2902, 5023, 6474};
    for (int i = 0; i < 3; ++i) CHECK(within(rpm(heavier, speeds_mps[i]), input_rpm[i], 0.5));
    // 6500 r/min at whole mph.
    for (const auto& [axle, printed_mph] :
         {std::array{4.10, 145.0}, std::array{5.13, 116.0}, std::array{6.50, 91.0}}) {
        road_load::Driveline other = heavier;
        other.axle_ratio = axle;
        CHECK(within(rpm(other, printed_mph / mph_from_mps(1)), 6500, 36));
    }
}

TEST_CASE("recomputed: mean power and speed of seven bins by the chain's own loads") {
    Setup setup = read_setup(new_setup_text(), "new.toml", {}).setup;
    LegInput leg;
    leg.duration_s = 3600;
    for (const auto& [share, torque_Nm, n_rpm] :
         {std::array{0.04, 1350.0, 3700.0}, std::array{0.08, 900.0, 5800.0},
          std::array{0.28, 420.0, 4700.0}, std::array{0.32, 420.0, 3100.0},
          std::array{0.14, 560.0, 1500.0}, std::array{0.12, -120.0, 3400.0},
          std::array{0.02, 0.0, 800.0}})
        leg.bins.push_back({share, torque_Nm, n_rpm, 25});
    setup.event.legs = {leg};
    setup.event.run = {0};
    const LegLoads loads = calculate_loads(setup).legs.front();
    CHECK(within(loads.drive_power_W / 1000, 178.48, 0.005));
    CHECK(within(loads.mean_speed_rpm, 3554.0, 0.05));
}

TEST_CASE("recomputed: a bearing from geometry to modified life, and a tapered pair") {
    // 110 x 170 x 28, 5000 and 2500 N, 2500 r/min, 12 mm2/s, in-line filter, -/17/14.
    const double C_N =
        iso_281::ball_rating_N({.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13}, 1.3);
    const double C_0_N =
        iso_76::ball_rating_N({.D_w_mm = 18.15, .D_pw_mm = 140, .cos_alpha = 1, .Z = 13});
    const double P_N = iso_281::equivalent_load_N({.kind = BK::deep_groove_ball,
                                                   .contact_angle_deg = 0,
                                                   .f_0 = iso_76::f_0(18.15 / 140),
                                                   .C_0_N = C_0_N},
                                                  {.F_r_N = 5000, .F_a_N = 2500});
    CHECK(within(P_N, 7289.13, 0.005));
    const double L10_Mrev = iso_281::basic_life_Mrev({.C_N = C_N, .P_N = P_N, .exponent = 3});
    CHECK(within(iso_281::hours_h({L10_Mrev, 2500}), 7909.5, 0.05));
    const double kappa = 12 / iso_281::reference_viscosity_mm2ps({.n_rpm = 2500, .D_pw_mm = 140});
    CHECK(within(kappa, 1.57762, 5e-6));
    const double e_C = iso_281::contamination_factor({iso_281::FilterGroup::in_line, 14},
                                                     {.kappa = kappa, .D_pw_mm = 140});
    CHECK(within(e_C, 0.40778, 5e-6));
    const double a_ISO =
        iso_281::life_factor(BK::deep_groove_ball,
                             {.kappa = kappa,
                              .e_C = e_C,
                              .C_u_N = iso_281::fatigue_limit_N(BK::deep_groove_ball, {C_0_N, 140}),
                              .P_N = P_N});
    CHECK(within(a_ISO, 6.1832, 5e-5));
    CHECK(within(iso_281::hours_h({a_ISO * L10_Mrev, 2500}), 48906, 0.5));
    for (const auto& [share, surviving] : {std::array{0.1, 0.99873}, std::array{0.5, 0.96623},
                                           std::array{1.0, 0.9}, std::array{5.0, 0.28561}})
        CHECK(within(iso_281::survival(share), surviving, 5e-6));

    // Y 1.4, 4000 and 3000 N radial, 1500 N from outside towards the first.
    const iso_281::EquivalentLoad tapered{.kind = BK::tapered_roller,
                                          .contact_angle_deg = deg_from_rad(std::atan(0.4 / 1.4)),
                                          .f_0 = 0,
                                          .C_0_N = 1};
    const double induced_N = iso_281::induced_axial_N(tapered, 3000);
    const auto life_Mrev = [&](double rating_N, const iso_281::Load& load) {
        return iso_281::basic_life_Mrev({.C_N = rating_N,
                                         .P_N = iso_281::equivalent_load_N(tapered, load),
                                         .exponent = 10.0 / 3});
    };
    CHECK(within(life_Mrev(150000, {4000, 1500 + induced_N}), 73614, 0.5));
    CHECK(within(life_Mrev(120000, {3000, induced_N}), 218877, 0.5));
    // Cylindrical roller bearing of 85 mm mean diameter, 5000 N, 10 mm2/s, 3000 r/min.
    const double friction_Nmm =
        palmgren::idle_torque_Nmm({.f0 = 2.2, .nu_mm2ps = 10, .n_rpm = 3000, .d_m_mm = 85}) +
        palmgren::load_torque_Nmm({.f1 = 0.0003, .P_1_N = 5000, .d_m_mm = 85});
    CHECK(within(friction_Nmm, 257.945, 0.0005));
    CHECK(within(Nm_from_Nmm(friction_Nmm) * radps_from_rpm(3000), 81.04, 0.005));
    CHECK(within(palmgren::f1(BK::deep_groove_ball, 0.05), 9.6e-5, 5e-7));
}

TEST_CASE("recomputed: lives of textbook examples whose printed answers were not seen") {
    const auto life = [](double C, double P) {
        return iso_281::basic_life_Mrev({.C_N = C, .P_N = P, .exponent = 3});
    };
    const auto hours = [&](double C, double P, double n_rpm) {
        return iso_281::hours_h({.life_Mrev = life(C, P), .n_rpm = n_rpm});
    };
    const auto combined = [](double F_r) {
        return iso_281::combined_load_N({.X = 0.56, .Y = 1.2}, {.F_r_N = F_r, .F_a_N = 625});
    };
    CHECK(within(life(2350, 1675), 2.76, 0.005));                   // Mott 14, problem 1
    CHECK(within(life(3150, 2200), 2.94, 0.005));                   // problem 3
    CHECK(within(life(3150, 4500), 0.343, 0.0005));                 // problem 3
    CHECK(within(life(5590, combined(1250)), 57.3, 0.05));          // Jindal 18.2
    CHECK(within(life(5590, combined(1.2 * 1250)), 43.46, 0.005));  // its outer ring turns
    CHECK(within(hours(41000, 20000, 720), 199.424, 0.0005));       // Jindal 18.4
    CHECK(within(hours(5050, 2400, 1750), 88.73, 0.005));           // Wentzell 20.1
    CHECK(within(life(3350, 1095), 28.63, 0.005));                  // Wentzell 20.4
    CHECK(within(hours(7350, 3000, 720), 340.42, 0.005));           // Bhandari 15.3
    // Jindal 18.1: a friction coefficient on the bore, M = mu P d / 2.
    CHECK(within(
        Nm_from_Nmm(palmgren::load_torque_Nmm({.f1 = 0.0011 / 2, .P_1_N = 16000, .d_m_mm = 40})) *
            radps_from_rpm(1440),
        53.08, 0.005));
}

TEST_CASE("recomputed: heat of a cooler away from its rating") {
    // 6 kW at 60 K with 8 L/min of a 75W-90 synthetic and 8 m/s on 0.03 m2, air 40 degC.
    const double rated_oil_WpK =
        m3ps_from_Lpmin(8) *
        astm_d1250::density_kgpm3({.density_15C_kgpm3 = 868, .temp_degC = 100}) *
        oil_thermal::specific_heat_JpkgK(oil_thermal::BaseOil::synthetic, 100);
    const auto air_at = [](double altitude_m) {
        return us_standard_atmosphere::air(
            {.temp_degC = 40, .pressure_Pa = us_standard_atmosphere::pressure_Pa(altitude_m)});
    };
    const auto air = air_at(0);
    const double rated_air_WpK = air.density_kgpm3 * 8 * 0.030 * air.cp_JpkgK;
    CHECK(within(rated_oil_WpK, 258.24, 0.005));
    CHECK(within(rated_air_WpK, 272.40, 0.005));
    const double rated_WpK = exchanger::conductance_WpK({.heat_W = 6000,
                                                         .difference_K = 60,
                                                         .oil_capacity_WpK = rated_oil_WpK,
                                                         .air_capacity_WpK = rated_air_WpK});
    CHECK(within(rated_WpK / rated_oil_WpK, 0.65187, 5e-6));  // transfer units
    const auto heat_WpK = [&](double air_ratio, double oil_ratio, double oil_side_share = 0.5) {
        return exchanger::heat_W({.conductance_WpK = exchanger::conductance_scaled_WpK(
                                      {.conductance_rating_WpK = rated_WpK,
                                       .oil_side_share = oil_side_share,
                                       .air_mass_ratio = air_ratio,
                                       .oil_mass_ratio = oil_ratio}),
                                  .difference_K = 1,
                                  .oil_capacity_WpK = rated_oil_WpK * oil_ratio,
                                  .air_capacity_WpK = rated_air_WpK * air_ratio});
    };
    const double by_air[][2] = {{0.5, 16.048}, {1, 29.088},  {2, 48.543},   {4, 73.322},
                                {6, 88.972},   {8, 100.000}, {12, 114.825}, {16, 124.531}};
    for (const auto& [v_mps, WpK] : by_air) CHECK(within(heat_WpK(v_mps / 8, 1), WpK, 0.0005));
    const double by_oil[][2] = {{2, 51.835}, {4, 76.506}, {6, 90.610}, {12, 112.096}};
    for (const auto& [Lpmin, WpK] : by_oil) CHECK(within(heat_WpK(1, Lpmin / 8), WpK, 0.0005));
    CHECK(within(heat_WpK(0.25, 1, 0.3), 45.5, 0.05));
    CHECK(within(heat_WpK(0.25, 1, 0.7), 51.9, 0.05));
    CHECK(within(heat_WpK(2, 1, 0.7), 118.8, 0.05));
    // First written 130.9, which does not reproduce: it was rounded the wrong way.
    CHECK(within(heat_WpK(2, 1, 0.3), 130.848, 0.0005));
    CHECK(within(heat_WpK(air_at(2000).density_kgpm3 / air.density_kgpm3, 1), 90.7, 0.05));

    // Dynamic viscosity, and drop of a core of 30 kPa at 100 degC: value, half a unit, each.
    const auto mu_Pas = [](double temp_degC) {
        const auto line = astm_d341::line({.nu_40C_mm2ps = 105, .nu_100C_mm2ps = 16.0});
        return m2ps_from_mm2ps(astm_d341::viscosity_mm2ps(line, temp_degC)) *
               astm_d1250::density_kgpm3({.density_15C_kgpm3 = 868, .temp_degC = temp_degC});
    };
    const double cold[][4] = {{-20, 4.79, 0.005, 11035},  {0, 0.873, 0.0005, 2012},
                              {20, 0.2415, 0.00005, 556}, {40, 0.0895, 0.00005, 206},
                              {60, 0.0409, 0.00005, 94},  {100, 0.0130, 0.00005, 30}};
    for (const auto& [temp_degC, mu, half, drop_kPa] : cold) {
        CHECK(within(mu_Pas(temp_degC), mu, half));
        CHECK(within(exchanger::core_drop_Pa({.drop_rating_Pa = 30,
                                              .viscosity_ratio = mu_Pas(temp_degC) / mu_Pas(100),
                                              .flow_ratio = 1}),
                     drop_kPa, 0.5));
    }
}

}  // namespace caseload::recomputed_tests
