// SPDX-License-Identifier: MIT
#include "caseload/formulas/film_ratio.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::film_ratio {
namespace {

void check(const Line& line) {
    require_positive(line.w_Npmm, "w_Npmm");
    require_positive(line.R_mm, "R_mm");
    require_positive(line.u_mps, "u_mps");
}

}  // namespace

double pressure_viscosity_pGPa(oil_thermal::BaseOil base, double nu_mm2ps) {
    require_positive(nu_mm2ps, "nu_mm2ps");
    return base == oil_thermal::BaseOil::mineral ? 9.904 * std::pow(nu_mm2ps, 0.1390)
                                                 : 7.382 * std::pow(nu_mm2ps, 0.1335);
}

Line pitch_contact(const iso_21771::Pair& pair, const Drive& drive) {
    require_positive(drive.F_bt_N, "F_bt_N");
    require_positive(drive.face_width_mm, "face_width_mm");
    require_positive(drive.n_1_rpm, "n_1_rpm");
    return {.w_Npmm = drive.F_bt_N / (drive.face_width_mm * std::cos(pair.beta_b_rad)),
            .R_mm = pair.rho_redC_mm,
            .u_mps = radps_from_rpm(drive.n_1_rpm) * m_from_mm(pair.d_w1_mm / 2) *
                     std::sin(pair.alpha_wt_rad)};
}

double hertz_pressure_MPa(const Line& line) {
    check(line);
    return std::sqrt(line.w_Npmm * E_red_MPa / (2 * pi * line.R_mm));
}

double least_film_um(const Line& line, const Oil& oil) {
    check(line);
    require_positive(oil.eta_mPas, "eta_mPas");
    require_positive(oil.alpha_pGPa, "alpha_pGPa");
    const double U =
        Pas_from_mPas(oil.eta_mPas) * line.u_mps / (Pa_from_MPa(E_red_MPa) * m_from_mm(line.R_mm));
    const double G = oil.alpha_pGPa * GPa_from_MPa(E_red_MPa);
    const double W = line.w_Npmm / (E_red_MPa * line.R_mm);
    return um_from_mm(2.65 * line.R_mm * std::pow(U, 0.7) * std::pow(G, 0.54) * std::pow(W, -0.13));
}

double inlet_shear(const Inlet& inlet) {
    require_not_negative(inlet.p_H_MPa, "p_H_MPa");
    require_not_negative(inlet.slide_roll, "slide_roll");
    require_not_negative(inlet.eta_mPas, "eta_mPas");
    require_not_negative(inlet.u_mps, "u_mps");
    require_not_negative(inlet.thinning_pK, "thinning_pK");
    require_positive(inlet.conductivity_WpmK, "conductivity_WpmK");
    const double L = inlet.thinning_pK * Pas_from_mPas(inlet.eta_mPas) * inlet.u_mps * inlet.u_mps /
                     inlet.conductivity_WpmK;
    const double left = std::max(0.1, 1 - 13.2 * inlet.p_H_MPa / E_red_MPa * std::pow(L, 0.42));
    return left / (1 + 0.213 * (1 + 2.23 * std::pow(inlet.slide_roll, 0.83)) * std::pow(L, 0.64));
}

double Rq_um(double Ra_um) {
    require_positive(Ra_um, "Ra_um");
    return 1.25 * Ra_um;
}

double ratio(const Surfaces& surfaces) {
    require_not_negative(surfaces.h_um, "h_um");
    require_positive(surfaces.Rq_1_um, "Rq_1_um");
    require_positive(surfaces.Rq_2_um, "Rq_2_um");
    return surfaces.h_um / std::hypot(surfaces.Rq_1_um, surfaces.Rq_2_um);
}

}  // namespace caseload::film_ratio
