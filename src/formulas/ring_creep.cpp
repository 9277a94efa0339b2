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

bool goes_round(const RingLoad& load) {
    return load.F_rot_N > 0 && load.F_rot_N >= load.F_0_N;
}

double swing_deg(const RingLoad& load) {
    if (load.F_rot_N <= 0) return 0;
    if (goes_round(load)) return 180;
    return deg_from_rad(std::asin(load.F_rot_N / load.F_0_N));
}

double rolling_mm(const RingLoad& load, double gap_mm) {
    return goes_round(load) ? 2 * pi * gap_mm : 0;
}

double walking_mm(double slip_margin, double D_mm) {
    return (slip_margin < 1 ? slipping_share : walk_share) * pi * D_mm;
}

double wear_um(const Bore& bore, double F_N, double way_m) {
    require_positive(bore.D_mm * bore.B_mm, "D_mm B_mm");
    return um_from_mm(wear_mm3pNm * F_N * way_m / (bore.D_mm * bore.B_mm));
}

double loosening_mm(const InnerRing& ring, double F_r_N) {
    require_positive(ring.d_mm, "d_mm");
    require_positive(ring.B_mm, "B_mm");
    require_positive(ring.C_0_N, "C_0_N");
    require_not_negative(F_r_N, "F_r_N");
    // From memory, as is the share of C_0 above which the second form counts.
    constexpr double loosening = 0.08e-3;
    constexpr double loosening_heavy = 0.02e-3;
    constexpr double heavy_share = 0.2;
    const double by_load_mm = loosening * std::sqrt(ring.d_mm * F_r_N / ring.B_mm);
    if (F_r_N > heavy_share * ring.C_0_N)
        return std::max(by_load_mm, loosening_heavy * F_r_N / ring.B_mm);
    return by_load_mm;
}

double effective_fit_mm(const InnerRing& ring, double F_r_N) {
    require_positive(ring.d_mm, "d_mm");
    constexpr double roughness_mm = 2;  // ground, from memory
    constexpr double steel_pK = 12e-6;
    const double pressed_mm = ring.interference_mm > 0
                                  ? ring.interference_mm * ring.d_mm / (ring.d_mm + roughness_mm)
                                  : ring.interference_mm;
    return pressed_mm - loosening_mm(ring, F_r_N) - steel_pK * ring.d_mm * ring.warmer_K;
}

double inner_rolling_mm(double effective_fit_mm) {
    return pi * std::max(-effective_fit_mm, 0.0);
}

}  // namespace caseload::ring_creep
