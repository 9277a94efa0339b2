// SPDX-License-Identifier: MIT
// Air and oil squeezed out of closing tooth spaces: an estimate good to a factor of 3.
#pragma once

namespace caseload::pocketing {

/// Face widths up to this many modules let the space empty without loss worth counting; from the
/// second on all of it counts. Judgement, in the middle of 6 modules.
inline constexpr double least_width_modules = 5;
inline constexpr double full_width_modules = 7;

struct Squeeze {
    int z_1;
    double n_1_rpm;
    double module_mm;
    double face_width_mm;
    double pitch_speed_mps;
    double density_kgpm3;      ///< of the mist
    double overlap_ratio = 0;  ///< eps_beta: from 1 on a space is never closed over its whole width
};

/// Power to squeeze the tooth spaces of a wide mesh.
///
///     v_ex = 0.143 (b/m) v <= 250 m/s;  Q = 2 z_1 n_1/60 (2.8 m^2 b)
///     P = (1 - min(eps_beta, 1)) ((b/m - 5)/2 from 0 to 1) Q rho v_ex^2 / 2
///
/// Range    n_1, v and overlap >= 0, all else > 0.
/// Note     derived here: space 3.5 m^2, 80 % closed over 5.6 m of arc. Band 0.3 to 3. How it comes
///          in with the width and goes with the helix is judgement.
/// Source   pocketing-estimate, derived
[[nodiscard]] double power_W(const Squeeze& squeeze);

}  // namespace caseload::pocketing
