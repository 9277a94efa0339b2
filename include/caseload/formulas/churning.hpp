// SPDX-License-Identifier: MIT
// Gears that dip in the sump. The methods differ by a factor of 100 in the same case and the best
// of them is good to 0.4..2.5 at speed: constants from memory throughout.
#pragma once

namespace caseload::churning {

/// A disc of pitch radius R with its lowest point `depth` below the oil level.
struct Dip {
    double R_m;
    double depth_m;
};

struct Immersion {
    double theta_rad;   ///< half the wetted arc, 0 to pi
    double segment_m2;  ///< wetted area of one side
};

/// theta = acos(1 - h/R); A = R^2 (theta - sin theta cos theta); L = 2 R sin theta. Depth counts
/// from 0 to 2 R.
/// Source   gear-practice, immersion
[[nodiscard]] Immersion immersion(const Dip& dip);

/// Share of a gear's rim above the oil, which drags air and mist: 1 - acos(1 - h/R)/pi. 1 for a
/// gear that does not dip, 0 for one that is covered.
///
/// Range    R > 0; depth counts from 0 to 2 R.
/// Note     DERIVED: the arc that is not wetted; that windage goes with it is judgement. It makes
///          the drag of a gear that begins to dip continuous.
/// Source   gear-practice, dry-share
[[nodiscard]] double dry_share(const Dip& dip);

struct Gear {
    double R_m;  ///< pitch radius
    double b_m;
    double module_m;  ///< normal
    int z;
    double alpha_t_rad;
    double beta_rad;

    bool operator==(const Gear&) const = default;
};

struct Bath {
    double omega_radps;
    double depth_m;        ///< of the pitch circle; 0 or less: dry
    double oil_volume_m3;  ///< V_0, the fill
    double density_kgpm3;
    double nu_m2ps;
};

}  // namespace caseload::churning

namespace caseload::changenet {

/// V_0 / D^3 is not taken below: smaller fills were not tested. From memory.
inline constexpr double least_volume_ratio = 0.3;
/// Speed of the pitch circle the law was tested to. From memory.
inline constexpr double tested_speed_mps = 25;
/// Up to the first speed the range of the tests is taken, 0.6 to 1.7; from the second on the wide
/// one, 0.4 to 2.5. Judgement, half and half at `tested_speed_mps`.
inline constexpr double slow_range_to_mps = 15;
inline constexpr double fast_range_from_mps = 35;

/// How far a pitch-line speed lies between both ranges: t^2 (3 - 2 t), t = (v - 15)/20 from 0 to 1.
///
/// Range    any speed.
/// Note     judgement. The ends of the range at a speed are those of both, to the powers of one
///          less this share and of this share: 0.49 to 2.06 at 25 m/s.
/// Source   gear-practice, churning-range
[[nodiscard]] double fast_range_share(double v_mps);
/// Between these accelerations the slow and the fast branch are blended. From memory.
inline constexpr double slow_to_mps2 = 750;
inline constexpr double fast_from_mps2 = 1250;

/// What decides between the branches: gamma = omega^2 (R b m)^(1/3), an acceleration.
///
/// Range    omega >= 0.
/// Source   changenet-2011, gamma
[[nodiscard]] double branch_acceleration_mps2(const churning::Gear& gear, double omega_radps);

/// Churning torque after Changenet, Leprince, Ville and Velex 2011, V_0/D^3 at least 0.3.
///
///     T = rho omega^2 R^3 S C / 2
///     S = R^2 (2 theta - sin 2 theta) + D b theta + 2 z theta (2.25 m) b / (pi cos a cos b)
///     gamma = omega^2 (R b m)^(1/3)     Fr = omega^2 R / g     Re = omega R^2 / nu
///     C = 1.366 (h/D)^0.45 (V_0/D^3)^0.1   Fr^-0.6 Re^-0.21         gamma <=  750 m/s2
///     C = 3.644 (h/D)^0.1  (V_0/D^3)^-0.35 Fr^-0.88 (b/D)^0.85      gamma >= 1250
///
/// and linear in gamma between.
///
/// Range    omega >= 0; radius, width, module, volume, density, viscosity > 0.
/// Note     thin oil and a wide gear make the branches differ tenfold: between 750 and 1250 the
///          result is good to a factor of 3.
/// Source   changenet-2011, churning
[[nodiscard]] double churning_torque_Nm(const churning::Gear& gear, const churning::Bath& bath);

}  // namespace caseload::changenet
