// SPDX-License-Identifier: MIT
// The wall between oil and air alone, without the network: test only.
#pragma once

#include "caseload/formulas/box_wall.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <cstdint>

namespace settled_wall {

/// Metal at which what comes from the oil leaves outside. The oil is warmer than all around it.
inline double metal_degC(const caseload::box_wall::Outside& out, double oil_degC,
                         double oil_to_metal_WpK) {
    const auto net_W = [&](double metal_degC) {
        const auto heat = caseload::box_wall::outside(out, metal_degC);
        return oil_to_metal_WpK * (oil_degC - metal_degC) - heat.convection_W - heat.radiation_W;
    };
    std::uintmax_t steps = 100;
    return boost::math::tools::toms748_solve(net_W, out.air_degC, oil_degC,
                                             boost::math::tools::eps_tolerance<double>(45), steps)
        .first;
}

}  // namespace settled_wall
