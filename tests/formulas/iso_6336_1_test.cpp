// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py, kept to the digits of its output. No published example
// of method B at these speeds was found.
#include "caseload/formulas/iso_6336_1.hpp"

#include "caseload/error.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::iso_6336_1 {

namespace {

constexpr Rims solid{.q_1 = 0, .q_2 = 0};

/// 36/44 with 1.5 x 600 N m.
Running running(double n_1_rpm) {
    return {.w_Npmm = 1.5 * 2000 * 600 / 180.0 / 45,
            .n_1_rpm = n_1_rpm,
            .f_pb_um = 8,
            .f_f_um = 8,
            .tip_relief_um = 15};
}

double K_v_at(const iso_21771::Pair& pair, double N, Running state) {
    state.n_1_rpm = N * resonance_speed_rpm(pair, solid);
    return dynamic_factor(pair, solid, state);
}

}  // namespace

TEST_CASE("iso-6336-1 force at the reference circle") {
    CHECK(reference_force_N(gear_pairs::reference(), 600) == rel(2000 * 600 / 180.0, 1e-12));
    // Helical: d_1 = 31 x 4.75 / cos 14 deg, not the working diameter.
    CHECK(reference_force_N(gear_pairs::helical_14(), 600) ==
          rel(2000 * 600 * std::cos(rad_from_deg(14)) / (31 * 4.75), 1e-12));
    CHECK_THROWS_AS((void)reference_force_N(gear_pairs::reference(), -1), Error);
}

TEST_CASE("iso-6336-1 factors multiply and are not below 1") {
    CHECK(load_factor({.K_A = 1.5, .K_v = 1.2, .K_beta = 1.3, .K_alpha = 1.1}) ==
          rel(1.5 * 1.2 * 1.3 * 1.1, 1e-12));
    const LoadFactors ones{.K_A = 1, .K_v = 1, .K_beta = 1, .K_alpha = 1};
    CHECK(load_factor(ones) == 1);
    for (double LoadFactors::* one :
         {&LoadFactors::K_A, &LoadFactors::K_v, &LoadFactors::K_beta, &LoadFactors::K_alpha}) {
        LoadFactors factors = ones;
        factors.*one = 0.995;
        CHECK_THROWS_AS((void)load_factor(factors), Error);
        factors.*one = 100;
        CHECK(load_factor(factors) == 100);
        factors.*one = 100.5;
        CHECK_THROWS_AS((void)load_factor(factors), Error);
    }
}

TEST_CASE("iso-6336-1 reduced-mass recomputed from moments of inertia") {
    CHECK(reduced_mass_kgpmm(gear_pairs::reference(), solid) == rel(0.06572388203, 1e-9));
    const Rims both{.q_1 = 0.6, .q_2 = 0.6};
    CHECK(reduced_mass_kgpmm(gear_pairs::reference(), both) == rel(0.05720606692, 1e-9));
    const Rims unlike{.q_1 = 0.6, .q_2 = 0.3};
    CHECK(reduced_mass_kgpmm(gear_pairs::reference(), unlike) == rel(0.0601610675, 1e-9));
    // Driven by the wheel: the same metal, whichever gear drives.
    CHECK(reduced_mass_kgpmm(gear_pairs::turned_round(), solid) == rel(0.06572388203, 1e-9));
    CHECK(reduced_mass_kgpmm(gear_pairs::turned_round(), unlike) == rel(0.06173587718, 1e-9));
    CHECK_THROWS_AS((void)reduced_mass_kgpmm(gear_pairs::reference(), {.q_1 = 0.9501, .q_2 = 0}),
                    Error);
    CHECK_THROWS_AS((void)reduced_mass_kgpmm(gear_pairs::reference(), {.q_1 = 0, .q_2 = 0.9501}),
                    Error);
    CHECK_THROWS_AS((void)reduced_mass_kgpmm(gear_pairs::reference(), {.q_1 = -0.1, .q_2 = 0}),
                    Error);
    CHECK_THROWS_AS((void)reduced_mass_kgpmm(gear_pairs::reference(), {.q_1 = 0, .q_2 = -0.1}),
                    Error);
    CHECK(reduced_mass_kgpmm(gear_pairs::reference(), {.q_1 = 0.95, .q_2 = 0.95}) > 0);
}

TEST_CASE("iso-6336-1 resonance recomputed, and the mesh frequency is that of the metal") {
    const iso_21771::Pair pair = gear_pairs::reference();
    CHECK(resonance_speed_rpm(pair, solid) == rel(4795.031404, 1e-9));
    CHECK(resonance_speed_rpm(pair, {.q_1 = 0.6, .q_2 = 0.6}) == rel(5139.631884, 1e-9));
    CHECK(resonance_speed_rpm(gear_pairs::turned_round(), solid) == rel(3923.207512, 1e-9));
    CHECK(44 * resonance_speed_rpm(gear_pairs::turned_round(), solid) ==
          rel(36 * resonance_speed_rpm(pair, solid), 1e-12));
    iso_21771::Pair odd = pair;
    odd.eps_alpha = 0.99;
    CHECK_THROWS_AS((void)resonance_speed_rpm(odd, solid), Error);
    odd.eps_alpha = 1;
    CHECK(resonance_speed_rpm(odd, solid) > 0);
    odd.eps_alpha = 2.5;
    CHECK(resonance_speed_rpm(odd, solid) > 0);
    odd.eps_alpha = 2.51;
    CHECK_THROWS_AS((void)resonance_speed_rpm(odd, solid), Error);
}

TEST_CASE("iso-6336-1 resonance-range of gear 1") {
    const SpeedRange range = resonance_range(gear_pairs::reference(), solid);
    CHECK(range.from_rpm == rel(0.85 * 4795.031404, 1e-9));
    CHECK(range.to_rpm == rel(1.15 * 4795.031404, 1e-9));
}

TEST_CASE("iso-6336-1 deviation doubles in two grades") {
    CHECK(deviation_um(6) == 8);
    CHECK(deviation_um(8) == rel(16, 1e-12));
    CHECK(deviation_um(5) == rel(8 / std::sqrt(2), 1e-12));
    CHECK(deviation_um(3) > 0);
    CHECK(deviation_um(12) == rel(64, 1e-12));
    CHECK_THROWS_AS((void)deviation_um(2), Error);
    CHECK_THROWS_AS((void)deviation_um(13), Error);
}

TEST_CASE("iso-6336-1 running-in takes 7.5 per cent, at most 3 um") {
    CHECK(run_in_deviation_um(8) == rel(7.4, 1e-12));
    CHECK(run_in_deviation_um(39) == rel(39 * 0.925, 1e-12));
    CHECK(run_in_deviation_um(41) == rel(38, 1e-12));
    CHECK(run_in_deviation_um(64) == rel(61, 1e-12));
    CHECK(run_in_deviation_um(0) == 0);
    CHECK_THROWS_AS((void)run_in_deviation_um(-1), Error);
}

TEST_CASE("iso-6336-1 coefficients recomputed on both sides of each branch") {
    // eps_gamma; C_v1 .. C_v7
    const double table[][8] = {
        {1.2, 0.32, 0.34, 0.23, 0.9, 0.47, 0.47, 0.75},
        {1.49, 0.32, 0.34, 0.23, 0.9, 0.47, 0.47, 0.75},
        {1.5, 0.32, 0.34, 0.23, 0.9, 0.47, 0.47, 0.75},
        {1.7, 0.32, 0.34, 0.23, 0.9, 0.47, 0.47, 0.7738728757},
        {2.0, 0.32, 0.34, 0.23, 0.9, 0.47, 0.47, 0.875},
        {2.001, 0.32, 0.3350970018, 0.2176870748, 0.8377005348, 0.47, 0.4597701149, 0.8753926984},
        {2.3, 0.32, 0.285, 0.1297297297, 0.5290697674, 0.47, 0.2142857143, 0.9761271243},
        {2.48, 0.32, 0.2614678899, 0.1043478261, 0.4288461538, 0.47, 0.1621621622, 0.9997533411},
        {2.5, 0.32, 0.2590909091, 0.1021276596, 0.4198113208, 0.47, 0.1578947368, 1},
        {2.6, 0.32, 0.247826087, 0.09230769231, 0.3793103448, 0.47, 0.1395348837, 1},
        {3.0, 0.32, 0.2111111111, 0.06666666667, 0.2692307692, 0.47, 0.09523809524, 1}};
    for (const auto& row : table) {
        CAPTURE(row[0]);
        const DynamicCoefficients c = dynamic_coefficients(row[0]);
        CHECK(c.C_v1 == rel(row[1], 1e-9));
        CHECK(c.C_v2 == rel(row[2], 1e-9));
        CHECK(c.C_v3 == rel(row[3], 1e-9));
        CHECK(c.C_v4 == rel(row[4], 1e-9));
        CHECK(c.C_v5 == rel(row[5], 1e-9));
        CHECK(c.C_v6 == rel(row[6], 1e-9));
        CHECK(c.C_v7 == rel(row[7], 1e-9));
    }
    // The sine only rises between its ends.
    CHECK(dynamic_coefficients(1.501).C_v7 > 0.75);
    CHECK(dynamic_coefficients(1.501).C_v7 < 0.7501);
    CHECK(dynamic_coefficients(2.501).C_v7 == 1);
    CHECK(dynamic_coefficients(1).C_v7 == 0.75);
    CHECK_THROWS_AS((void)dynamic_coefficients(0.999), Error);
    CHECK_THROWS_AS((void)dynamic_coefficients(11.01), Error);
    CHECK(dynamic_coefficients(11).C_v4 > 0);
}

TEST_CASE("iso-6336-1 dynamic-factor recomputed in every range of speed") {
    const iso_21771::Pair pair = gear_pairs::reference();
    // 7000 r/min, solid and ring-shaped gears.
    CHECK(dynamic_factor(pair, solid, running(7000)) == rel(1.231277451, 1e-9));
    CHECK(dynamic_factor(pair, {.q_1 = 0.6, .q_2 = 0.6}, running(7000)) == rel(1.271053591, 1e-9));
    CHECK(dynamic_factor(pair, {.q_1 = 0.6, .q_2 = 0.3}, running(7000)) == rel(1.25693859, 1e-9));
    // N, spur, helical with a total contact ratio of 3.2.
    const double table[][3] = {
        {0.4, 1.1281368, 1.097017878},        {0.849999, 1.2722904, 1.20616274},
        {0.86, 1.357192, 1.251834654},        {1.0, 1.357192, 1.251834654},
        {1.149999, 1.357192, 1.251834654},    {1.3, 1.296235019, 1.253740755},
        {1.500001, 1.214959045, 1.256282222}, {2.0, 1.214959045, 1.256282222}};
    const iso_21771::Pair helical = gear_pairs::helical_25();
    for (const auto& row : table) {
        CAPTURE(row[0]);
        CHECK(K_v_at(pair, row[0], running(0)) == rel(row[1], 2e-8));
        CHECK(K_v_at(helical, row[0], running(0)) == rel(row[2], 2e-8));
    }
    CHECK(dynamic_factor(pair, solid, running(0)) == 1);
}

TEST_CASE("iso-6336-1 dynamic-factor pitch, profile, relief and load each count") {
    const iso_21771::Pair pair = gear_pairs::reference();
    Running state = running(0);
    state.f_f_um = 12;
    state.tip_relief_um = 5;
    CHECK(K_v_at(pair, 0.5, state) == rel(1.272248, 1e-9));
    state.f_pb_um = 64;
    state.f_f_um = 48;
    CHECK(K_v_at(pair, 0.5, state) == rel(2.175605, 1e-9));
    // Relief that fits the load is the quietest.
    Running fitting = running(0);
    fitting.tip_relief_um = fitting.w_Npmm / 14;
    Running more = fitting;
    more.tip_relief_um += 3;
    Running less = fitting;
    less.tip_relief_um -= 3;
    CHECK(K_v_at(pair, 0.5, fitting) < K_v_at(pair, 0.5, more));
    CHECK(K_v_at(pair, 0.5, less) == rel(K_v_at(pair, 0.5, more), 1e-12));
    // Held below 100 N/mm.
    Running light = running(0);
    light.w_Npmm = 60;
    CHECK(K_v_at(pair, 0.5, light) == rel(1.46838, 1e-9));
    light.w_Npmm = 99.9;
    CHECK(K_v_at(pair, 0.5, light) == rel(1.46838, 1e-9));
    light.w_Npmm = 0;
    CHECK(K_v_at(pair, 0.5, light) == rel(1.46838, 1e-9));
    light.w_Npmm = 101;
    CHECK(K_v_at(pair, 0.5, light) < 1.468);
    // Perfect teeth far above resonance: C_v7 alone is below 1, the factor is not.
    const Running perfect{
        .w_Npmm = 200, .n_1_rpm = 0, .f_pb_um = 0, .f_f_um = 0, .tip_relief_um = 0};
    CHECK(K_v_at(pair, 2, perfect) == 1);
}

TEST_CASE("iso-6336-1 dynamic-factor refuses negative speed, load and relief") {
    const iso_21771::Pair pair = gear_pairs::reference();
    Running state = running(-1);
    CHECK_THROWS_AS((void)dynamic_factor(pair, solid, state), Error);
    state = running(100);
    state.w_Npmm = -1;
    CHECK_THROWS_AS((void)dynamic_factor(pair, solid, state), Error);
    state = running(100);
    state.tip_relief_um = -1;
    CHECK_THROWS_AS((void)dynamic_factor(pair, solid, state), Error);
    state = running(100);
    state.f_pb_um = -1;
    CHECK_THROWS_AS((void)dynamic_factor(pair, solid, state), Error);
    state = running(100);
    state.f_f_um = -1;
    CHECK_THROWS_AS((void)dynamic_factor(pair, solid, state), Error);
}

TEST_CASE("iso-6336-1 root-face-factor is larger for wide teeth") {
    CHECK(root_face_factor({.K_Hbeta = 1.2, .face_width_mm = 40, .module_mm = 5}) ==
          rel(1.143421774, 1e-9));
    CHECK(root_face_factor({.K_Hbeta = 1.3, .face_width_mm = 20, .module_mm = 5}) ==
          rel(1.149855978, 1e-9));
    CHECK(root_face_factor({.K_Hbeta = 1, .face_width_mm = 40, .module_mm = 5}) == 1);
    CHECK(root_face_factor({.K_Hbeta = 1.2, .face_width_mm = 4e6, .module_mm = 5}) ==
          rel(1.2, 1e-5));
    CHECK(root_face_factor({.K_Hbeta = 10, .face_width_mm = 40, .module_mm = 5}) < 10);
    CHECK_THROWS_AS((void)root_face_factor({.K_Hbeta = 0.99, .face_width_mm = 40, .module_mm = 5}),
                    Error);
    CHECK_THROWS_AS((void)root_face_factor({.K_Hbeta = 10.05, .face_width_mm = 40, .module_mm = 5}),
                    Error);
    CHECK_THROWS_AS((void)root_face_factor({.K_Hbeta = 1.2, .face_width_mm = 0, .module_mm = 5}),
                    Error);
    CHECK_THROWS_AS((void)root_face_factor({.K_Hbeta = 1.2, .face_width_mm = 40, .module_mm = 0}),
                    Error);
}

TEST_CASE("iso-6336-1 dynamic-factor relief that is not counted, as from grade 6 on") {
    // 300 N/mm in resonance: B_k is 1 and not |1 - 14 15/300| = 0.30, C_v4 0.90 of it.
    const iso_21771::Pair pair = gear_pairs::reference();
    Running state = running(0);
    state.w_Npmm = 300;
    state.tip_relief_um = 15;
    const double counted = K_v_at(pair, 1, state);
    state.tip_relief_um = 0;
    CHECK(K_v_at(pair, 1, state) - counted == rel(0.63, 1e-9));
}

}  // namespace caseload::iso_6336_1
