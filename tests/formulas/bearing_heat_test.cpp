// SPDX-License-Identifier: MIT
#include "caseload/formulas/bearing_heat.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::bearing_heat {
namespace {

/// Of the size 90x140x24 in a boss of 190 mm, its rollers 12.5 mm thick.
OuterRing wide_ring(double film_Wpm2K) {
    return {.width_mm = 24,
            .raceway_mm = 127.5,
            .outside_mm = 140,
            .seat_film_Wpm2K = film_Wpm2K,
            .boss_outside_mm = 190,
            .boss_WpmK = 160};
}
InnerRing wide_inner(double along_mm, double shaft_bore_mm = 0) {
    return {.width_mm = 24,
            .raceway_mm = 102.5,
            .bore_mm = 90,
            .shaft_bore_mm = shaft_bore_mm,
            .along_mm = along_mm};
}

constexpr Paths star{.housing_WpK = 17.236, .steel_WpK = 6.2436, .oil_WpK = 3.26};

}  // namespace

TEST_CASE("bearing-heat seat-gap film of oil in a gap between a tight and the loosest seat") {
    // Recomputed by hand: 0.14 W/(m K) over half the gap.
    CHECK(within(seat_film_Wpm2K(0.083), 3373, 1));
    CHECK(seat_film_Wpm2K(0.2) == rel(1400, 1e-12));
    CHECK(seat_film_Wpm2K(0) == 5000);
    // Continuous at both ends: 56 and 466.7 um.
    CHECK(seat_film_Wpm2K(0.0559) == 5000);
    CHECK(seat_film_Wpm2K(0.0561) == rel(5000 * 56 / 56.1, 1e-9));
    CHECK(seat_film_Wpm2K(0.46) > 600);
    CHECK(seat_film_Wpm2K(0.47) == 600);
    CHECK_THROWS_AS((void)seat_film_Wpm2K(-0.01), Error);
}

TEST_CASE("bearing-heat outer-path conduction through seat, ring and boss") {
    // By the same formula in another program, Python.
    CHECK(within(outer_path_WpK(wide_ring(1000)), 8.25255, 5e-6));
    CHECK(within(outer_path_WpK(wide_ring(3000)), 17.23605, 5e-6));
    CHECK(within(outer_path_WpK(wide_ring(6000)), 23.68055, 5e-6));
    OuterRing ring = wide_ring(3000);
    ring.boss_outside_mm = 140;
    CHECK(outer_path_WpK(ring) > outer_path_WpK(wide_ring(3000)));
    // A boss of cast iron: 50 in place of 160.
    OuterRing iron = wide_ring(3000);
    iron.boss_WpmK = 50;
    CHECK(
        1 / outer_path_WpK(iron) - 1 / outer_path_WpK(wide_ring(3000)) ==
        rel(std::log(190.0 / 140) / (2 * std::acos(-1.0) * 0.024) * (1.0 / 50 - 1.0 / 160), 1e-9));
    iron.boss_WpmK = 0;
    CHECK_THROWS_AS((void)outer_path_WpK(iron), Error);
    ring.seat_film_Wpm2K = 0;
    CHECK_THROWS_AS((void)outer_path_WpK(ring), Error);
    ring = wide_ring(3000);
    ring.width_mm = 0;
    CHECK_THROWS_AS((void)outer_path_WpK(ring), Error);
}

TEST_CASE("bearing-heat retainer-path a retainer's wall and seat come in between") {
    const OuterRing ring = wide_ring(3000);
    const double plain_KpW = 1 / outer_path_WpK(ring);
    const double nested_KpW =
        1 / outer_path_WpK(ring, {.outside_mm = 160, .seat_film_Wpm2K = 5000});
    // 1/(5000 pi 0.16 0.024), and ln(160/140) in steel in place of aluminium: by Python.
    CHECK(within(nested_KpW - plain_KpW, 0.0165786 + 0.0141441, 2e-6));
    // No wall at all leaves the second seat.
    const double thin_KpW = 1 / outer_path_WpK(ring, {.outside_mm = 140, .seat_film_Wpm2K = 5000});
    CHECK(within(thin_KpW - plain_KpW, 1 / (5000 * std::acos(-1.0) * 0.14 * 0.024), 1e-12));
}

TEST_CASE("bearing-heat inner-path conduction through inner ring and shaft") {
    CHECK(within(inner_path_WpK(wide_inner(30)), 8.80370, 5e-6));
    CHECK(within(inner_path_WpK(wide_inner(50)), 6.24362, 5e-6));
    CHECK(within(inner_path_WpK(wide_inner(100)), 3.61532, 5e-6));
    CHECK(within(
        inner_path_WpK(
            {.width_mm = 20, .raceway_mm = 80, .bore_mm = 70, .shaft_bore_mm = 0, .along_mm = 50}),
        3.93724, 5e-6));
    // A bored shaft passes less; a gear close by more.
    CHECK(inner_path_WpK(wide_inner(50, 60)) < inner_path_WpK(wide_inner(50)));
    CHECK(inner_path_WpK(wide_inner(0, 60)) == inner_path_WpK(wide_inner(0)));
    CHECK_THROWS_AS((void)inner_path_WpK(wide_inner(-1)), Error);
}

TEST_CASE("bearing-heat oil-path what the passing oil takes a kelvin") {
    CHECK(oil_path_WpK({.density_kgpm3 = 850, .specific_heat_JpkgK = 2300, .flow_Lpmin = 0.1}) ==
          rel(850 * 2300 * 0.1 / 60000, 1e-12));
    CHECK(oil_path_WpK({.density_kgpm3 = 850, .specific_heat_JpkgK = 2300, .flow_Lpmin = 0}) == 0);
    CHECK_THROWS_AS((void)oil_path_WpK({850, 2300, -1}), Error);
}

TEST_CASE("bearing-heat star film between its three ends, and its heat") {
    const Around around{.housing_degC = 107, .steel_degC = 122, .oil_degC = 120};
    const double film_degC = unheated_film_degC(star, around) + 100 / all_WpK(star);
    CHECK(within(film_degC, 115.83, 0.005));
    const double to_housing_W = star.housing_WpK * (film_degC - around.housing_degC);
    const double to_steel_W = star.steel_WpK * (film_degC - around.steel_degC);
    const double to_oil_W = star.oil_WpK * (film_degC - around.oil_degC);
    CHECK(within(to_housing_W, 152.15, 0.05));
    CHECK(within(to_steel_W, -38.54, 0.05));
    CHECK(within(to_oil_W, -13.60, 0.05));
    CHECK(to_housing_W + to_steel_W + to_oil_W == rel(100, 1e-9));
    const Shares by_path = shares(star);
    CHECK(by_path.oil == rel(3.26 / 26.7396, 1e-12));
    CHECK(by_path.housing == rel(17.236 / 26.7396, 1e-12));
    CHECK(by_path.steel == rel(6.2436 / 26.7396, 1e-12));
    // Alike all round, the film is as they are.
    CHECK(unheated_film_degC(star, {90, 90, 90}) == rel(90, 1e-12));
    // Hardly any way to the housing: hotter than the oil.
    const Paths shut{1e-9, star.steel_WpK, star.oil_WpK};
    CHECK(unheated_film_degC(shut, around) + 100 / all_WpK(shut) > around.oil_degC);
}

TEST_CASE("bearing-heat bridges give the flows of the star") {
    const Bridges between = bridges(star);
    const double all = all_WpK(star);
    // Without loss, oil at 1 and the others at 0: what leaves the oil comes to the others.
    const double film = star.oil_WpK / all;
    CHECK(between.oil_housing_WpK == rel(star.housing_WpK * film, 1e-12));
    CHECK(between.oil_steel_WpK == rel(star.steel_WpK * film, 1e-12));
    CHECK(between.steel_housing_WpK == rel(star.steel_WpK * star.housing_WpK / all, 1e-12));
    CHECK(star.oil_WpK * (1 - film) == rel(between.oil_housing_WpK + between.oil_steel_WpK, 1e-12));
    // Steel to housing in series: inside what practice has for a bearing, 3 to 6 W/K.
    CHECK(
        within(star.steel_WpK * star.housing_WpK / (star.steel_WpK + star.housing_WpK), 4.6, 0.05));
}

}  // namespace caseload::bearing_heat
