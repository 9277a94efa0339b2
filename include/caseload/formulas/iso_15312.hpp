// SPDX-License-Identifier: MIT
// ISO 15312: thermal speed rating, the speed at which a bearing in an oil bath, 70 degC in a room
// of 20 degC and lightly loaded, makes as much heat as its seats carry away. Scope seen, all
// numbers from memory without an independent test.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

#include <optional>
#include <string_view>

namespace caseload::iso_15312 {

/// Viscosity at 70 degC and load share of C0 under which radial bearings are rated.
inline constexpr double reference_nu_mm2ps = 12;
inline constexpr double reference_load_share = 0.05;

struct Factors {
    double f_0r;
    double f_1r;
};

/// Friction factors of the standard's table by dimension series ("10", "02", "22", ..); nothing for
/// a series outside it. Thin deep groove bearings ("thin") as series 18, 160 as 10.
///
/// Source   iso-15312-2018, table-factors
[[nodiscard]] std::optional<Factors> factors(BearingKind kind, std::string_view series);

struct Boundary {
    double bore_mm;
    double outside_mm;
    double width_mm;  ///< tapered: overall width T
};

/// Surface that carries heat away: pi B (D + d), mm2.
/// Source   iso-15312-2018, surface
[[nodiscard]] double reference_surface_mm2(const Boundary& boundary);

/// Heat carried away by a reference surface: 0.016 W/mm2; above 50 000 mm2
/// 0.016 (A / 50 000)^-0.34 W/mm2.
/// Source   iso-15312-2018, heat
[[nodiscard]] double reference_heat_W(double surface_mm2);

struct Rated {
    Boundary boundary;
    double C_0_N;  ///< ISO 76 basis
};

/// Thermal speed rating: the n at which Palmgren's friction under reference conditions equals the
/// reference heat.
///
///     pi n/30000 (1e-7 f_0r (nu_r n)^(2/3) d_m^3 + f_1r 0.05 C0 d_m) = q_r A_r
///
/// Range    all > 0. Not for thrust bearings.
/// Source   iso-15312-2018, rating
[[nodiscard]] double thermal_speed_rpm(const Rated& bearing, const Factors& friction);

}  // namespace caseload::iso_15312
