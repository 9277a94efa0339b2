// SPDX-License-Identifier: MIT
#include "caseload/formulas/air.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

namespace caseload::us_standard_atmosphere {

TEST_CASE("us-standard-atmosphere-1976 eq-51 density, viscosity, conductivity: library fluids") {
    // fluids 1.0.22, fluids.atmosphere.ATMOSPHERE_1976, printed by tests/reference/air_fluids.py
    // to eight digits. Density differs by the gas constant, 287.05287 there: 1e-5.
    struct Row {
        double temp_degC;
        double pressure_Pa;
        double density;
        double mu;
        double k;
    };
    const Row rows[] = {{-40, 101325, 1.513976, 1.5108477e-05, 0.020883774},
                        {0, 101325, 1.2922698, 1.7160793e-05, 0.024137993},
                        {20, 101325, 1.2041054, 1.8134059e-05, 0.025717968},
                        {40, 101325, 1.1272026, 1.9075743e-05, 0.027267169},
                        {70, 101325, 1.0286566, 2.0434234e-05, 0.029534881},
                        {100, 101325, 0.94595607, 2.1734082e-05, 0.031737853},
                        {40, 79495, 0.88435207, 1.9075743e-05, 0.027267169}};
    for (const Row& row : rows) {
        CAPTURE(row.temp_degC);
        const Air a = air({.temp_degC = row.temp_degC, .pressure_Pa = row.pressure_Pa});
        CHECK(a.density_kgpm3 == rel(row.density, 2e-5));
        CHECK(a.mu_Pas == rel(row.mu, 5e-8));
        CHECK(a.k_WpmK == rel(row.k, 5e-8));
        CHECK(a.nu_m2ps == rel(a.mu_Pas / a.density_kgpm3, 1e-15));
        CHECK(a.Pr == rel(a.mu_Pas * a.cp_JpkgK / a.k_WpmK, 1e-15));
        CHECK(a.beta_1pK == rel(1 / (row.temp_degC + 273.15), 1e-15));
    }
}

TEST_CASE("us-standard-atmosphere-1976 eq-51 against a textbook table of air") {
    // Incropera 6e, table A.4, at 300, 350, 400 K; transport properties within 0.7 %, cp within
    // 0.1 %. Its density is for about 100 kPa and is not compared.
    struct Row {
        double temp_K;
        double mu;
        double k;
        double cp;
        double Pr;
    };
    for (const Row& row :
         {Row{300, 184.6e-7, 26.3e-3, 1007, 0.707}, Row{350, 208.2e-7, 30.0e-3, 1009, 0.700},
          Row{400, 230.1e-7, 33.8e-3, 1014, 0.690}}) {
        const Air a = air({.temp_degC = row.temp_K - 273.15, .pressure_Pa = 101325});
        CHECK(a.mu_Pas == rel(row.mu, 0.008));
        CHECK(a.k_WpmK == rel(row.k, 0.005));
        CHECK(a.cp_JpkgK == rel(row.cp, 0.001));
        CHECK(a.Pr == rel(row.Pr, 0.006));
    }
    // The polynomial itself, independently evaluated: a 1 % slip in its small terms hides above.
    CHECK(within(air({.temp_degC = 0, .pressure_Pa = 101325}).cp_JpkgK, 1005.584, 6e-4));
    CHECK(within(air({.temp_degC = 100, .pressure_Pa = 101325}).cp_JpkgK, 1011.289, 6e-4));
    CHECK_THROWS_AS((void)air({.temp_degC = -101, .pressure_Pa = 101325}), Error);
    CHECK_THROWS_AS((void)air({.temp_degC = 501, .pressure_Pa = 101325}), Error);
    CHECK_THROWS_AS((void)air({.temp_degC = 20, .pressure_Pa = 0}), Error);
}

TEST_CASE("us-standard-atmosphere-1976 eq-33a pressure at an altitude: library fluids") {
    // fluids 1.0.22, layer formula of the standard over geometric altitude; the short form
    // takes the height as geopotential: 0.04 % off at 4500 m, its range here.
    const double rows[][2] = {{-400, 106223.7}, {0, 101325},      {500, 95461.29}, {1500, 84559.68},
                              {2000, 79501.42}, {3000, 70121.16}, {4500, 57752.58}};
    for (const auto& row : rows) CHECK(pressure_Pa(row[0]) == rel(row[1], 5e-4));
    CHECK(pressure_Pa(0) == 101325);
    CHECK(within(pressure_Pa(1500), 84556, 0.5));
    CHECK(within(pressure_Pa(2000), 79495, 0.5));
    CHECK_THROWS_AS((void)pressure_Pa(-501), Error);
    CHECK_THROWS_AS((void)pressure_Pa(11001), Error);
}

}  // namespace caseload::us_standard_atmosphere
