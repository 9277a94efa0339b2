// SPDX-License-Identifier: MIT
// ISO 76:2006: static load ratings. From memory; f_0 reproduces Hertz contact at 4200 MPa, the 44
// of the roller formula line contact at 4000 MPa. X0 and Y0 have no independent test.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"
#include "caseload/formulas/iso_281.hpp"
#include "caseload/formulas/iso_281_ratings.hpp"

namespace caseload::iso_76 {

/// f_0 of radial ball bearings over gamma, linear in the standard's table.
/// Range    gamma from 0 to 0.40.
/// Source   iso-76-2006, table1
[[nodiscard]] double f_0(double gamma);

/// C0 = f_0 Z D_w^2 cos a. N.
/// Note     textbook ratings from before 1987 have 12.3 for f_0: 7 to 21 % lower.
/// Source   iso-76-2006, 5.1
[[nodiscard]] double ball_rating_N(const iso_281::BallSet& set);

/// C0 = 44 (1 - D_we cos a / D_pw) Z L_we D_we cos a. N.
/// Source   iso-76-2006, 7.1
[[nodiscard]] double roller_rating_N(const iso_281::RollerSet& set);

/// Static equivalent load P0 = max(X0 F_r + Y0 F_a, F_r) of one bearing.
///
///     deep groove 0.6, 0.5;  angular contact 0.5, Y0 by angle from 15 to 45 deg: 0.46 0.42 0.38
///     0.33 0.29 0.26 0.22;  four-point 1, twice that;  tapered 0.5, 0.22 cot a;  spherical 1, 0.44
///     cot a; cylindrical 1, 0
///
/// Source   iso-76-2006, table3
[[nodiscard]] double static_equivalent_N(BearingKind kind, double contact_angle_deg,
                                         const iso_281::Load& load);

}  // namespace caseload::iso_76
