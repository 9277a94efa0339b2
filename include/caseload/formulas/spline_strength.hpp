// SPDX-License-Identifier: MIT
// Contact stress, wear and strength of splines after D. W. Dudley, "When Splines Need Stress
// Control", Product Engineering 1957. The article itself was not seen: formulas and tables from
// public reproductions and an excerpt of a machinery handbook; closed forms derived. Not covered:
// fretting of a clamped piloted spline, a slip joint that locks along its axis.
#pragma once

namespace caseload::spline_strength {

/// By hardness: 33-38 HRC through and through; surface hardened to 48-53; case-hardened to 58-63.
enum class Hardness { soft, surface, case_hard };

/// Allowed contact stress S_w of straight teeth: 3000, 4000, 5000 psi.
/// Source   dudley-1957, allowed-contact
[[nodiscard]] double allowed_contact_MPa(Hardness hardness);
/// Allowed shear stress under the roots: 40 000, 40 000, 50 000 psi.
/// Source   dudley-1957, shear
[[nodiscard]] double allowed_shear_MPa(Hardness hardness);

/// A spline that is piloted and clamped does not wear: it may take so much more.
inline constexpr double fixed_factor = 9;
/// L_f for a thousand cycles of torque: few enough that a blow is judged by it.
inline constexpr double blow_factor = 1.8;

struct Misalignment {
    double slope_mmpm;
    double length_mm;
};
/// Load distribution factor.
///
/// K_m = max(1, 1.5 + 0.5 log2(e / 0.1016 mm)), e = slope length
/// Note     meets the sixteen entries of the table (1 to 8 mm/m, 12.7 to 101.6 mm) exactly.
/// Source   dudley-1957, distribution
[[nodiscard]] double distribution_factor(const Misalignment& misalignment);

struct Teeth {
    int count;
    double pitch_diameter_mm;
    double length_mm;
    double height_mm;  ///< radial, in contact
};
/// Contact stress of the flanks.
///
/// S_c = 2000 T K_m / (D N F_e h)
/// Note     T N m, lengths mm.
/// Source   dudley-1957, contact-stress
[[nodiscard]] double contact_MPa(const Teeth& teeth, double torque_Nm, double K_m);

/// Slope of the wear life over stress: L_w falls by sqrt 2 a decade of turns, 4 at 1e4.
inline constexpr double wear_exponent = 6.6438561897747244;  // 1 / log10(sqrt 2)
inline constexpr double wear_turns = 1e4;
inline constexpr double wear_factor = 4;

/// Turns after which a loose or sliding spline is worn out.
///
/// N_w = 1e4 (S_c / (4 S_w))^-6.644, S_c with the overload K_a
/// Source   dudley-1957, wear-life
[[nodiscard]] double wear_life_rev(double S_c_MPa, double S_w_MPa);

/// Dry or greased in place of oiled: 2 to 10, judgement.
inline constexpr double dry_factor = 5;

/// Root circle of the outer teeth: pitch diameter less 1.8 modules (ANSI B92.1, fillet root, from
/// memory).
/// Source   dudley-1957, roots
[[nodiscard]] double root_diameter_mm(const Teeth& teeth);

struct Tube {
    double root_diameter_mm;
    double bore_mm;
};
/// Shear stress under the roots of the outer teeth.
///
/// S_s = 16000 T D_re / (pi (D_re^4 - D_h^4))
/// Range    bore below the root circle.
/// Source   dudley-1957, shear
[[nodiscard]] double shear_MPa(const Tube& tube, double torque_Nm);

}  // namespace caseload::spline_strength
