// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py; textbook table beside its check.
#include "caseload/formulas/iso_6336_3.hpp"

#include "caseload/error.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::iso_6336_3 {

TEST_CASE("iso-6336-3 root-form at the outer point of single contact, recomputed") {
    struct Row {
        iso_21771::Pair pair;
        Gear gear;
        double s_Fn, h_Fe, rho_F, Y_F, Y_S;
    };
    const Row rows[] = {{gear_pairs::reference(), Gear::driver, 2.108329264, 0.9525814134,
                         0.5368714617, 1.295008078, 2.008212251},
                        {gear_pairs::reference(), Gear::driven, 2.148483449, 0.9675009985,
                         0.5228895384, 1.263759282, 2.051356545},
                        {gear_pairs::helical_14(), Gear::driver, 2.164509456, 0.9712100029,
                         0.4862811236, 1.239283467, 2.128512673},
                        {gear_pairs::helical_14(), Gear::driven, 2.231961453, 1.022184251,
                         0.4629669685, 1.225339075, 2.188851132},
                        {gear_pairs::helical_25(), Gear::driver, 2.167276295, 0.9239530293,
                         0.4996537557, 1.183648522, 2.142906273},
                        {gear_pairs::helical_25(), Gear::driven, 2.233564323, 0.9657091544,
                         0.4717036865, 1.161633418, 2.218605611}};
    for (const Row& row : rows) {
        const RootForm form = root_form(row.pair, row.gear);
        CHECK(form.s_Fn == rel(row.s_Fn, 1e-9));
        CHECK(form.h_Fe == rel(row.h_Fe, 1e-9));
        CHECK(form.rho_F == rel(row.rho_F, 1e-9));
        CHECK(form.Y_F == rel(row.Y_F, 1e-9));
        CHECK(form.Y_S == rel(row.Y_S, 1e-9));
        CHECK(form.alpha_Fen_rad > rad_from_deg(10));
        CHECK(form.alpha_Fen_rad < row.pair.alpha_n_rad + 0.1);
    }
}

TEST_CASE("iso-6336-3 root-form at the tip: textbook table") {
    // Machine design table 10-5, rack 1.25 and 0.38, no shift: teeth, Y_F, Y_S. Stress factors to
    // half a unit of the last digit. Form factors are printed rounder than their digits: 1 %
    // (the worst is 0.70 % at 100 teeth).
    const double table[][3] = {{17, 2.97, 1.52},  {20, 2.80, 1.55},  {25, 2.62, 1.59},
                               {30, 2.52, 1.625}, {40, 2.40, 1.67},  {60, 2.28, 1.73},
                               {100, 2.18, 1.79}, {200, 2.12, 1.865}};
    for (const auto& row : table) {
        CAPTURE(row[0]);
        const int z = static_cast<int>(row[0]);
        const RootForm form =
            root_form(iso_21771::pair(gear_pairs::spur(z, z, 40)), Gear::driver, LoadAt::tip);
        CHECK(form.Y_F == rel(row[1], 0.01));
        CHECK(within(form.Y_S, row[2], row[2] == 1.625 || row[2] == 1.865 ? 0.0025 : 0.005));
    }
}

TEST_CASE("iso-6336-3 root-form the tangent is at 30 deg, the fixed point is reached") {
    // Fewest teeth, largest share of the shift: the slowest to settle. The iteration's own equation
    // is recovered from the form: s_Fn and rho_F both hold theta.
    iso_21771::PairInput in = gear_pairs::spur(8, 40, 40);
    in.centre_distance_mm = 124;
    in.shift_share_1 = 1;
    const RootForm form = root_form(iso_21771::pair(in), Gear::driver);
    const double x = iso_21771::pair(in).x_1;
    const double G = 0.38 - 1.25 + x;
    const double E = pi / 4 - 1.25 * std::tan(rad_from_deg(20)) -
                     (1 - std::sin(rad_from_deg(20))) * 0.38 / std::cos(rad_from_deg(20));
    double low = 0.2;
    double high = 1.2;
    for (int i = 0; i < 80; ++i) {  // halving, no iteration of the same form
        const double t = (low + high) / 2;
        const double off = t - 2 * G / 8 * std::tan(t) + 2.0 / 8 * (pi / 2 - E) - pi / 3;
        (off < 0 ? low : high) = t;
    }
    CHECK(form.s_Fn ==
          rel(8 * std::sin(pi / 3 - low) + std::sqrt(3) * (G / std::cos(low) - 0.38), 1e-10));
    // More teeth, stronger tooth; sharper fillet.
    const RootForm more = root_form(iso_21771::pair(gear_pairs::spur(44, 44, 40)), Gear::driver);
    const RootForm fewer = root_form(iso_21771::pair(gear_pairs::spur(20, 44, 40)), Gear::driver);
    CHECK(more.Y_F < fewer.Y_F);
    CHECK(more.Y_S > fewer.Y_S);
}

TEST_CASE("iso-6336-3 root-form refuses what is outside the method") {
    iso_21771::Pair pair = gear_pairs::reference();
    pair.eps_alpha = 0.99;
    CHECK_THROWS_AS((void)root_form(pair, Gear::driver), Error);
    pair.eps_alpha = 1;
    CHECK(root_form(pair, Gear::driver).Y_F > 0);
    pair.eps_alpha = 2.5;
    pair.beta_b_rad = 0;
    pair.d_a1_mm += 4;
    CHECK(root_form(pair, Gear::driver).Y_F > 0);
    pair.eps_alpha = 2.51;
    CHECK_THROWS_AS((void)root_form(pair, Gear::driver), Error);
    pair = gear_pairs::reference();
    pair.x_1 = -0.855;  // q_s falls through 1 at a shift of -0.8611
    CHECK(root_form(pair, Gear::driver).Y_S > 1);
    pair.x_1 = -0.868;
    CHECK_THROWS_AS((void)root_form(pair, Gear::driver), Error);
    pair = gear_pairs::reference();
    pair.x_1 = 1;  // tip far too low for the shift: no lever left
    CHECK_THROWS_AS((void)root_form(pair, Gear::driver), Error);
}

TEST_CASE("iso-6336-3 helix factor, recomputed, and constant above overlap 1 and 30 deg") {
    CHECK(helix_factor(gear_pairs::reference()) == 1);
    CHECK(helix_factor(gear_pairs::helical_14()) == rel(0.9148879604, 1e-9));
    CHECK(helix_factor(gear_pairs::helical_25()) == rel(0.7916666667, 1e-9));
    iso_21771::Pair steep = gear_pairs::helical_25();
    steep.beta_rad = rad_from_deg(29.9);
    CHECK(helix_factor(steep) > 0.75);
    steep.beta_rad = rad_from_deg(40);
    CHECK(helix_factor(steep) == rel(0.75, 1e-12));
}

TEST_CASE("iso-6336-3 nominal-stress force over section times factors") {
    const iso_21771::Pair pair = gear_pairs::helical_14();
    const RootForm form = root_form(pair, Gear::driver);
    const iso_6336_1::ToothLoad load{.F_t_N = 9000, .face_width_mm = 45};
    CHECK(nominal_stress_MPa(pair, form, load) ==
          rel(9000 / (45 * 4.75) * 1.239283467 * 2.128512673 * 0.9148879604, 1e-9));
    CHECK(nominal_stress_MPa(pair, form, {.F_t_N = 0, .face_width_mm = 45}) == 0);
    CHECK_THROWS_AS((void)nominal_stress_MPa(pair, form, {.F_t_N = -1, .face_width_mm = 45}),
                    Error);
    CHECK_THROWS_AS((void)nominal_stress_MPa(pair, form, {.F_t_N = 1, .face_width_mm = 0}), Error);
}

TEST_CASE("iso-6336-3 stress 30/50 teeth at three loads, recomputed") {
    const iso_21771::Pair pair = gear_pairs::duty();
    const RootForm form = root_form(pair, Gear::driver);
    // N m, K_v, N/mm2 with K_Fb 1.17
    const double table[][3] = {
        {3500, 1.15, 828.1265943}, {2000, 1.2, 493.7897705}, {800, 1.2, 197.5159082}};
    for (const auto& row : table)
        CHECK(stress_MPa(
                  pair, form,
                  {.F_t_N = iso_6336_1::reference_force_N(pair, row[0]), .face_width_mm = 40},
                  {.K_A = 1, .K_v = row[1], .K_beta = 1.17, .K_alpha = 1}) == rel(row[2], 1e-9));
}

TEST_CASE("iso-6336-3 surface factor, recomputed on both sides of 1 um") {
    CHECK(surface_factor(0.999) == 1.12);
    CHECK(surface_factor(0.005) == 1.12);
    CHECK(surface_factor(1) == rel(1.107031838, 1e-9));
    CHECK(surface_factor(3) == rel(1.06633857, 1e-9));
    CHECK(surface_factor(6) == rel(1.031363371, 1e-9));
    CHECK(surface_factor(40) > 0.9);
    CHECK_THROWS_AS((void)surface_factor(40.1), Error);
    CHECK_THROWS_AS((void)surface_factor(0), Error);
}

TEST_CASE("iso-6336-3 size factor of three ranges") {
    CHECK(size_factor(3) == rel(1, 1e-12));
    CHECK(size_factor(5) == rel(1, 1e-12));
    CHECK(size_factor(5.1) == rel(0.999, 1e-12));
    CHECK(size_factor(10) == rel(0.95, 1e-12));
    CHECK(size_factor(24.9) == rel(0.801, 1e-12));
    CHECK(size_factor(30) == rel(0.80, 1e-12));
    CHECK_THROWS_AS((void)size_factor(0), Error);
}

TEST_CASE("iso-6336-3 limit surface and size count, an idler keeps 0.7") {
    RootLimit limit{.sigma_Flim_MPa = 461, .Rz_um = 3, .module_mm = 10, .reversed = false};
    CHECK(limit_MPa(limit) == rel(461 * 2 * 1.06633857 * 0.95, 1e-9));
    limit.reversed = true;
    CHECK(limit_MPa(limit) == rel(0.7 * 461 * 2 * 1.06633857 * 0.95, 1e-9));
    limit.sigma_Flim_MPa = 0;
    CHECK_THROWS_AS((void)limit_MPa(limit), Error);
}

}  // namespace caseload::iso_6336_3
