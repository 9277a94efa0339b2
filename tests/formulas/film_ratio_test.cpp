// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py.
#include "caseload/formulas/film_ratio.hpp"

#include "caseload/error.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::film_ratio {

namespace {

/// 36/44, 600 N m, 7000 r/min.
Line reference_line() {
    const iso_21771::Pair pair = gear_pairs::reference();
    return pitch_contact(
        pair, {.F_bt_N = 600 / m_from_mm(pair.d_b1_mm / 2), .face_width_mm = 45, .n_1_rpm = 7000});
}

/// Spur test rig: 40/40, module 2.3185, 28 deg on 91.5 mm, 413 N m, 6000 r/min.
Line rig_line() {
    iso_21771::PairInput in = gear_pairs::spur(40, 40, 26.7);
    in.module_mm = 2.3185;
    in.pressure_angle_rad = rad_from_deg(28);
    in.centre_distance_mm = 91.5;
    const iso_21771::Pair pair = iso_21771::pair(in);
    return pitch_contact(
        pair,
        {.F_bt_N = 413 / m_from_mm(pair.d_b1_mm / 2), .face_width_mm = 26.7, .n_1_rpm = 6000});
}

Inlet inlet() {
    return {.p_H_MPa = 579,
            .slide_roll = 0.3,
            .eta_mPas = 12.5,
            .u_mps = std::sqrt(1.591 * 0.14 / 0.035 / 0.0125),
            .thinning_pK = 0.035,
            .conductivity_WpmK = 0.14};
}

}  // namespace

TEST_CASE("gold-2001 pressure-viscosity recomputed") {
    using oil_thermal::BaseOil;
    CHECK(pressure_viscosity_pGPa(BaseOil::mineral, 15) == rel(14.43069729, 1e-9));
    CHECK(pressure_viscosity_pGPa(BaseOil::synthetic, 15) == rel(10.59698267, 1e-9));
    CHECK(pressure_viscosity_pGPa(BaseOil::mineral, 1) == rel(9.904, 1e-12));
    CHECK(pressure_viscosity_pGPa(BaseOil::synthetic, 1) == rel(7.382, 1e-12));
    CHECK_THROWS_AS((void)pressure_viscosity_pGPa(BaseOil::mineral, 0), Error);
}

TEST_CASE("iso-21771 pitch-contact recomputed") {
    const Line line = reference_line();
    CHECK(line.u_mps == rel(22.56424736, 1e-9));
    CHECK(line.R_mm == rel(16.92999709, 1e-9));
    CHECK(line.w_Npmm == rel(157.6559663, 1e-9));
    const iso_21771::Pair helical = gear_pairs::helical_25();
    CHECK(pitch_contact(helical, {.F_bt_N = 6000, .face_width_mm = 60, .n_1_rpm = 1}).w_Npmm ==
          rel(100 / std::cos(helical.beta_b_rad), 1e-12));
    CHECK_THROWS_AS((void)pitch_contact(helical, {.F_bt_N = 0, .face_width_mm = 60, .n_1_rpm = 1}),
                    Error);
    CHECK_THROWS_AS((void)pitch_contact(helical, {.F_bt_N = 1, .face_width_mm = 0, .n_1_rpm = 1}),
                    Error);
    CHECK_THROWS_AS((void)pitch_contact(helical, {.F_bt_N = 1, .face_width_mm = 60, .n_1_rpm = 0}),
                    Error);
}

TEST_CASE("johnson-1985 line-contact pressure, recomputed") {
    CHECK(hertz_pressure_MPa(reference_line()) == rel(579.2282612, 1e-9));
    CHECK(hertz_pressure_MPa(rig_line()) == rel(1154.75928, 1e-9));
    CHECK_THROWS_AS((void)hertz_pressure_MPa({.w_Npmm = 0, .R_mm = 1, .u_mps = 1}), Error);
    CHECK_THROWS_AS((void)hertz_pressure_MPa({.w_Npmm = 1, .R_mm = 0, .u_mps = 1}), Error);
    CHECK_THROWS_AS((void)hertz_pressure_MPa({.w_Npmm = 1, .R_mm = 1, .u_mps = 0}), Error);
}

TEST_CASE("dowson-higginson-1966 least-film recomputed, and near a second formula") {
    const Oil oil{.eta_mPas = 12.5, .alpha_pGPa = 14};
    const double h_um = least_film_um(reference_line(), oil);
    CHECK(h_um == rel(1.045591275, 1e-9));
    CHECK(least_film_um(rig_line(), {.eta_mPas = 10.6, .alpha_pGPa = 9.68}) ==
          rel(0.3691312409, 1e-9));
    // Hamrock, lines: 1.714 R U^0.694 G^0.568 W^-0.128, from memory; within 10 %.
    const Line line = reference_line();
    const double E_Pa = 206e9 / 0.91;
    const double R_m = line.R_mm / 1000;
    const double U = 0.0125 * line.u_mps / (E_Pa * R_m);
    const double W = line.w_Npmm * 1000 / (E_Pa * R_m);
    CHECK(h_um == rel(1.714e6 * R_m * std::pow(U, 0.694) * std::pow(14e-9 * E_Pa, 0.568) *
                          std::pow(W, -0.128),
                      0.10));
    CHECK_THROWS_AS((void)least_film_um(line, {.eta_mPas = 0, .alpha_pGPa = 14}), Error);
    CHECK_THROWS_AS((void)least_film_um(line, {.eta_mPas = 12, .alpha_pGPa = 0}), Error);
    CHECK_THROWS_AS((void)least_film_um({.w_Npmm = 0, .R_mm = 1, .u_mps = 1}, oil), Error);
}

TEST_CASE("gupta-1992 inlet-shear recomputed") {
    const Line line = reference_line();
    Inlet at_pitch = inlet();
    at_pitch.p_H_MPa = hertz_pressure_MPa(line);
    at_pitch.u_mps = line.u_mps;
    at_pitch.slide_roll = 0;
    at_pitch.thinning_pK = usual_thinning_pK;
    at_pitch.conductivity_WpmK = usual_conductivity_WpmK;
    CHECK(inlet_shear(at_pitch) == rel(0.7452657355, 1e-9));
    CHECK(inlet_shear(inlet()) == rel(0.6300330553, 1e-9));
    Inlet slow = inlet();
    slow.u_mps = 0;
    CHECK(inlet_shear(slow) == 1);
    // Numerator held at 0.1: thick oil.
    Inlet cold = inlet();
    cold.eta_mPas = 1e5;
    Inlet pressed = cold;
    pressed.p_H_MPa = 2000;
    CHECK(inlet_shear(cold) == inlet_shear(pressed));
    Inlet colder = inlet();
    colder.slide_roll = 0;
    colder.p_H_MPa = 2000;
    colder.u_mps = 1;
    colder.thinning_pK = 1;
    colder.conductivity_WpmK = 1;
    colder.eta_mPas = 1e6;  // L = 1000
    CHECK(inlet_shear(colder) == rel(0.1 / (1 + 0.213 * std::pow(1000, 0.64)), 1e-12));
}

TEST_CASE("gupta-1992 inlet-shear refuses negative quantities") {
    const auto with = [](auto change) {
        Inlet in = inlet();
        change(in);
        return inlet_shear(in);
    };
    CHECK_THROWS_AS((void)with([](auto& in) { in.p_H_MPa = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& in) { in.slide_roll = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& in) { in.eta_mPas = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& in) { in.u_mps = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& in) { in.thinning_pK = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& in) { in.conductivity_WpmK = 0; }), Error);
}

TEST_CASE("gear-practice roughness rms from mean") {
    CHECK(Rq_um(0.4) == rel(0.5, 1e-12));
    CHECK_THROWS_AS((void)Rq_um(0), Error);
}

TEST_CASE("gear-practice film-ratio of both flanks") {
    CHECK(film_ratio::ratio({.h_um = 0.7792433504, .Rq_1_um = 0.5, .Rq_2_um = 0.5}) ==
          rel(1.102016515, 1e-9));
    CHECK(film_ratio::ratio({.h_um = 1, .Rq_1_um = 0.3, .Rq_2_um = 0.4}) == rel(2, 1e-12));
    CHECK(film_ratio::ratio({.h_um = 0, .Rq_1_um = 0.3, .Rq_2_um = 0.4}) == 0);
    CHECK_THROWS_AS((void)film_ratio::ratio({.h_um = -1, .Rq_1_um = 1, .Rq_2_um = 1}), Error);
    CHECK_THROWS_AS((void)film_ratio::ratio({.h_um = 1, .Rq_1_um = 0, .Rq_2_um = 1}), Error);
    CHECK_THROWS_AS((void)film_ratio::ratio({.h_um = 1, .Rq_1_um = 1, .Rq_2_um = 0}), Error);
}

}  // namespace caseload::film_ratio
