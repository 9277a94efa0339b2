// SPDX-License-Identifier: MIT
#include "caseload/formulas/absorbed_power.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::absorbed_power {
namespace {

constexpr double lowest_Hz = 0.1;
constexpr double highest_Hz = 40;
constexpr int steps = 1500;

}  // namespace

double per_acceleration_Ws4pm2(double frequency_Hz) {
    require_positive(frequency_Hz, "frequency_Hz");
    const double omega_radps = 2 * pi * frequency_Hz;
    const double omega2 = omega_radps * omega_radps;
    const double real = 750 - omega2;
    const double imaginary = 24 * omega_radps;
    const double ft = 14.5 * 14.5 * omega2 * (omega2 + 44.0 * 44.0) /
                      ((omega2 + 63.0 * 63.0) * (real * real + imaginary * imaginary));
    return ft / (foot_m * foot_m);
}

double of_corner_Wspm2(const quarter_car::Corner& corner) {
    const double step = std::log(highest_Hz / lowest_Hz) / steps;
    double sum = 0;
    double before_Hz = 0;
    double before = 0;
    for (int i = 0; i <= steps; ++i) {
        const double f_Hz = lowest_Hz * std::exp(i * step);
        const double at =
            per_acceleration_Ws4pm2(f_Hz) * quarter_car::acceleration_gain_ps2(corner, f_Hz);
        if (i > 0) sum += (at + before) / 2 * (f_Hz - before_Hz);
        before_Hz = f_Hz;
        before = at;
    }
    return sum;
}

}  // namespace caseload::absorbed_power
