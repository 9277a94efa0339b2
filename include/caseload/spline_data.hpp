// SPDX-License-Identifier: MIT
// What a spline is calculated with: entered, else by its fit.
#pragma once

#include "caseload/model.hpp"

namespace caseload {

/// Part of a spline's module that its teeth have in contact: 0.8 to 1.0, judgement.
inline constexpr double spline_height_modules = 0.9;
/// A bore of more than this share of the root circle leaves no wall. Judgement.
inline constexpr double most_bore_share = 0.95;

inline spline_strength::Teeth teeth_of(const SplineInput& spline) {
    const double module_mm = spline.pitch_diameter_mm / spline.teeth;
    return {spline.teeth, spline.pitch_diameter_mm, spline.length_mm,
            spline.height_mm.value_or(spline_height_modules * module_mm)};
}

/// Slip joints are turned from bar and hardened through; hubs of drop gears are case-hardened with
/// their teeth. Judgement.
inline SplineHardness hardness_of(const SplineInput& spline) {
    return spline.hardness.value_or(spline.fit == SplineFit::sliding ? SplineHardness::soft
                                                                     : SplineHardness::case_hard);
}

/// 1 mm/m piloted; 4 (2 to 8) for a gear that slides on by hand; 2 (1 to 4) for a slip joint.
/// Judgement.
inline double misalignment_mmpm(const SplineInput& spline) {
    switch (spline.fit) {
        case SplineFit::piloted:
            return spline.misalignment_mmpm.value_or(1);
        case SplineFit::loose:
            return spline.misalignment_mmpm.value_or(4);
        case SplineFit::sliding:
            return spline.misalignment_mmpm.value_or(2);
    }
    return 4;
}

}  // namespace caseload
