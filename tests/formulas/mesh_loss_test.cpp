// SPDX-License-Identifier: MIT
#include "caseload/formulas/mesh_loss.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <cmath>
#include <utility>

namespace caseload::mesh_loss {
using iso_21771::Pair;
using iso_21771::PairInput;

namespace {

/// Spur test gears of the measured pair: 40/40, module 2.3185, 28 deg, a 91.5, tips 95.95.
Pair measured_pair() {
    PairInput in = gear_pairs::spur_on(40, 40, 91.5);
    in.module_mm = 2.3185;
    in.pressure_angle_rad = rad_from_deg(28);
    in.face_width_mm = 26.7;
    return iso_21771::pair(in, {.d_a1_mm = 95.95, .d_a2_mm = 95.95});
}

/// Ohlendorf's closed form, exact where eps_1 and eps_2 lie between 0 and 1.
double closed(const Pair& p) {
    const double u = static_cast<double>(p.z_2) / p.z_1;
    return pi * (u + 1) / (p.z_1 * u * std::cos(p.beta_b_rad)) *
           (1 - p.eps_alpha + p.eps_1 * p.eps_1 + p.eps_2 * p.eps_2);
}

}  // namespace

TEST_CASE("ohlendorf-1958 integral loss factor, recomputed") {
    CHECK(mesh_loss::loss_factor(iso_21771::pair(gear_pairs::spur_on(36, 44, 200))) ==
          rel(0.11958912278, 1e-9));
    CHECK(mesh_loss::loss_factor(measured_pair()) == rel(0.09291118448, 1e-9));
    // Test gear type C: published 0.195.
    PairInput type_c = gear_pairs::spur_on(16, 24, 91.5);
    type_c.module_mm = 4.5;
    type_c.shift_share_1 = 0.1817 / 0.3532;
    const Pair c = iso_21771::pair(type_c, {.d_a1_mm = 82.46, .d_a2_mm = 118.36});
    CHECK(within(mesh_loss::loss_factor(c), 0.195, 0.0005));
    PairInput helical = gear_pairs::spur_on(36, 44, 200);
    helical.module_mm = 4.75;
    helical.helix_angle_rad = rad_from_deg(18);
    CHECK(mesh_loss::loss_factor(iso_21771::pair(helical)) == rel(0.1113268294, 1e-8));
}

TEST_CASE("ohlendorf-1958 integral equals the closed form where that is exact") {
    int seen = 0;
    for (int z_1 = 20; z_1 <= 60; z_1 += 3)
        for (int z_2 = 22; z_2 <= 70; z_2 += 4)
            for (const double x_sum_mm : {-0.4, 0.0, 0.5}) {
                for (const double helix_deg : {0.0, 16.0}) {
                    PairInput in = gear_pairs::spur_on(z_1, z_2, 0);
                    in.helix_angle_rad = rad_from_deg(helix_deg);
                    in.centre_distance_mm =
                        2.5 * (z_1 + z_2) / std::cos(in.helix_angle_rad) + 5 * x_sum_mm;
                    const Pair p = iso_21771::pair(in);
                    if (p.eps_alpha < 1 || p.eps_alpha > 2 || p.eps_1 < 0 || p.eps_1 > 1 ||
                        p.eps_2 < 0 || p.eps_2 > 1)
                        continue;
                    ++seen;
                    CAPTURE(z_1);
                    CAPTURE(z_2);
                    CHECK(mesh_loss::loss_factor(p) == rel(closed(p), 1e-7));
                }
            }
    CHECK(seen > 900);
}

TEST_CASE("ohlendorf-1958 integral beyond the closed form") {
    // Test gear type A, 16/24, m 4.5, x 0.8532/-0.5, tips 88.77/112.5: eps_1 1.111, eps_2 0.250,
    // integral recomputed 0.3024 where the closed form would give 0.3064.
    PairInput type_a = gear_pairs::spur_on(16, 24, 91.5);
    type_a.module_mm = 4.5;
    type_a.shift_share_1 = 1;
    const Pair p = iso_21771::pair(type_a, {.d_a1_mm = 88.77, .d_a2_mm = 112.5});
    CHECK(within(p.eps_1, 1.111, 5e-4));
    CHECK(within(p.eps_2, 0.250, 5e-4));
    CHECK(within(mesh_loss::loss_factor(p), 0.3024, 5e-5));
    // Contact ratio of 2.5: double contact, and triple on half the path. By hand for eps 1.25 each
    // way and lengths in base pitches: triple where 1, 2 ahead or behind stay on the path, that is
    // |x| > 0.75 or |x| < 0.25; twice the sum over x > 0 of share times x:
    // 1/3 (0.25^2 + 1.25^2 - 0.75^2) + 1/2 (0.75^2 - 0.25^2).
    Pair high = iso_21771::pair(gear_pairs::spur_on(36, 44, 200));
    high.eps_1 = high.eps_2 = 1.25;
    high.eps_alpha = 2.5;
    high.g_1_mm = high.g_2_mm = 1.25 * high.p_bt_mm;
    const double sum = (0.0625 + 1.5625 - 0.5625) / 3 + (0.5625 - 0.0625) / 2;
    CHECK(mesh_loss::loss_factor(high) ==
          rel((2 / high.d_b1_mm + 2 / high.d_b2_mm) * high.p_bt_mm * sum, 1e-12));
    high.eps_alpha = 4.01;
    CHECK_THROWS_AS((void)mesh_loss::loss_factor(high), Error);
}

TEST_CASE("ohlendorf-1958 integral pitch point outside the path of contact") {
    // Contact on one side only, from 0.2 to 1.4 pitches: single between 0.4 and 1.2.
    Pair p = iso_21771::pair(gear_pairs::spur_on(36, 44, 200));
    p.eps_1 = 1.4;
    p.eps_2 = -0.2;
    p.eps_alpha = 1.2;
    p.g_1_mm = 1.4 * p.p_bt_mm;
    p.g_2_mm = -0.2 * p.p_bt_mm;
    const double sum =
        ((0.16 - 0.04) / 2 + (1.44 - 0.16) + (1.96 - 1.44) / 2) / 2;  // of share times x
    CHECK(mesh_loss::loss_factor(p) ==
          rel((2 / p.d_b1_mm + 2 / p.d_b2_mm) * p.p_bt_mm * sum, 1e-12));
}

TEST_CASE("ohlendorf-1958 integral does not care which gear drives") {
    PairInput in = gear_pairs::spur_on(33, 46, 200);
    const Pair p = iso_21771::pair(in);
    std::swap(in.z_1, in.z_2);
    const Pair q = iso_21771::pair(in);
    CHECK(mesh_loss::loss_factor(q) == rel(mesh_loss::loss_factor(p), 1e-12));
}

TEST_CASE("iso-tr-14179-2 speed-limit of the sum speed") {
    const double alpha = rad_from_deg(20);
    const auto speed = [&](double v) {
        return schlenk::sum_speed_mps({.v_mps = v, .alpha_wt_rad = alpha});
    };
    CHECK(speed(49.9) == rel(2 * 49.9 * std::sin(alpha), 1e-14));
    CHECK(speed(50.1) == rel(100 * std::sin(alpha), 1e-14));
    CHECK(speed(80) == speed(50));
    CHECK(speed(0) == 0);
    CHECK_THROWS_AS((void)speed(-1), Error);
}

TEST_CASE("iso-tr-14179-2 mesh-friction recomputed, and against measured loss") {
    // 36/44, 600 N m, 7000 r/min, oil of 12.5 mPa s, Ra 0.4: mu 0.020749.
    const Pair ref = iso_21771::pair(gear_pairs::spur_on(36, 44, 200));
    const double w_Npmm = 2 * 600e3 / ref.d_b1_mm / 45;
    const schlenk::Friction state{
        .w_Npmm = w_Npmm,
        .v_sumC_mps = schlenk::sum_speed_mps(
            {.v_mps = radps_from_rpm(7000) * 0.090, .alpha_wt_rad = ref.alpha_wt_rad}),
        .rho_redC_mm = ref.rho_redC_mm,
        .eta_mPas = 12.5,
        .Ra_um = 0.4,
        .X_L = schlenk::X_L_synthetic};
    CHECK(schlenk::friction(state) == rel(0.020749, 3e-5));
    schlenk::Friction mineral = state;
    mineral.X_L = schlenk::X_L_mineral;
    CHECK(schlenk::friction(mineral) == rel(0.020749 / 0.8, 3e-5));

    // Spur rig, 413 N m, oil of 10.6 mPa s, Ra 0.056: friction recomputed at three speeds.
    const Pair rig = measured_pair();
    const double table[][2] = {{2000, 0.02225}, {6000, 0.01786}, {10000, 0.01613}};
    for (const auto& row : table) {
        const double mu = schlenk::friction(
            {.w_Npmm = 2 * 413e3 / rig.d_b1_mm / 26.7,
             .v_sumC_mps = 2 * radps_from_rpm(row[0]) * m_from_mm(rig.d_w1_mm / 2) *
                           std::sin(rig.alpha_wt_rad),
             .rho_redC_mm = rig.rho_redC_mm,
             .eta_mPas = 10.6,
             .Ra_um = 0.056,
             .X_L = schlenk::X_L_synthetic});
        CHECK(within(mu, row[1], 6e-6));
    }
}

TEST_CASE("iso-tr-14179-2 mesh-friction scaling, and constant below 150 N/mm") {
    const schlenk::Friction base{
        .w_Npmm = 300, .v_sumC_mps = 20, .rho_redC_mm = 15, .eta_mPas = 12, .Ra_um = 0.4, .X_L = 1};
    const double mu = schlenk::friction(base);
    const auto with = [&](auto change) {
        schlenk::Friction s = base;
        change(s);
        return schlenk::friction(s);
    };
    CHECK(with([](auto& s) { s.w_Npmm *= 32; }) == rel(2 * mu, 1e-12));
    CHECK(with([](auto& s) { s.v_sumC_mps /= 32; }) == rel(2 * mu, 1e-12));
    CHECK(with([](auto& s) { s.rho_redC_mm /= 32; }) == rel(2 * mu, 1e-12));
    CHECK(with([](auto& s) { s.eta_mPas *= 1048576; }) == rel(mu / 2, 1e-12));
    CHECK(with([](auto& s) { s.Ra_um *= 16; }) == rel(2 * mu, 1e-12));
    CHECK(with([](auto& s) { s.X_L = 0.7; }) == rel(0.7 * mu, 1e-12));
    const double at_limit = with([](auto& s) { s.w_Npmm = 150; });
    CHECK(with([](auto& s) { s.w_Npmm = 149; }) == at_limit);
    CHECK(with([](auto& s) { s.w_Npmm = 0; }) == at_limit);
    CHECK(with([](auto& s) { s.w_Npmm = 151; }) > at_limit);
    CHECK_THROWS_AS((void)with([](auto& s) { s.w_Npmm = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& s) { s.v_sumC_mps = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& s) { s.eta_mPas = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& s) { s.Ra_um = 0; }), Error);
}

TEST_CASE("iso-tr-14179-2 unlimited differs only below 150 N/mm") {
    schlenk::Friction s{
        .w_Npmm = 200, .v_sumC_mps = 20, .rho_redC_mm = 15, .eta_mPas = 12, .Ra_um = 0.4, .X_L = 1};
    CHECK(schlenk::friction_unlimited(s) == schlenk::friction(s));
    s.w_Npmm = 75;
    CHECK(schlenk::friction_unlimited(s) == rel(schlenk::friction(s) * std::pow(0.5, 0.2), 1e-12));
    s.w_Npmm = 0;
    CHECK_THROWS_AS((void)schlenk::friction_unlimited(s), Error);
}

}  // namespace caseload::mesh_loss
