// SPDX-License-Identifier: MIT
#include "caseload/formulas/box_film.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/convection.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::box_film {
namespace {

using us_standard_atmosphere::Air;

constexpr double least_difference_K = 1e-6;

Air film(const FilmState& state) {
    return us_standard_atmosphere::air(
        {.temp_degC = (state.surface_degC + state.air_degC) / 2, .pressure_Pa = state.pressure_Pa});
}

double forced(const Box& box, double speed_mps, const Air& air) {
    require_not_negative(speed_mps, "speed_mps");
    if (speed_mps == 0) return 0;
    const double length_m = streamed_length_m(box);
    return convection::nusselt_body({.Re = speed_mps * length_m / air.nu_m2ps, .Pr = air.Pr}) *
           air.k_WpmK / length_m;
}

double natural(const Box& box, double difference_K, const Air& air) {
    const double Ra_per_m3 =
        convection::rayleigh({.beta_1pK = air.beta_1pK,
                              .difference_K = std::max(std::fabs(difference_K), least_difference_K),
                              .length_m = 1,
                              .nu_m2ps = air.nu_m2ps,
                              .alpha_m2ps = air.k_WpmK / (air.density_kgpm3 * air.cp_JpkgK)});
    const double side_m2 = 2 * (box.along_m + box.across_m) * box.high_m;
    const double flat_m2 = box.along_m * box.across_m;
    const double flat_m = flat_m2 / (2 * (box.along_m + box.across_m));
    const auto cube = [](double x) { return x * x * x; };
    const double side =
        convection::nusselt_vertical({.Ra = Ra_per_m3 * cube(box.high_m), .Pr = air.Pr}) /
        box.high_m;
    const double Ra_flat = Ra_per_m3 * cube(flat_m);
    const double top = convection::nusselt_hot_face_up(Ra_flat) / flat_m;
    const double bottom = convection::nusselt_hot_face_down(Ra_flat) / flat_m;
    return air.k_WpmK * (side_m2 * side + flat_m2 * (top + bottom)) / area_m2(box);
}

}  // namespace

double area_m2(const Box& box) {
    require_positive(box.along_m, "along_m");
    require_positive(box.across_m, "across_m");
    require_positive(box.high_m, "high_m");
    return 2 * (box.along_m * box.across_m + box.along_m * box.high_m + box.across_m * box.high_m);
}

double streamed_length_m(const Box& box) {
    return area_m2(box) / (2 * (box.across_m + box.high_m));
}

double mixed_Wpm2K(const Box& box, const FilmState& state) {
    const Air air = film(state);
    const double h_F = forced(box, state.speed_mps, air);
    const double h_N = natural(box, state.surface_degC - state.air_degC, air);
    return std::cbrt(h_F * h_F * h_F + h_N * h_N * h_N);
}

}  // namespace caseload::box_film
