// SPDX-License-Identifier: MIT
#include "caseload/formulas/windage.hpp"

#include "caseload/error.hpp"

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
