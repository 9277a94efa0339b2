// SPDX-License-Identifier: MIT
// Published figures on heat exchangers, and a cooler away from its rating.
#include "evidence/heat.hpp"

#include "caseload/formulas/air.hpp"
#include "caseload/formulas/astm_d1250.hpp"
#include "caseload/formulas/astm_d341.hpp"
#include "caseload/formulas/exchanger.hpp"
#include "caseload/formulas/oil_thermal.hpp"
#include "caseload/units.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

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

// --- tables recomputed independently -------------------------------------------------------------

double worst_effectiveness() {
    struct Row {
        exchanger::Duty duty;
        double unmixed;
        double max_mixed;
        double min_mixed;
        double counter;
    };
    double worst = 0;
    for (const Row& row : {Row{{0.5, 1}, 0.32633, 0.32529, 0.32529, 0.33333},
                           Row{{1, 0.5}, 0.54749, 0.54197, 0.54476, 0.56473},
                           Row{{2, 0.75}, 0.67108, 0.63623, 0.64507, 0.72183},
                           Row{{3, 1}, 0.68129, 0.61334, 0.61334, 0.75000}})
        worst = std::max(
            {worst, std::fabs(exchanger::effectiveness_crossflow_unmixed(row.duty) - row.unmixed),
             std::fabs(exchanger::effectiveness_max_mixed(row.duty) - row.max_mixed),
             std::fabs(exchanger::effectiveness_min_mixed(row.duty) - row.min_mixed),
             std::fabs(exchanger::effectiveness_counterflow(row.duty) - row.counter)});
    return worst;
}

/// Cooler rated 6 kW at 60 K with 8 L/min of a synthetic oil and 8 m/s on 0.03 m2, air 40 degC.
struct Core {
    double oil_WpK;
    double air_WpK;
    double conductance_WpK;
};
Core core() {
    const double oil_WpK = m3ps_from_Lpmin(8) *
                           astm_d1250::density_kgpm3({.density_15C_kgpm3 = 868, .temp_degC = 100}) *
                           oil_thermal::specific_heat_JpkgK(oil_thermal::BaseOil::synthetic, 100);
    const auto air = us_standard_atmosphere::air({.temp_degC = 40, .pressure_Pa = 101325});
    const double air_WpK = air.density_kgpm3 * 8 * 0.030 * air.cp_JpkgK;
    return {oil_WpK, air_WpK,
            exchanger::conductance_WpK({.heat_W = 6000,
                                        .difference_K = 60,
                                        .oil_capacity_WpK = oil_WpK,
                                        .air_capacity_WpK = air_WpK})};
}

struct Ratios {
    double air;
    double oil;
    double oil_side_share = 0.5;
};
double core_heat_WpK(const Ratios& ratios) {
    const Core rated = core();
    const double oil_WpK = rated.oil_WpK * ratios.oil;
    const double air_WpK = rated.air_WpK * ratios.air;
    const double least_WpK = std::min(oil_WpK, air_WpK);
    const double conductance_WpK =
        exchanger::conductance_scaled_WpK({.conductance_rating_WpK = rated.conductance_WpK,
                                           .oil_side_share = ratios.oil_side_share,
                                           .air_mass_ratio = ratios.air,
                                           .oil_mass_ratio = ratios.oil});
    return least_WpK * exchanger::effectiveness_crossflow_unmixed(
                           {.NTU = conductance_WpK / least_WpK,
                            .C_ratio = least_WpK / std::max(oil_WpK, air_WpK)});
}

double worst_core_WpK() {
    double worst = 0;
    const double air[][2] = {{0.5, 16.048}, {1, 29.088},  {2, 48.543},   {4, 73.322},
                             {6, 88.972},   {8, 100.000}, {12, 114.825}, {16, 124.531}};
    for (const auto& row : air)
        worst = std::max(worst, std::fabs(core_heat_WpK({row[0] / 8, 1}) - row[1]));
    const double oil[][2] = {{2, 51.835}, {4, 76.506}, {6, 90.610}, {12, 112.096}};
    for (const auto& row : oil)
        worst = std::max(worst, std::fabs(core_heat_WpK({1, row[0] / 8}) - row[1]));
    return worst;
}

double worst_share_WpK() {
    double worst = 0;
    for (const auto& [air_mps, share, printed_WpK] :
         {std::array{2.0, 0.3, 45.5}, std::array{2.0, 0.7, 51.9}, std::array{16.0, 0.7, 118.8}})
        worst = std::max(
            worst,
            std::fabs(core_heat_WpK({.air = air_mps / 8, .oil = 1, .oil_side_share = share}) -
                      printed_WpK));
    return worst;
}

double core_at_2000_m_WpK() {
    const auto air = [](double altitude_m) {
        return us_standard_atmosphere::air(
            {.temp_degC = 40, .pressure_Pa = us_standard_atmosphere::pressure_Pa(altitude_m)});
    };
    return core_heat_WpK({.air = air(2000).density_kgpm3 / air(0).density_kgpm3, .oil = 1});
}

/// 75W-90: oil through a core of 30 kPa at 100 degC, and its viscosity, from -20 to 100 degC. Worst
/// deviation in halves of the last digit printed.
struct Cold {
    double temp_degC;
    double mu_Pas;
    double mu_half;
    double core_kPa;
    double core_half;
};
constexpr std::array<Cold, 6> cold_oil{{{-20, 4.79, 0.005, 11035, 0.5},
                                        {0, 0.873, 0.0005, 2012, 0.5},
                                        {20, 0.2415, 0.00005, 556, 0.5},
                                        {40, 0.0895, 0.00005, 206, 0.5},
                                        {60, 0.0409, 0.00005, 94, 0.5},
                                        {100, 0.0130, 0.00005, 30, 0.5}}};
double mu_Pas(double temp_degC) {
    const auto line = astm_d341::line({.nu_40C_mm2ps = 105, .nu_100C_mm2ps = 16.0});
    return m2ps_from_mm2ps(astm_d341::viscosity_mm2ps(line, temp_degC)) *
           astm_d1250::density_kgpm3({.density_15C_kgpm3 = 868, .temp_degC = temp_degC});
}
double worst_cold_viscosity() {
    double worst = 0;
    for (const Cold& row : cold_oil)
        worst = std::max(worst, std::fabs(mu_Pas(row.temp_degC) - row.mu_Pas) / row.mu_half);
    return worst;
}
double worst_core_drop() {
    double worst = 0;
    for (const Cold& row : cold_oil)
        worst =
            std::max(worst, std::fabs(exchanger::core_drop_Pa(
                                          {.drop_rating_Pa = 30,
                                           .viscosity_ratio = mu_Pas(row.temp_degC) / mu_Pas(100),
                                           .flow_ratio = 1}) -
                                      row.core_kPa) /
                                row.core_half);
    return worst;
}

double core_NTU() {
    const Core rated = core();
    const double least_WpK = std::min(rated.oil_WpK, rated.air_WpK);
    return exchanger::ntu_crossflow_unmixed(
        {.effectiveness = 100 / least_WpK,
         .C_ratio = least_WpK / std::max(rated.oil_WpK, rated.air_WpK)});
}

constexpr Calculation own_cores[] = {
    {"incropera-11-3", incropera_11_3_m2},
    {"incropera-11-4-effectiveness", incropera_11_4_effectiveness},
    {"incropera-11-4-heat", [] { return incropera_11_4_effectiveness() * 1500 * 215 / 1000; }},
    {"incropera-11-6", incropera_11_6_NTU},
    {"cengel-11-8",
     [] { return exchanger::effectiveness_counterflow({.NTU = 0.652, .C_ratio = 5016.0 / 8620}); }},
    {"holman-10-10",
     [] {
         return exchanger::effectiveness_counterflow(
             {.NTU = 5061.0 / 2787, .C_ratio = 2787.0 / 5414});
     }},
    {"holman-10-11-heat", [] { return holman_10_11_heat_W() / 1000; }},
    {"holman-10-11-water", holman_10_11_water_degC},
    {"janna-9-7-effectiveness", janna_effectiveness},
    {"janna-9-7-conductance", janna_conductance_WpK},
    {"effectiveness-table", worst_effectiveness},
    {"cooler-conductance", [] { return core().conductance_WpK; }},
    {"cooler-table", worst_core_WpK},
    {"cooler-oil-capacity", [] { return core().oil_WpK; }},
    {"cooler-air-capacity", [] { return core().air_WpK; }},
    {"cooler-ntu", core_NTU},
    {"cooler-share-table", worst_share_WpK},
    {"cooler-share-fast",
     [] { return core_heat_WpK({.air = 2, .oil = 1, .oil_side_share = 0.3}); }},
    {"cooler-2000-m", core_at_2000_m_WpK},
    {"cooler-viscosity-table", worst_cold_viscosity},
    {"cooler-drop-table", worst_core_drop},
};

}  // namespace

std::span<const Calculation> core_calculations() {
    return own_cores;
}

}  // namespace caseload
