// SPDX-License-Identifier: MIT
#include "caseload/formulas/box_wall.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/radiation.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cstdint>

namespace caseload::box_wall {
namespace {

// What is left of it is left in a ledger.
constexpr double coat_tolerance_K = 1e-11;

struct Flux {
    double convection_Wpm2;
    double radiation_Wpm2;
};

Flux flux(const Outside& outside, double surface_degC) {
    const double h = box_film::mixed_Wpm2K(outside.box, {.surface_degC = surface_degC,
                                                         .air_degC = outside.air_degC,
                                                         .speed_mps = outside.speed_mps,
                                                         .pressure_Pa = outside.pressure_Pa});
    const double h_r = radiation::coefficient_Wpm2K(
        outside.emissivity,
        {.surface_degC = surface_degC, .surroundings_degC = outside.surroundings_degC});
    return {h * (surface_degC - outside.air_degC),
            h_r * (surface_degC - outside.surroundings_degC)};
}

double coat_surface_degC(const Outside& outside, double metal_degC) {
    const auto net = [&](double surface_degC) {
        const Flux out = flux(outside, surface_degC);
        return (metal_degC - surface_degC) / outside.coat_resistance_m2KpW - out.convection_Wpm2 -
               out.radiation_Wpm2;
    };
    const auto [low, high] = std::minmax({metal_degC, outside.air_degC, outside.surroundings_degC});
    if (high - low < coat_tolerance_K) return metal_degC;  // nothing flows
    std::uintmax_t iterations = 100;
    const auto close = [](double a, double b) { return b - a < coat_tolerance_K; };
    const auto [below, above] =
        boost::math::tools::toms748_solve(net, low, high, close, iterations);
    if (above - below >= coat_tolerance_K)
        throw Error(Error::Kind::convergence, "surface temperature not found in 100 steps");
    return (below + above) / 2;
}

}  // namespace

OutsideHeat outside(const Outside& outside, double metal_degC) {
    require_within(outside.coat_area_share, {0, 1}, "coat_area_share");
    require_not_negative(outside.coat_resistance_m2KpW, "coat_resistance");
    const double area_m2 = box_film::area_m2(outside.box);
    const double coated = outside.coat_resistance_m2KpW > 0 ? outside.coat_area_share : 0;
    OutsideHeat heat{0, 0, metal_degC};
    if (coated > 0) {
        heat.surface_degC = coat_surface_degC(outside, metal_degC);
        const Flux out = flux(outside, heat.surface_degC);
        heat.convection_W += coated * area_m2 * out.convection_Wpm2;
        heat.radiation_W += coated * area_m2 * out.radiation_Wpm2;
    }
    if (coated < 1) {
        const Flux out = flux(outside, metal_degC);
        heat.convection_W += (1 - coated) * area_m2 * out.convection_Wpm2;
        heat.radiation_W += (1 - coated) * area_m2 * out.radiation_Wpm2;
    }
    return heat;
}

double oil_to_metal_WpK(const Inside& inside) {
    require_positive(inside.film_Wpm2K, "film");
    require_positive(inside.wetted_m2, "wetted_m2");
    require_not_negative(inside.wall_m, "wall_m");
    require_positive(inside.conductivity_WpmK, "conductivity");
    require_positive(inside.area_m2, "area_m2");
    return 1 / (1 / (inside.film_Wpm2K * inside.wetted_m2) +
                inside.wall_m / (inside.conductivity_WpmK * inside.area_m2));
}

}  // namespace caseload::box_wall
