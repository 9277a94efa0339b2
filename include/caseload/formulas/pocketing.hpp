// SPDX-License-Identifier: MIT
// Air and oil squeezed out of closing tooth spaces: an estimate good to a factor of 3.
#pragma once

namespace caseload::pocketing {

/// Face widths up to this many modules let the space empty without loss worth counting. Judgement.
inline constexpr double least_width_modules = 6;

struct Squeeze {
    int z_1;
    double n_1_rpm;
    double module_mm;
    double face_width_mm;
    double pitch_speed_mps;
    double density_kgpm3;  ///< of the mist
};

/// Power to squeeze the tooth spaces of a wide spur mesh; 0 for b/m <= 6.
///
///     v_ex = 0.143 (b/m) v <= 250 m/s;  Q = 2 z_1 n_1/60 (2.8 m^2 b);  P = Q rho v_ex^2 / 2
///
/// Range    n_1 and v >= 0, all else > 0.
/// Note     derived here: space 3.5 m^2, 80 % closed over 5.6 m of arc. Band 0.3 to 3.
/// Source   pocketing-estimate, derived
[[nodiscard]] double power_W(const Squeeze& squeeze);

}  // namespace caseload::pocketing
