// SPDX-License-Identifier: MIT
// Values: tests/reference/teeth_values.py, by positions on the line of action.
#include "caseload/formulas/iso_6336_2.hpp"

#include "caseload/error.hpp"
#include "formulas/gear_pairs.hpp"
#include "support.hpp"

#include <cmath>
#include <vector>

namespace caseload::iso_6336_2 {

namespace {

iso_21771::Pair with_ratio(double eps_alpha) {
    iso_21771::Pair pair = gear_pairs::reference();
    pair.eps_alpha = eps_alpha;
    return pair;
}

struct Row {
    iso_21771::Pair pair;
    double Z_H;
    double Z_eps;
    double Z_1;
    double Z_2;
    double sigma_H0_MPa;  // 600 N m on gear 1
    double face_width_mm;
};

std::vector<Row> rows() {
    return {
        {gear_pairs::reference(), 2.494573171, 0.8732944403, 1.009049453, 1, 505.8056392, 45},
        {gear_pairs::duty(), 2.494573171, 0.8748154886, 1.023738545, 1, 604.9761846, 40},
        {gear_pairs::helical_14(), 2.353912278, 0.8297696028, 1.006601254, 1, 515.4453577, 45},
        {gear_pairs::helical_25(), 2.267714496, 0.8300229775, 1, 1, 438.8446949, 60},
        {gear_pairs::turned_round(), 2.494573171, 0.8732944403, 1, 1.009049453, 457.5184151, 45},
        {iso_21771::pair(gear_pairs::spur(17, 60, 40)), 2.494573171, 0.8851068667, 1.113690208, 1,
         967.3855689, 40}};
}

iso_6336_1::ToothLoad load(const iso_21771::Pair& pair, double face_width_mm) {
    return {.F_t_N = iso_6336_1::reference_force_N(pair, 600), .face_width_mm = face_width_mm};
}

}  // namespace

TEST_CASE("iso-6336-2 zone factor, recomputed") {
    for (const Row& row : rows()) CHECK(zone_factor(row.pair) == rel(row.Z_H, 1e-9));
    // 14 deg without profile shift.
    iso_21771::PairInput in = gear_pairs::spur(20, 50, 45);
    in.helix_angle_rad = rad_from_deg(14);
    in.centre_distance_mm = 2.5 * 70 / std::cos(in.helix_angle_rad);
    CHECK(zone_factor(iso_21771::pair(in)) == rel(2.433662732, 1e-9));
}

TEST_CASE("iso-6336-2 contact-ratio factor, recomputed") {
    for (const Row& row : rows()) CHECK(contact_ratio_factor(row.pair) == rel(row.Z_eps, 1e-9));
    CHECK(contact_ratio_factor(with_ratio(1)) == 1);
    CHECK(contact_ratio_factor(with_ratio(2.5)) == rel(std::sqrt(0.5), 1e-12));
    CHECK_THROWS_AS((void)contact_ratio_factor(with_ratio(0.99)), Error);
    CHECK_THROWS_AS((void)contact_ratio_factor(with_ratio(2.51)), Error);
}

TEST_CASE("iso-6336-2 helix factor: edition 2006 and later") {
    CHECK(helix_factor(gear_pairs::reference()) == 1);
    CHECK(helix_factor(gear_pairs::helical_25()) ==
          rel(1 / std::sqrt(std::cos(rad_from_deg(25))), 1e-12));
}

TEST_CASE("iso-6336-2 single-contact factors, recomputed, and fading with overlap") {
    for (const Row& row : rows()) {
        const SingleContact inner = single_contact(row.pair);
        CHECK(inner.Z_1 == rel(row.Z_1, 1e-9));
        CHECK(inner.Z_2 == rel(row.Z_2, 1e-9));
    }
    iso_21771::Pair pair = gear_pairs::reference();
    pair.eps_beta = 0.5;
    CHECK(single_contact(pair).Z_1 == rel(1 + 0.009049453 / 2, 1e-9));
    pair.eps_beta = 1;
    CHECK(single_contact(pair).Z_1 == 1);
    pair.eps_beta = 1.5;
    CHECK(single_contact(pair).Z_1 == 1);
    CHECK_THROWS_AS((void)single_contact(with_ratio(0.99)), Error);
    CHECK_THROWS_AS((void)single_contact(with_ratio(2.51)), Error);
    pair = gear_pairs::reference();
    pair.d_a1_mm = pair.d_b1_mm * 1.001;  // no single contact of its own left
    CHECK_THROWS_AS((void)single_contact(pair), Error);
    pair = gear_pairs::reference();
    pair.d_a2_mm = pair.d_b2_mm * 1.001;
    CHECK_THROWS_AS((void)single_contact(pair), Error);
}

TEST_CASE("iso-6336-2 nominal-stress recomputed") {
    for (const Row& row : rows())
        CHECK(nominal_stress_MPa(row.pair, load(row.pair, row.face_width_mm)) ==
              rel(row.sigma_H0_MPa, 1e-9));
    const iso_21771::Pair pair = gear_pairs::reference();
    CHECK(nominal_stress_MPa(pair, {.F_t_N = 0, .face_width_mm = 45}) == 0);
    CHECK_THROWS_AS((void)nominal_stress_MPa(pair, {.F_t_N = -1, .face_width_mm = 45}), Error);
    CHECK_THROWS_AS((void)nominal_stress_MPa(pair, {.F_t_N = 1, .face_width_mm = 0}), Error);
}

TEST_CASE("iso-6336-2 stress of both gears") {
    const iso_21771::Pair pair = gear_pairs::duty();
    const iso_6336_1::LoadFactors factors{.K_A = 1.1, .K_v = 1.15, .K_beta = 1.2, .K_alpha = 1.05};
    const FlankStress both = stress(pair, load(pair, 40), factors);
    CHECK(both.sigma_H2_MPa == rel(604.9761846 * std::sqrt(1.1 * 1.15 * 1.2 * 1.05), 1e-9));
    CHECK(both.sigma_H1_MPa == rel(1.023738545 * both.sigma_H2_MPa, 1e-9));
    // A pressure rises with the root of the load.
    iso_6336_1::ToothLoad four = load(pair, 40);
    four.F_t_N *= 4;
    CHECK(stress(pair, four, factors).sigma_H1_MPa == rel(2 * both.sigma_H1_MPa, 1e-12));
    // The same metal under the same tooth force, whichever gear drives.
    const FlankStress swapped =
        stress(gear_pairs::turned_round(), {.F_t_N = 5000, .face_width_mm = 45}, factors);
    const FlankStress straight =
        stress(gear_pairs::reference(), {.F_t_N = 5000, .face_width_mm = 45}, factors);
    CHECK(swapped.sigma_H2_MPa == rel(straight.sigma_H1_MPa, 1e-12));
    CHECK(swapped.sigma_H1_MPa == rel(straight.sigma_H2_MPa, 1e-12));
}

TEST_CASE("iso-6336-2 oil factor, recomputed") {
    CHECK(oil_factor(100) == rel(0.9658001116, 1e-9));
    CHECK(oil_factor(32) == rel(0.922403034, 1e-9));
    CHECK(oil_factor(1e9) == rel(0.91 + 4 * 0.09 / 1.44, 1e-6));
    CHECK_THROWS_AS((void)oil_factor(0), Error);
}

TEST_CASE("iso-6336-2 speed factor, recomputed") {
    CHECK(speed_factor(10) == rel(1, 1e-12));  // 0.8 + 3.2 = 4
    CHECK(speed_factor(60) == rel(1.051243557, 1e-9));
    CHECK(speed_factor(1e-9) == rel(0.93, 1e-4));
    CHECK_THROWS_AS((void)speed_factor(0), Error);
}

TEST_CASE("iso-6336-2 roughness factor, recomputed") {
    const iso_21771::Pair pair = gear_pairs::reference();
    CHECK(roughness_factor(pair, 3) == rel(1.014139076, 1e-9));
    CHECK(roughness_factor(pair, 6) == rel(0.9594340276, 1e-9));
    // The transverse radius counts: rho_redC is that of the normal section.
    const iso_21771::Pair helical = gear_pairs::helical_25();
    const double rho_mm = helical.rho_redC_mm * std::cos(helical.beta_b_rad);
    CHECK(roughness_factor(helical, 3) == rel(std::pow(rho_mm / 10, 0.08 / 3), 1e-12));
    CHECK_THROWS_AS((void)roughness_factor(pair, 0), Error);
}

TEST_CASE("iso-6336-2 limit is a product") {
    const FlankLimit limit{.sigma_Hlim_MPa = 1500, .Z_L = 0.95, .Z_v = 1.02, .Z_R = 1.01};
    CHECK(limit_MPa(limit) == rel(1500 * 0.95 * 1.02 * 1.01, 1e-12));
    const auto with = [&](auto change) {
        FlankLimit other = limit;
        change(other);
        return limit_MPa(other);
    };
    CHECK(with([](auto& l) { l.sigma_Hlim_MPa = 1200; }) > 0);
    CHECK(with([](auto& l) { l.sigma_Hlim_MPa = 3000; }) > 0);
    CHECK_THROWS_AS((void)with([](auto& l) { l.sigma_Hlim_MPa = 1199; }), Error);
    CHECK_THROWS_AS((void)with([](auto& l) { l.sigma_Hlim_MPa = 3001; }), Error);
    CHECK_THROWS_AS((void)with([](auto& l) { l.Z_L = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& l) { l.Z_v = 0; }), Error);
    CHECK_THROWS_AS((void)with([](auto& l) { l.Z_R = 0; }), Error);
}

}  // namespace caseload::iso_6336_2
