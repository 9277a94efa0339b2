// SPDX-License-Identifier: MIT
#include "caseload/formulas/absorbed_power.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::absorbed_power {

namespace {

quarter_car::Corner corner_of(double sprung_kg, double unsprung_kg, double f_Hz, double damping,
                              double tyre_Npm) {
    const double corner_kg = sprung_kg + unsprung_kg;
    return quarter_car::corner({.corner_kg = corner_kg,
                                .unsprung_share = unsprung_kg / corner_kg,
                                .frequency_Hz = f_Hz,
                                .damping = damping,
                                .tyre_Npm = tyre_Npm});
}

/// Over the mean square acceleration of the body, in closed form.
double over_acceleration(const quarter_car::Corner& corner) {
    const auto& [m_s, m_u, k, c, k_t] = corner;
    return of_corner_Wspm2(corner) /
           ((k * k * (m_s + m_u) / (m_s * m_s * c) + c * k_t / (m_s * m_s)) / 4);
}

}  // namespace

TEST_CASE("chrono-filters absorbed-power at eight frequencies") {
    const double printed[][2] = {{1, 0.083}, {2, 0.411}, {3, 1.182}, {4, 2.112},
                                 {5, 2.109}, {6, 1.578}, {8, 0.852}, {10, 0.531}};
    for (const auto& [f_Hz, power] : printed)
        CHECK(within(per_acceleration_Ws4pm2(f_Hz), power, 0.00051));
    CHECK_THROWS_AS((void)per_acceleration_Ws4pm2(0), Error);
}

TEST_CASE("chrono-filters corner of three cars over their acceleration, and of two trucks") {
    CHECK(over_acceleration(corner_of(600, 125, 1.0, 0.40, 180e3)) == rel(1.0861, 1e-4));
    CHECK(over_acceleration(corner_of(600, 125, 1.0, 0.25, 180e3)) == rel(0.9238, 1e-4));
    CHECK(over_acceleration(corner_of(350, 60, 1.3, 0.30, 160e3)) == rel(0.7856, 1e-4));
    CHECK(of_corner_Wspm2(corner_of(363.125, 74.375, 1.1, 0.40, 114130.9)) == rel(579.448, 5e-6));
    CHECK(of_corner_Wspm2(corner_of(601.75, 123.25, 1.1, 0.40, 174946.4)) == rel(540.602, 5e-6));
}

}  // namespace caseload::absorbed_power
