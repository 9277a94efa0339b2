// SPDX-License-Identifier: MIT
// How one rolling element gives way between its two raceways: Q = K_n delta^n. Rings are rigid but
// for the contacts.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

namespace caseload::element_stiffness {

/// Exponent n of load over approach: 3/2 of a point contact (Hertz), 10/9 of a line contact.
/// Source   bearing-practice, element-exponent
[[nodiscard]] double exponent(BearingKind kind);

struct Element {
    BearingKind kind;
    double D_w_mm;   ///< ball or mean roller diameter
    double L_we_mm;  ///< of a roller; not read for balls
};
/// Load over approach to the power n, both contacts, N/mm^n.
///
///     ball    97 190 sqrt(D_w)
///     roller  35 948 L_we^(8/9)
///
/// Note     ball: derived, Hertz with elliptic integrals, grooves of 0.52 and 0.53 D_w, steel of
///          207 GPa; 97 109 to 97 191 over D_w cos a/D_pw from 0.11 to 0.20. Roller: c_L of ISO/TS
///          16281, from memory; Palmgren's 3.84e-5 Q^0.9/L^0.8 taken twice is 3.8 % stiffer.
/// Source   bearing-practice, element-stiffness
[[nodiscard]] double K_n(const Element& element);

}  // namespace caseload::element_stiffness
