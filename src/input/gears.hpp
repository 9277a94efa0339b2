// SPDX-License-Identifier: MIT
// What the reader and the chain calculate of the gears alike.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/model.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace caseload::input {

/// Gear steel. Source: the density the steel mass of a shaft assembly is estimated with; handbook
/// value for case-hardening steel 7830 kg/m3, from memory.
inline constexpr double steel_density_kgpm3 = 7830;
/// Shafts, hubs and bearings beside the gear discs. Judgement: a fifth of the discs' mass.
inline constexpr double steel_over_discs = 1.2;

inline constexpr std::string_view profile_shift_key = "gears.profile_shift";
inline constexpr std::string_view tip_diameter_key = "gears.tip_diameter";

/// What is entered of how the gears with these teeth were cut: the list in their order, empty where
/// nothing is. It belongs to the gears it was entered for, whichever way round they sit.
struct CutGears {
    std::vector<double> shifts;  ///< as entered, or as the tips say
    std::vector<double> tips_mm;
};
[[nodiscard]] CutGears cut_gears(const Setup& setup, const std::vector<int>& teeth);

/// One mesh of gears with these teeth: as they were cut, else both with half of the sum of shifts,
/// as either may drive. Throws Error{domain} as iso_21771::pair does.
[[nodiscard]] iso_21771::Pair mesh_pair(const Setup& setup, const std::vector<int>& teeth,
                                        std::size_t mesh);

/// Between the shafts of a mesh.
[[nodiscard]] double mesh_distance_mm(const Setup& setup, std::size_t mesh);

/// "33/41".
[[nodiscard]] std::string teeth_words(const std::vector<int>& teeth);

/// What is said where gears.profile_shift or gears.tip_diameter does not hold for these teeth.
[[nodiscard]] std::string not_as_cut_words(const CutInput& cut, const std::vector<int>& teeth);

/// A pair of these gears on this centre distance. Either may drive: both carry the same shift.
[[nodiscard]] iso_21771::PairInput pair_input(const Setup& setup, int z_1, int z_2,
                                              double centre_mm);

}  // namespace caseload::input
