// SPDX-License-Identifier: MIT
// Film coefficient between a box-shaped housing and air: forced, natural, both.
#pragma once

namespace caseload::box_film {

struct Box {
    double along_m;  ///< in the direction of the flow
    double across_m;
    double high_m;
};

/// Outside area of the box.
/// Source   geometry, box-area
[[nodiscard]] double area_m2(const Box& box);

/// Length for the forced film: area over the circumference 2 (across + high) of the projection.
/// Source   gnielinski-1975, length
[[nodiscard]] double streamed_length_m(const Box& box);

struct FilmState {
    double surface_degC;
    double air_degC;
    double speed_mps;
    double pressure_Pa;
};

/// Forced convection, single-body equation, air at film temperature.
/// Source   gnielinski-1975, box
[[nodiscard]] double forced_Wpm2K(const Box& box, const FilmState& state);

/// Natural convection, face by face, area-weighted: four vertical faces, top and bottom.
/// Note     the difference is not taken below 1e-6 K.
/// Source   churchill-chu-1975, box
[[nodiscard]] double natural_Wpm2K(const Box& box, const FilmState& state);

/// Both: h = (h_F^3 + h_N^3)^(1/3), recommended for assisting and transverse flow.
/// Source   incropera-6e, 9.9
[[nodiscard]] double mixed_Wpm2K(const Box& box, const FilmState& state);

}  // namespace caseload::box_film
