// SPDX-License-Identifier: MIT
// What the housing is made of.
#pragma once

#include "caseload/formulas/thick_ring.hpp"
#include "caseload/model.hpp"

namespace caseload {

struct HousingMetal {
    double density_kgpm3;
    double specific_heat_JpkgK;
    double conductivity_WpmK;
    thick_ring::Material elastic;
};

/// Handbook values, from memory.
inline constexpr HousingMetal aluminium_metal{2700, 896, 160, thick_ring::aluminium};
/// Grey iron, textbooks, from memory.
inline constexpr HousingMetal iron_metal{7200, 460, 50, thick_ring::cast_iron};

constexpr const HousingMetal& metal_of(HousingMaterial material) {
    return material == HousingMaterial::cast_iron ? iron_metal : aluminium_metal;
}

}  // namespace caseload
