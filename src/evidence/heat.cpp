// SPDX-License-Identifier: MIT
#include "evidence/heat.hpp"

#include "caseload/evidence.hpp"
#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/booser.hpp"
#include "caseload/formulas/box_film.hpp"
#include "caseload/formulas/convection.hpp"
#include "caseload/formulas/exchanger.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace caseload {
namespace {

/// Largest deviation in per cent over temperatures of two oils.
double worst_viscosity() {
    constexpr std::array<double, 6> temps{0, 20, 60, 80, 120, 150};
    struct OilRow {
        double nu_40;
        double nu_100;
        std::array<double, 6> nu;
    };
    const std::array<OilRow, 3> oils{
        {{105, 16.0, {995.47, 279.22, 48.733, 26.375, 10.579, 6.408}},
         {140, 14.6, {2609.8, 486.71, 54.383, 26.113, 9.123, 5.229}},
         {30.8, 5.9, {249.43, 75.230, 15.547, 9.0868, 4.1389, 2.7012}}}};
    double worst = 0;
    for (const OilRow& oil : oils) {
        const auto line = astm_d341::line({.nu_40C_mm2ps = oil.nu_40, .nu_100C_mm2ps = oil.nu_100});
        for (std::size_t i = 0; i < temps.size(); ++i)
            worst = std::max(worst,
                             std::fabs(astm_d341::viscosity_mm2ps(line, temps[i]) / oil.nu[i] - 1));
    }
    return 100 * worst;
}

/// By the film an answer uses, in still air.
double natural(double surface, double air, double pressure_Pa = 101325) {
    return box_film::mixed_Wpm2K(
        reference_box,
        {.surface_degC = surface, .air_degC = air, .speed_mps = 0, .pressure_Pa = pressure_Pa});
}

double worst_forced() {
    constexpr std::array<double, 7> speed{1, 2.5, 5, 10, 20, 30, 60};
    constexpr std::array<double, 7> h{7.98, 14.84, 24.19, 40.02, 66.96, 90.89, 154.1};
    double worst = 0;
    for (std::size_t i = 0; i < speed.size(); ++i)
        worst = std::max(worst,
                         std::fabs(box_film::forced_Wpm2K(reference_box, {.surface_degC = 105,
                                                                          .air_degC = 35,
                                                                          .speed_mps = speed[i],
                                                                          .pressure_Pa = 101325}) /
                                       h[i] -
                                   1));
    return 100 * worst;
}

double crossflow(double NTU, double C) {
    return exchanger::effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = C});
}

/// Heat of a plate of length 0.5 m in air at 10 m/s and 6 kPa, per metre of width.
double incropera_7_1() {
    const double nu = 30.84e-6 * 101325 / 6000;
    const double Nu = convection::nusselt_plate_laminar({.Re = 10 * 0.5 / nu, .Pr = 0.687});
    return Nu * 0.0364 / 0.5 * 0.5 * 273;
}

double incropera_9_2() {
    const double Ra = convection::rayleigh({.beta_1pK = 1.0 / 400,
                                            .difference_K = 209,
                                            .length_m = 0.71,
                                            .nu_m2ps = 26.4e-6,
                                            .alpha_m2ps = 38.3e-6});
    const double Nu = convection::nusselt_vertical({.Ra = Ra, .Pr = 0.690});
    return Nu * 0.0338 / 0.71 * 0.71 * 1.02 * 209;
}

constexpr Calculation own_heat[] = {
    {"astm-d341-table", worst_viscosity},
    {"astm-d1250-60",
     [] { return astm_d1250::density_kgpm3({.density_15C_kgpm3 = 890, .temp_degC = 60}); }},
    {"astm-d1250-120",
     [] { return astm_d1250::density_kgpm3({.density_15C_kgpm3 = 890, .temp_degC = 120}); }},
    {"booser-100",
     [] { return booser::oxidation_life_h({.k1 = booser::k1_mineral, .temp_degC = 100}); }},
    {"natural-100-20", [] { return natural(100, 20); }},
    {"natural-120-40", [] { return natural(120, 40); }},
    {"gnielinski-column", worst_forced},
    {"crossflow-05-1", [] { return crossflow(0.5, 1); }},
    {"crossflow-1-05", [] { return crossflow(1, 0.5); }},
    {"crossflow-2-075", [] { return crossflow(2, 0.75); }},
    {"crossflow-5-07", [] { return crossflow(5, 0.7); }},
    {"counterflow-2-075",
     [] { return exchanger::effectiveness_counterflow({.NTU = 2, .C_ratio = 0.75}); }},
    {"incropera-7-1", incropera_7_1},
    {"incropera-9-2", incropera_9_2},
};

}  // namespace

std::span<const Calculation> heat_calculations() {
    static const std::vector<Calculation> all = [] {
        std::vector<Calculation> every(std::begin(own_heat), std::end(own_heat));
        for (const auto part : {film_calculations(), core_calculations(), oil_calculations()})
            every.insert(every.end(), part.begin(), part.end());
        return every;
    }();
    return all;
}

}  // namespace caseload
