// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py.
#include "caseload/formulas/iso_6336_20.hpp"

#include "caseload/error.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <cmath>
#include <limits>
#include <utility>

namespace caseload::iso_6336_20 {

namespace {

/// 36/44, K = 1.3, oil of 12.5 mPa s, Ra 0.4, polyalphaolefin.
Contact contact(double torque_Nm, double n_1_rpm) {
    const iso_21771::Pair pair = gear_pairs::reference();
    return {.w_Npmm = 1.3 * torque_Nm / m_from_mm(pair.d_b1_mm / 2) / 45,
            .n_1_rpm = n_1_rpm,
            .eta_mPas = 12.5,
            .Ra_um = 0.4,
            .X_L = 0.8};
}

Rubbing rubbing(const iso_21771::Pair& pair, const Contact& c) {
    return {.mu = friction(pair, c), .w_Npmm = c.w_Npmm, .n_1_rpm = c.n_1_rpm};
}

double largest_flash_K(const iso_21771::Pair& pair, const Rubbing& rubs) {
    return flash_K(flash_shape(pair).largest, rubs);
}

}  // namespace

TEST_CASE("iso-ts-6336-20 friction recomputed") {
    const iso_21771::Pair pair = gear_pairs::reference();
    CHECK(friction(pair, contact(600, 7000)) == rel(0.02733378497, 1e-9));  // held at 50 m/s
    CHECK(friction(pair, contact(2500, 3000)) == rel(0.04075426355, 1e-9));
    const Contact helical{.w_Npmm = 300, .n_1_rpm = 3000, .eta_mPas = 12.5, .Ra_um = 0.4, .X_L = 1};
    CHECK(friction(gear_pairs::helical_14(), helical) == rel(0.04143365691, 1e-9));
    CHECK(friction(pair, contact(2500, 5500)) == friction(pair, contact(2500, 9000)));
    Contact light = contact(600, 3000);
    light.w_Npmm = 149;
    const double held = friction(pair, light);
    light.w_Npmm = 0;
    CHECK(friction(pair, light) == held);
    light.w_Npmm = 152;
    CHECK(friction(pair, light) > held);
}

TEST_CASE("iso-ts-6336-20 friction refuses negative load, and speed, viscosity or roughness of 0") {
    const iso_21771::Pair pair = gear_pairs::reference();
    const auto with = [&](auto change) {
        Contact c = contact(600, 7000);
        change(c);
        return friction(pair, c);
    };
    CHECK_THROWS_AS((void)with([](auto& c) { c.w_Npmm = -1; }), Error);
    CHECK_THROWS_AS((void)with([](auto& c) { c.n_1_rpm = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& c) { c.eta_mPas = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& c) { c.Ra_um = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& c) { c.X_L = 0; }), Error);
}

TEST_CASE("iso-ts-6336-20 flash refuses interference and negative loads") {
    iso_21771::Pair pair = gear_pairs::reference();
    const Rubbing r{.mu = 0.02, .w_Npmm = 200, .n_1_rpm = 7000};
    CHECK_THROWS_AS((void)largest_flash_K(pair, {.mu = -1, .w_Npmm = 1, .n_1_rpm = 1}), Error);
    CHECK_THROWS_AS((void)largest_flash_K(pair, {.mu = 1, .w_Npmm = -1, .n_1_rpm = 1}), Error);
    CHECK_THROWS_AS((void)largest_flash_K(pair, {.mu = 1, .w_Npmm = 1, .n_1_rpm = -1}), Error);
    pair.T1A_mm = -1;
    CHECK_THROWS_AS((void)largest_flash_K(pair, r), Error);
    pair = gear_pairs::reference();
    pair.T2E_mm = 0;
    CHECK_THROWS_AS((void)largest_flash_K(pair, r), Error);
    pair = gear_pairs::reference();
    pair.eps_alpha = 2.51;
    CHECK_THROWS_AS((void)largest_flash_K(pair, r), Error);
    pair.eps_alpha = 2.49;
    CHECK_NOTHROW((void)largest_flash_K(pair, r));
    pair.eps_alpha = 0.995;
    CHECK_THROWS_AS((void)largest_flash_K(pair, r), Error);
}

TEST_CASE(
    "iso-ts-6336-20 sharing a third of the load at the start of contact, all of it in single "
    "contact") {
    // The flash there by the formula, x from the pitch point.
    const Rubbing r{.mu = 0.02, .w_Npmm = 300, .n_1_rpm = 3000};
    const auto flash = [&](const iso_21771::Pair& p, double x_mm, double share) {
        const double rho_1 = p.d_w1_mm / 2 * std::sin(p.alpha_wt_rad) + x_mm;
        const double rho_2 = p.T1T2_mm - rho_1;
        return 2.52 * r.mu * std::pow(share * r.w_Npmm, 0.75) * std::sqrt(r.n_1_rpm / 60) *
               std::fabs(std::sqrt(rho_1) - std::sqrt(rho_2 * p.z_1 / p.z_2)) /
               std::pow(rho_1 * rho_2 / p.T1T2_mm, 0.25);
    };
    const iso_21771::Pair pair = gear_pairs::reference();
    CHECK(largest_flash_K(pair, r) == rel(flash(pair, -pair.g_2_mm, 1.0 / 3), 1e-12));
    const iso_21771::Pair short_tips =
        iso_21771::pair(gear_pairs::spur(36, 44, 45), {.d_a1_mm = 187.5, .d_a2_mm = 227.5});
    CHECK(largest_flash_K(short_tips, r) ==
          rel(flash(short_tips, short_tips.g_1_mm - short_tips.p_bt_mm, 1), 1e-12));
}

TEST_CASE("iso-ts-6336-20 largest-flash recomputed by a minimiser") {
    const iso_21771::Pair pair = gear_pairs::reference();
    CHECK(largest_flash_K(pair, rubbing(pair, contact(600, 7000))) == rel(20.18583186, 1e-5));
    CHECK(largest_flash_K(pair, rubbing(pair, contact(2500, 3000))) == rel(57.46098991, 1e-5));
    // The larger gear at the same speed: faster rubbing.
    const Rubbing r{.mu = 0.02, .w_Npmm = contact(600, 7000).w_Npmm, .n_1_rpm = 7000};
    CHECK(largest_flash_K(gear_pairs::turned_round(), r) == rel(16.32871321, 1e-5));
    const Rubbing light{.mu = 0.02, .w_Npmm = 300, .n_1_rpm = 3000};
    CHECK(largest_flash_K(gear_pairs::helical_14(), light) == rel(10.35005803, 1e-5));
    CHECK(largest_flash_K(gear_pairs::high_contact(), light) == rel(13.23243957, 1e-5));
    CHECK(largest_flash_K(pair, {.mu = 0, .w_Npmm = 300, .n_1_rpm = 3000}) == 0);
    // Short tips: hottest where single contact begins.
    CHECK(largest_flash_K(
              iso_21771::pair(gear_pairs::spur(36, 44, 45), {.d_a1_mm = 187.5, .d_a2_mm = 227.5}),
              light) == rel(10.81400377, 1e-6));
    // The other gear driving at the same rolling speed: the same, where single contact ends.
    CHECK(largest_flash_K(
              iso_21771::pair(gear_pairs::spur(44, 36, 45), {.d_a1_mm = 227.5, .d_a2_mm = 187.5}),
              {.mu = 0.02, .w_Npmm = 300, .n_1_rpm = 3000.0 * 36 / 44}) == rel(10.81400377, 1e-6));
    // It lies at the start of contact; a moving band of heat there, 13.8 kN/(m s^0.5 K),
    // makes 14.43.
    CHECK(largest_flash_K(pair, r) == rel(14.76987683, 1e-5));
    CHECK(largest_flash_K(pair, r) == rel(14.42834738, 0.025));
    // Only single contact left: the middle stretch alone counts.
    iso_21771::Pair bare = pair;
    bare.eps_alpha = 1;
    CHECK(std::isfinite(largest_flash_K(bare, r)));
}

TEST_CASE("iso-ts-6336-20 mean-flash recomputed") {
    const Rubbing light{.mu = 0.02, .w_Npmm = 300, .n_1_rpm = 3000};
    const auto mean = [&](const iso_21771::Pair& pair) {
        return flash_K(flash_shape(pair).mean, light);
    };
    CHECK(mean(gear_pairs::reference()) == rel(7.670443876, 2e-5));
    CHECK(mean(gear_pairs::turned_round()) == rel(8.479994771, 2e-5));
    CHECK(mean(gear_pairs::helical_14()) == rel(6.477979552, 2e-5));
    CHECK(mean(gear_pairs::high_contact()) == rel(7.970505366, 2e-5));
    // Only single contact left.
    iso_21771::Pair bare = gear_pairs::reference();
    bare.eps_alpha = 1;
    CHECK(flash_shape(bare).mean > 0);
    CHECK(flash_shape(bare).mean < flash_shape(bare).largest);
    CHECK_THROWS_AS((void)flash_K(-1, light), Error);
}

TEST_CASE("iso-ts-6336-20 bulk of a tooth, and what it takes from the margin") {
    // Oil 125.28 degC, flash 31.335 K, its mean 18.8 K, limit 339.2 degC, steel 127.42 degC.
    const double tooth_degC =
        bulk_degC({.oil_degC = 125.28, .mean_flash_K = 18.8, .X_S = X_S_jet, .X_mp = X_mp_one});
    CHECK(std::fabs(tooth_degC - 135.9) < 0.05);
    const auto S_B = [](double teeth_degC) {
        return safety(
            {.scuffing_degC = 339.2, .contact_degC = teeth_degC + 31.335, .oil_degC = 125.28});
    };
    CHECK(std::fabs(S_B(127.42) - 6.39) < 0.005);
    CHECK(std::fabs(S_B(tooth_degC) - 5.10) < 0.005);
    // 36/44 at 600 and 2500 N m: tests/reference.
    const iso_21771::Pair pair = gear_pairs::reference();
    for (const auto& [c, degC] :
         {std::pair{contact(600, 7000), 106.7866766}, std::pair{contact(2500, 3000), 119.3189538}})
        CHECK(bulk_degC({.oil_degC = 100,
                         .mean_flash_K = flash_K(flash_shape(pair).mean, rubbing(pair, c)),
                         .X_S = X_S_jet,
                         .X_mp = X_mp_one}) == rel(degC, 1e-6));
    CHECK(bulk_degC({.oil_degC = 90, .mean_flash_K = 10, .X_S = X_S_dip, .X_mp = X_mp_idler}) ==
          rel(90 + 0.47 * 1.5 * 10, 1e-12));
    CHECK(bulk_degC({.oil_degC = -40, .mean_flash_K = 0, .X_S = 1, .X_mp = 1}) == -40);
    CHECK_THROWS_AS((void)bulk_degC({.oil_degC = 0, .mean_flash_K = -1, .X_S = 1, .X_mp = 1}),
                    Error);
    CHECK_THROWS_AS((void)bulk_degC({.oil_degC = 0, .mean_flash_K = 1, .X_S = 0, .X_mp = 1}),
                    Error);
    CHECK_THROWS_AS((void)bulk_degC({.oil_degC = 0, .mean_flash_K = 1, .X_S = 1, .X_mp = 0}),
                    Error);
}

TEST_CASE("iso-ts-6336-20 scuffing-temperature of a load stage") {
    CHECK(scuffing_temp_degC({.load_stage = 12, .X_L = 0.8}) == rel(339.2, 1e-9));
    CHECK(scuffing_temp_degC({.load_stage = 12, .X_L = 1}) == rel(404, 1e-9));
    CHECK(scuffing_temp_degC({.load_stage = 9, .X_L = 0.8}) == rel(225.8, 1e-9));
    CHECK(scuffing_temp_degC({.load_stage = 1, .X_L = 1}) == rel(82.25, 1e-9));
    CHECK(scuffing_temp_degC({.load_stage = 16, .X_L = 1}) == rel(656, 1e-9));
    CHECK_THROWS_AS((void)scuffing_temp_degC({.load_stage = 0.99, .X_L = 1}), Error);
    CHECK_THROWS_AS((void)scuffing_temp_degC({.load_stage = 16.1, .X_L = 1}), Error);
    CHECK_THROWS_AS((void)scuffing_temp_degC({.load_stage = 12, .X_L = 0}), Error);
}

TEST_CASE("iso-ts-6336-20 safety same oil factor on both sides") {
    // 36/44 at 2500 N m and 3000 r/min, teeth at 119.3 degC, oil at 100: contact at 176.8.
    const iso_21771::Pair pair = gear_pairs::reference();
    const double contact_degC =
        119.3189538 + largest_flash_K(pair, rubbing(pair, contact(2500, 3000)));
    CHECK(contact_degC == rel(176.7799437, 1e-5));
    CHECK(safety({.scuffing_degC = scuffing_temp_degC({.load_stage = 12, .X_L = 0.8}),
                  .contact_degC = contact_degC,
                  .oil_degC = 100}) == rel(3.115396917, 2e-5));
    CHECK(safety({.scuffing_degC = 300, .contact_degC = 100, .oil_degC = 100}) ==
          std::numeric_limits<double>::infinity());
    CHECK(safety({.scuffing_degC = 300, .contact_degC = 100.5, .oil_degC = 100}) ==
          rel(400, 1e-12));
    CHECK(safety({.scuffing_degC = 100, .contact_degC = 150, .oil_degC = 100}) == 0);
    CHECK(safety({.scuffing_degC = 101, .contact_degC = 150, .oil_degC = 100}) == rel(0.02, 1e-12));
    CHECK(safety({.scuffing_degC = 90, .contact_degC = 80, .oil_degC = 100}) == 0);
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS((void)safety({.scuffing_degC = nan, .contact_degC = 1, .oil_degC = 0}), Error);
    CHECK_THROWS_AS((void)safety({.scuffing_degC = 1, .contact_degC = nan, .oil_degC = 0}), Error);
    CHECK_THROWS_AS((void)safety({.scuffing_degC = 1, .contact_degC = 1, .oil_degC = nan}), Error);
}

}  // namespace caseload::iso_6336_20
