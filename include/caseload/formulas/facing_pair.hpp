// SPDX-License-Identifier: MIT
// Two angular contact or tapered bearings that face each other, pressed together along the shaft:
// two springs in series with what carries them. Derived from geometry; no radial load. Rings are
// rigid beside their contacts, the structure gives in proportion to the force.
#pragma once

#include "caseload/formulas/element_stiffness.hpp"
#include "caseload/formulas/iso_281.hpp"

namespace caseload::facing_pair {

/// Between the two seats, through housing, shaft and rings: 50 to 400, judgement.
inline constexpr double usual_structure_Npum = 150;
/// A turning cone over its cup: 0 to 15 K, judgement.
inline constexpr double cone_warmer_K = 5;

struct Bearing {
    element_stiffness::Contact contact;
    int Z;       ///< elements
    double K_n;  ///< stiffness of one, N/mm^n
    double contact_angle_deg;
};
/// F_a = k_a delta_a^n.
struct Spring {
    double k_a;  ///< N/mm^n
    double n;
};
/// One bearing along its axis.
///
/// k_a = Z K_n sin(a)^(n+1)
/// Range    contact angle 5 to 60 deg.
/// Source   bearing-practice, axial-stiffness
[[nodiscard]] Spring spring(const Bearing& bearing);

struct Pair {
    Spring a;  ///< the one the outside force presses on
    Spring b;
    double structure_Npum;
};
/// Way by which a pair is too short for its parts when both its bearings carry this force.
///
/// over = sum of (F/k_a)^(1/n) + F/c
/// Source   bearing-practice, pair-springs
[[nodiscard]] double over_mm(const Pair& pair, double preload_N);

struct Forces {
    double F_A_N;
    double F_B_N;
};
/// Axial forces of a pair that is too short by `over_mm`, under an outside force K on A.
///
/// delta_A(F_B + K) + delta_B(F_B) = over, F_A = F_B + K; delta = (F/k_a)^(1/n) + F/(2 c)
/// Range    K not negative; over not positive, or too little for B: F_B = 0.
/// Note     root by bracketing, to the last digits.
/// Source   bearing-practice, pair-springs
[[nodiscard]] Forces forces(const Pair& pair, double K_N, double over_mm);

struct Rings {
    double D_pw_mm;
    double contact_angle_deg;
};
/// What a cone warmer than its cup tightens the pair by, of one bearing.
///
/// alpha_s D_pw dT / (2 tan a)
/// Source   bearing-practice, pair-rings
[[nodiscard]] double warm_cone_mm(const Rings& rings, double warmer_K);
/// What a cup that loses squeeze loosens the pair by, of one bearing; shrink on diameter.
///
/// lost / (2 tan a)
/// Source   bearing-practice, pair-rings
[[nodiscard]] double squeeze_lost_mm(const Rings& rings, double shrink_lost_mm);

/// Preload at which one bearing, slowly turned by hand, adds a newton millimetre: 2 f_1 Y d_m times
/// the force, Palmgren's load torque.
/// Note     within a factor of 2, judgement: ribs rub more when turned slowly.
/// Source   bearing-practice, pair-torque
struct Turned {
    double f1;
    double Y;
    double d_m_mm;
};
[[nodiscard]] double torque_Nmm_per_N(const Turned& bearing);
/// f_1 of P_0/C_0 and Y of a bearing under this force along its axis alone.
///
/// Range    force > 0.
/// Source   bearing-practice, pair-torque
[[nodiscard]] Turned turned_under(const iso_281::EquivalentLoad& bearing, double d_m_mm,
                                  double force_N);

}  // namespace caseload::facing_pair
