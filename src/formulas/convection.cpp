// SPDX-License-Identifier: MIT
#include "caseload/formulas/convection.hpp"

#include "caseload/error.hpp"

#include <cmath>

namespace caseload::convection {
namespace {

void check(const Stream& stream) {
    require_positive(stream.Re, "Re");
    require_positive(stream.Pr, "Pr");
}

}  // namespace

double nusselt_plate_laminar(const Stream& stream) {
    check(stream);
    return 0.664 * std::sqrt(stream.Re) * std::cbrt(stream.Pr);
}

double nusselt_plate_mixed(const Stream& stream) {
    check(stream);
    return (0.037 * std::pow(stream.Re, 0.8) - 871) * std::cbrt(stream.Pr);
}

double nusselt_body(const Stream& stream) {
    const double laminar = nusselt_plate_laminar(stream);
    const double turbulent =
        0.037 * std::pow(stream.Re, 0.8) * stream.Pr /
        (1 + 2.443 * std::pow(stream.Re, -0.1) * (std::pow(stream.Pr, 2.0 / 3) - 1));
    return 0.3 + std::hypot(laminar, turbulent);
}

double nusselt_cylinder(const Stream& stream) {
    check(stream);
    return 0.3 + 0.62 * std::sqrt(stream.Re) * std::cbrt(stream.Pr) *
                     std::pow(1 + std::pow(0.4 / stream.Pr, 2.0 / 3), -0.25) *
                     std::pow(1 + std::pow(stream.Re / 282000, 5.0 / 8), 0.8);
}

double nusselt_vertical(const Buoyant& flow) {
    const double root = 0.825 + 0.387 * std::pow(flow.Ra, 1.0 / 6) /
                                    std::pow(1 + std::pow(0.492 / flow.Pr, 9.0 / 16), 8.0 / 27);
    return root * root;
}

double nusselt_vertical_laminar(const Buoyant& flow) {
    return 0.68 + 0.670 * std::pow(flow.Ra, 0.25) /
                      std::pow(1 + std::pow(0.492 / flow.Pr, 9.0 / 16), 4.0 / 9);
}

double nusselt_hot_face_up(double Ra) {
    return Ra <= 1e7 ? 0.54 * std::pow(Ra, 0.25) : 0.15 * std::cbrt(Ra);
}

double nusselt_hot_face_down_mcadams(double Ra) { return 0.27 * std::pow(Ra, 0.25); }

double nusselt_hot_face_down(double Ra) { return 0.52 * std::pow(Ra, 0.2); }

}  // namespace caseload::convection
