// SPDX-License-Identifier: MIT
#include "caseload/formulas/windage.hpp"

#include "caseload/error.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::diab {

double helical_share(double overlap_ratio) {
    require_not_negative(overlap_ratio, "overlap_ratio");
    return 1 - helical_less * std::min(overlap_ratio, 1.0);
}

double windage_torque_Nm(const Gear& gear, const Medium& medium) {
    require_positive(gear.R_m, "R_m");
    require_positive(gear.b_m, "b_m");
    require_positive(gear.z, "z");
    require_not_negative(gear.h_1_m, "h_1_m");
    require_not_negative(gear.h_2_m, "h_2_m");
    require_positive(medium.omega_radps, "omega_radps");
    require_positive(medium.density_kgpm3, "density_kgpm3");
    require_positive(medium.mu_Pas, "mu_Pas");
    constexpr double free_side = 0.5;  // of R: farther walls no longer matter
    const double Re =
        medium.density_kgpm3 * medium.omega_radps * gear.R_m * gear.R_m / medium.mu_Pas;
    const auto side = [&](double h_m) {
        return std::pow(std::min(h_m / gear.R_m, free_side), 0.56);
    };
    const double C = 60 * std::pow(Re, -0.25) * std::pow(gear.b_m / gear.R_m, 0.8) *
                     std::pow(gear.z, -0.4) * (side(gear.h_1_m) + side(gear.h_2_m));
    return C * medium.density_kgpm3 * medium.omega_radps * medium.omega_radps *
           std::pow(gear.R_m, 5) / 2;
}

}  // namespace caseload::diab

namespace caseload::dawson {

double windage_W(const Gear& gear, const State& state) {
    require_positive(gear.root_diameter_mm, "root_diameter_mm");
    require_positive(gear.b_mm, "b_mm");
    require_positive(gear.module_mm, "module_mm");
    require_not_negative(state.n_rpm, "n_rpm");
    require_positive(state.density_ratio, "density_ratio");
    require_within(state.enclosure, {0, 1}, "enclosure");
    const double power_kW =
        1e-20 * state.density_ratio * state.enclosure * std::pow(state.n_rpm, 2.9) *
        (0.16 * std::pow(gear.root_diameter_mm, 3.9) + std::pow(gear.root_diameter_mm, 2.9) *
                                                           std::pow(gear.b_mm, 0.75) *
                                                           std::pow(gear.module_mm, 1.15));
    return W_from_kW(power_kW);
}

}  // namespace caseload::dawson

namespace caseload::anderson_loewenthal {

double windage_W(const Gear& gear, const State& state) {
    require_positive(gear.R_m, "R_m");
    require_positive(gear.b_m, "b_m");
    require_not_negative(state.n_rpm, "n_rpm");
    require_not_negative(state.eta_oil_mPas, "eta_oil_mPas");
    const double power_kW = 2.82e-7 * (1 + 2.3 * gear.b_m / gear.R_m) * std::pow(state.n_rpm, 2.8) *
                            std::pow(gear.R_m, 4.6) *
                            std::pow(0.028 * state.eta_oil_mPas + 0.019, 0.2);
    return W_from_kW(power_kW);
}

}  // namespace caseload::anderson_loewenthal
