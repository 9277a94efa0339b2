// SPDX-License-Identifier: MIT
#include "caseload/formulas/wheel_inertia.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

namespace caseload::wheel_inertia {

TEST_CASE("wheel-estimate mass of seven tyres") {
    const double printed[][2] = {{29, 29.9}, {33, 41.3}, {35, 47.8}, {37, 55.0},
                                 {39, 62.7}, {40, 66.8}, {42, 75.5}};
    for (const auto& [tyre_in, kg] : printed)
        CHECK(within(mass_kg(m_from_mm(mm_from_in(tyre_in))), kg, 0.051));
    CHECK_THROWS_AS((void)mass_kg(0.2), Error);
}

TEST_CASE("wheel-estimate inertia of seven tyres") {
    const double printed[][2] = {{29, 2.23}, {33, 3.99}, {35, 5.20}, {37, 6.68},
                                 {39, 8.46}, {40, 9.48}, {42, 11.81}};
    for (const auto& [tyre_in, kgm2] : printed) {
        const double tyre_m = m_from_mm(mm_from_in(tyre_in));
        CHECK(within(inertia_kgm2({mass_kg(tyre_m), tyre_m}), kgm2, 0.0051));
    }
    CHECK(inertia_kgm2({mass_kg(1.016), 1.016}) == rel(9.48129, 1e-6));
    CHECK_THROWS_AS((void)inertia_kgm2({0, 1}), Error);
    CHECK_THROWS_AS((void)inertia_kgm2({50, 2}), Error);
}

}  // namespace caseload::wheel_inertia
