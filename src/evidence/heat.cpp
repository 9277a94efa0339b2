// SPDX-License-Identifier: MIT
// Oil, air, films and heat exchangers. Properties are those printed in each source; g is
// ours, 9.80665.
#include "caseload/evidence.hpp"
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/convection.hpp"
#include "caseload/formulas/exchanger.hpp"
#include "caseload/formulas/radiation.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <cstdint>

namespace caseload {
namespace {

/// A book's engine oil by the line through its viscosities at 40 and 100 degC.
double engine_oil_mm2ps(double temp_degC) {
    return astm_d341::viscosity_mm2ps(
        astm_d341::line({.nu_40C_mm2ps = 248.5, .nu_100C_mm2ps = 20.46}), temp_degC);
}

/// Its density from the one at 20 degC: the reference density is found with the same formula.
double engine_oil_kgpm3(double temp_degC) {
    double reference_kgpm3 = 888.1;
    for (int i = 0; i < 5; ++i)
        reference_kgpm3 *= 888.1 / astm_d1250::density_kgpm3(
                                       {.density_15C_kgpm3 = reference_kgpm3, .temp_degC = 20});
    return astm_d1250::density_kgpm3(
        {.density_15C_kgpm3 = reference_kgpm3, .temp_degC = temp_degC});
}

struct Fluid {
    double nu_m2ps;
    double k_WpmK;
    double Pr;
};

constexpr Fluid air_60_degC{1.896e-5, 0.02808, 0.7202};

struct Warm {
    double beta_1pK;
    double difference_K;
    double length_m;
};

double rayleigh(const Fluid& fluid, const Warm& warm) {
    return convection::rayleigh({.beta_1pK = warm.beta_1pK,
                                 .difference_K = warm.difference_K,
                                 .length_m = warm.length_m,
                                 .nu_m2ps = fluid.nu_m2ps,
                                 .alpha_m2ps = fluid.nu_m2ps / fluid.Pr});
}

/// Cengel 9.2: plate 0.6 m square, one side, 90/30 degC.
double cengel_9_2_Ra(double length_m) {
    return rayleigh(air_60_degC, {1.0 / 333, 60, length_m});
}
struct Face {
    double Nu;
    double length_m;
};
double cengel_9_2_W(const Face& face) {
    return face.Nu * air_60_degC.k_WpmK / face.length_m * 0.36 * 60;
}

/// Cengel 9.1: pipe of 0.08 m, 6 m long, 70/20 degC.
constexpr double pipe_m2 = pi * 0.08 * 6;

double holman_7_2_W() {
    const Fluid air{16.5e-6, 0.02685, 0.7};
    const double Nu =
        convection::nusselt_vertical({.Ra = rayleigh(air, {1.0 / 308, 50, 4}), .Pr = air.Pr});
    return Nu * air.k_WpmK / 4 * 40 * 50;
}

us_standard_atmosphere::Air sea_level() {
    return us_standard_atmosphere::air({.temp_degC = 15, .pressure_Pa = 101325});
}

double crossflow(double NTU, double C) {
    return exchanger::effectiveness_crossflow_unmixed({.NTU = NTU, .C_ratio = C});
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

/// Incropera 11.3: gas 300 to 100, water 35 to 125 degC with 4197 W/K, U 100 W/(m2 K).
double incropera_11_3_m2() {
    const double gas_WpK = 4197.0 * 90 / 200;
    return gas_WpK / 100 *
           exchanger::ntu_crossflow_unmixed(
               {.effectiveness = 200.0 / 265, .C_ratio = gas_WpK / 4197});
}

double incropera_11_4_effectiveness() {
    return exchanger::effectiveness_crossflow_unmixed(
        {.NTU = 4000.0 / 1500, .C_ratio = 1500.0 / 4197});
}

/// Incropera 11.6: gas 1.25 kg/s at 825 K, water 1 kg/s from 290 to 370 K.
double incropera_11_6_NTU() {
    const double gas_WpK = 1.25 * 1075;
    return exchanger::ntu_crossflow_unmixed(
        {.effectiveness = 4184.0 * 80 / (gas_WpK * 535), .C_ratio = gas_WpK / 4184});
}

/// Holman 10.11: 2.36 m3/s of air from 15.55 to 29.44 degC, water from 82.22 degC.
double holman_10_11_air_WpK() {
    const auto air = us_standard_atmosphere::air({.temp_degC = 15.55, .pressure_Pa = 101325});
    return 2.36 * air.density_kgpm3 * air.cp_JpkgK;
}
double holman_10_11_heat_W() {
    return holman_10_11_air_WpK() * (29.44 - 15.55);
}
double holman_10_11_water_degC() {
    const double air_WpK = holman_10_11_air_WpK();
    const auto over_W = [&](double water_WpK) {
        return exchanger::effectiveness_crossflow_unmixed(
                   {.NTU = 2109 / water_WpK, .C_ratio = water_WpK / air_WpK}) *
                   water_WpK * (82.22 - 15.55) -
               holman_10_11_heat_W();
    };
    std::uintmax_t iterations = 100;
    const auto water = boost::math::tools::toms748_solve(
        over_W, 300.0, 1500.0, boost::math::tools::eps_tolerance<double>(40), iterations);
    return 82.22 - holman_10_11_heat_W() / water.first;
}

/// Janna 9.7: air 67 lb/min from 126 to 166 degF with 0.241 Btu/(lb R), which is 1009 J/(kg K);
/// oil from 190 to 158 degF gives off the same heat.
double janna_air_WpK() {
    return N_from_lbf(67) / g_mps2 / s_from_min(1) * 0.241 * 4186.8;
}
double janna_oil_WpK() {
    return janna_air_WpK() * (166 - 126) / (190 - 158);
}
double janna_effectiveness() {
    return exchanger::effectiveness_crossflow_unmixed(
        {.NTU = 845.1 / janna_air_WpK(), .C_ratio = janna_air_WpK() / janna_oil_WpK()});
}
double janna_conductance_WpK() {
    const double K_per_R = 1 / 1.8;
    return exchanger::conductance_WpK({.heat_W = janna_air_WpK() * (166 - 126) * K_per_R,
                                       .difference_K = (190 - 126) * K_per_R,
                                       .oil_capacity_WpK = janna_oil_WpK(),
                                       .air_capacity_WpK = janna_air_WpK()});
}

constexpr Calculation own_heat[] = {
    {"cengel-a13-viscosity-60", [] { return engine_oil_mm2ps(60); }},
    {"cengel-a13-viscosity-120", [] { return engine_oil_mm2ps(120); }},
    {"cengel-a13-viscosity-140", [] { return engine_oil_mm2ps(140); }},
    {"cengel-a13-density-100", [] { return engine_oil_kgpm3(100); }},
    {"air-sea-level-density", [] { return sea_level().density_kgpm3; }},
    {"air-sea-level-viscosity", [] { return 1e5 * sea_level().mu_Pas; }},
    {"air-sea-level-conductivity", [] { return sea_level().k_WpmK; }},
    {"air-1500-m", [] { return us_standard_atmosphere::pressure_Pa(1500); }},
    {"cengel-9-1-radiation",
     [] { return radiation::coefficient_Wpm2K(1, {70, 20}) * pipe_m2 * 50; }},
    {"cengel-9-2-vertical",
     [] {
         return cengel_9_2_W(
             {convection::nusselt_vertical({.Ra = cengel_9_2_Ra(0.6), .Pr = air_60_degC.Pr}), 0.6});
     }},
    {"cengel-9-2-up",
     [] { return cengel_9_2_W({convection::nusselt_hot_face_up(cengel_9_2_Ra(0.15)), 0.15}); }},
    {"holman-7-2", holman_7_2_W},
    {"crossflow-5-07", [] { return crossflow(5, 0.7); }},
    {"incropera-9-2", incropera_9_2},
    {"incropera-11-3", incropera_11_3_m2},
    {"incropera-11-4-effectiveness", incropera_11_4_effectiveness},
    {"incropera-11-4-heat", [] { return incropera_11_4_effectiveness() * 1500 * 215 / 1000; }},
    {"incropera-11-6", incropera_11_6_NTU},
    {"holman-10-11-heat", [] { return holman_10_11_heat_W() / 1000; }},
    {"holman-10-11-water", holman_10_11_water_degC},
    {"janna-9-7-effectiveness", janna_effectiveness},
    {"janna-9-7-conductance", janna_conductance_WpK},
};

}  // namespace

std::span<const Calculation> heat_calculations() {
    return own_heat;
}

}  // namespace caseload
