// SPDX-License-Identifier: MIT
// ASTM D1250-80, table 54D: density of lubricating oils against temperature.
#pragma once

namespace caseload::astm_d1250 {

struct At {
    double density_15C_kgpm3;
    double temp_degC;
};

/// Density of the oil.
///
///     rho = rho_15 exp(-a dT (1 + 0.8 a dT)),   a = 0.6278 / rho_15,   dT = T - 15 degC
///
/// Range    density_15C_kgpm3 from 750 to 1200 (table 54D: 800 to 1164), temp_degC from -60 to 400.
/// Note     +-0.5 %, plus what is not known of density_15C.
/// Source   astm-d1250-80, 54D
[[nodiscard]] double density_kgpm3(const At& at);

}  // namespace caseload::astm_d1250
