// SPDX-License-Identifier: MIT
// Published figures on windage, churning, thrown oil, seals, pumps and the driveline, recomputed by
// the formula functions.
#include "evidence/drag.hpp"

#include "caseload/formulas/cardan.hpp"
#include "caseload/formulas/churning.hpp"
#include "caseload/formulas/lip_seal.hpp"
#include "caseload/formulas/oil_acceleration.hpp"
#include "caseload/formulas/pocketing.hpp"
#include "caseload/formulas/prop_shaft.hpp"
#include "caseload/formulas/pump.hpp"
#include "caseload/formulas/road_load.hpp"
#include "caseload/formulas/windage.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace caseload {
namespace {

// --- air and oil ---------------------------------------------------------------------------------

struct Windage {
    double D_mm;
    double b_mm;
    int z;
    double m_mm;
    double n_rpm;
    std::array<double, 3> printed_W;  // Dawson, Diab, Anderson and Loewenthal
};
constexpr std::array<Windage, 5> windage_rows{{{300, 50, 60, 5, 8000, {4659, 5258, 5385}},
                                               {288, 30, 72, 4, 8000, {2745, 2793, 3737}},
                                               {200, 45, 40, 5, 9000, {1611, 1753, 1336}},
                                               {180, 45, 36, 5, 7000, {548, 620, 430}},
                                               {144, 30, 36, 4, 12000, {842, 865, 635}}}};

struct Mist {
    double density_kgpm3;
    double mu_Pas;
    double gap_over_R;
};

double diab_W(const Windage& w, const Mist& mist) {
    const double R_m = m_from_mm(w.D_mm / 2);
    const double omega = radps_from_rpm(w.n_rpm);
    return omega *
           diab::windage_torque_Nm(
               {.R_m = R_m,
                .b_m = m_from_mm(w.b_mm),
                .z = w.z,
                .h_1_m = mist.gap_over_R * R_m,
                .h_2_m = mist.gap_over_R * R_m},
               {.omega_radps = omega, .density_kgpm3 = mist.density_kgpm3, .mu_Pas = mist.mu_Pas});
}

double windage_deviation_W() {
    double worst = 0;
    for (const Windage& w : windage_rows) {
        const double dawson_W = dawson::windage_W(
            {.root_diameter_mm = w.D_mm - 2.5 * w.m_mm, .b_mm = w.b_mm, .module_mm = w.m_mm},
            {.n_rpm = w.n_rpm, .density_ratio = 1, .enclosure = 1});
        const double anderson_W =
            anderson_loewenthal::windage_W({.R_m = m_from_mm(w.D_mm / 2), .b_m = m_from_mm(w.b_mm)},
                                           {.n_rpm = w.n_rpm, .eta_oil_mPas = 10});
        worst = std::max({worst, std::fabs(dawson_W - w.printed_W[0]),
                          std::fabs(diab_W(w, {1.2, 1.8e-5, 0.5}) - w.printed_W[1]),
                          std::fabs(anderson_W - w.printed_W[2])});
    }
    return worst;
}

double ref_windage_W(const Mist& mist) {
    return diab_W({180, 45, 36, 5, 7000, {}}, mist) +
           diab_W({220, 45, 44, 5, 7000 * 36.0 / 44, {}}, mist);
}

struct Assumed {
    double b_mm;
    double nu_mm2ps;
};

churning::Gear luke_gear(const Assumed& a) {
    return {.R_m = 0.108,
            .b_m = m_from_mm(a.b_mm),
            .module_m = 0.003,
            .z = 72,
            .alpha_t_rad = rad_from_deg(20),
            .beta_rad = 0};
}
churning::Bath luke_bath(const Assumed& a) {
    return {.omega_radps = radps_from_rpm(4500),
            .depth_m = 0.054,
            .oil_volume_m3 = m3_from_L(1.5),
            .density_kgpm3 = 870,
            .nu_m2ps = m2ps_from_mm2ps(a.nu_mm2ps)};
}

using Churning = double (*)(const churning::Gear&, const churning::Bath&);
double luke_Nm(Churning torque_Nm, const Assumed& a) {
    return torque_Nm(luke_gear(a), luke_bath(a));
}

double churning_deviation_W() {
    struct Line {
        double n_rpm;
        std::array<double, 4> printed_W;
    };
    constexpr std::array<Line, 3> lines{
        {{1000, {25, 22, 5, 238}}, {3000, {763, 1146, 51, 958}}, {5727, {1701, 2554, 212, 1829}}}};
    constexpr std::array<Churning, 4> methods{
        changenet::churning_torque_Nm, changenet::churning_torque_unlimited_Nm,
        terekhov::churning_torque_Nm, boness::churning_torque_Nm};
    const churning::Gear wheel{.R_m = 0.110,
                               .b_m = 0.045,
                               .module_m = 0.005,
                               .z = 44,
                               .alpha_t_rad = rad_from_deg(20),
                               .beta_rad = 0};
    double worst = 0;
    for (const Line& line : lines)
        for (std::size_t i = 0; i < methods.size(); ++i) {
            const double omega = radps_from_rpm(line.n_rpm);
            const double power_W = omega * methods.at(i)(wheel, {.omega_radps = omega,
                                                                 .depth_m = 0.020,
                                                                 .oil_volume_m3 = m3_from_L(1),
                                                                 .density_kgpm3 = 830,
                                                                 .nu_m2ps = m2ps_from_mm2ps(15)});
            worst = std::max(worst, std::fabs(power_W - line.printed_W.at(i)));
        }
    return worst;
}

double thrown_W(double flow_Lpmin, const oil_acceleration::Thrown& at) {
    oil_acceleration::Thrown oil = at;
    oil.mass_flow_kgps = 830 * m3ps_from_Lpmin(flow_Lpmin);
    return oil_acceleration::power_W(oil);
}

// --- seals, pumps, driveline ---------------------------------------------------------------------

constexpr iso_tr_14179_1::Lip lip{.diameter_mm = 75, .n_rpm = 5727};

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

double khurmi_5_rad() {
    return cardan::angle_of_fluctuation_rad(100.0 / 1200);
}
double khurmi_7(double phase_rad) {
    return cardan::speed_ratio({.angle_rad = rad_from_deg(20), .phase_rad = phase_rad});
}
double khurmi_2_radps2() {
    return cardan::peak_acceleration_radps2(
        {.omega_radps = radps_from_rpm(1500), .angle_rad = rad_from_deg(20)});
}
double couple_Nm(double phase_rad) {
    return cardan::driving_shaft_couple(
               {.torque_Nm = 1500, .angle_rad = rad_from_deg(12), .phase_rad = phase_rad})
        .in_plane_Nm;
}

double prop_shaft_deviation_rpm() {
    struct Line {
        double outside_mm;
        std::array<double, 4> printed_rpm;
    };
    constexpr std::array<double, 4> lengths_mm{1000, 1200, 1500, 1800};
    constexpr std::array<Line, 3> lines{{{76.2, {12497, 8679, 5554, 3857}},
                                         {88.9, {14664, 10183, 6517, 4526}},
                                         {101.6, {16830, 11688, 7480, 5195}}}};
    double worst = 0;
    for (const Line& line : lines)
        for (std::size_t i = 0; i < lengths_mm.size(); ++i)
            worst = std::max(
                worst, std::fabs(prop_shaft::critical_speed_rpm({.length_mm = lengths_mm.at(i),
                                                                 .outside_mm = line.outside_mm,
                                                                 .wall_mm = 3.05}) -
                                 line.printed_rpm.at(i)));
    return worst;
}

double road_load_deviation_kW() {
    struct Line {
        double resistance;
        std::array<double, 3> printed_kW;
    };
    constexpr std::array<double, 3> speeds_mps{26, 45, 58};
    constexpr std::array<Line, 6> lines{{{0.02, {37, 148, 298}},
                                         {0.04, {50, 170, 326}},
                                         {0.08, {75, 214, 383}},
                                         {0.15, {120, 291, 483}},
                                         {0.20, {152, 347, 554}},
                                         {0.30, {216, 457, 696}}}};
    double worst = 0;
    for (const Line& line : lines)
        for (std::size_t i = 0; i < speeds_mps.size(); ++i) {
            const double v_mps = speeds_mps.at(i);
            const double power_W =
                v_mps * road_load::force_N(
                            {.mass_kg = 2500, .drag_area_m2 = 2.4, .rotating_mass_factor = 1},
                            {.resistance = line.resistance,
                             .grade = 0,
                             .speed_mps = v_mps,
                             .acceleration_mps2 = 0,
                             .air_density_kgpm3 = 1.15});
            worst = std::max(worst, std::fabs(power_W / W_from_kW(1) - line.printed_kW.at(i)));
        }
    return worst;
}

constexpr Calculation own_drag[] = {
    {"luke-olver-boness",
     []() -> double { return luke_Nm(boness::churning_torque_Nm, {15, 150}); }},
    {"luke-olver-terekhov",
     []() -> double { return luke_Nm(terekhov::churning_torque_Nm, {15, 150}); }},
    {"own-windage-table", []() -> double { return windage_deviation_W(); }},
    {"own-windage-ref-mist", []() -> double { return ref_windage_W({2.7, 2.15e-5, 0.1}); }},
    {"own-windage-ref-air", []() -> double { return ref_windage_W({0.972, 2.15e-5, 0.1}); }},
    {"own-churning-2011-15",
     []() -> double { return luke_Nm(changenet::churning_torque_unlimited_Nm, {15, 150}); }},
    {"own-churning-2011-limited-15",
     []() -> double { return luke_Nm(changenet::churning_torque_Nm, {15, 150}); }},
    {"own-churning-2007-15",
     []() -> double { return luke_Nm(changenet::churning_torque_2007_Nm, {15, 150}); }},
    {"own-churning-2011-20",
     []() -> double { return luke_Nm(changenet::churning_torque_unlimited_Nm, {20, 150}); }},
    {"own-churning-2011-limited-20",
     []() -> double { return luke_Nm(changenet::churning_torque_Nm, {20, 150}); }},
    {"own-churning-2007-20",
     []() -> double { return luke_Nm(changenet::churning_torque_2007_Nm, {20, 150}); }},
    {"own-churning-boness-15-150",
     []() -> double { return luke_Nm(boness::churning_torque_Nm, {15, 150}); }},
    {"own-churning-boness-20-150",
     []() -> double { return luke_Nm(boness::churning_torque_Nm, {20, 150}); }},
    {"own-churning-boness-15-100",
     []() -> double { return luke_Nm(boness::churning_torque_Nm, {15, 100}); }},
    {"own-churning-boness-20-100",
     []() -> double { return luke_Nm(boness::churning_torque_Nm, {20, 100}); }},
    {"own-churning-terekhov-15",
     []() -> double { return luke_Nm(terekhov::churning_torque_Nm, {15, 150}); }},
    {"own-churning-terekhov-20",
     []() -> double { return luke_Nm(terekhov::churning_torque_Nm, {20, 150}); }},
    {"own-churning-table", []() -> double { return churning_deviation_W(); }},
    {"own-thrown-8",
     []() -> double {
         return thrown_W(8, {.mass_flow_kgps = 0, .v_mps = 66, .jet_speed_mps = 20, .rehit = 1});
     }},
    {"own-thrown-8-still",
     []() -> double {
         return thrown_W(8, {.mass_flow_kgps = 0, .v_mps = 66, .jet_speed_mps = 0, .rehit = 1});
     }},
    {"own-thrown-8-again",
     []() -> double {
         return thrown_W(8, {.mass_flow_kgps = 0, .v_mps = 66, .jet_speed_mps = 20, .rehit = 1.5});
     }},
    {"own-thrown-12",
     []() -> double {
         return thrown_W(12, {.mass_flow_kgps = 0, .v_mps = 80, .jet_speed_mps = 20, .rehit = 1});
     }},
    {"own-pocketing",
     []() -> double {
         return pocketing::power_W({.z_1 = 36,
                                    .n_1_rpm = 7000,
                                    .module_mm = 5,
                                    .face_width_mm = 45,
                                    .pitch_speed_mps = radps_from_rpm(7000) * m_from_mm(90),
                                    .density_kgpm3 = 2.7});
     }},
    {"own-lip-fluoro",
     []() -> double {
         return iso_tr_14179_1::lip_power_W(iso_tr_14179_1::LipMaterial::other, lip);
     }},
    {"own-lip-nitrile",
     []() -> double {
         return iso_tr_14179_1::lip_power_W(iso_tr_14179_1::LipMaterial::nitrile, lip);
     }},
    {"own-lip-part-2", []() -> double { return iso_tr_14179_2::lip_power_W(lip); }},
    {"own-lip-linke-100",
     []() -> double {
         return linke::lip_power_W(lip, {.oil_temp_degC = 100, .nu_40C_mm2ps = 100});
     }},
    {"own-lip-linke-60",
     []() -> double {
         return linke::lip_power_W(lip, {.oil_temp_degC = 60, .nu_40C_mm2ps = 100});
     }},
    {"own-lip-speed", []() -> double { return iso_tr_14179_1::lip_speed_mps(lip); }},
    {"esposito-5-2",
     []() -> double {
         return 0.9 * pump::theoretical_flow_Lpmin(
                          {.outside_mm = 75, .inside_mm = 50, .width_mm = 25, .n_rpm = 1000});
     }},
    {"esposito-5-8-efficiency", []() -> double { return esposito_8_percent(); }},
    {"esposito-5-8-torque", []() -> double { return esposito_8_lbfin(); }},
    {"own-pump-feed",
     []() -> double {
         return pump::shaft_power_W({.flow_Lpmin = 10, .pressure_Pa = 2e5, .efficiency = 0.5});
     }},
    {"own-pump-cooler",
     []() -> double {
         return pump::shaft_power_W({.flow_Lpmin = 8, .pressure_Pa = 5e5, .efficiency = 0.6});
     }},
    {"khurmi-9-5-angle", []() -> double { return deg_from_rad(khurmi_5_rad()); }},
    {"khurmi-9-5-fast",
     []() -> double {
         return 1200 * cardan::speed_ratio({.angle_rad = khurmi_5_rad(), .phase_rad = pi / 2});
     }},
    {"khurmi-9-5-slow",
     []() -> double {
         return 1200 * cardan::speed_ratio({.angle_rad = khurmi_5_rad(), .phase_rad = 0});
     }},
    {"khurmi-9-4", []() -> double { return deg_from_rad(cardan::angle_of_fluctuation_rad(0.12)); }},
    {"khurmi-9-7-mid-fast", []() -> double { return 500 * khurmi_7(pi / 2); }},
    {"khurmi-9-7-mid-slow", []() -> double { return 500 * khurmi_7(0); }},
    {"khurmi-9-7-fast", []() -> double { return 500 * khurmi_7(pi / 2) * khurmi_7(pi / 2); }},
    {"khurmi-9-7-slow", []() -> double { return 500 * khurmi_7(0) * khurmi_7(0); }},
    {"khurmi-9-2-acceleration", []() -> double { return khurmi_2_radps2(); }},
    {"khurmi-9-2-torque", []() -> double { return 0.12 * khurmi_2_radps2(); }},
    {"own-cardan-peak", []() -> double { return couple_Nm(0); }},
    {"own-cardan-mean", []() -> double { return (couple_Nm(0) + couple_Nm(pi / 2)) / 2; }},
    {"own-prop-shaft-table", []() -> double { return prop_shaft_deviation_rpm(); }},
    {"own-prop-shaft-1",
     []() -> double {
         return prop_shaft::critical_speed_rpm(
             {.length_mm = 1200, .outside_mm = 76.2, .wall_mm = 3.0});
     }},
    {"own-prop-shaft-2",
     []() -> double {
         return prop_shaft::critical_speed_rpm(
             {.length_mm = 1350, .outside_mm = 88.9, .wall_mm = 3.05});
     }},
    {"own-prop-shaft-2-limit",
     []() -> double {
         return 0.75 * prop_shaft::critical_speed_rpm(
                           {.length_mm = 1350, .outside_mm = 88.9, .wall_mm = 3.05});
     }},
    {"own-road-load",
     []() -> double {
         return road_load::force_N(
             {.mass_kg = 2300, .drag_area_m2 = 2.3, .rotating_mass_factor = 1.06},
             {.resistance = 0.15,
              .grade = 0.05,
              .speed_mps = 30,
              .acceleration_mps2 = 0.5,
              .air_density_kgpm3 = 1.10});
     }},
    {"own-road-load-table", []() -> double { return road_load_deviation_kW(); }},
};

}  // namespace

std::span<const Calculation> drag_calculations() {
    return own_drag;
}

}  // namespace caseload
