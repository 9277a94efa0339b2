// SPDX-License-Identifier: MIT
// What the reader and the chain calculate of the gears alike.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/model.hpp"

namespace caseload::input {

/// Gear steel. Source: the density the steel mass of a shaft assembly is estimated with; handbook
/// value for case-hardening steel 7830 kg/m3, from memory.
inline constexpr double steel_density_kgpm3 = 7830;
/// Shafts, hubs and bearings beside the gear discs. Judgement: a fifth of the discs' mass.
inline constexpr double steel_over_discs = 1.2;

/// A pair of these gears on this centre distance. Either may drive: both carry the same shift.
[[nodiscard]] iso_21771::PairInput pair_input(const Setup& setup, int z_1, int z_2,
                                              double centre_mm);

}  // namespace caseload::input
