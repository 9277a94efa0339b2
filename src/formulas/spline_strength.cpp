// SPDX-License-Identifier: MIT
#include "caseload/formulas/spline_strength.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::spline_strength {
namespace {

// Exact by the definitions of pound and inch.
constexpr double MPa_per_psi = 0.006894757293168361;

}  // namespace

double allowed_contact_MPa(Hardness hardness) {
    switch (hardness) {
        case Hardness::soft:
            return 3000 * MPa_per_psi;
        case Hardness::surface:
            return 4000 * MPa_per_psi;
        case Hardness::case_hard:
            return 5000 * MPa_per_psi;
    }
    return 3000 * MPa_per_psi;
}

double allowed_shear_MPa(Hardness hardness) {
    return (hardness == Hardness::case_hard ? 50000 : 40000) * MPa_per_psi;
}

double distribution_factor(const Misalignment& misalignment) {
    require_positive(misalignment.length_mm, "length_mm");
    require_within(misalignment.slope_mmpm, {0, 100}, "slope_mmpm");
    constexpr double e_1_mm = 0.1016;
    const double e_mm = misalignment.slope_mmpm * misalignment.length_mm / 1000;
    return e_mm > 0 ? std::max(1.0, 1.5 + 0.5 * std::log2(e_mm / e_1_mm)) : 1;
}

double contact_MPa(const Teeth& teeth, double torque_Nm, double K_m) {
    require_positive(teeth.count, "count");
    require_positive(teeth.pitch_diameter_mm, "pitch_diameter_mm");
    require_positive(teeth.length_mm, "length_mm");
    require_positive(teeth.height_mm, "height_mm");
    return 2000 * torque_Nm * K_m /
           (teeth.pitch_diameter_mm * teeth.count * teeth.length_mm * teeth.height_mm);
}

double wear_life_rev(double S_c_MPa, double S_w_MPa) {
    require_positive(S_c_MPa, "S_c_MPa");
    require_positive(S_w_MPa, "S_w_MPa");
    return wear_turns * std::pow(S_c_MPa / (wear_factor * S_w_MPa), -wear_exponent);
}

double root_diameter_mm(const Teeth& teeth) {
    require_positive(teeth.count, "count");
    return teeth.pitch_diameter_mm * (1 - 1.8 / teeth.count);
}

double shear_MPa(const Tube& tube, double torque_Nm) {
    require_positive(tube.root_diameter_mm, "root_diameter_mm");
    require_within(tube.bore_mm, {0, 0.99 * tube.root_diameter_mm}, "bore_mm");
    return 16e3 * torque_Nm * tube.root_diameter_mm /
           (pi * (std::pow(tube.root_diameter_mm, 4) - std::pow(tube.bore_mm, 4)));
}

}  // namespace caseload::spline_strength
