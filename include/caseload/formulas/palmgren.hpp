// SPDX-License-Identifier: MIT
// Friction torque of rolling bearings after Palmgren.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

namespace caseload::palmgren {

struct Idle {
    double f0;
    double nu_mm2ps;
    double n_rpm;
    double d_m_mm;
};

/// Load-independent torque, N mm.
///
///     M0 = 1e-7 f0 (nu n)^(2/3) d_m^3   nu n >= 2000;   160e-7 f0 d_m^3   below
///
/// Note     steps by 0.8 % at nu n = 2000.
/// Source   harris-4e, 14.2
[[nodiscard]] double idle_torque_Nmm(const Idle& idle);

struct LoadTorque {
    double f1;
    double P_1_N;
    double d_m_mm;
};

/// Load-dependent torque M1 = f1 P1 d_m, N mm.
/// Source   harris-4e, 14.1
[[nodiscard]] double load_torque_Nmm(const LoadTorque& load);

enum class Supply { jet, splash, damp, mist };

/// Friction factor f0 by kind and by how much oil reaches the bearing. Mist, bath and jet columns
/// of the handbook; damp is judged between mist and bath. Source   harris-4e, table14.1
[[nodiscard]] double f0_default(BearingKind kind, Supply supply);

/// Load factor f1 at a static load ratio P0/C0.
/// Source   harris-4e, table14.2
[[nodiscard]] double f1(BearingKind kind, double static_load_ratio);

struct FrictionLoad {
    BearingKind kind;
    double contact_angle_deg;
    double F_r_N;
    double F_a_N;
    double C_0_N;
};

/// Load P1 the friction depends on, never below F_r. A four-point bearing that carries more than
/// 0.1 C0 radially is misused: above that the radial force counts once, not 3.6 times.
/// Source   harris-4e, table14.2P1
[[nodiscard]] double friction_load_P1_N(const FrictionLoad& load);

}  // namespace caseload::palmgren
