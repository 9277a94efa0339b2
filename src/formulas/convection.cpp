// SPDX-License-Identifier: MIT
#include "caseload/formulas/convection.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "formulas/fourth_root.hpp"

#include <cmath>

namespace caseload::convection {
namespace {

double fourth_power(double x) {
    return (x * x) * (x * x);
}

}  // namespace

double nusselt_body(const Stream& stream) {
    require_positive(stream.Re, "Re");
    require_positive(stream.Pr, "Pr");
    // Powers share their parts: this and nusselt_vertical are most of the time of a heat balance.
    const double Re_tenth = std::pow(stream.Re, 0.1);
    const double Re_0_8 = fourth_power(Re_tenth * Re_tenth);
    const double Pr_third = std::cbrt(stream.Pr);
    const double laminar = 0.664 * std::sqrt(stream.Re) * Pr_third;
    const double turbulent =
        0.037 * Re_0_8 * stream.Pr / (1 + 2.443 / Re_tenth * (Pr_third * Pr_third - 1));
    return 0.3 + std::sqrt(laminar * laminar + turbulent * turbulent);
}

double rayleigh(const Plume& plume) {
    require_positive(plume.beta_1pK, "beta");
    require_positive(plume.difference_K, "difference_K");
    require_positive(plume.length_m, "length_m");
    require_positive(plume.nu_m2ps, "nu_m2ps");
    require_positive(plume.alpha_m2ps, "alpha_m2ps");
    const double L = plume.length_m;
    return g_mps2 * plume.beta_1pK * plume.difference_K * L * L * L /
           (plume.nu_m2ps * plume.alpha_m2ps);
}

double nusselt_vertical(const Buoyant& flow) {
    require_positive(flow.Ra, "Ra");
    require_positive(flow.Pr, "Pr");
    const double prandtl = 1 + std::pow(0.492 / flow.Pr, 9.0 / 16);
    const double root = 0.825 + 0.387 * std::pow(flow.Ra, 1.0 / 6) / std::pow(prandtl, 8.0 / 27);
    return root * root;
}

double nusselt_hot_face_up(double Ra) {
    require_positive(Ra, "Ra");
    return Ra <= 1e7 ? 0.54 * fourth_root(Ra) : 0.15 * std::cbrt(Ra);
}

double nusselt_hot_face_down(double Ra) {
    require_positive(Ra, "Ra");
    return 0.52 * std::pow(Ra, 0.2);
}

}  // namespace caseload::convection
