// SPDX-License-Identifier: MIT
// Recomputed values: tests/reference/seat_values.py, which solves u = A r + B/r of every body.
#include "caseload/formulas/thick_ring.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

namespace caseload::thick_ring {

namespace {

// Ring 110x170x28 with raceway 158.
Fit in_aluminium(double interference_mm) {
    return {.inside_mm = 158,
            .joint_mm = 170,
            .outside_mm = 210,
            .inner = steel,
            .outer = aluminium,
            .interference_mm = interference_mm};
}
Nest in_retainer(double ring_mm, double retainer_mm) {
    return {.raceway_mm = 158,
            .ring_outside_mm = 170,
            .retainer_outside_mm = 190,
            .boss_outside_mm = 230,
            .ring = steel,
            .retainer = steel,
            .boss = aluminium,
            .ring_interference_mm = ring_mm,
            .retainer_interference_mm = retainer_mm};
}
NestTemps all(double temp_degC) {
    return {.ring_degC = temp_degC, .retainer_degC = temp_degC, .boss_degC = temp_degC};
}
double shrink_mm(double pressure_MPa) {
    return -inside_growth_mm({158, 170, steel}, {.inside_MPa = 0, .outside_MPa = pressure_MPa});
}

/// Temperature at which a joint opens, by bisection of pressure and gap.
template <class At>
double opens_degC(const At& at) {
    double low = -100;
    double high = 300;
    for (int i = 0; i < 60; ++i) {
        const double middle = (low + high) / 2;
        (at(middle).pressure_MPa > 0 ? low : high) = middle;
    }
    return low;
}

}  // namespace

TEST_CASE("lame-1852 inner-diameter of a tube under pressure") {
    // A membrane (b - a small): hoop strain p r/(E t).
    const Tube thin{100, 100.02, steel};
    CHECK(inside_growth_mm(thin, {1, 0}) == rel(100 * 100 / (2 * 0.01 * 206e3), 1e-3));
    // Equal pressure on both sides: every stress is -p, so strain -(1 - nu) p/E.
    const Tube tube{60, 100, aluminium};
    CHECK(inside_growth_mm(tube, {5, 5}) == rel(-60 * 5 * (1 - 0.33) / 71e3, 1e-12));
    CHECK_THROWS_AS((void)inside_growth_mm({0, 100, steel}, {1, 0}), Error);
    CHECK_THROWS_AS((void)inside_growth_mm({100, 100, steel}, {1, 0}), Error);
}

TEST_CASE("lame-1852 outer-diameter of a tube under pressure") {
    const Tube tube{60, 100, aluminium};
    CHECK(outside_growth_mm(tube, {5, 5}) == rel(-100 * 5 * (1 - 0.33) / 71e3, 1e-12));
    // A solid: -(1 - nu) p/E everywhere.
    CHECK(outside_growth_mm({0, 100, steel}, {0, 10}) == rel(-100 * 10 * 0.7 / 206e3, 1e-12));
    // Maxwell and Betti: pressure works on the other surface's area alike.
    CHECK(100 * outside_growth_mm(tube, {1, 0}) ==
          rel(-60 * inside_growth_mm(tube, {0, 1}), 1e-12));
    CHECK_THROWS_AS((void)outside_growth_mm({-1, 100, steel}, {1, 0}), Error);
    CHECK_THROWS_AS((void)outside_growth_mm({1, 100, {0, 0.3, 0}}, {1, 0}), Error);
    CHECK_THROWS_AS((void)outside_growth_mm({1, 100, {1, 0.6, 0}}, {1, 0}), Error);
    CHECK_NOTHROW((void)outside_growth_mm({1, 100, {1, 0.5, 1e-3}}, {1, 0}));
    CHECK_THROWS_AS((void)outside_growth_mm({1, 100, {1, 0.503, 0}}, {1, 0}), Error);
    CHECK_THROWS_AS((void)outside_growth_mm({1, 100, {1, 0.3, 1.005e-3}}, {1, 0}), Error);
}

TEST_CASE("lame-1852 hoop-stress at the bore") {
    // Strain x E without the radial stress: growth/a E = hoop + nu p_i.
    const Tube tube{170, 210, aluminium};
    const Pressure pressure{.inside_MPa = 3, .outside_MPa = 2};
    CHECK(inside_hoop_MPa(tube, pressure) ==
          rel(inside_growth_mm(tube, pressure) / 170 * 71e3 - 0.33 * 3, 1e-12));
    CHECK(inside_hoop_MPa(tube, {4, 4}) == rel(-4, 1e-12));
    CHECK(within(inside_hoop_MPa(tube, {joint(in_aluminium(0.040), {20, 20}).pressure_MPa, 0}),
                 8.2324, 5e-5));
    CHECK_THROWS_AS((void)inside_hoop_MPa({0, 100, steel}, {0, 1}), Error);
}

TEST_CASE("lame-1852 two-bodies ring in aluminium, recomputed") {
    // ring, case degC; pressure MPa, shrink um, gap um
    const double table[][5] = {{20, 20, 1.714146, 19.3068, 0},
                               {-20, -20, 5.036160, 56.7234, 0},
                               {80, 80, 0, 0, 76.280},
                               {110, 110, 0, 0, 134.420},
                               {120, 100, 0, 0, 74.240}};
    for (const auto& row : table) {
        CAPTURE(row[0]);
        const Joint at = joint(in_aluminium(0.040), {row[0], row[1]});
        CHECK(within(at.pressure_MPa, row[2], 5e-7));
        CHECK(within(1000 * shrink_mm(at.pressure_MPa), row[3], 5e-5));
        CHECK(within(1000 * at.gap_mm, row[4], 5e-4));
    }
    // Shrink fit of 8, 12, 16 in with 0.010 in on diameter, E 30e6 psi: 4050 psi in print.
    const Material psi{.E_MPa = 30e6, .nu = 0.3, .expansion_pK = 0};
    const Joint in_psi = joint({8, 12, 16, psi, psi, 0.010}, {20, 20});
    CHECK(within(in_psi.pressure_MPa, 4050, 5));
    CHECK(within(in_psi.pressure_MPa, 4050.926, 5e-4));
}

TEST_CASE("lame-1852 two-bodies pressure is linear in the interference, which both bodies share") {
    const Joint one = joint(in_aluminium(0.050), {20, 20});
    CHECK(joint(in_aluminium(0.100), {20, 20}).pressure_MPa == rel(2 * one.pressure_MPa, 1e-12));
    CHECK(inside_growth_mm({170, 210, aluminium}, {one.pressure_MPa, 0}) -
              outside_growth_mm({158, 170, steel}, {0, one.pressure_MPa}) ==
          rel(0.050, 1e-12));
    // Both sides of contact.
    CHECK(joint(in_aluminium(1e-9), {20, 20}).pressure_MPa > 0);
    const Joint open = joint(in_aluminium(-1e-9), {20, 20});
    CHECK(open.pressure_MPa == 0);
    CHECK(open.gap_mm == rel(1e-9, 1e-9));
    CHECK_THROWS_AS((void)joint(in_aluminium(NAN), {20, 20}), Error);
    CHECK_NOTHROW((void)joint(in_aluminium(5), {20, 20}));
    CHECK_THROWS_AS((void)joint(in_aluminium(5.04), {20, 20}), Error);
    CHECK_THROWS_AS((void)joint(in_aluminium(-5.04), {20, 20}), Error);
    CHECK_NOTHROW((void)joint(in_aluminium(-5), {300, -100}));
    CHECK_THROWS_AS((void)joint(in_aluminium(0.1), {302, 20}), Error);
    CHECK_THROWS_AS((void)joint(in_aluminium(0.1), {20, -100.5}), Error);
}

TEST_CASE("lame-1852 release of a ring in aluminium equals bisection") {
    for (const double interference_mm : {-0.030, 0.0, 0.040, 0.200}) {
        const Fit fit = in_aluminium(interference_mm);
        CHECK(within(release_degC(fit), opens_degC([&](double temp_degC) {
                         return joint(fit, {temp_degC, temp_degC});
                     }),
                     1e-9));
    }
    CHECK(within(release_degC(in_aluminium(0.040)), 40.63983, 5e-6));
    CHECK(release_degC(in_aluminium(0)) == 20);
    Fit all_steel = in_aluminium(0.04);
    all_steel.outer = steel;
    CHECK_THROWS_AS((void)release_degC(all_steel), Error);
    Fit turned = in_aluminium(0.04);
    turned.outside_mm = 160;
    CHECK_THROWS_AS((void)release_degC(turned), Error);
}

TEST_CASE("lame-1852 three-bodies ring in a steel retainer, recomputed") {
    // retainer interference mm, degC; p_1, p_2 MPa, raceway shrink um, retainer's gap um
    const double table[][6] = {{0.150, -20, 7.130089, 12.524300, 80.3078, 0},
                               {0.150, 20, 5.202135, 8.157519, 58.5928, 0},
                               {0.150, 80, 2.310205, 1.607348, 26.0203, 0},
                               {0.150, 110, 1.600553, 0, 18.0274, 33.0891},
                               {0.250, 20, 7.427382, 13.197663, 83.6562, 0},
                               {0.250, 110, 3.089486, 3.372406, 34.7976, 0}};
    for (const auto& row : table) {
        CAPTURE(row[0]);
        CAPTURE(row[1]);
        const NestJoints at = joints(in_retainer(0.030, row[0]), all(row[1]));
        CHECK(within(at.ring.pressure_MPa, row[2], 5e-7));
        CHECK(within(at.retainer.pressure_MPa, row[3], 5e-7));
        CHECK(within(1000 * shrink_mm(at.ring.pressure_MPa), row[4], 5e-5));
        CHECK(within(1000 * at.retainer.gap_mm, row[5], 5e-5));
        CHECK(at.ring.gap_mm == 0);
    }
}

TEST_CASE("lame-1852 three-bodies limits") {
    // A retainer without a wall, at the ring's material: two bodies with both interferences.
    Nest none = in_retainer(0.020, 0.030);
    none.retainer_outside_mm = 170 + 1e-6;
    none.boss_outside_mm = 210;
    const NestJoints at = joints(none, all(-20));
    const Joint two = joint(in_aluminium(0.050), {-20, -20});
    CHECK(at.ring.pressure_MPa == rel(two.pressure_MPa, 1e-4));
    CHECK(at.retainer.pressure_MPa == rel(two.pressure_MPa, 1e-4));
    // Each joint alone, when the other has room.
    const NestJoints ring = joints(in_retainer(0.030, -0.200), all(20));
    const Fit ring_alone{158, 170, 190, steel, steel, 0.030};
    CHECK(ring.ring.pressure_MPa == rel(joint(ring_alone, {20, 20}).pressure_MPa, 1e-12));
    CHECK(ring.retainer.pressure_MPa == 0);
    CHECK(ring.retainer.gap_mm < 0.200);  // the ring has widened the retainer
    const NestJoints outer = joints(in_retainer(-0.300, 0.150), all(20));
    const Fit retainer_alone{170, 190, 230, steel, aluminium, 0.150};
    CHECK(outer.retainer.pressure_MPa == rel(joint(retainer_alone, {20, 20}).pressure_MPa, 1e-12));
    CHECK(outer.ring.pressure_MPa == 0);
    CHECK(outer.ring.gap_mm < 0.300);
    CHECK(outer.ring.gap_mm > 0);
    const NestJoints loose = joints(in_retainer(-0.010, -0.020), all(20));
    CHECK(loose.ring.gap_mm == rel(0.010, 1e-12));
    CHECK(loose.retainer.gap_mm == rel(0.020, 1e-12));
    // Sizes match at both joints, whatever is pressed: gap = outer bore - inner outside.
    for (const double ring_mm : {-0.300, -0.050, 0.030, 0.300})
        for (const double retainer_mm : {-0.300, -0.050, 0.150})
            for (const double temp_degC : {-20.0, 60.0, 140.0}) {
                CAPTURE(ring_mm);
                CAPTURE(retainer_mm);
                CAPTURE(temp_degC);
                const NestJoints j = joints(in_retainer(ring_mm, retainer_mm), all(temp_degC));
                const double p_1 = j.ring.pressure_MPa;
                const double p_2 = j.retainer.pressure_MPa;
                CHECK(p_1 >= 0);
                CHECK(p_2 >= 0);
                CHECK(j.ring.gap_mm >= 0);
                CHECK(j.retainer.gap_mm >= 0);
                CHECK(p_1 * j.ring.gap_mm == 0);
                CHECK(p_2 * j.retainer.gap_mm == 0);
                const double warm = temp_degC - 20;
                const Tube wall{170, 190, steel};
                CHECK(within(inside_growth_mm(wall, {p_1, p_2}) -
                                 outside_growth_mm({158, 170, steel}, {0, p_1}) - ring_mm,
                             j.ring.gap_mm, 1e-12));
                CHECK(within(inside_growth_mm({190, 230, aluminium}, {p_2, 0}) -
                                 outside_growth_mm(wall, {p_1, p_2}) - retainer_mm +
                                 190 * 11.4e-6 * warm,
                             j.retainer.gap_mm, 1e-12));
            }
}

TEST_CASE("lame-1852 three-release equals bisection") {
    for (const double ring_mm : {-0.050, -0.010, 0.0, 0.030})
        for (const double retainer_mm : {-0.100, 0.0, 0.150, 0.250}) {
            CAPTURE(ring_mm);
            CAPTURE(retainer_mm);
            const Nest nest = in_retainer(ring_mm, retainer_mm);
            const Release release = release_degC(nest);
            const double retainer_degC =
                opens_degC([&](double temp_degC) { return joints(nest, all(temp_degC)).retainer; });
            if (retainer_degC > -99) CHECK(within(release.retainer_degC, retainer_degC, 1e-8));
            const double ring_degC =
                opens_degC([&](double temp_degC) { return joints(nest, all(temp_degC)).ring; });
            CHECK(release.ring_degC.has_value() == (ring_mm <= 0));
            if (ring_degC > -99 && ring_degC < 299)
                CHECK(within(release.ring_degC.value(), ring_degC, 1e-8));
        }
    // Recomputed. The ring's own pressure holds the retainer 5.5 K beyond its free size.
    CHECK(within(release_degC(in_retainer(0.030, 0.150)).retainer_degC, 94.72341, 5e-6));
    CHECK(within(release_degC(in_retainer(0.030, 0.250)).retainer_degC, 140.89146, 5e-6));
    CHECK(within(release_degC(in_retainer(-1, 0.150)).retainer_degC, 20 + 150 / (190 * 11.4e-3),
                 1e-9));
    CHECK(within(release_degC(in_retainer(-0.010, 0.150)).ring_degC.value(), 76.3592, 5e-5));
    // A retainer of aluminium in a boss that grows even more: the ring goes by itself.
    Nest soft = in_retainer(0.040, -1);
    soft.retainer = aluminium;
    soft.boss.expansion_pK = 25e-6;
    CHECK(within(release_degC(soft).ring_degC.value(), 40.63983, 5e-6));
    // Same expansion of retainer and boss, or a ring that outgrows its retainer: no such formula.
    Nest same = in_retainer(0.040, 0.1);
    same.boss = steel;
    CHECK_THROWS_AS((void)release_degC(same), Error);
    Nest turned = in_retainer(0.040, 0.1);
    turned.ring = aluminium;
    CHECK_THROWS_AS((void)release_degC(turned), Error);
}

TEST_CASE("lame-1852 slip torque of a pressed ring") {
    // 0.1 x 2 MPa on pi 170 x 28 mm2 at 85 mm.
    const double torque_Nm = slip_torque_Nm({2, 170, 28, least_seat_friction});
    CHECK(torque_Nm == rel(0.1 * 2 * pi * 170 * 28 * 0.085, 1e-12));
    CHECK(slip_torque_Nm({0, 170, 28, 0.1}) == 0);
    CHECK_THROWS_AS((void)slip_torque_Nm({-1, 170, 28, 0.1}), Error);
    CHECK_THROWS_AS((void)slip_torque_Nm({1, 0, 28, 0.1}), Error);
    CHECK_THROWS_AS((void)slip_torque_Nm({1, 170, 0, 0.1}), Error);
    CHECK_THROWS_AS((void)slip_torque_Nm({1, 170, 28, 1.005}), Error);
    CHECK_NOTHROW((void)slip_torque_Nm({1, 170, 28, 1}));
}

}  // namespace caseload::thick_ring
