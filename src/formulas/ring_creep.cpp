// SPDX-License-Identifier: MIT
#include "caseload/formulas/ring_creep.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::ring_creep {

double slip_margin(const RingLoad& load, double D_mm, double M_Nmm) {
    require_positive(D_mm, "D_mm");
    require_positive(M_Nmm, "M_Nmm");
    return friction * std::max(load.F_0_N - load.F_rot_N, 0.0) * D_mm / (2 * M_Nmm);
}

double swing_deg(const RingLoad& load) {
    if (load.F_rot_N <= 0) return 0;
    if (load.F_rot_N >= load.F_0_N) return 180;
    return deg_from_rad(std::asin(load.F_rot_N / load.F_0_N));
}

double rolling_mm(const RingLoad& load, double gap_mm) {
    return load.F_rot_N > 0 && load.F_rot_N >= load.F_0_N ? 2 * pi * gap_mm : 0;
}

double walking_mm(double slip_margin, double D_mm) {
    return (slip_margin < 1 ? slipping_share : walk_share) * pi * D_mm;
}

double wear_um(const Bore& bore, double F_N, double way_m) {
    require_positive(bore.D_mm * bore.B_mm, "D_mm B_mm");
    return um_from_mm(wear_mm3pNm * F_N * way_m / (bore.D_mm * bore.B_mm));
}

}  // namespace caseload::ring_creep
