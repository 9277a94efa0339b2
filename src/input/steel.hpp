// SPDX-License-Identifier: MIT
// Mass of gears and shafts where none is entered.
#pragma once

namespace caseload::input {

/// Gear steel. Source: the density the steel mass of a shaft assembly is estimated with; handbook
/// value for case-hardening steel 7830 kg/m3, from memory.
inline constexpr double steel_density_kgpm3 = 7830;
/// Shafts, hubs and bearings beside the gear discs. Judgement: a fifth of the discs' mass.
inline constexpr double steel_over_discs = 1.2;

}  // namespace caseload::input
