// SPDX-License-Identifier: MIT
#include "caseload/formulas/quarter_car.hpp"

#include "caseload/error.hpp"
#include "caseload/formulas/road_roughness.hpp"
#include "caseload/units.hpp"
#include "support.hpp"

#include <cmath>
#include <complex>

namespace caseload::quarter_car {

namespace {

constexpr double deflection_m = 0.04 * 1.016;
// 2900 kg on 40 in tyres.
const Corner of_truck = corner({.corner_kg = 725,
                                .unsprung_share = 0.17,
                                .frequency_Hz = 1.1,
                                .damping = 0.40,
                                .tyre_Npm = 725 * 9.80665 / deflection_m});

/// Sum over ln f from 0.001 to 1000 Hz of a density over frequency.
template <typename Density>
double integral(const Density& density) {
    constexpr int steps = 60000;
    const double step = std::log(1e6) / steps;
    double sum = 0;
    for (int i = 0; i < steps; ++i) {
        const double f_Hz = 1e-3 * std::exp((i + 0.5) * step);
        sum += density(f_Hz) * f_Hz * step;
    }
    return sum;
}

struct Moves {
    std::complex<double> body;
    std::complex<double> wheel;
};

/// Body and wheel over the ground's height, by Cramer's rule from the two equations of motion.
Moves moves(const Corner& c, double f_Hz) {
    const std::complex<double> s{0, 2 * pi * f_Hz};
    const std::complex<double> link = c.damper_Nspm * s + c.spring_Npm;
    const std::complex<double> body = c.sprung_kg * s * s + link;
    const std::complex<double> wheel = c.unsprung_kg * s * s + link + c.tyre_Npm;
    const std::complex<double> all = body * wheel - link * link;
    return {link * c.tyre_Npm / all, body * c.tyre_Npm / all};
}

}  // namespace

TEST_CASE("quarter-car body of a truck of 2900 kg") {
    CHECK(of_truck.tyre_Npm == rel(174946.4, 1e-6));
    CHECK(of_truck.damper_Nspm == rel(3327.20, 2e-6));
    CHECK(of_truck.spring_Npm == rel(28744.9, 2e-6));
    CHECK(of_truck.sprung_kg + of_truck.unsprung_kg == rel(725, 1e-14));
    // 1750 kg on 37 in tyres.
    const Corner light = corner({.corner_kg = 437.5,
                                 .unsprung_share = 0.17,
                                 .frequency_Hz = 1.1,
                                 .damping = 0.40,
                                 .tyre_Npm = 437.5 * 9.80665 / (0.04 * 0.9398)});
    CHECK(light.tyre_Npm == rel(114130.9, 1e-6));
    CHECK(light.damper_Nspm == rel(2007.79, 2e-6));
    CHECK(light.spring_Npm == rel(17346.1, 3e-6));
    CHECK_THROWS_AS((void)corner({437.5, 1, 1.1, 0.4, 1e5}), Error);
    CHECK_THROWS_AS((void)corner({0, 0.2, 1.1, 0.4, 1e5}), Error);
    CHECK_THROWS_AS((void)corner({400, 0.2, 0, 0.4, 1e5}), Error);
    CHECK_THROWS_AS((void)corner({400, 0.2, 1, 0, 1e5}), Error);
    CHECK_THROWS_AS((void)corner({400, 0.2, 1, 0.4, 0}), Error);
}

TEST_CASE("quarter-car travel on class F at 30 m/s, and by its transfer function") {
    const double density = 30 * road_roughness::velocity_density_m(16384e-6);
    CHECK(std::sqrt(travel_variance_s(of_truck) * density) == rel(0.10281, 5e-5));
    const double summed = integral([](double f_Hz) {
        const Moves at = moves(of_truck, f_Hz);
        return std::norm((at.body - at.wheel) / (2 * pi * f_Hz));
    });
    // 0.001 Hz and midpoints cost less than 1e-4.
    CHECK(summed == rel(travel_variance_s(of_truck), 1e-4));
    CHECK_THROWS_AS((void)travel_variance_s({0, 1, 1, 1, 1}), Error);
}

TEST_CASE("quarter-car damper of a truck on class F at 30 m/s, and by its transfer function") {
    const double density = 30 * road_roughness::velocity_density_m(16384e-6);
    CHECK(4 * damper_power_Npm(of_truck.tyre_Npm) * density == rel(33950, 2e-4));
    const double summed = of_truck.damper_Nspm * integral([](double f_Hz) {
                              const Moves at = moves(of_truck, f_Hz);
                              return std::norm(at.body - at.wheel);
                          });
    // The wheel's tail above 1000 Hz is less than 1e-3.
    CHECK(summed == rel(damper_power_Npm(of_truck.tyre_Npm), 1e-3));
    CHECK_THROWS_AS((void)damper_power_Npm(0), Error);
}

TEST_CASE("quarter-car resistance by tyre deflection") {
    CHECK(resistance_pm3(deflection_m) == rel(2.42854, 3e-6));
    CHECK(resistance_pm3(0.04 * 0.9398) == rel(2.62545, 3e-6));
    CHECK(16384e-6 * resistance_pm3(deflection_m) == rel(0.03979, 1.3e-4));
    CHECK_THROWS_AS((void)resistance_pm3(0), Error);
}

TEST_CASE("quarter-car acceleration by Cramer's rule and its mean square in closed form") {
    for (const double f_Hz : {0.2, 1.1, 4.0, 10.0, 35.0}) {
        const double s = 2 * pi * f_Hz;
        CHECK(acceleration_gain_ps2(of_truck, f_Hz) ==
              rel(std::norm(moves(of_truck, f_Hz).body) * s * s, 1e-9));
    }
    const auto& [m_s, m_u, k, c, k_t] = of_truck;
    const double closed = (k * k * (m_s + m_u) / (m_s * m_s * c) + c * k_t / (m_s * m_s)) / 4;
    CHECK(integral([](double f_Hz) { return acceleration_gain_ps2(of_truck, f_Hz); }) ==
          rel(closed, 1e-3));
    CHECK_THROWS_AS((void)acceleration_gain_ps2(of_truck, 0), Error);
    CHECK_THROWS_AS((void)acceleration_gain_ps2({1, 1, 1, 1, 0}, 1), Error);
}

}  // namespace caseload::quarter_car
