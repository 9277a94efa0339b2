// SPDX-License-Identifier: MIT
#include "caseload/formulas/prop_shaft.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::prop_shaft {

double critical_speed_rpm(const Tube& tube) {
    require_positive(tube.length_mm, "length_mm");
    require_positive(tube.outside_mm, "outside_mm");
    require_positive(tube.wall_mm, "wall_mm");
    require_within(tube.wall_mm, {0, tube.outside_mm / 2}, "wall_mm");
    const double L_m = m_from_mm(tube.length_mm);
    const double D_m = m_from_mm(tube.outside_mm);
    const double d_m = m_from_mm(tube.outside_mm - 2 * tube.wall_mm);
    // sqrt(E I / (rho A)) of a tube, with the wave number pi / L of the first shape.
    const double stiffness_m2ps =
        std::sqrt(E_steel_Pa / density_steel_kgpm3) * std::hypot(D_m, d_m) / 4;
    return rpm_from_radps(pi * pi / (L_m * L_m) * stiffness_m2ps);
}

}  // namespace caseload::prop_shaft
