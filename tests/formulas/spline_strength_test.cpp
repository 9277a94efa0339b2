// SPDX-License-Identifier: MIT
#include "caseload/formulas/spline_strength.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::spline_strength {

TEST_CASE("dudley-1957 distribution: sixteen entries of the table by the closed form") {
    // Misalignment 1, 2, 4, 8 mm/m down, length 0.5, 1, 2, 4 in across, as public reproductions
    // print them. Exact: the closed form was derived from this table.
    const double table[4][4] = {{1, 1, 1, 1.5}, {1, 1, 1.5, 2}, {1, 1.5, 2, 2.5}, {1.5, 2, 2.5, 3}};
    for (int m = 0; m < 4; ++m)
        for (int l = 0; l < 4; ++l)
            CHECK(distribution_factor({std::pow(2.0, m), 12.7 * std::pow(2.0, l)}) ==
                  rel(table[m][l], 1e-12));
    CHECK(distribution_factor({0, 50}) == 1);
    CHECK(distribution_factor({17, 180}) > distribution_factor({16, 180}));
    CHECK_THROWS_AS((void)distribution_factor({1, 0}), Error);
    CHECK_THROWS_AS((void)distribution_factor({-1, 50}), Error);
    CHECK_NOTHROW((void)distribution_factor({99.5, 50}));
    CHECK_THROWS_AS((void)distribution_factor({100.5, 50}), Error);
}

TEST_CASE("dudley-1957 wear-life: seven entries of the table within 1 %") {
    // Public reproductions: wear factor by turns. 1 %: the table's own rounding to two figures.
    const struct {
        double turns;
        double L_w;
    } table[] = {{1e4, 4.0}, {1e5, 2.8}, {1e6, 2.0}, {1e7, 1.4},
                 {1e8, 1.0}, {1e9, 0.7}, {1e10, 0.5}};
    for (const auto& [turns, L_w] : table) {
        // The stress that lives so long, over the allowed one.
        CHECK(std::pow(wear_life_rev(L_w * 10, 10) / turns, 1 / wear_exponent) == rel(1, 0.0102));
    }
    CHECK(wear_life_rev(40, 10) == rel(1e4, 1e-12));
    // Twice the torque: a hundredth of the life.
    CHECK(wear_life_rev(10, 20) / wear_life_rev(20, 20) == rel(100, 1e-9));
    CHECK_THROWS_AS((void)wear_life_rev(0, 20), Error);
}

TEST_CASE("dudley-1957 allowed-contact of the three hardnesses, psi") {
    // The table is in psi: whole thousands.
    constexpr double psi_per_MPa = 145.0377377;
    CHECK(allowed_contact_MPa(Hardness::soft) * psi_per_MPa == rel(3000, 1e-9));
    CHECK(allowed_contact_MPa(Hardness::surface) * psi_per_MPa == rel(4000, 1e-9));
    CHECK(allowed_contact_MPa(Hardness::case_hard) * psi_per_MPa == rel(5000, 1e-9));
    CHECK(fixed_factor == 9);  // one reproduction only: nothing to test it against
    CHECK(blow_factor == 1.8);
    CHECK(dry_factor == 5);  // judgement
}

TEST_CASE("dudley-1957 contact-stress: a quick-change hub and a slip joint, worked by hand") {
    // 766 N m on 32 teeth, 64 mm, 42 mm long, 1.8 mm high.
    const Teeth hub{32, 64, 42, 1.8};
    const double piloted_MPa = contact_MPa(hub, 766, distribution_factor({1, 42}));
    CHECK(piloted_MPa == rel(9.9, 0.005));
    CHECK(piloted_MPa / (fixed_factor * allowed_contact_MPa(Hardness::surface)) == rel(0.04, 0.01));
    const double K_m = distribution_factor({4, 42});
    CHECK(K_m == rel(1.86, 0.002));
    const double loose_MPa = contact_MPa(hub, 766, K_m);
    CHECK(loose_MPa == rel(18.4, 0.003));
    // Two figures printed: 2.5 %.
    CHECK(wear_life_rev(loose_MPa, allowed_contact_MPa(Hardness::soft)) == rel(2.1e8, 0.025));
    CHECK(wear_life_rev(loose_MPa, allowed_contact_MPa(Hardness::surface)) == rel(1.5e9, 0.035));
    CHECK(wear_life_rev(loose_MPa, allowed_contact_MPa(Hardness::case_hard)) == rel(6.4e9, 0.025));
    // 900 N m on 16 teeth, 58 mm, 90 mm long, 2.8 mm high.
    const double K_m_slip = distribution_factor({2, 90});
    CHECK(K_m_slip == rel(1.91, 0.002));
    CHECK(contact_MPa({16, 58, 90, 2.8}, 900, K_m_slip) == rel(14.7, 0.003));
    CHECK_THROWS_AS((void)contact_MPa({0, 58, 90, 2.8}, 900, 1), Error);
}

TEST_CASE(
    "dudley-1957 contact-stress falls with the length, by less than in proportion where it is "
    "tilted") {
    for (const double slope_mmpm : {1.0, 2.0, 4.0}) {
        double before = 1e9;
        for (double length_mm = 20; length_mm < 150; length_mm += 10) {
            const double now = contact_MPa({20, 50, length_mm, 2}, 500,
                                           distribution_factor({slope_mmpm, length_mm}));
            CHECK(now < before);
            CHECK(now * length_mm >= (before < 1e8 ? before : 0) * (length_mm - 10) * (1 - 1e-12));
            before = now;
        }
    }
}

TEST_CASE("dudley-1957 shear: shear of a tube, against the text-book's 16 T / (pi d^3)") {
    CHECK(shear_MPa({40, 0}, 1000) == rel(16e6 / (3.14159265358979 * 64000), 1e-12));
    CHECK(shear_MPa({40, 20}, 1000) == rel(shear_MPa({40, 0}, 1000) * 16 / 15, 1e-12));
    CHECK(allowed_shear_MPa(Hardness::soft) * 145.0377377 == rel(40000, 1e-9));
    CHECK(allowed_shear_MPa(Hardness::surface) * 145.0377377 == rel(40000, 1e-9));
    CHECK(allowed_shear_MPa(Hardness::case_hard) * 145.0377377 == rel(50000, 1e-9));
    CHECK_THROWS_AS((void)shear_MPa({40, 40}, 1000), Error);
    CHECK_NOTHROW((void)shear_MPa({40, 0.985 * 40}, 1000));
    CHECK_THROWS_AS((void)shear_MPa({40, 0.995 * 40}, 1000), Error);
}

TEST_CASE("dudley-1957 roots: below the pitch circle by 1.8 modules") {
    CHECK(root_diameter_mm({32, 64, 42, 1.8}) == rel(64 - 1.8 * 2, 1e-12));
}

}  // namespace caseload::spline_strength
