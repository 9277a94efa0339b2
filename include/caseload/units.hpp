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

/// Exact by definition (NIST SP 811 (2008), appendix B.8): international inch, foot and mile,
/// avoirdupois pound, US gallon of 231 cubic inches.
inline constexpr double inch_mm = 25.4;
inline constexpr double foot_m = 0.3048;
inline constexpr double mile_m = 1609.344;
inline constexpr double pound_kg = 0.45359237;
inline constexpr double gallon_L = 3.785411784;

/// A quantity in one unit as the number of another: multiplied, then divided, in this order.
struct Conversion {
    double times;
    double over = 1;

    constexpr double operator()(double value) const { return value * times / over; }
};

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
inline constexpr Conversion degF_from_K{1.8};
inline constexpr Conversion mi_from_m{1, mile_m};
inline constexpr Conversion ft_from_m{1, foot_m};
inline constexpr Conversion mm_from_in{inch_mm};
inline constexpr Conversion in_from_mm{1, inch_mm};
inline constexpr Conversion kmph_from_mps{3.6};
inline constexpr Conversion mph_from_mps{1, 0.44704};
inline constexpr Conversion lb_from_kg{1, pound_kg};
inline constexpr Conversion gpm_from_Lpmin{1, gallon_L};
inline constexpr Conversion radps_from_rpm{pi, 30};
inline constexpr Conversion rpm_from_radps{30, pi};
inline constexpr Conversion rad_from_deg{pi, 180};
inline constexpr Conversion deg_from_rad{180, pi};
inline constexpr Conversion m_from_mm{1, 1000};
inline constexpr Conversion mm_from_um{1, 1000};
inline constexpr Conversion um_from_mm{1000};
inline constexpr Conversion m2_from_mm2{1, 1e6};
inline constexpr Conversion m2ps_from_mm2ps{1, 1e6};
inline constexpr Conversion m3ps_from_Lpmin{1, 60000};
inline constexpr Conversion Nm_from_Nmm{1, 1000};
inline constexpr Conversion s_from_min{60};
inline constexpr Conversion h_from_s{1, 3600};
inline constexpr Conversion min_from_s{1, 60};
inline constexpr Conversion m3_from_L{1, 1000};
inline constexpr Conversion m3_from_mm3{1, 1e9};
inline constexpr Conversion mm3_from_L{1e6};
inline constexpr Conversion L_from_mm3{1, 1e6};
inline constexpr Conversion GPa_from_MPa{1, 1000};
inline constexpr Conversion Pa_from_MPa{1e6};
inline constexpr Conversion Pas_from_mPas{1, 1000};
inline constexpr Conversion W_from_kW{1000};
constexpr double N_from_lbf(double force_lbf) {
    return force_lbf * pound_kg * g_mps2;
}
inline constexpr Conversion lbf_from_N{1, N_from_lbf(1)};
inline constexpr Conversion lbft_from_Nm{1, foot_m* N_from_lbf(1)};
constexpr double ksi_from_MPa(double stress_MPa) {
    return lbf_from_N(stress_MPa) * inch_mm * inch_mm / 1000;
}
/// Horsepower of 550 ft lbf/s.
constexpr double W_from_hp(double power_hp) {
    return power_hp * 550 * foot_m * N_from_lbf(1);
}
inline constexpr Conversion hp_from_W{1, W_from_hp(1)};

/// The unit a variable's name ends in, as printed: "n_rpm" gives "r/min"; "" if there is none.
std::string unit_of_name(std::string_view name);

}  // namespace caseload
