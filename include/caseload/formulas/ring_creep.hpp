// SPDX-License-Identifier: MIT
// How a ring that is loose in its seat moves there, and what it wears. A ring under a load that
// keeps its direction may be loose, one that a load goes round must be tight: DIN 5425, from
// memory. No hammer at load reversal, no oval seat, no fretting of tight rings.
#pragma once

namespace caseload::ring_creep {

/// Steel ring on its seat, oiled: 0.06 to 0.15, from memory.
inline constexpr double friction = 0.10;
/// Share of the elements' own turning that a ring is taken to have once it slips: nobody knows;
/// 0.03 to 1, judgement.
inline constexpr double slipping_share = 0.3;
/// Elastic walk over the way of the ring's outside in a turn: 1e-7 to 1e-5, judgement.
inline constexpr double walk_share = 1e-6;
/// Steel on aluminium, oiled: 1e-7 to 1e-5, judgement, form of Archard's law.
inline constexpr double wear_mm3pNm = 1e-6;

/// Load of a ring over a turn: a part that keeps its direction and one that goes round.
struct RingLoad {
    double F_0_N;
    double F_rot_N;
};

/// Friction that holds the ring over the drag of its bearing that would turn it; below 1 it slips.
///
/// S = mu (F_0 - F_rot) D / (2 M)
/// Note     D mm, M N mm; 0 where the load goes round.
/// Source   ring-creep, slip-margin
[[nodiscard]] double slip_margin(const RingLoad& load, double D_mm, double M_Nmm);

/// Whether the load goes round in the ring, so that the ring rolls in its bore: F_rot >= F_0.
[[nodiscard]] bool goes_round(const RingLoad& load);

/// How far to either side the load swings; 180 where it goes round.
///
/// swing = asin(F_rot / F_0)
/// Source   ring-creep, swing
[[nodiscard]] double swing_deg(const RingLoad& load);

/// Way of the ring in its seat for each turn of the shaft under a load that goes round twice a turn
/// (a universal joint's couple): the ring rolls in the bore and lags by pi g each time; none where
/// it swings only.
///
/// s = 2 pi g where F_rot >= F_0
/// Source   ring-creep, rolling
[[nodiscard]] double rolling_mm(const RingLoad& load, double gap_mm);

/// Way of a loose ring for each turn of the shaft where its load does not go round: elastic walk,
/// or dragged where it slips.
///
/// s = k pi D, k 1e-6; 0.3 where S < 1
/// Source   ring-creep, walk
[[nodiscard]] double walking_mm(double slip_margin, double D_mm);

/// Depth that a way under a load takes off the bore.
///
/// h = k_w F / (D B) s
/// Note     k_w mm3/(N m); D, B mm; s m.
/// Source   ring-creep, wear
struct Bore {
    double D_mm;
    double B_mm;
};
[[nodiscard]] double wear_um(const Bore& bore, double F_N, double way_m);

/// An inner ring pressed on a ground shaft, under a load that goes round it.
struct InnerRing {
    double d_mm;
    double B_mm;
    double interference_mm;  ///< on diameter, at 20 degC; negative: clearance
    double C_0_N;
    double warmer_K;  ///< ring over shaft
};
/// What a load that goes round it, a landing too, takes off its interference. From memory.
///
/// delta_F = 0.08e-3 sqrt(d F_r/B), above F_r = 0.2 C_0 no less than 0.02e-3 F_r/B
/// Source   ring-creep, loosening
[[nodiscard]] double loosening_mm(const InnerRing& ring, double F_r_N);

/// What roughness, load and warmth leave of its interference, on diameter; negative: it creeps.
///
/// delta_eff = delta d/(d + 2) - delta_F - alpha_s d (T_ring - T_shaft)
/// Note     a clearance has no roughness to lose. A turned shaft leaves d/(d + 3).
/// Source   ring-creep, effective-fit
[[nodiscard]] double effective_fit_mm(const InnerRing& ring, double F_r_N);

/// Way of that ring on its shaft for each turn: it lags by pi g, g what it lacks to a fit.
///
/// s = pi max(-delta_eff, 0)
/// Source   ring-creep, inner-rolling
[[nodiscard]] double inner_rolling_mm(double effective_fit_mm);

}  // namespace caseload::ring_creep
