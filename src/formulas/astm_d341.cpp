// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_d341.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <cmath>

namespace caseload::astm_d341 {
namespace {

double Z(double nu) { return nu + 0.7 + std::exp(-1.47 - 1.84 * nu - 0.51 * nu * nu); }

double log_log(double nu) { return std::log10(std::log10(Z(nu))); }

}  // namespace

Line line(const TwoPoints& points) {
    require_within(points.nu_100C_mm2ps, {0.21, 2e7}, "nu_100C_mm2ps");
    require_within(points.nu_40C_mm2ps, {points.nu_100C_mm2ps, 2e7}, "nu_40C_mm2ps");
    const double log_T_40 = std::log10(K_from_degC(40));
    const double log_T_100 = std::log10(K_from_degC(100));
    const double B =
        (log_log(points.nu_40C_mm2ps) - log_log(points.nu_100C_mm2ps)) / (log_T_100 - log_T_40);
    return {.A = log_log(points.nu_40C_mm2ps) + B * log_T_40, .B = B};
}

double viscosity_mm2ps(const Line& line, double temp_degC) {
    require_within(temp_degC, {-60, 400}, "temp_degC");
    const double z = std::pow(10, std::pow(10, line.A - line.B * std::log10(K_from_degC(temp_degC)))) - 0.7;
    return z - std::exp(-0.7487 - 3.295 * z + 0.6119 * z * z - 0.3193 * z * z * z);
}

}  // namespace caseload::astm_d341
