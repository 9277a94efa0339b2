// SPDX-License-Identifier: MIT
// Rings pressed into one another: pressure, stress and size at any temperature. Elastic thick tubes
// in plane stress, no axial friction, linear expansion from 20 degC. All diameters nominal, all
// interferences on diameter.
#pragma once

#include <optional>

namespace caseload::thick_ring {

struct Material {
    double E_MPa;
    double nu;
    double expansion_pK;
};
/// Rolling bearing and alloy steel; handbooks 11.5e-6 to 12.5e-6. Roloff/Matek, from memory.
inline constexpr Material steel{.E_MPa = 206e3, .nu = 0.30, .expansion_pK = 12.0e-6};
/// Wrought aluminium alloy; handbooks 23.4e-6 to 23.6e-6. Roloff/Matek, from memory. Cast alloys
/// with much silicon expand less, 20e-6 to 22e-6.
inline constexpr Material aluminium{.E_MPa = 71e3, .nu = 0.33, .expansion_pK = 23.4e-6};
/// Grey cast iron; handbooks 10e-6 to 11e-6 and 100 to 130 GPa. Roloff/Matek, from memory.
inline constexpr Material cast_iron{.E_MPa = 110e3, .nu = 0.26, .expansion_pK = 10.5e-6};

/// Temperature at which sizes and interferences are stated: ISO 1.
inline constexpr double reference_degC = 20;

struct Tube {
    double inside_mm;  ///< 0: solid
    double outside_mm;
    Material material;
};
struct Pressure {
    double inside_MPa;
    double outside_MPa;
};

/// Growth of a tube's inner diameter a (outer b) under pressure.
///
///     a/E (p_i ((b^2 + a^2)/(b^2 - a^2) + nu) - p_o 2 b^2/(b^2 - a^2))
///
/// Range    0 < a < b. The shrink of a raceway is its negative with p_o from `joint`.
/// Source   lame-1852, inner-diameter
[[nodiscard]] double inside_growth_mm(const Tube& tube, const Pressure& pressure);

/// Growth of a tube's outer diameter b.
///
///     b/E (p_i 2 a^2/(b^2 - a^2) - p_o ((b^2 + a^2)/(b^2 - a^2) - nu))
///
/// Range    0 <= a < b.
/// Source   lame-1852, outer-diameter
[[nodiscard]] double outside_growth_mm(const Tube& tube, const Pressure& pressure);

/// Hoop stress at a tube's inner surface, tension positive:
/// (p_i (b^2 + a^2) - 2 p_o b^2)/(b^2 - a^2).
/// Range    0 < a < b.
/// Source   lame-1852, hoop-stress
[[nodiscard]] double inside_hoop_MPa(const Tube& tube, const Pressure& pressure);

/// A tube or solid pressed into another. A bearing's outer ring is taken as a plain tube from the
/// diameter of its raceway: it is stiffer where it has shoulders or ribs.
struct Fit {
    double inside_mm;  ///< of the inner body; 0: solid
    double joint_mm;
    double outside_mm;  ///< of the outer body; boss: the largest circle inside it
    Material inner;
    Material outer;
    double interference_mm;  ///< at 20 degC; negative: clearance
};
struct FitTemps {
    double inner_degC;
    double outer_degC;
};
struct Joint {
    double pressure_MPa;
    double gap_mm;  ///< on diameter; 0 while pressed
};

/// Pressure, or gap, between two bodies.
///
///     delta(T) = delta_20 + D (alpha_in (T_in - 20) - alpha_out (T_out - 20))
///     p = delta/(growth of the outer bore + shrink of the inner body at 1 MPa), not below 0
///
/// Range    temperatures from -100 to 300 degC.
/// Source   lame-1852, two-bodies
[[nodiscard]] Joint joint(const Fit& fit, const FitTemps& temps);

/// Temperature of both bodies above which the joint is loose:
/// 20 + delta_20/((alpha_out - alpha_in) D).
/// Range    outer body expands more than the inner.
/// Source   lame-1852, release
[[nodiscard]] double release_degC(const Fit& fit);

/// A bearing's outer ring in a retainer in a boss.
struct Nest {
    double raceway_mm;
    double ring_outside_mm;
    double retainer_outside_mm;
    double boss_outside_mm;
    Material ring;
    Material retainer;
    Material boss;
    double ring_interference_mm;      ///< ring before it meets the retainer, at 20 degC
    double retainer_interference_mm;  ///< retainer before it meets ring and boss, at 20 degC
};
struct NestTemps {
    double ring_degC;
    double retainer_degC;
    double boss_degC;
};
struct NestJoints {
    Joint ring;      ///< ring in retainer
    Joint retainer;  ///< retainer in boss
};

/// Pressures, or gaps, of three bodies.
///
///     delta_1 = c_11 p_1 - c_12 p_2        ring in retainer
///     delta_2 = c_22 p_2 - c_21 p_1        retainer in boss
///
/// both pressed, or either alone, or none: the one case without tension in a joint.
/// Range    temperatures from -100 to 300 degC.
/// Note     c_12, c_21: what the other joint's pressure does through the retainer's wall. Pressing
///          the retainer in tightens the ring; a bore finished in place after pressing has its
///          interference measured there and does not add this: use two bodies, or lower delta_1.
/// Source   lame-1852, three-bodies
[[nodiscard]] NestJoints joints(const Nest& nest, const NestTemps& temps);

struct Release {
    std::optional<double> ring_degC;  ///< none: tight at any temperature
    double retainer_degC;
};

/// Temperatures of all bodies together above which either joint is loose.
///
///     retainer: delta_2(T) + (c_21/c_11) max(delta_1(T), 0) = 0        the ring the same way
///
/// Range    no body expands less than the one inside it, the boss more than the retainer.
/// Source   lame-1852, three-release
[[nodiscard]] Release release_degC(const Nest& nest);

struct Contact {
    double pressure_MPa;
    double diameter_mm;
    double width_mm;
    double friction;
};
/// Friction of a dry or oiled ring in its bore, lower end of 0.10 to 0.15. Handbooks, from memory.
inline constexpr double least_seat_friction = 0.10;

/// Torque at which a pressed ring turns in its seat: mu p (pi D B) D/2.
/// Source   lame-1852, slip
[[nodiscard]] double slip_torque_Nm(const Contact& contact);

}  // namespace caseload::thick_ring
