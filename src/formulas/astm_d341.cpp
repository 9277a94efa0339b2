// SPDX-License-Identifier: MIT
#include "caseload/formulas/astm_d341.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace caseload::astm_d341 {
namespace {

constexpr Limits tested_mm2ps{0.21, 2e7};

double log_log_Z(double nu) {
    const double Z = nu + 0.7 + std::exp(-1.47 - 1.84 * nu - 0.51 * nu * nu);
    return std::log10(std::log10(Z));
}

/// Twice as fast as std::pow(10, x), and the same to its last two digits.
double power_of_ten(double x) {
    return std::exp(x * std::numbers::ln10);
}

struct Terms {
    double log_Z;
    double Z;
    double less;  ///< from z to nu

    [[nodiscard]] double z() const { return Z - 0.7; }
};

Terms terms_at(const Line& line, double temp_degC) {
    require_within(temp_degC, {-60, 400}, "temp_degC");
    Terms terms{};
    terms.log_Z = power_of_ten(line.A - line.B * std::log10(K_from_degC(temp_degC)));
    terms.Z = power_of_ten(terms.log_Z);
    const double z = terms.z();
    terms.less = std::exp(-0.7487 - 3.295 * z + 0.6119 * z * z - 0.3193 * z * z * z);
    return terms;
}

}  // namespace

Line line(const TwoPoints& points) {
    require_within(points.nu_40C_mm2ps, tested_mm2ps, "nu_40C_mm2ps");
    require_within(points.nu_100C_mm2ps, tested_mm2ps, "nu_100C_mm2ps");
    if (points.nu_40C_mm2ps <= points.nu_100C_mm2ps)
        throw Error(Error::Kind::domain,
                    fmt::format("nu_40C_mm2ps = {:g} mm2/s: must be above nu_100C_mm2ps = {:g} "
                                "mm2/s, oil thins when warmed",
                                points.nu_40C_mm2ps, points.nu_100C_mm2ps));
    const double log_T_40 = std::log10(K_from_degC(40));
    const double log_T_100 = std::log10(K_from_degC(100));
    const double at_40 = log_log_Z(points.nu_40C_mm2ps);
    const double B = (at_40 - log_log_Z(points.nu_100C_mm2ps)) / (log_T_100 - log_T_40);
    return {.A = at_40 + B * log_T_40, .B = B};
}

double viscosity_mm2ps(const Line& line, double temp_degC) {
    const Terms terms = terms_at(line, temp_degC);
    return terms.z() - terms.less;
}

ViscosityAt viscosity_and_slope(const Line& line, double temp_degC) {
    const Terms terms = terms_at(line, temp_degC);
    const double z = terms.z();
    const double z_slope =
        -terms.Z * std::numbers::ln10 * terms.log_Z * line.B / K_from_degC(temp_degC);
    return {z - terms.less,
            z_slope * (1 - terms.less * (-3.295 + 2 * 0.6119 * z - 3 * 0.3193 * z * z))};
}

}  // namespace caseload::astm_d341
