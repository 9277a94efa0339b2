// SPDX-License-Identifier: MIT
#include "caseload/formulas/facing_pair.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::facing_pair {

using BK = BearingKind;

namespace {

constexpr double stiff_Npum = 1e9;
constexpr double roller_n = 10.0 / 9;
constexpr double ball_n = 1.5;

/// Tapered 80x125x29 of 16 deg: rollers 11.25 x 17.165 mm, 26 of them.
Spring tapered() {
    return spring({BK::tapered_roller, 11.25, 17.165, 26, 16});
}

Pair alike(const Spring& one, double structure_Npum) {
    return {one, one, structure_Npum};
}

}  // namespace

TEST_CASE("bearing-practice axial-stiffness: a tapered bearing along its axis") {
    const Spring one = tapered();
    CHECK(one.k_a == rel(770193, 1e-3));
    CHECK(one.n == rel(roller_n, 1e-15));
    const auto give_um = [&](double F_N) { return 1000 * std::pow(F_N / one.k_a, 1 / one.n); };
    CHECK(give_um(1000) == rel(2.52, 3e-3));
    CHECK(give_um(5000) == rel(10.74, 3e-3));
    // Palmgren's form, from memory: 2.44 and 10.39 um.
    const double sin_a = std::sin(16 * 3.14159265358979 / 180);
    for (const double F_N : {1000.0, 5000.0}) {
        const double Q_N = F_N / (26 * sin_a);
        const double palmgren_um =
            1000 * 7.68e-5 * std::pow(Q_N, 0.9) / (std::pow(17.165, 0.8) * sin_a);
        CHECK(give_um(F_N) == rel(palmgren_um, 0.035));
    }
    // Balls: within 8 % of Palmgren's 4.36e-4 (Q^2/D_w)^(1/3)/sin a.
    const Spring ball = spring({BK::angular_contact_ball, 16, 0, 14, 40});
    const double sin_40 = std::sin(40 * 3.14159265358979 / 180);
    const double Q_N = 2000 / (14 * sin_40);
    CHECK(std::pow(2000 / ball.k_a, 1 / ball.n) ==
          rel(4.36e-4 * std::cbrt(Q_N * Q_N / 16) / sin_40, 0.08));
    CHECK_THROWS_AS((void)spring({BK::tapered_roller, 11.25, 17.165, 26, 0}), Error);
}

TEST_CASE("bearing-practice pair-springs: when the second bearing of a pair unloads") {
    // Textbooks: 2.83 times the preload for balls, 2 for springs in proportion; derived for
    // rollers.
    for (const auto& [n, times] : {std::pair{1.0, 2.0}, {roller_n, 2.160}, {ball_n, 2.828}}) {
        const Pair pair = alike({5e5, n}, stiff_Npum);
        const double over = over_mm(pair, 1000);
        CHECK(forces(pair, 1000 * times * 0.999, over).F_B_N > 0);
        const Forces off = forces(pair, 1000 * times * 1.001, over);
        CHECK(off.F_B_N == 0);
        CHECK(off.F_A_N == rel(1000 * times * 1.001, 1e-12));
    }
    // An outside force as large as the preload.
    for (const auto& [n, a, b] :
         {std::tuple{1.0, 1.5, 0.5}, {roller_n, 1.513, 0.513}, {ball_n, 1.542, 0.542}}) {
        const Pair pair = alike({5e5, n}, stiff_Npum);
        const Forces at = forces(pair, 1000, over_mm(pair, 1000));
        CHECK(at.F_A_N == rel(1000 * a, 1e-3));
        CHECK(at.F_B_N == rel(1000 * b, 2e-3));
    }
}

TEST_CASE("bearing-practice pair-springs: preload by how stiff the structure is") {
    struct Row {
        double structure_Npum;
        double at_20_um_N;
        double at_63_um_N;
    };
    for (const Row& row : {Row{stiff_Npum, 4617, 16522}, Row{400, 2838, 9657}, Row{150, 1748, 5779},
                           Row{50, 795, 2562}}) {
        const Pair pair = alike(tapered(), row.structure_Npum);
        CHECK(forces(pair, 0, 0.020).F_B_N == rel(row.at_20_um_N, 2e-3));
        CHECK(forces(pair, 0, 0.063).F_B_N == rel(row.at_63_um_N, 2e-3));
    }
    const Pair pair = alike(tapered(), 150);
    const Forces at = forces(pair, 2000, 0.020);
    CHECK(at.F_A_N == rel(2760, 2e-3));
    CHECK(at.F_B_N == rel(760, 5e-3));
    CHECK(forces(pair, 3595, 0.020).F_B_N > 0);
    CHECK(forces(pair, 3607, 0.020).F_B_N == 0);
}

TEST_CASE("bearing-practice pair-springs: no jump where play ends, more where it is shorter") {
    const Pair pair = alike(tapered(), 150);
    CHECK(forces(pair, 500, -0.1).F_A_N == 500);
    CHECK(forces(pair, 500, 0).F_B_N == 0);
    double before_N = 0;
    for (double over = 0; over < 0.2; over += 0.001) {
        const Forces at = forces(pair, 500, over);
        CHECK(at.F_B_N >= before_N);
        CHECK(at.F_B_N - before_N < 150);
        CHECK(at.F_A_N == rel(at.F_B_N + 500, 1e-12));
        before_N = at.F_B_N;
    }
    // There and back, of unlike bearings too.
    const Pair unlike{tapered(), {3e5, ball_n}, 150};
    CHECK(forces(unlike, 0, over_mm(unlike, 1234)).F_B_N == rel(1234, 1e-9));
    CHECK_THROWS_AS((void)forces(pair, -1, 0.01), Error);
    CHECK_THROWS_AS((void)forces({pair.a, pair.b, 0}, 1, 0.01), Error);
    CHECK_THROWS_AS((void)over_mm(pair, -1), Error);
}

TEST_CASE("bearing-practice pair-rings: warm cones tighten, cups without squeeze loosen") {
    // Derived: 102.5 mm, 16 deg.
    CHECK(1000 * warm_cone_mm({102.5, 16}, 5) == rel(10.7, 3e-3));
    CHECK(warm_cone_mm({102.5, 16}, 0) == 0);
    CHECK(1000 * squeeze_lost_mm({102.5, 16}, 0.020) == rel(34.9, 2e-3));
    CHECK_THROWS_AS((void)warm_cone_mm({102.5, 0}, 5), Error);
}

TEST_CASE("bearing-practice pair-torque: what a preload adds to the hand") {
    // Derived: f1 4e-4, Y 1.395, 1748 N: 0.200 N m.
    CHECK(torque_Nmm_per_N({4e-4, 1.395, 102.5}) * 1748 == rel(200, 5e-3));
    CHECK_THROWS_AS((void)torque_Nmm_per_N({0, 1.395, 102.5}), Error);
}

}  // namespace caseload::facing_pair
