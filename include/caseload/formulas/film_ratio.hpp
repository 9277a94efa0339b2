// SPDX-License-Identifier: MIT
// Oil film between tooth flanks at the pitch point, and its ratio to their roughness.
#pragma once

#include "caseload/formulas/iso_21771.hpp"
#include "caseload/formulas/oil_thermal.hpp"

namespace caseload::film_ratio {

/// Reduced modulus E/(1 - nu^2) of steel on steel, 206 GPa and 0.3.
inline constexpr double E_red_MPa = 206e3 / (1 - 0.3 * 0.3);

/// Pressure-viscosity coefficient.
///
///     alpha = s nu^t      mineral 9.904, 0.1390;  synthetic (polyalphaolefin) 7.382, 0.1335
///
/// Given    viscosity at the temperature of the film, mm2/s.
/// Returns  1/GPa.
/// Note     constants from memory; +-15 % mineral, +-25 % synthetic.
/// Source   gold-2001, pressure-viscosity
[[nodiscard]] double pressure_viscosity_pGPa(oil_thermal::BaseOil base, double nu_mm2ps);

/// Rolling line contact.
struct Line {
    double w_Npmm;  ///< load per length of contact
    double R_mm;    ///< reduced radius
    double u_mps;   ///< mean rolling speed
};

struct Drive {
    double F_bt_N;  ///< along the line of action, transverse
    double face_width_mm;
    double n_1_rpm;
};

/// The contact at the pitch point, whole load on one pair.
///
///     w = F_bt/(b cos b_b)      R = rho_redC      u = omega_1 r_w1 sin a_wt
///
/// Source   iso-21771, pitch-contact
[[nodiscard]] Line pitch_contact(const iso_21771::Pair& pair, const Drive& drive);

/// Pressure in the middle of the contact.
///
///     p_H = sqrt(w E' / (2 pi R))
///
/// Source   johnson-1985, line-contact
[[nodiscard]] double hertz_pressure_MPa(const Line& line);

struct Oil {
    double eta_mPas;    ///< at the temperature of the teeth
    double alpha_pGPa;  ///< pressure-viscosity coefficient
};

/// Least film thickness, isothermal.
///
///     h = 2.65 R U^0.7 G^0.54 W^-0.13      U = eta u/(E' R)    G = alpha E'    W = w/(E' R)
///
/// Range    all > 0.
/// Note     Hamrock's formula for lines is within 10 % of it here.
/// Source   dowson-higginson-1966, least-film
[[nodiscard]] double least_film_um(const Line& line, const Oil& oil);

/// Usual thinning of gear oil by heat and its conductivity (judgement, from memory).
inline constexpr double usual_thinning_pK = 0.035;
inline constexpr double usual_conductivity_WpmK = 0.14;

struct Inlet {
    double p_H_MPa;
    double slide_roll;  ///< sliding over mean rolling speed, magnitude; 0 at the pitch point
    double eta_mPas;
    double u_mps;
    double thinning_pK;        ///< -d ln eta / dT
    double conductivity_WpmK;  ///< of the oil
};

/// Part of the film left when shear heats the oil before the contact.
///
///     L = thinning eta u^2 / k
///     phi = (1 - 13.2 p_H/E' L^0.42) / (1 + 0.213 (1 + 2.23 S^0.83) L^0.64)
///
/// Note     the numerator is not taken below 0.1 (judgement): there, with thick cold oil at high
/// speed
///          and pressure, the fit has no data.
/// Source   gupta-1992, inlet-shear
[[nodiscard]] double inlet_shear(const Inlet& inlet);

/// Rms roughness from mean roughness: 1.25 times.
///
/// Source   gear-practice, roughness
[[nodiscard]] double Rq_um(double Ra_um);

struct Surfaces {
    double h_um;  ///< film
    double Rq_1_um;
    double Rq_2_um;
};

/// Film over roughness: below 0.7 flanks wear or pit in fine grain, above 2 the film separates.
///
///     lambda = h / sqrt(Rq_1^2 + Rq_2^2)
///
/// Source   gear-practice, film-ratio
[[nodiscard]] double ratio(const Surfaces& surfaces);

}  // namespace caseload::film_ratio
