// SPDX-License-Identifier: MIT
// From oil through a housing's wall and a coat of dirt to the air and surroundings.
#pragma once

#include "caseload/formulas/box_film.hpp"

namespace caseload::box_wall {

struct Outside {
    box_film::Box box;
    double emissivity;
    double air_degC;
    double surroundings_degC;
    double speed_mps;
    double pressure_Pa;
    double coat_resistance_m2KpW;  ///< thickness / conductivity; 0: clean
    double coat_area_share;        ///< share of the area under the coat, 0 to 1
};

struct OutsideHeat {
    double convection_W;
    double radiation_W;
    double surface_degC;  ///< of the coat where there is one, else of the metal
};

/// Heat leaving metal at one temperature by convection and radiation, through a coat on a share of
/// the area. Clean and coated areas lie side by side, each with the box's mean film coefficient at
/// its own surface temperature; the coat's surface is solved to 1e-7 K.
/// Source   incropera-6e, 3.1
[[nodiscard]] OutsideHeat outside(const Outside& outside, double metal_degC);

struct Inside {
    double film_Wpm2K;  ///< oil to wall
    double wetted_m2;
    double wall_m;
    double conductivity_WpmK;
    double area_m2;  ///< of the wall
};

/// Conductance from oil to the outer metal surface: film and wall in series.
///
///     1 / (1/(alpha A_wet) + t/(k A))
///
/// Source   incropera-6e, 3.1.3
[[nodiscard]] double oil_to_metal_WpK(const Inside& inside);

}  // namespace caseload::box_wall
