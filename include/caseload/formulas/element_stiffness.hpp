// SPDX-License-Identifier: MIT
// How one rolling element gives way between its two raceways: Q = K_n delta^n. Rings are rigid but
// for the contacts.
#pragma once

#include "caseload/formulas/bearing_kind.hpp"

namespace caseload::element_stiffness {

enum class Contact { ball, roller };

constexpr Contact contact_of(BearingKind kind) {
    return is_ball(kind) ? Contact::ball : Contact::roller;
}

/// Exponent n of Q = K_n delta^n: 3/2 ball (Hertz), 10/9 roller.
/// Source   harris-4e, ch7-exponent
[[nodiscard]] double exponent(Contact contact);

struct Element {
    Contact contact;
    double D_w_mm;   ///< ball or mean roller diameter
    double L_we_mm;  ///< of a roller; not used for balls
};
/// Stiffness K_n of an element between both raceways, N/mm^n: roller 35948 L_we^(8/9), ball
/// 97190 sqrt(D_w).
///
/// Note     roller: c_L of ISO/TS 16281, from memory; Palmgren's line contact taken twice gives
///          3.8 % more. Ball: Hertz's point contact in grooves of 0.52 and 0.53 D_w, E 207 GPa,
///          derived, within 0.1 % for D_w / D_pw from 0.11 to 0.20.
/// Source   iso-ts-16281, stiffness
[[nodiscard]] double K_n(const Element& element);

}  // namespace caseload::element_stiffness
