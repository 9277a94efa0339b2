// SPDX-License-Identifier: MIT
#include "caseload/formulas/pocketing.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>

namespace caseload::pocketing {

double power_W(const Squeeze& squeeze) {
    require_positive(squeeze.z_1, "z_1");
    require_not_negative(squeeze.n_1_rpm, "n_1_rpm");
    require_positive(squeeze.module_mm, "module_mm");
    require_positive(squeeze.face_width_mm, "face_width_mm");
    require_not_negative(squeeze.pitch_speed_mps, "pitch_speed_mps");
    require_positive(squeeze.density_kgpm3, "density_kgpm3");
    require_not_negative(squeeze.overlap_ratio, "overlap_ratio");
    constexpr double largest_exit_mps = 250;  // compressible above
    const double slenderness = squeeze.face_width_mm / squeeze.module_mm;
    const double counted =
        (1 - std::min(squeeze.overlap_ratio, 1.0)) *
        std::clamp((slenderness - least_width_modules) / (full_width_modules - least_width_modules),
                   0.0, 1.0);
    const double exit_mps =
        std::min(0.143 * slenderness * squeeze.pitch_speed_mps, largest_exit_mps);
    const double closed_m3 =
        m3_from_mm3(2.8 * squeeze.module_mm * squeeze.module_mm * squeeze.face_width_mm);
    const double spaces_ps = 2 * squeeze.z_1 * squeeze.n_1_rpm / s_from_min(1);
    return counted * spaces_ps * closed_m3 * squeeze.density_kgpm3 * exit_mps * exit_mps / 2;
}

}  // namespace caseload::pocketing
