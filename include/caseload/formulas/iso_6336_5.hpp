// SPDX-License-Identifier: MIT
// ISO 6336-5: strength of gear steels, from tables/gear_materials.toml.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace caseload::iso_6336_5 {

/// Allowable stress numbers, failure probability 1 %.
struct Material {
    double sigma_Hlim_MPa;  ///< contact
    double sigma_Flim_MPa;  ///< bending, plain test piece
};

/// A steel by its name, for example "carburised-MQ". Throws Error{domain} naming the known ones.
///
/// Source   iso-6336-5, material
[[nodiscard]] Material material(std::string_view name);

/// Names of all steels, from the lowest quality to the highest.
///
/// Source   iso-6336-5, names
[[nodiscard]] std::vector<std::string> material_names();

}  // namespace caseload::iso_6336_5
