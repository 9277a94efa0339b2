// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py, kept to the digits of its output. No published example
// of method B at these speeds was found.
#include "caseload/formulas/iso_6336_1.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/iso_6336_2.hpp"
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

TEST_CASE("iso-6336-1 face-factor by load, both branches and the end") {
    const auto at = [](double F_betay_um, double w_m_Npmm) {
        return face_factor({.F_betay_um = F_betay_um, .w_m_Npmm = w_m_Npmm});
    };
    // Recomputed; 8.25 um at 550 N/mm is the 1.15 of gears between their bearings.
    CHECK(at(8.25, 111) == rel(1.743243243, 1e-9));
    CHECK(at(8.25, 200) == rel(1.4125, 1e-9));
    CHECK(at(8.25, 550) == rel(1.15, 1e-9));
    CHECK(at(8.25, 1000) == rel(1.0825, 1e-9));
    CHECK(at(16.5, 550) == rel(1.3, 1e-9));
    CHECK(at(27.5, 550) == rel(1.5, 1e-9));
    CHECK(at(27.5, 275) == 2);  // where they meet
    // Either side of it: 1 + 0.995, and 2 sqrt 1.005.
    CHECK(at(27.5, 275 / 0.995) == rel(1.995, 1e-9));
    CHECK(at(27.5, 275 / 1.005) == rel(2.0049937656, 1e-9));
    CHECK(at(27.5, 150) == rel(2.708012802, 1e-9));
    CHECK(at(27.5, 275 * (1 + 1e-9)) == rel(at(27.5, 275 * (1 - 1e-9)), 2e-9));
    CHECK(at(27.5, 122.3) < 3);
    CHECK(at(27.5, 122.2) == 3);
    CHECK(at(27.5, 0) == 3);
    CHECK(at(0, 0) == 1);
    CHECK(at(0, 100) == 1);
    for (double w_Npmm = 20; w_Npmm < 2000; w_Npmm *= 1.1) {
        CHECK(at(16.5, 1.1 * w_Npmm) <= at(16.5, w_Npmm));
        // The end of the face that carries most never carries less for more load.
        CHECK(1.1 * w_Npmm * at(16.5, 1.1 * w_Npmm) > w_Npmm * at(16.5, w_Npmm));
    }
    CHECK_THROWS_AS((void)at(-1, 100), Error);
    CHECK_THROWS_AS((void)at(1, -1), Error);
}

TEST_CASE("iso-6336-1 transverse-factors by grade and load, held by their caps") {
    // Spur, contact ratio 1.70, Z_eps^2 = (4 - 1.7)/3: worked by hand, flank factor in brackets of
    // grade 6 at 110 N/mm: 1.7/2 (0.9 + 0.4 21.35 7.4/110).
    iso_21771::Pair pair = gear_pairs::reference();
    pair.eps_alpha = 1.70;
    pair.eps_beta = 0;
    const auto at = [&](int grade, double w_H_Npmm) {
        return transverse_factors(
            pair,
            {.w_H_Npmm = w_H_Npmm, .deviation_um = deviation_um(grade), .Z_eps_squared = 2.3 / 3});
    };
    const struct {
        int grade;
        double at_110, at_300, at_550;
    } rows[] = {
        {6, 1.253, 1, 1}, {7, 1.304, 1.018, 1}, {8, 1.304, 1.123, 1}, {9, 1.304, 1.271, 1.041}};
    for (const auto& row : rows) {
        CAPTURE(row.grade);
        CHECK(std::fabs(at(row.grade, 110).K_Halpha - row.at_110) < 5e-4);
        CHECK(std::fabs(at(row.grade, 300).K_Halpha - row.at_300) < 5e-4);
        CHECK(std::fabs(at(row.grade, 550).K_Halpha - row.at_550) < 5e-4);
        CHECK(at(row.grade, 300).K_Falpha == at(row.grade, 300).K_Halpha);
    }
    // Caps: all of the load on one pair of teeth.
    CHECK(std::fabs(at(9, 20).K_Halpha - 1.304) < 5e-4);
    CHECK(std::fabs(at(9, 20).K_Falpha - 1.447) < 5e-4);
    CHECK(at(9, 0).K_Halpha == at(9, 20).K_Halpha);
    CHECK(at(9, 0).K_Falpha == at(9, 20).K_Falpha);
    CHECK(at(6, 1e9).K_Halpha == 1);
    // Less load is never more even.
    for (double w_Npmm = 20; w_Npmm < 1000; w_Npmm *= 1.1)
        CHECK(at(8, w_Npmm).K_Halpha >= at(8, 1.1 * w_Npmm).K_Halpha);
}

TEST_CASE("iso-6336-1 transverse-factors recomputed for spur and helical teeth") {
    // Deviation 16 um; N/mm, K_Ha, K_Fa of 36/44, of 14 deg and of 25 deg.
    const double table[][7] = {
        {60, 1.311229192, 1.453348778, 2.132598569, 2.007366948, 3.07510454, 2.916005915},
        {150, 1.311229192, 1.453348778, 1.731408994, 1.731408994, 1.770041816, 1.770041816},
        {250, 1.20578486, 1.20578486, 1.398845396, 1.398845396, 1.42202509, 1.42202509},
        {500, 1, 1, 1.149422698, 1.149422698, 1.161012545, 1.161012545}};
    const iso_21771::Pair pairs[] = {gear_pairs::reference(), gear_pairs::helical_14(),
                                     gear_pairs::helical_25()};
    for (const auto& row : table)
        for (std::size_t i = 0; i < 3; ++i) {
            CAPTURE(row[0]);
            CAPTURE(i);
            const double Z_eps = iso_6336_2::contact_ratio_factor(pairs[i]);
            const TransverseFactors found = transverse_factors(
                pairs[i], {.w_H_Npmm = row[0], .deviation_um = 16, .Z_eps_squared = Z_eps * Z_eps});
            CHECK(found.K_Halpha == rel(row[1 + 2 * i], 1e-9));
            CHECK(found.K_Falpha == rel(row[2 + 2 * i], 1e-9));
        }
}

TEST_CASE("iso-6336-1 transverse-factors meet where the total contact ratio is 2") {
    iso_21771::Pair pair = gear_pairs::helical_14();
    const auto at = [&](double eps_gamma, double w_H_Npmm) {
        pair.eps_beta = eps_gamma - pair.eps_alpha;
        return transverse_factors(
            pair, {.w_H_Npmm = w_H_Npmm, .deviation_um = 16, .Z_eps_squared = 1 / pair.eps_alpha});
    };
    for (const double w_Npmm : {150.0, 200.0, 300.0}) {
        CHECK(at(2 - 1e-9, w_Npmm).K_Halpha > 1);
        CHECK(at(2 - 1e-9, w_Npmm).K_Halpha == rel(at(2 + 1e-9, w_Npmm).K_Halpha, 1e-8));
        // Above, by the second branch: 0.9 + 0.4 sqrt(2 2/3) c_g f_eff/w at 3.
        const double off = 14 * (0.75 * pair.eps_alpha + 0.25) * 0.925 * 16 / w_Npmm;
        CHECK(at(3, w_Npmm).K_Falpha == rel(0.9 + 0.4 * std::sqrt(4.0 / 3) * off, 1e-9));
    }
    const Transverse mesh{.w_H_Npmm = 200, .deviation_um = 8, .Z_eps_squared = 0.8};
    const auto with = [&](auto change) {
        Transverse one = mesh;
        change(one);
        return transverse_factors(pair, one);
    };
    CHECK_THROWS_AS((void)with([](auto& m) { m.w_H_Npmm = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& m) { m.deviation_um = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& m) { m.Z_eps_squared = 0; }), Error);
    pair.eps_alpha = 2.51;
    CHECK_THROWS_AS((void)transverse_factors(pair, mesh), Error);
}

}  // namespace caseload::iso_6336_1
