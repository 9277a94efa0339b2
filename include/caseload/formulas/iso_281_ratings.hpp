// SPDX-License-Identifier: MIT
// ISO 281:2007 and ISO 76:2006: ratings from the inside geometry of a bearing.
#pragma once

namespace caseload::iso_281 {

/// f_c of radial ball bearings, groove radii 0.52 D_w, single row (lambda 0.95).
///
///     f_c = 38.20 (2 r / (2 r - D_w))^0.41 g^0.3 (1-g)^1.39 / (1+g)^(1/3)
///           (1 + (1.04 ((1-g)/(1+g))^1.72)^(10/3))^-0.3,   38.20 = 0.41 x 98.0665 x 0.95
///
/// Range    gamma from 0.005 to 0.45; the standard's table runs from 0.01 to 0.40.
/// Note     rounds to each of its 25 entries.
/// Source   iso-281-2007, table2
[[nodiscard]] double f_c_ball(double gamma);

/// f_c of radial roller bearings (lambda nu 0.83).
///
///     f_c = 207.9 x 0.83 g^(2/9) (1-g)^(29/27) / (1+g)^(1/4)
///           (1 + (1.04 ((1-g)/(1+g))^(143/108))^(9/2))^(-2/9)
///
/// Range    gamma from 0.005 to 0.45; the standard's table runs from 0.01 to 0.30.
/// Note     rounds to each of its 20 entries.
/// Source   iso-281-2007, table7
[[nodiscard]] double f_c_roller(double gamma);

struct BallSet {
    double D_w_mm;
    double D_pw_mm;
    double cos_alpha;
    int Z;
};
/// Throws unless the sizes are above 0 and cos_alpha is from 0.5 to 1.
void require_possible(const BallSet& set);

/// C = b_m f_c (cos a)^0.7 Z^(2/3) D_w^1.8; above 25.4 mm 3.647 D_w^1.4. N.
/// Note     b_m 1.3 without filling slot.
/// Source   iso-281-2007, 5.1
[[nodiscard]] double ball_rating_N(const BallSet& set, double b_m);

struct RollerSet {
    double D_we_mm;
    double L_we_mm;
    double D_pw_mm;
    double cos_alpha;
    int Z;
};
void require_possible(const RollerSet& set);

/// C = b_m f_c (L_we cos a)^(7/9) Z^(3/4) D_we^(29/27). N.
/// Note     b_m 1.1 cylindrical and tapered, 1.15 spherical.
/// Source   iso-281-2007, 7.1
[[nodiscard]] double roller_rating_N(const RollerSet& set, double b_m);

}  // namespace caseload::iso_281
