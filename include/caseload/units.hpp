// SPDX-License-Identifier: MIT
// All conversions of the project. Inside: the unit named by the suffix of each variable.
#pragma once

#include <numbers>
#include <string>
#include <string_view>

namespace caseload {

inline constexpr double pi = std::numbers::pi;
/// Standard acceleration of free fall. Source: 3rd CGPM (1901), Resolution 2: 9.80665 m/s2.
inline constexpr double g_mps2 = 9.80665;

constexpr double K_from_degC(double temp_degC) {
    return temp_degC + 273.15;
}
constexpr double degC_from_K(double temp_K) {
    return temp_K - 273.15;
}
/// For display only.
constexpr double degF_from_degC(double temp_degC) {
    return temp_degC * 1.8 + 32;
}
/// A difference.
constexpr double degF_from_K(double difference_K) {
    return difference_K * 1.8;
}
constexpr double mi_from_m(double length_m) {
    return length_m / 1609.344;
}
constexpr double ft_from_m(double length_m) {
    return length_m / 0.3048;
}
constexpr double in_from_mm(double length_mm) {
    return length_mm / 25.4;
}
constexpr double kmph_from_mps(double speed_mps) {
    return speed_mps * 3.6;
}
constexpr double mph_from_mps(double speed_mps) {
    return speed_mps / 0.44704;
}
constexpr double lb_from_kg(double mass_kg) {
    return mass_kg / 0.45359237;
}
constexpr double gpm_from_Lpmin(double flow_Lpmin) {
    return flow_Lpmin / 3.785411784;
}
constexpr double radps_from_rpm(double n_rpm) {
    return n_rpm * pi / 30.0;
}
constexpr double rpm_from_radps(double omega_radps) {
    return omega_radps * 30.0 / pi;
}
constexpr double rad_from_deg(double angle_deg) {
    return angle_deg * pi / 180.0;
}
constexpr double deg_from_rad(double angle_rad) {
    return angle_rad * 180.0 / pi;
}
constexpr double m_from_mm(double length_mm) {
    return length_mm / 1000.0;
}
constexpr double mm_from_um(double length_um) {
    return length_um / 1000.0;
}
constexpr double m2_from_mm2(double area_mm2) {
    return area_mm2 / 1e6;
}
constexpr double m2ps_from_mm2ps(double nu_mm2ps) {
    return nu_mm2ps / 1e6;
}
constexpr double m3ps_from_Lpmin(double flow_Lpmin) {
    return flow_Lpmin / 60000.0;
}
constexpr double Nm_from_Nmm(double torque_Nmm) {
    return torque_Nmm / 1000.0;
}
constexpr double s_from_min(double time_min) {
    return time_min * 60.0;
}
constexpr double h_from_s(double time_s) {
    return time_s / 3600.0;
}
constexpr double min_from_s(double time_s) {
    return time_s / 60.0;
}
constexpr double m3_from_L(double volume_L) {
    return volume_L / 1000.0;
}
constexpr double m3_from_mm3(double volume_mm3) {
    return volume_mm3 / 1e9;
}
constexpr double mm3_from_L(double volume_L) {
    return volume_L * 1e6;
}
constexpr double L_from_mm3(double volume_mm3) {
    return volume_mm3 / 1e6;
}
constexpr double GPa_from_MPa(double stress_MPa) {
    return stress_MPa / 1000.0;
}
constexpr double Pa_from_MPa(double stress_MPa) {
    return stress_MPa * 1e6;
}
constexpr double Pas_from_mPas(double eta_mPas) {
    return eta_mPas / 1000.0;
}
constexpr double um_from_mm(double length_mm) {
    return length_mm * 1000.0;
}
constexpr double W_from_kW(double power_kW) {
    return power_kW * 1000.0;
}
/// Exact by definition: international inch, avoirdupois pound, horsepower of 550 ft lbf/s.
constexpr double mm_from_in(double length_in) {
    return length_in * 25.4;
}
constexpr double N_from_lbf(double force_lbf) {
    return force_lbf * 0.45359237 * g_mps2;
}
constexpr double W_from_hp(double power_hp) {
    return power_hp * 550.0 * 0.3048 * N_from_lbf(1.0);
}
constexpr double lbf_from_N(double force_N) {
    return force_N / N_from_lbf(1.0);
}
constexpr double ksi_from_MPa(double stress_MPa) {
    return lbf_from_N(stress_MPa) * 25.4 * 25.4 / 1000.0;
}
constexpr double lbft_from_Nm(double torque_Nm) {
    return torque_Nm / (0.3048 * N_from_lbf(1.0));
}
constexpr double hp_from_W(double power_W) {
    return power_W / W_from_hp(1.0);
}

/// The unit a variable's name ends in, as printed: "n_rpm" gives "r/min"; "" if there is none.
std::string unit_of_name(std::string_view name);

}  // namespace caseload
