// SPDX-License-Identifier: MIT
// Textbook guides for choosing a bearing: order of magnitude, from memory (Roloff/Matek; Harris).
// To warn with, not to refuse with.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

namespace caseload::bearing_guides {

/// Oil jet with cooler: the bath figures times 1.5; to 2 in books.
inline constexpr double jet_factor = 1.5;

/// Usual limit of speed times mean diameter, n d_m in r/min mm, in an oil bath, normal precision:
/// the upper end of the books' range.
///
/// Note     cylindrical with cage; angular contact 25 to 40 deg.
/// Source   bearing-practice, speed-parameter
[[nodiscard]] double speed_parameter_mmrpm(BearingKind kind);

/// Least static safety C0/P0 under shock: ball 1.5, roller 3.
/// Source   iso-76-2006, static-safety
[[nodiscard]] double static_safety(BearingKind kind);

/// Load below which rolling elements may skid, as a share of C: ball 0.01, roller with cage 0.02.
/// Source   bearing-practice, minimum-load
[[nodiscard]] double least_load_share(BearingKind kind);

}  // namespace caseload::bearing_guides
