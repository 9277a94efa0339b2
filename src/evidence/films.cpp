// SPDX-License-Identifier: MIT
// Published figures on air, films and walls. Properties are those printed in each source; g is
// ours, 9.80665.
#include "evidence/heat.hpp"

#include "caseload/formulas/air.hpp"
#include "caseload/formulas/box_wall.hpp"
#include "caseload/formulas/convection.hpp"
#include "caseload/formulas/radiation.hpp"
#include "caseload/units.hpp"

#include <algorithm>
#include <cmath>

namespace caseload {
namespace {

using convection::Stream;

struct Fluid {
    double nu_m2ps;
    double k_WpmK;
    double Pr;
};

// --- streams -------------------------------------------------------------------------------------

struct Plate {
    double speed_mps;
    double length_m;
    double difference_K;
};

/// Heat of a plate per metre of width: h L dT = Nu k dT.
double plate_Wpm(const Fluid& fluid, const Plate& plate, double (*nusselt)(const Stream&)) {
    return nusselt({.Re = plate.speed_mps * plate.length_m / fluid.nu_m2ps, .Pr = fluid.Pr}) *
           fluid.k_WpmK * plate.difference_K;
}

/// Incropera 7.2: strips of 0.05 m in line, the boundary layer turns on the fifth.
double strips_W(int count) {
    const Fluid air{26.41e-6, 0.0338, 0.69};
    return plate_Wpm(
        air, {60, 0.05 * count, 205},
        count < 5 ? convection::nusselt_plate_laminar : convection::nusselt_plate_mixed);
}

constexpr Fluid cengel_7_2{2.097e-5 / (83.4 / 101.325), 0.02953, 0.7154};
constexpr Fluid air_60_degC{1.896e-5, 0.02808, 0.7202};
constexpr Fluid holman_5_4{17.36e-6, 0.02749, 0.7};
constexpr Fluid holman_5_9{1.906e-5 / 1.128, 0.02723, 0.7};

double cengel_7_5_nusselt() {
    return convection::nusselt_cylinder(
        {.Re = 8 * 0.1 / air_60_degC.nu_m2ps, .Pr = air_60_degC.Pr});
}

// --- buoyancy ------------------------------------------------------------------------------------

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

/// Incropera 9.3: duct 0.3 m high, 0.75 m wide, 45/15 degC; length of top and bottom half the
/// width.
double duct_Wpm() {
    const double k = 0.0265;
    const double Pr = 0.71;
    const auto Ra = [](double length_m) {
        return convection::rayleigh({.beta_1pK = 0.0033,
                                     .difference_K = 30,
                                     .length_m = length_m,
                                     .nu_m2ps = 16.2e-6,
                                     .alpha_m2ps = 22.9e-6});
    };
    const double flat = 0.75 / 2;
    const double side = convection::nusselt_vertical_laminar({.Ra = Ra(0.3), .Pr = Pr}) * k / 0.3;
    const double top = convection::nusselt_hot_face_up(Ra(flat)) * k / flat;
    const double bottom = convection::nusselt_hot_face_down_mcadams(Ra(flat)) * k / flat;
    return (2 * 0.3 * side + 0.75 * (top + bottom)) * 30;
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
double cengel_9_1_W() {
    const Fluid air{1.749e-5, 0.02699, 0.7241};
    const double Nu = convection::nusselt_horizontal_cylinder(
        {.Ra = rayleigh(air, {1.0 / 318, 50, 0.08}), .Pr = air.Pr});
    return Nu * air.k_WpmK / 0.08 * pipe_m2 * 50;
}

double holman_7_2_W() {
    const Fluid air{16.5e-6, 0.02685, 0.7};
    const double Nu =
        convection::nusselt_vertical({.Ra = rayleigh(air, {1.0 / 308, 50, 4}), .Pr = air.Pr});
    return Nu * air.k_WpmK / 4 * 40 * 50;
}

double holman_7_6_W() {
    const Fluid air{17.47e-6, 0.02685, 0.7};
    return convection::nusselt_cube(rayleigh(air, {3.25e-3, 50, 0.4})) * air.k_WpmK / 0.4 * 0.24 *
           50;
}

// --- tables recomputed independently -------------------------------------------------------------

struct Wall {
    double speed_mps;
    double emissivity;
    double dirt_m;
};

/// Heat per kelvin between oil at 110 and air at 35 degC.
double wall_WpK(const Wall& wall) {
    const double area_m2 = box_film::area_m2(reference_box);
    const box_wall::Outside out{.box = reference_box,
                                .emissivity = wall.emissivity,
                                .air_degC = 35,
                                .surroundings_degC = 35,
                                .speed_mps = wall.speed_mps,
                                .pressure_Pa = 101325,
                                .coat_resistance_m2KpW = wall.dirt_m / 0.27,
                                .coat_area_share = 1};
    const double inside_WpK = box_wall::oil_to_metal_WpK({.film_Wpm2K = 200,
                                                          .wetted_m2 = 0.8 * area_m2,
                                                          .wall_m = 0.020,
                                                          .conductivity_WpmK = 160,
                                                          .area_m2 = area_m2});
    const double metal =
        box_wall::metal_degC({.outside = out, .oil_degC = 110, .oil_to_metal_WpK = inside_WpK});
    const box_wall::OutsideHeat heat = box_wall::outside(out, metal);
    return (heat.convection_W + heat.radiation_W) / 75;
}

double worst_wall_WpK() {
    struct Row {
        double speed_mps;
        double clean;
        double dusty;
        double bright;
    };
    double worst = 0;
    for (const Row& row : {Row{0, 7.3212, 6.2307, 3.6579}, Row{1, 8.7849, 7.3616, 5.2531},
                           Row{2, 10.6842, 8.7265, 7.3351}, Row{5, 15.3236, 11.7269, 12.4082},
                           Row{10, 21.0351, 14.8976, 18.6077}, Row{20, 29.0653, 18.5873, 27.2358},
                           Row{30, 34.8158, 20.7959, 33.3542}, Row{60, 45.8943, 24.2885, 45.0093}})
        worst = std::max({worst, std::fabs(wall_WpK({row.speed_mps, 0.9, 0}) - row.clean),
                          std::fabs(wall_WpK({row.speed_mps, 0.9, 0.003}) - row.dusty),
                          std::fabs(wall_WpK({row.speed_mps, 0.1, 0}) - row.bright)});
    return worst;
}

double worst_natural_Wpm2K() {
    struct Row {
        double surface_degC;
        double air_degC;
        double pressure_Pa;
        double h;
    };
    double worst = 0;
    for (const Row& row : {Row{60, 20, 101325, 5.0943}, Row{80, 20, 101325, 5.6118},
                           Row{100, 35, 101325, 5.6241}, Row{100, 35, 84556, 5.1088}})
        worst = std::max(worst, std::fabs(box_film::natural_Wpm2K(
                                              reference_box, {.surface_degC = row.surface_degC,
                                                              .air_degC = row.air_degC,
                                                              .speed_mps = 0,
                                                              .pressure_Pa = row.pressure_Pa}) -
                                          row.h));
    return worst;
}

us_standard_atmosphere::Air sea_level() {
    return us_standard_atmosphere::air({.temp_degC = 15, .pressure_Pa = 101325});
}

constexpr Calculation own_films[] = {
    {"air-sea-level-density", [] { return sea_level().density_kgpm3; }},
    {"air-sea-level-viscosity", [] { return 1e5 * sea_level().mu_Pas; }},
    {"air-sea-level-conductivity", [] { return sea_level().k_WpmK; }},
    {"air-1500-m", [] { return us_standard_atmosphere::pressure_Pa(1500); }},
    {"incropera-7-2-strip-1", [] { return strips_W(1); }},
    {"incropera-7-2-strip-5", [] { return strips_W(5) - strips_W(4); }},
    {"incropera-7-2-strip-6", [] { return strips_W(6) - strips_W(5); }},
    {"incropera-7-4-cylinder",
     [] { return convection::nusselt_cylinder({.Re = 6071, .Pr = 0.70}); }},
    {"incropera-9-3", duct_Wpm},
    {"cengel-7-2-long",
     [] { return 1.5 * plate_Wpm(cengel_7_2, {8, 6, 120}, convection::nusselt_plate_mixed); }},
    {"cengel-7-2-short",
     [] { return 6 * plate_Wpm(cengel_7_2, {8, 1.5, 120}, convection::nusselt_plate_laminar); }},
    {"cengel-7-5-nusselt", cengel_7_5_nusselt},
    {"cengel-7-5-heat",
     [] { return cengel_7_5_nusselt() * air_60_degC.k_WpmK / 0.1 * pi * 0.1 * 100; }},
    {"cengel-9-1-convection", cengel_9_1_W},
    {"cengel-9-1-radiation",
     [] { return radiation::coefficient_Wpm2K(1, {70, 20}) * pipe_m2 * 50; }},
    {"cengel-9-2-vertical",
     [] {
         return cengel_9_2_W(
             {convection::nusselt_vertical({.Ra = cengel_9_2_Ra(0.6), .Pr = air_60_degC.Pr}), 0.6});
     }},
    {"cengel-9-2-up",
     [] { return cengel_9_2_W({convection::nusselt_hot_face_up(cengel_9_2_Ra(0.15)), 0.15}); }},
    {"cengel-9-2-down",
     [] {
         return cengel_9_2_W(
             {convection::nusselt_hot_face_down_mcadams(cengel_9_2_Ra(0.15)), 0.15});
     }},
    {"holman-5-4-first",
     [] { return plate_Wpm(holman_5_4, {2, 0.2, 33}, convection::nusselt_plate_laminar); }},
    {"holman-5-4-both",
     [] { return plate_Wpm(holman_5_4, {2, 0.4, 33}, convection::nusselt_plate_laminar); }},
    {"holman-5-9-nusselt",
     [] {
         return convection::nusselt_plate_mixed(
             {.Re = 35 * 0.75 / holman_5_9.nu_m2ps, .Pr = holman_5_9.Pr});
     }},
    {"holman-5-9-heat",
     [] { return plate_Wpm(holman_5_9, {35, 0.75, 40}, convection::nusselt_plate_mixed); }},
    {"holman-7-2", holman_7_2_W},
    {"holman-7-6", holman_7_6_W},
    {"wall-table", worst_wall_WpK},
    {"natural-table", worst_natural_Wpm2K},
};

}  // namespace

std::span<const Calculation> film_calculations() {
    return own_films;
}

}  // namespace caseload
