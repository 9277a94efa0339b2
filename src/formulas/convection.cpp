// SPDX-License-Identifier: MIT
#include "caseload/formulas/convection.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "formulas/fourth_root.hpp"

#include <cmath>

namespace caseload::convection {
namespace {

void check(const Stream& stream) {
    require_positive(stream.Re, "Re");
    require_positive(stream.Pr, "Pr");
}

void check(const Buoyant& flow) {
    require_positive(flow.Ra, "Ra");
    require_positive(flow.Pr, "Pr");
}

/// 1 + (a/Pr)^(9/16), common to all of Churchill's forms.
double prandtl_term(double a, const Buoyant& flow) {
    return 1 + std::pow(a / flow.Pr, 9.0 / 16);
}

double fourth_power(double x) {
    return (x * x) * (x * x);
}

}  // namespace

double nusselt_plate_laminar(const Stream& stream) {
    check(stream);
    return 0.664 * std::sqrt(stream.Re) * std::cbrt(stream.Pr);
}

double nusselt_plate_mixed(const Stream& stream) {
    check(stream);
    require_within(stream.Re, {5e5, 1e8}, "Re");
    return (0.037 * std::pow(stream.Re, 0.8) - 871) * std::cbrt(stream.Pr);
}

double nusselt_plate_turbulent(const Stream& stream) {
    check(stream);
    return 0.037 * std::pow(stream.Re, 0.8) * std::cbrt(stream.Pr);
}

double nusselt_body(const Stream& stream) {
    check(stream);
    // Powers share their parts: this and nusselt_vertical are most of the time of a heat balance.
    const double Re_tenth = std::pow(stream.Re, 0.1);
    const double Re_0_8 = fourth_power(Re_tenth * Re_tenth);
    const double Pr_third = std::cbrt(stream.Pr);
    const double laminar = 0.664 * std::sqrt(stream.Re) * Pr_third;
    const double turbulent =
        0.037 * Re_0_8 * stream.Pr / (1 + 2.443 / Re_tenth * (Pr_third * Pr_third - 1));
    return 0.3 + std::sqrt(laminar * laminar + turbulent * turbulent);
}

double nusselt_cylinder(const Stream& stream) {
    check(stream);
    require_within(stream.Re * stream.Pr, {0.2, 1e9}, "Re Pr");
    return 0.3 + 0.62 * std::sqrt(stream.Re) * std::cbrt(stream.Pr) *
                     std::pow(1 + std::pow(0.4 / stream.Pr, 2.0 / 3), -0.25) *
                     std::pow(1 + std::pow(stream.Re / 282000, 5.0 / 8), 0.8);
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
    check(flow);
    const double root =
        0.825 + 0.387 * std::pow(flow.Ra, 1.0 / 6) / std::pow(prandtl_term(0.492, flow), 8.0 / 27);
    return root * root;
}

double nusselt_vertical_laminar(const Buoyant& flow) {
    check(flow);
    return 0.68 + 0.670 * fourth_root(flow.Ra) / std::pow(prandtl_term(0.492, flow), 4.0 / 9);
}

double nusselt_hot_face_up(double Ra) {
    require_positive(Ra, "Ra");
    return Ra <= 1e7 ? 0.54 * fourth_root(Ra) : 0.15 * std::cbrt(Ra);
}

double nusselt_hot_face_down_mcadams(double Ra) {
    require_positive(Ra, "Ra");
    return 0.27 * fourth_root(Ra);
}

double nusselt_hot_face_down(double Ra) {
    require_positive(Ra, "Ra");
    return 0.52 * std::pow(Ra, 0.2);
}

double nusselt_horizontal_cylinder(const Buoyant& flow) {
    check(flow);
    const double root =
        0.60 + 0.387 * std::pow(flow.Ra, 1.0 / 6) / std::pow(prandtl_term(0.559, flow), 8.0 / 27);
    return root * root;
}

double nusselt_cube(double Ra) {
    require_positive(Ra, "Ra");
    return 0.52 * fourth_root(Ra);
}

double nusselt_sphere_natural(const Buoyant& flow) {
    check(flow);
    const double D = prandtl_term(0.469, flow);
    return 2 + 0.589 * fourth_root(flow.Ra) / std::pow(D, 4.0 / 9) *
                   std::pow(1 + 7.44e-8 * flow.Ra / std::pow(D, 16.0 / 9), 1.0 / 12);
}

}  // namespace caseload::convection
