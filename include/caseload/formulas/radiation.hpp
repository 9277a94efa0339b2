// SPDX-License-Identifier: MIT
// Radiation of a grey body to large surroundings.
#pragma once

namespace caseload::radiation {

struct Pair {
    double surface_degC;
    double surroundings_degC;
};

/// Radiative coefficient h = eps sigma (T_s + T_r)(T_s^2 + T_r^2), sigma 5.670374e-8 W/(m2 K4)
/// (CODATA 2018).
///
/// Range    emissivity 0 to 1; temperatures -100 to 1000 degC.
/// Source   incropera-6e, 1.9
[[nodiscard]] double coefficient_Wpm2K(double emissivity, const Pair& pair);

}  // namespace caseload::radiation
