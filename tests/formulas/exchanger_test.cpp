// SPDX-License-Identifier: MIT
#include "caseload/formulas/exchanger.hpp"

#include "caseload/error.hpp"
#include "support.hpp"

#include <cmath>

namespace caseload::exchanger {

namespace {

/// Mason's double series, another road to the same exact result.
double mason(const Duty& d) {
    const double N = d.NTU;
    const double M = d.C_ratio * d.NTU;
    double total = 0;
    double a = 0;
    double b = 0;
    double term_a = std::exp(-N);
    double term_b = std::exp(-M);
    for (int n = 0; n < 2000; ++n) {
        a += term_a;
        b += term_b;
        total += (1 - a) * (1 - b);
        term_a *= N / (n + 1);
        term_b *= M / (n + 1);
    }
    return total / M;
}

/// Counter-flow, the best there is.
double counterflow(const Duty& d) {
    if (d.C_ratio > 1 - 1e-12) return d.NTU / (1 + d.NTU);
    const double e = std::exp(-d.NTU * (1 - d.C_ratio));
    return (1 - e) / (1 - d.C_ratio * e);
}

/// Cross-flow with the larger stream mixed.
double larger_mixed(const Duty& d) {
    return -std::expm1(d.C_ratio * std::expm1(-d.NTU)) / d.C_ratio;
}

/// Cross-flow with the smaller stream mixed.
double smaller_mixed(const Duty& d) {
    return -std::expm1(std::expm1(-d.C_ratio * d.NTU) / d.C_ratio);
}

}  // namespace

TEST_CASE("baclic-1978 crossflow-unmixed against Mason's series and its limits") {
    for (const double NTU : {0.05, 0.5, 1.0, 2.0, 3.0, 5.0, 12.0, 30.0, 100.0})
        for (const double C : {0.01, 0.1, 0.3, 0.5, 0.75, 0.948, 0.99, 1.0}) {
            const Duty d{.NTU = NTU, .C_ratio = C};
            CAPTURE(NTU);
            CAPTURE(C);
            CHECK(within(effectiveness_crossflow_unmixed(d), mason(d), 2e-12));
        }
    // Printed beside the double series in the open Python library ht: 0.84448 at 5, 0.7.
    CHECK(within(effectiveness_crossflow_unmixed({.NTU = 5, .C_ratio = 0.7}), 0.84448, 5e-6));
    // C -> 0: condenser. Both sides of the switch, and far below it.
    for (const double NTU : {0.1, 1.0, 4.0})
        for (const double C : {0.0, 1e-13, 1e-11, 1e-9})
            CHECK(effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = C}) ==
                  rel(1 - std::exp(-NTU), 2e-9));
    CHECK(effectiveness_crossflow_unmixed({.NTU = 0, .C_ratio = 0.5}) == 0);
    CHECK(effectiveness_crossflow_unmixed({.NTU = 1e-9, .C_ratio = 0.5}) == rel(1e-9, 1e-6));
    // Never above counterflow, never below one stream mixed; grows with NTU, falls with C.
    for (double NTU = 0.25; NTU < 200; NTU *= 1.7)
        for (double C = 0.05; C <= 1; C += 0.05) {
            const Duty d{.NTU = NTU, .C_ratio = C};
            const double eps = effectiveness_crossflow_unmixed(d);
            CHECK(eps <= counterflow(d) + 1e-14);
            CHECK(eps >= larger_mixed(d) - 1e-14);
            CHECK(eps >= smaller_mixed(d) - 1e-14);
            CHECK(effectiveness_crossflow_unmixed({.NTU = 1.1 * NTU, .C_ratio = C}) >= eps - 1e-15);
            CHECK(effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = C - 0.04}) >=
                  eps - 1e-15);
        }
    CHECK(effectiveness_crossflow_unmixed({.NTU = 1e6, .C_ratio = 0.5}) == rel(1, 1e-12));
    CHECK_THROWS_AS((void)effectiveness_crossflow_unmixed({.NTU = -0.1, .C_ratio = 0.5}), Error);
    CHECK_THROWS_AS((void)effectiveness_crossflow_unmixed({.NTU = 1, .C_ratio = 1.01}), Error);
    CHECK_THROWS_AS((void)effectiveness_crossflow_unmixed({.NTU = 1.001e6, .C_ratio = 0.5}), Error);
}

TEST_CASE("baclic-1978 inverse gives the effectiveness back") {
    for (const double eps : {1e-6, 0.05, 0.387, 0.6, 0.7, 0.9})
        for (const double C : {0.0, 0.2, 0.6, 0.948}) {
            if (eps > 0.85 && C > 0.9) continue;
            const double NTU = ntu_crossflow_unmixed({.effectiveness = eps, .C_ratio = C});
            CHECK(effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = C}) == rel(eps, 1e-9));
        }
    CHECK(ntu_crossflow_unmixed({.effectiveness = 0, .C_ratio = 0.5}) == 0);
    // Incropera 11.3: 200/265 at C 0.45: 2.1 read from a chart.
    CHECK(
        within(ntu_crossflow_unmixed({.effectiveness = 200.0 / 265, .C_ratio = 0.45}), 2.1, 0.05));
    // At C = 1 thirty transfer units reach 0.897: a rating above that is no cross-flow core.
    const double most = effectiveness_crossflow_unmixed({.NTU = 30, .C_ratio = 1});
    CHECK(within(ntu_crossflow_unmixed({.effectiveness = most - 1e-9, .C_ratio = 1}), 30, 1e-4));
    CHECK_THROWS_AS((void)ntu_crossflow_unmixed({.effectiveness = most + 1e-9, .C_ratio = 1}),
                    Error);
    CHECK_THROWS_WITH_AS(
        (void)ntu_crossflow_unmixed({.effectiveness = 0.95, .C_ratio = 1}),
        "effectiveness = 0.950: no cross-flow core reaches it at a capacity ratio of 1.00", Error);
    CHECK_THROWS_AS((void)ntu_crossflow_unmixed({.effectiveness = 1.1, .C_ratio = 0.5}), Error);
    CHECK_THROWS_AS((void)ntu_crossflow_unmixed({.effectiveness = 0, .C_ratio = 1.5}), Error);
}

TEST_CASE("incropera-6e 11.4 conductance behind a rating: independent evaluation") {
    // 6 kW at 60 K, 8 L/min, 8 m/s on 0.03 m2: 168.34 W/K (tests/reference/heat_values.py).
    const RatingPoint rating{.heat_W = 6000,
                             .difference_K = 60,
                             .oil_capacity_WpK = 258.23949,
                             .air_capacity_WpK = 272.40161};
    CHECK(within(conductance_WpK(rating), 168.3385, 6e-5));
    // Which stream is the weaker one does not matter.
    RatingPoint turned = rating;
    turned.oil_capacity_WpK = rating.air_capacity_WpK;
    turned.air_capacity_WpK = rating.oil_capacity_WpK;
    CHECK(conductance_WpK(turned) == rel(conductance_WpK(rating), 1e-14));
    RatingPoint impossible = rating;
    impossible.heat_W = 15500;  // 15494 W carried off whole
    CHECK_THROWS_WITH_AS((void)conductance_WpK(impossible),
                         "cooler.rating: 15500 W at 60 K asks for more than its weaker stream can "
                         "carry (15494 W)",
                         Error);
    impossible = rating;
    impossible.air_capacity_WpK = 0;
    CHECK_THROWS_AS((void)conductance_WpK(impossible), Error);
}

TEST_CASE("kays-london scaling exponents and limits") {
    const Scaling at{.conductance_rating_WpK = 168.34,
                     .oil_side_share = 0.5,
                     .air_mass_ratio = 1,
                     .oil_mass_ratio = 1};
    CHECK(conductance_scaled_WpK(at) == rel(168.34, 1e-14));
    Scaling air = at;
    air.oil_side_share = 0;
    air.air_mass_ratio = 32;  // 32^0.6 = 8
    CHECK(conductance_scaled_WpK(air) == rel(8 * 168.34, 1e-12));
    Scaling oil = at;
    oil.oil_side_share = 1;
    oil.oil_mass_ratio = 0.125;  // cube root 0.5
    CHECK(conductance_scaled_WpK(oil) == rel(0.5 * 168.34, 1e-12));
    Scaling both = at;
    both.air_mass_ratio = 32;
    both.oil_mass_ratio = 8;
    CHECK(conductance_scaled_WpK(both) == rel(168.34 / (0.5 / 8 + 0.5 / 2), 1e-12));
    both.air_mass_ratio = 0;
    CHECK_THROWS_AS((void)conductance_scaled_WpK(both), Error);
    both = at;
    both.oil_side_share = 1.1;
    CHECK_THROWS_AS((void)conductance_scaled_WpK(both), Error);
}

TEST_CASE("hagen-poiseuille core-drop in proportion to viscosity and flow") {
    CHECK(exchanger::core_drop_Pa(
              {.drop_rating_Pa = 30000, .viscosity_ratio = 6.875, .flow_ratio = 0.5}) ==
          rel(103125, 1e-12));
    CHECK(exchanger::core_drop_Pa(
              {.drop_rating_Pa = 30000, .viscosity_ratio = 1, .flow_ratio = 0}) == 0);
    for (const exchanger::CoreFlow& bad :
         {exchanger::CoreFlow{-1, 1, 1}, exchanger::CoreFlow{1, -1, 1},
          exchanger::CoreFlow{1, 1, -1}})
        CHECK_THROWS_AS((void)exchanger::core_drop_Pa(bad), Error);
}

}  // namespace caseload::exchanger
