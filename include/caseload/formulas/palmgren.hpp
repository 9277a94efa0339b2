// SPDX-License-Identifier: MIT
// Friction torque of rolling bearings after Palmgren. Form seen in the source of an open thermal
// network library; factors from memory of handbooks, which differ by a factor of up to 2 on f0.
// No published worked example of M0 was found; measured torques are among the published figures.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

#include <string_view>

namespace caseload::palmgren {

struct Idle {
    double f0;
    double nu_mm2ps;
    double n_rpm;
    double d_m_mm;
};

/// nu n from which the load-independent torque hangs on viscosity, mm2/s rpm.
/// Source   harris-4e, 14.2
inline constexpr double least_nu_n = 2000;

/// Load-independent torque, N mm.
///
///     M0 = 1e-7 f0 (nu n)^(2/3) d_m^3   nu n >= 2000;   160e-7 f0 d_m^3   below
///
/// Range    f0 and n >= 0; nu, d_m > 0. At n = 0 the torque to start.
/// Note     steps up by 0.8 % below nu n = 2000.
/// Source   harris-4e, 14.2
[[nodiscard]] double idle_torque_Nmm(const Idle& idle);

struct LoadTorque {
    double f1;
    double P_1_N;
    double d_m_mm;
};

/// Load-dependent torque M1 = f1 P1 d_m, N mm.
/// Range    f1 and P1 >= 0, d_m > 0.
/// Source   harris-4e, 14.1
[[nodiscard]] double load_torque_Nmm(const LoadTorque& load);

enum class Supply { jet, splash, damp, mist };

/// Friction factor f0 by kind, dimension series (`bearing_estimate::friction_series`) and by how
/// much oil reaches the bearing: mist, bath (splash) and jet; damp is the geometric mean of mist
/// and bath, judgement.
///
///     mist / bath / jet
///     deep groove       thin, 10, 160   0.7  / 1.7  / 3.4
///                       02, 22          0.85 / 2    / 4
///                       03, 23          1    / 2.3  / 4.6
///     cylindrical       thin, 10, 160   1.3  / 2    / 2.8
///                       02, 03          1.4  / 2.2  / 3.1
///                       22              2    / 3    / 4.2
///                       23              2.6  / 4    / 5.6
///     tapered                           3    / 5.5  / 9
///     angular contact                   1.7  / 3.3  / 6.6
///     four-point                        2.5  / 6    / 10.5
///     spherical                         2.6  / 5.25 / 10.5
///
/// Note     the bath of deep groove and cylindrical bearings: reference values of ISO 15312 and the
///          handbook's low end of 2.2, from memory. Tapered: torques measured on six sets, root
///          mean square factor 1.147, 1.202 with 4.5; on the 15 of tables/published.toml alone
///          1.115 and 1.120. The others are the handbook's, middle of its ranges, as they slide or
///          have ribs: the measured tapered bearings side with it.
/// Source   harris-4e, table14.1
[[nodiscard]] double f0_default(BearingKind kind, std::string_view series, Supply supply);

/// Load factor f1 at a static load ratio P0/C0: deep groove 0.0005 (P0/C0)^0.55, angular contact
/// and four-point 0.001 (P0/C0)^0.33, cylindrical 0.0003, tapered 0.0004, spherical 0.00025.
///
/// Source   harris-4e, table14.2
[[nodiscard]] double f1(BearingKind kind, double static_load_ratio);

struct FrictionLoad {
    BearingKind kind;
    double contact_angle_deg;
    double F_r_N;
    double F_a_N;
    double C_0_N;
};

/// Load P1 the friction depends on, never below F_r.
///
///     deep groove      3 F_a - 0.1 F_r            cylindrical  F_r
///     angular contact  F_a - 0.1 F_r              tapered      2 Y F_a, Y = 0.4 cot a
///     four-point       1.5 F_a + 3.6 F_r          spherical    F_a > e F_r: 1.6 F_a / e, else
///                                                 F_r (1 + 0.6 (F_a / (e F_r))^3)
///
/// Note     a four-point bearing that carries more than 0.1 C0 radially is misused: above that the
///          radial force counts once, not 3.6 times. Judgement. Other sources have 3.3 F_a for deep
///          groove.
/// Source   harris-4e, table14.2P1
[[nodiscard]] double friction_load_P1_N(const FrictionLoad& load);

}  // namespace caseload::palmgren
