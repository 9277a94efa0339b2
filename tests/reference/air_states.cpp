// SPDX-License-Identifier: MIT
// Our air, for tests/reference/air_fluids.py: lines "state temp_degC pressure_Pa density mu k" and
// "altitude m pressure_Pa".
#include "caseload/formulas/air.hpp"

#include <cstdio>
#include <initializer_list>

using namespace caseload::us_standard_atmosphere;

int main() {
    for (int temp_degC = -40; temp_degC <= 160; temp_degC += 10)
        for (const double at_Pa : {60000.0, 79495.0, 101325.0, 106000.0}) {
            const Air a = air({.temp_degC = static_cast<double>(temp_degC), .pressure_Pa = at_Pa});
            std::printf("state %d %.17g %.17g %.17g %.17g\n", temp_degC, at_Pa, a.density_kgpm3,
                        a.mu_Pas, a.k_WpmK);
        }
    for (int altitude_m = -400; altitude_m <= 4500; altitude_m += 100)
        std::printf("altitude %d %.17g\n", altitude_m, pressure_Pa(altitude_m));
    return 0;
}
