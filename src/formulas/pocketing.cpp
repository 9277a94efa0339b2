// SPDX-License-Identifier: MIT
#include "caseload/formulas/pocketing.hpp"

#include <algorithm>

namespace caseload::pocketing {

double power_W(const Squeeze& squeeze) {
    const double slenderness = squeeze.face_width_mm / squeeze.module_mm;
    if (slenderness <= 6) return 0;
    const double exit_mps = std::min(0.143 * slenderness * squeeze.pitch_speed_mps, 250.0);
    const double space_m3 =
        2.8 * squeeze.module_mm * squeeze.module_mm * squeeze.face_width_mm * 1e-9;  // mm3 to m3
    const double flow_m3ps = 2 * squeeze.z_1 * squeeze.n_1_rpm / 60 * space_m3;
    return flow_m3ps * squeeze.density_kgpm3 * exit_mps * exit_mps / 2;
}

}  // namespace caseload::pocketing
