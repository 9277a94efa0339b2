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
[[nodiscard]] double nusselt_body(const Stream& stream);

/// Laminar plate, mean. Nu = 0.664 Re^0.5 Pr^(1/3), Re < 5e5.
/// Source   incropera-6e, 7.2
[[nodiscard]] double nusselt_plate_laminar(const Stream& stream);

/// Plate with the boundary layer turning at Re = 5e5, mean. Nu = (0.037 Re^0.8 - 871) Pr^(1/3).
///
/// Range    5e5 to 1e8; below 5e5 it is not this law and throws.
/// Source   incropera-6e, 7.2.3
[[nodiscard]] double nusselt_plate_mixed(const Stream& stream);

/// Plate turbulent from its leading edge. Nu = 0.037 Re^0.8 Pr^(1/3); from memory.
/// Source   incropera-6e, 7.2.2
[[nodiscard]] double nusselt_plate_turbulent(const Stream& stream);

/// Cylinder across a stream.
///
///     Nu = 0.3 + 0.62 Re^0.5 Pr^(1/3) (1 + (0.4/Pr)^(2/3))^-0.25 (1 + (Re/282000)^(5/8))^0.8
///
/// Range    Re Pr > 0.2.
/// Note     a lower bound by its authors; a quiet stream.
/// Source   churchill-bernstein-1977, eq-1
[[nodiscard]] double nusselt_cylinder(const Stream& stream);

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

/// Vertical face, Ra < 1e9. Nu = 0.68 + 0.670 Ra^0.25 / (1 + (0.492/Pr)^(9/16))^(4/9).
/// Source   churchill-chu-1975, vertical-laminar
[[nodiscard]] double nusselt_vertical_laminar(const Buoyant& flow);

/// Hot face up (length = area / perimeter). 0.54 Ra^0.25 to 1e7, 0.15 Ra^(1/3) above.
/// Note     steps up by 6 % at 1e7; the top of a case lies below it.
/// Source   mcadams-1954, hot-up
[[nodiscard]] double nusselt_hot_face_up(double Ra);

/// Hot face down, older form of the textbooks. Nu = 0.27 Ra^0.25.
/// Source   mcadams-1954, hot-down
[[nodiscard]] double nusselt_hot_face_down_mcadams(double Ra);

/// Hot face down. Nu = 0.52 Ra^0.2; from memory of a later edition.
/// Note     on a case the film over all faces differs by 1 % between the two forms.
/// Source   incropera-7e, 9.6.2
[[nodiscard]] double nusselt_hot_face_down(double Ra);

/// Long horizontal cylinder, length = diameter.
///
///     Nu = (0.60 + 0.387 Ra^(1/6) / (1 + (0.559/Pr)^(9/16))^(8/27))^2
///
/// Range    Ra < 1e12.
/// Note     this and the two below are references to check the faces against, not used for heat.
/// Source   churchill-chu-1975, cylinder
[[nodiscard]] double nusselt_horizontal_cylinder(const Buoyant& flow);

/// Whole cube, length = half bottom + side + half top: twice its edge. Nu = 0.52 Ra^0.25.
/// Source   holman-9e, cube
[[nodiscard]] double nusselt_cube(double Ra);

/// Whole sphere, length = diameter.
///
///     Nu = 2 + 0.589 Ra^0.25 / D^(4/9) (1 + 7.44e-8 Ra / D^(16/9))^(1/12),  D = 1 +
///     (0.469/Pr)^(9/16)
///
/// Source   churchill-1983, sphere
[[nodiscard]] double nusselt_sphere_natural(const Buoyant& flow);

}  // namespace caseload::convection
