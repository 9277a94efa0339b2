// SPDX-License-Identifier: MIT
#include "caseload/formulas/statics.hpp"

#include "caseload/error.hpp"

namespace caseload::statics {

Reactions reactions(const Supports& supports, std::span<const PointLoad> loads,
                    const Couple& couple) {
    const double span_mm = supports.B_mm - supports.A_mm;
    require_positive(span_mm, "span_mm");
    double F_y_N = 0;
    double F_z_N = 0;
    double M_y_Nmm = couple.M_y_Nmm;
    double M_z_Nmm = couple.M_z_Nmm;
    for (const PointLoad& load : loads) {
        const double arm_mm = load.x_mm - supports.A_mm;
        F_y_N += load.F_y_N;
        F_z_N += load.F_z_N;
        M_y_Nmm -= arm_mm * load.F_z_N;
        M_z_Nmm += arm_mm * load.F_y_N;
    }
    Reactions r{};
    r.B_y_N = -M_z_Nmm / span_mm;
    r.B_z_N = M_y_Nmm / span_mm;
    r.A_y_N = -F_y_N - r.B_y_N;
    r.A_z_N = -F_z_N - r.B_z_N;
    return r;
}

}  // namespace caseload::statics
