// SPDX-License-Identifier: MIT
#include "caseload/formulas/box_wall.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/radiation.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>

namespace caseload::box_wall {
namespace {

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
    double low = std::min({metal_degC, outside.air_degC, outside.surroundings_degC});
    double high = std::max({metal_degC, outside.air_degC, outside.surroundings_degC});
    if (high - low < 1e-7) return metal_degC;  // K: nothing flows
    std::uintmax_t iterations = 100;
    const auto close = [](double a, double b) { return std::fabs(b - a) < 1e-7; };
    const auto bracket = boost::math::tools::toms748_solve(net, low, high, close, iterations);
    return (bracket.first + bracket.second) / 2;
}

}  // namespace

OutsideHeat outside(const Outside& outside, double metal_degC) {
    require_within(outside.coat_area_share, {0, 1}, "coat_area_share");
    const double area_m2 = box_film::area_m2(outside.box);
    const double coated =
        outside.coat_resistance_m2KpW > 0 ? outside.coat_area_share : 0;
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

}  // namespace caseload::box_wall
