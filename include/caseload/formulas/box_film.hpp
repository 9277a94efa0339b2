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
///
/// Range    all edges > 0.
/// Source   geometry, box-area
[[nodiscard]] double area_m2(const Box& box);

/// Length for the forced film: area over the circumference 2 (across + high) of the projection.
/// Source   gnielinski-1975, length
[[nodiscard]] double streamed_length_m(const Box& box);

struct FilmState {
    double surface_degC;
    double air_degC;
    double speed_mps;  ///< of the air at the box
    double pressure_Pa;
};

/// Film of a box in a stream, air at film temperature (surface + air) / 2:
///
///     h = (h_F^3 + h_N^3)^(1/3)
///
/// recommended for assisting and transverse flow; from memory. Forced by the single-body equation;
/// natural face by face, area-weighted: four vertical faces, top and bottom.
///
/// Range    speed_mps >= 0; at 0 natural alone.
/// Note     forced -35 to +20 %; the speed of the air at the case is far less certain.
/// Note     natural: the difference is not taken below 1e-6 K. A box colder than the air gets the
///          same film: top and bottom then change places. One equation for a whole cube gives a
///          quarter less.
/// Source   incropera-6e, 9.9
/// Source   gnielinski-1975, box
/// Source   churchill-chu-1975, box
[[nodiscard]] double mixed_Wpm2K(const Box& box, const FilmState& state);

}  // namespace caseload::box_film
