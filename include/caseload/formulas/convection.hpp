// SPDX-License-Identifier: MIT
// Convection correlations, Nusselt number from Reynolds or Rayleigh and Prandtl number. Numbers
// outside a stated range are extrapolated; arguments that are not positive throw.
#pragma once

namespace caseload::convection {

struct Stream {
    double Re;
    double Pr;
};

/// Body in a stream with the turbulence of an underbody; length = area / circumference of the
/// projection.
///
///     Nu = 0.3 + sqrt(Nu_lam^2 + Nu_turb^2)
///     Nu_lam = 0.664 Re^0.5 Pr^(1/3),  Nu_turb = 0.037 Re^0.8 Pr / (1 + 2.443 Re^-0.1 (Pr^(2/3) -
///     1))
///
/// Range    10 < Re < 1e7.
/// Note     combination and range from memory. In a quiet stream a body gives 25 to 40 % less.
/// Source   gnielinski-1975, single-bodies
/// Source   incropera-6e, 7.2
[[nodiscard]] double nusselt_body(const Stream& stream);

struct Plume {
    double beta_1pK;
    double difference_K;
    double length_m;
    double nu_m2ps;
    double alpha_m2ps;  ///< thermal diffusivity
};

/// Rayleigh number g beta dT L^3 / (nu alpha).
/// Source   incropera-6e, 9.25
[[nodiscard]] double rayleigh(const Plume& plume);

struct Buoyant {
    double Ra;
    double Pr;
};

/// Vertical face, all Rayleigh numbers.
///
///     Nu = (0.825 + 0.387 Ra^(1/6) / (1 + (0.492/Pr)^(9/16))^(8/27))^2
///
/// Source   churchill-chu-1975, vertical
[[nodiscard]] double nusselt_vertical(const Buoyant& flow);

/// Hot face up (length = area / perimeter). 0.54 Ra^0.25 to 1e7, 0.15 Ra^(1/3) above.
/// Note     steps up by 6 % at 1e7; the top of a case lies below it.
/// Source   mcadams-1954, hot-up
[[nodiscard]] double nusselt_hot_face_up(double Ra);

/// Hot face down. Nu = 0.52 Ra^0.2; from memory of a later edition.
/// Note     on a case the film over all faces differs by 1 % between the two forms.
/// Source   incropera-7e, 9.6.2
[[nodiscard]] double nusselt_hot_face_down(double Ra);

}  // namespace caseload::convection
