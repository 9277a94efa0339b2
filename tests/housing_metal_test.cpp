// SPDX-License-Identifier: MIT
// A housing of cast iron: its mass, what it stores and conducts, and how it grips steel rings.
#include "caseload/housing_metal.hpp"

#include "caseload/assess.hpp"
#include "examples.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::housing_metal_tests {

namespace {

Setup of(const std::string& material, std::vector<Change> more = {}) {
    more.push_back({"housing.material", "\"" + material + "\""});
    return examples::alone("dip.toml", more);
}

}  // namespace

TEST_CASE("cast iron: mass, heat stored and the path through the wall, by hand") {
    const Setup iron = of("cast-iron");
    const Setup aluminium = of("aluminium");
    const Prepared of_iron = prepare(iron);
    const Prepared of_aluminium = prepare(aluminium);
    // 180 x 270 x 450 mm, walls of 16 mm: 21.87 l less 148 x 238 x 418 mm.
    const double walls_m3 = 0.18 * 0.27 * 0.45 - 0.148 * 0.238 * 0.418;
    CHECK(of_iron.capacities.housing_JpK == rel(7200 * 460 * walls_m3, 1e-9));
    CHECK(of_aluminium.capacities.housing_JpK == rel(2700 * 896 * walls_m3, 1e-9));
    const double area_m2 = 2 * (0.18 * 0.27 + 0.18 * 0.45 + 0.27 * 0.45);
    const double film_WpK = 200 * iron.housing.oil_wetted_share * area_m2;
    CHECK(of_iron.direct.oil_housing_WpK == rel(1 / (1 / film_WpK + 0.016 / (50 * area_m2)), 1e-9));
    CHECK(of_aluminium.direct.oil_housing_WpK ==
          rel(1 / (1 / film_WpK + 0.016 / (160 * area_m2)), 1e-9));
    // An entered mass stays.
    const Setup weighed = of("cast-iron", {{"housing.mass", "\"30 kg\""}});
    CHECK(prepare(weighed).capacities.housing_JpK == rel(30 * 460, 1e-12));
    // It warms later, and settles a little hotter.
    const Assessment slow = fitted_answer(iron);
    const Assessment quick = fitted_answer(aluminium);
    CHECK(slow.fitted.legs.front().at_rest.nodes.oil_degC >
          quick.fitted.legs.front().at_rest.nodes.oil_degC);
}

TEST_CASE(
    "cast iron: a steel ring gets tighter as the case warms, and what is loose hot was so cold") {
    const auto seat = [](const std::string& fit, const std::string& material) {
        const Setup setup = of(material, {{"bearing.output_rear.seat.ring_fit", "\"" + fit + "\""},
                                          {"bearing.output_rear.seat.boss_outside", "\"175 mm\""}});
        for (const SeatResult& one : fitted_answer(setup).fitted.checked.seats)
            if (one.bearing == "output_rear") return one;
        FAIL("no such seat");
        return SeatResult{};
    };
    const SeatResult tight = seat("P7", "cast-iron");
    CHECK(tight.hot.pressure_MPa > tight.cold.pressure_MPa);
    CHECK(tight.creep == SeatClass::tight);
    CHECK(tight.loose_after_s == -1);
    CHECK(tight.loose_above_degC == 300);
    // 12.0e-6 less 10.5e-6 on 125 mm.
    const SeatResult loose = seat("H7", "cast-iron");
    CHECK(loose.cold.gap_mm - loose.hot.gap_mm ==
          rel(1.5e-6 * 125 * (loose.hot.temp_degC - loose.cold.temp_degC), 1e-9));
    CHECK(loose.loose_above_degC == -20);
    CHECK(loose.creep != SeatClass::tight);
    // The same fits in aluminium.
    CHECK(seat("P7", "aluminium").hot.pressure_MPa < seat("P7", "aluminium").cold.pressure_MPa);
}

TEST_CASE("cast iron: teeth lose backlash where aluminium gains it, as the centres grow less") {
    const auto gained_mm = [](const std::string& material) {
        return fitted_answer(of(material)).fitted.checked.play.backlash_hot_mm.front();
    };
    CHECK(gained_mm("aluminium") > 0);
    CHECK(gained_mm("cast-iron") < gained_mm("aluminium") / 4);
}

}  // namespace caseload::housing_metal_tests
