// SPDX-License-Identifier: MIT
#include "caseload/formulas/windage.hpp"

#include "caseload/error.hpp"

#include <algorithm>
#include <cmath>

namespace caseload::diab {

double windage_torque_Nm(const Gear& gear, const Medium& medium) {
    require_positive(gear.R_m, "R_m");
    require_positive(medium.omega_radps, "omega_radps");
    const double Re =
        medium.density_kgpm3 * medium.omega_radps * gear.R_m * gear.R_m / medium.mu_Pas;
    const auto side = [&](double h_m) { return std::pow(std::min(h_m / gear.R_m, 0.5), 0.56); };
    const double C = 60 * std::pow(Re, -0.25) * std::pow(gear.b_m / gear.R_m, 0.8) *
                     std::pow(gear.z, -0.4) * (side(gear.h_1_m) + side(gear.h_2_m));
    return C * medium.density_kgpm3 * medium.omega_radps * medium.omega_radps *
           std::pow(gear.R_m, 5) / 2;
}

}  // namespace caseload::diab
