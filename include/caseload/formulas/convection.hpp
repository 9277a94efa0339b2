// SPDX-License-Identifier: MIT
// Convection correlations, Nusselt number from Reynolds or Rayleigh and Prandtl number.
#pragma once

namespace caseload::convection {

struct Stream {
    double Re;
    double Pr;
};

struct Buoyant {
    double Ra;
    double Pr;
};

/// Body in a stream with the turbulence of an underbody; length = area / circumference of the
/// projection.
///
///     Nu = 0.3 + sqrt(Nu_lam^2 + Nu_turb^2)
///     Nu_lam = 0.664 Re^0.5 Pr^(1/3),  Nu_turb = 0.037 Re^0.8 Pr / (1 + 2.443 Re^-0.1 (Pr^(2/3) - 1))
///
/// Range    10 < Re < 1e7.
/// Source   gnielinski-1975, single-bodies
[[nodiscard]] double nusselt_body(const Stream& stream);

/// Laminar plate. Nu = 0.664 Re^0.5 Pr^(1/3).
/// Source   incropera-6e, 7.2
[[nodiscard]] double nusselt_plate_laminar(const Stream& stream);

/// Plate with the boundary layer turning at Re = 5e5. Nu = (0.037 Re^0.8 - 871) Pr^(1/3).
/// Source   incropera-6e, 7.2.3
[[nodiscard]] double nusselt_plate_mixed(const Stream& stream);

/// Cylinder across a stream.
///
///     Nu = 0.3 + 0.62 Re^0.5 Pr^(1/3) (1 + (0.4/Pr)^(2/3))^-0.25 (1 + (Re/282000)^(5/8))^0.8
///
/// Source   churchill-bernstein-1977, eq-1
[[nodiscard]] double nusselt_cylinder(const Stream& stream);

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
/// Source   mcadams-1954, hot-up
[[nodiscard]] double nusselt_hot_face_up(double Ra);

/// Hot face down, older form of the textbooks. Nu = 0.27 Ra^0.25.
/// Source   mcadams-1954, hot-down
[[nodiscard]] double nusselt_hot_face_down_mcadams(double Ra);

/// Hot face down. Nu = 0.52 Ra^0.2; from memory of a later edition; differs by < 1 % here.
/// Source   incropera-7e, 9.6.2
[[nodiscard]] double nusselt_hot_face_down(double Ra);

}  // namespace caseload::convection
