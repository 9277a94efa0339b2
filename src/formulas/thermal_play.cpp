// SPDX-License-Identifier: MIT
#include "caseload/formulas/thermal_play.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/thick_ring.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::thermal_play {

double outgrowth(const Expansion& expansion) {
    for (const double temp_degC : {expansion.housing_degC, expansion.steel_degC})
        require_within(temp_degC, {-100, 300}, "temp_degC");
    for (const double coefficient : {expansion.housing_pK, expansion.steel_pK})
        require_within(coefficient, {0, 1e-3}, "expansion_pK");
    return expansion.housing_pK * (expansion.housing_degC - thick_ring::reference_degC) -
           expansion.steel_pK * (expansion.steel_degC - thick_ring::reference_degC);
}

double axial_travel_mm(const Expansion& expansion, double span_mm) {
    require_not_negative(span_mm, "span_mm");
    return outgrowth(expansion) * span_mm;
}

double end_play_change_mm(const Expansion& expansion, Pair pair, double span_mm) {
    const double travel_mm = axial_travel_mm(expansion, span_mm);
    return pair == Pair::thick_ends_in ? travel_mm : -travel_mm;
}

double backlash_change_mm(const Expansion& expansion, const Mesh& mesh) {
    require_positive(mesh.centre_distance_mm, "centre_distance_mm");
    require_within(mesh.alpha_w_deg, {5, 45}, "alpha_w_deg");
    return 2 * mesh.centre_distance_mm * std::tan(rad_from_deg(mesh.alpha_w_deg)) *
           outgrowth(expansion);
}

}  // namespace caseload::thermal_play
