// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py.
#include "caseload/formulas/iso_6336_6.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_6336_2.hpp"
#include "caseload/formulas/iso_6336_3.hpp"
#include "caseload/formulas/iso_6336_5.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <array>
#include <cmath>
#include <limits>

namespace caseload::iso_6336_6 {
using iso_6336_2::no_pitting;
using iso_6336_3::root_life;

TEST_CASE("iso-6336-6 allowed-cycles inverts the life curve") {
    for (const LifeCurve curve : {LifeCurve(no_pitting), LifeCurve(root_life)}) {
        const double first = curve.front().cycles;
        const double last = curve.back().cycles;
        for (const LifePoint& point : curve)
            CHECK(allowed_cycles(curve, point.factor) == rel(point.cycles, 1e-9));
        CHECK(allowed_cycles(curve, curve.front().factor) == rel(first, 1e-12));
        CHECK(allowed_cycles(curve, curve.front().factor * 1.000001) == 1);
        CHECK(allowed_cycles(curve, curve.back().factor) == rel(last, 1e-9));
        CHECK(allowed_cycles(curve, curve.back().factor * 0.999999) ==
              std::numeric_limits<double>::infinity());
        CHECK(allowed_cycles(curve, 0) == std::numeric_limits<double>::infinity());
        CHECK_THROWS_AS((void)allowed_cycles(curve, -0.1), Error);
    }
    // Between the points, recomputed.
    const auto meets = [](LifeCurve curve, double factor, double cycles) {
        CHECK(allowed_cycles(curve, factor) == rel(cycles, 1e-7));
    };
    meets(no_pitting, 1.344284336, 1e6);
    meets(no_pitting, 0.9122053456, 1e9);
    meets(root_life, 1.475874775, 1e5);
    meets(root_life, 0.9321569426, 1e8);
    const std::array<LifePoint, 1> one{{{1e5, 1.0}}};
    CHECK_THROWS_AS((void)allowed_cycles(one, 1), Error);
}

TEST_CASE("iso-6336-6 damage of one cycle") {
    CHECK(damage_per_cycle(no_pitting, 1) == rel(1 / 5e7, 1e-12));
    CHECK(damage_per_cycle(no_pitting, 0.84) == 0);
    CHECK(damage_per_cycle(no_pitting, 1.61) == 1);
    CHECK(damage_per_cycle(root_life, 2.51) == 1);
}

TEST_CASE("iso-6336-6 damage 30/50 teeth under three loads, recomputed") {
    // MQ, Rz 3 um, oil of 100 mm2/s at 40 degC, K_Hb 1.2, K_Fb 1.17: N m, r/min, share, K_v.
    const double bins[][4] = {
        {3500, 2000, 0.05, 1.15}, {2000, 4000, 0.25, 1.2}, {800, 6000, 0.70, 1.2}};
    const double allowed[][2] = {{5462822.69, 7449747.716}, {1883260040, 4046560616}};
    const iso_21771::Pair pair = gear_pairs::duty();
    const iso_6336_5::Material steel = iso_6336_5::material("carburised-MQ");
    const iso_6336_3::RootForm form = root_form(pair, iso_6336_3::Gear::driver);
    const double root_MPa = iso_6336_3::limit_MPa(
        {.sigma_Flim_MPa = steel.sigma_Flim_MPa, .Rz_um = 3, .module_mm = 5, .reversed = false});
    double pinion = 0;
    double wheel = 0;
    double roots = 0;
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& [T_Nm, n_rpm, share, K_v] = bins[i];
        const iso_6336_1::ToothLoad load{.F_t_N = iso_6336_1::reference_force_N(pair, T_Nm),
                                         .face_width_mm = 40};
        const iso_6336_2::FlankStress flank =
            iso_6336_2::stress(pair, load, {.K_A = 1, .K_v = K_v, .K_beta = 1.2, .K_alpha = 1});
        const double limit_MPa =
            iso_6336_2::limit_MPa({.sigma_Hlim_MPa = steel.sigma_Hlim_MPa,
                                   .Z_L = iso_6336_2::oil_factor(100),
                                   .Z_v = iso_6336_2::speed_factor(radps_from_rpm(n_rpm) * 0.075),
                                   .Z_R = iso_6336_2::roughness_factor(pair, 3)});
        const double ratio_1 = flank.sigma_H1_MPa / limit_MPa;
        const double ratio_2 = flank.sigma_H2_MPa / limit_MPa;
        if (i < 2) {
            CHECK(allowed_cycles(no_pitting, ratio_1) == rel(allowed[i][0], 1e-8));
            CHECK(allowed_cycles(no_pitting, ratio_2) == rel(allowed[i][1], 1e-8));
        } else {
            CHECK(damage_per_cycle(no_pitting, ratio_1) == 0);
        }
        const double turns = n_rpm * 60 * share;
        pinion += turns * damage_per_cycle(no_pitting, ratio_1);
        wheel += turns * 30 / 50 * damage_per_cycle(no_pitting, ratio_2);
        const double sigma_F_MPa = iso_6336_3::stress_MPa(
            pair, form, load, {.K_A = 1, .K_v = K_v, .K_beta = 1.17, .K_alpha = 1});
        roots += turns * damage_per_cycle(root_life, sigma_F_MPa / root_MPa);
        if (i == 0) {
            CHECK(sigma_F_MPa / root_MPa == rel(0.842307548, 1e-8));
            // The surface factor decides here: without it the root would last 6.4e8 cycles.
            CHECK(allowed_cycles(root_life, sigma_F_MPa / (2 * 461)) == rel(637897364.5, 1e-7));
        }
    }
    CHECK(1 / pinion == rel(884.8046826, 1e-8));
    CHECK(1 / wheel == rel(2031.965728, 1e-8));
    CHECK(roots == 0);
}

}  // namespace caseload::iso_6336_6
