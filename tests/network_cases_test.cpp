// SPDX-License-Identifier: MIT
// The reference box of the thermal basis at rest and through time. Independent: the same equations
// in Python, roots by scipy.optimize 1.10, time by scipy's RK45, printed to 0.01 K.
#include "caseload/formulas/air.hpp"
#include "caseload/formulas/box_wall.hpp"
#include "caseload/formulas/exchanger.hpp"
#include "caseload/heat.hpp"
#include "caseload/units.hpp"
#include "formulas/settled_wall.hpp"
#include "support.hpp"

#include <boost/math/tools/toms748_solve.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace caseload::network_cases_tests {

namespace {

constexpr box_film::Box box{.along_m = 0.45, .across_m = 0.30, .high_m = 0.20};
constexpr double sea_Pa = 101325;

Oil oil() {
    OilInput input;
    input.synthetic = true;
    input.viscosity_40C_mm2ps = 105;
    input.viscosity_100C_mm2ps = 16;
    input.density_15C_kgpm3 = 868;
    return make_oil(input);
}

struct Loss {
    double fixed_W;
    double viscous_W;
};

double loss_W(const Loss& loss, double oil_degC) {
    return loss.fixed_W +
           loss.viscous_W * std::sqrt(astm_d341::viscosity_mm2ps(oil().fresh, oil_degC) / 16.0);
}

box_wall::Outside outside(double air_mps, double air_degC, double pressure_Pa, double dust_m) {
    return {.box = box,
            .emissivity = 0.9,
            .air_degC = air_degC,
            .surroundings_degC = air_degC,
            .speed_mps = air_mps,
            .pressure_Pa = pressure_Pa,
            .coat_resistance_m2KpW = dust_m / 0.27,
            .coat_area_share = 1};
}

/// Oil flow 8 L/min, face 0.030 m2, rated 6 kW at 60 K and 8 m/s, oil 100 and air 40 degC.
double cooler_W(double face_mps, double oil_degC, double air_degC, double pressure_Pa) {
    const Oil o = oil();
    const auto mass_flow = [&](double temp_degC) {
        return oil_density_kgpm3(o, temp_degC) * m3ps_from_Lpmin(8);
    };
    const auto rated = us_standard_atmosphere::air({.temp_degC = 40, .pressure_Pa = sea_Pa});
    const double UA = exchanger::conductance_WpK(
        {.heat_W = 6000,
         .difference_K = 60,
         .oil_capacity_WpK = mass_flow(100) * oil_specific_heat_JpkgK(o, 100),
         .air_capacity_WpK = rated.density_kgpm3 * 8 * 0.030 * rated.cp_JpkgK});
    const auto air =
        us_standard_atmosphere::air({.temp_degC = air_degC, .pressure_Pa = pressure_Pa});
    const double air_WpK = air.density_kgpm3 * face_mps * 0.030 * air.cp_JpkgK;
    const double oil_WpK = mass_flow(oil_degC) * oil_specific_heat_JpkgK(o, oil_degC);
    const double scaled = exchanger::conductance_scaled_WpK(
        {.conductance_rating_WpK = UA,
         .oil_side_share = 0.5,
         .air_mass_ratio = air.density_kgpm3 * face_mps / (rated.density_kgpm3 * 8),
         .oil_mass_ratio = mass_flow(oil_degC) / mass_flow(100)});
    const double least = std::min(air_WpK, oil_WpK);
    return exchanger::effectiveness_crossflow_unmixed(
               {.NTU = scaled / least, .C_ratio = least / std::max(air_WpK, oil_WpK)}) *
           least * (oil_degC - air_degC);
}

struct Case {
    const char* name;
    Loss loss;
    double air_mps;
    double air_degC;
    double pressure_Pa;
    double dust_m;
    double face_mps;  ///< 0: no cooler
    double T_degC, P_W, Q_case_W, Q_cooler_W;
};

}  // namespace

TEST_CASE("network: six settled balances agree with the reference") {
    const double at_2000_m = us_standard_atmosphere::pressure_Pa(2000);
    const Case cases[] = {
        {"S1", {2000, 800}, 10, 35, sea_Pa, 0, 0, 152.88, 2495.7, 2495.7, 0},
        {"S3", {2000, 800}, 20, 35, sea_Pa, 0, 0, 125.25, 2619.7, 2619.7, 0},
        {"S4", {2000, 800}, 10, 35, sea_Pa, 0, 6, 64.80, 3289.1, 624.9, 2664.2},
        {"S5", {2000, 800}, 10, 35, at_2000_m, 0.003, 6, 69.17, 3203.0, 467.0, 2736.1},
        {"S6", {5000, 800}, 10, 45, sea_Pa, 0, 6, 98.18, 5816.8, 1118.3, 4698.5}};
    for (const Case& c : cases) {
        CAPTURE(c.name);
        const box_wall::Outside out = outside(c.air_mps, c.air_degC, c.pressure_Pa, c.dust_m);
        const double path_WpK = box_wall::oil_to_metal_WpK({.film_Wpm2K = 200,
                                                            .wetted_m2 = 0.8 * 0.57,
                                                            .wall_m = 0.020,
                                                            .conductivity_WpmK = 160,
                                                            .area_m2 = 0.57});
        const auto case_W = [&](double oil_degC) {
            return path_WpK * (oil_degC - settled_wall::metal_degC(out, oil_degC, path_WpK));
        };
        const auto net_W = [&](double oil_degC) {
            return loss_W(c.loss, oil_degC) - case_W(oil_degC) -
                   (c.face_mps > 0 ? cooler_W(c.face_mps, oil_degC, c.air_degC, c.pressure_Pa) : 0);
        };
        std::uintmax_t steps = 100;
        const auto root = boost::math::tools::toms748_solve(
            net_W, c.air_degC + 1, 250.0, boost::math::tools::eps_tolerance<double>(45), steps);
        const double T = root.first;
        CHECK(within(T, c.T_degC, 0.0051));
        CHECK(within(loss_W(c.loss, T), c.P_W, 0.051));
        CHECK(within(case_W(T), c.Q_case_W, 0.051));
        if (c.face_mps > 0)
            CHECK(within(cooler_W(c.face_mps, T, c.air_degC, c.pressure_Pa), c.Q_cooler_W, 0.051));
    }
}

namespace {

/// Loss split oil, housing, steel 0.6 / 0 / 0.4; paths unchanged in the soak.
Nodes run(Nodes nodes, double length_s, bool drives, double air_degC, bool cooled) {
    integrate(
        {.oil_JpK = 5738.77, .housing_JpK = 24102.4, .steel_JpK = 11750}, nodes,
        {0, length_s, length_s},
        [&](double, const Nodes& n) {
            const double P = drives ? loss_W({2000, 800}, n.oil_degC) : 0;
            const auto out =
                box_wall::outside(outside(drives ? 10 : 0, air_degC, sea_Pa, 0), n.housing_degC);
            return Drives{{.oil_W = 0.6 * P, .steel_W = 0.4 * P, .housing_W = 0},
                          out.convection_W + out.radiation_W,
                          cooled && drives ? cooler_W(6, n.oil_degC, air_degC, sea_Pa) : 0,
                          0,
                          {91.2, 120, 15}};
        },
        [](double, const Nodes&) {});
    return nodes;
}

// Printed to 0.01 K; both integrations hold 1e-4 K a step.
void check(const Nodes& nodes, double oil_degC, double housing_degC, double steel_degC) {
    CHECK(within(nodes.oil_degC, oil_degC, 0.0075));
    CHECK(within(nodes.housing_degC, housing_degC, 0.0075));
    CHECK(within(nodes.steel_degC, steel_degC, 0.0075));
}

}  // namespace

TEST_CASE("network: drive, soak, drive without a cooler agrees with the reference (NL1)") {
    const Nodes start{35, 35, 35};
    check(run(start, 300, true, 35, false), 69.11, 51.16, 70.01);
    check(run(start, 600, true, 35, false), 86.52, 67.57, 88.60);
    const Nodes driven = run(start, 1800, true, 35, false);
    check(driven, 124.06, 103.01, 127.81);
    const Nodes soaked = run(driven, 900, false, 35, false);
    check(soaked, 101.78, 99.83, 102.67);
    check(run(soaked, 1800, true, 35, false), 138.97, 116.79, 143.41);
    check(run(start, 100000, true, 35, false), 148.50, 125.54, 153.39);
}

TEST_CASE(
    "network: drive, soak, drive with a cooler (NL2) and cold start (NL3) agree with the "
    "reference") {
    const Nodes driven = run({35, 35, 35}, 1800, true, 35, true);
    check(driven, 64.23, 59.14, 73.39);
    const Nodes soaked = run(driven, 900, false, 35, true);
    check(soaked, 60.51, 59.90, 60.79);
    check(run(soaked, 1800, true, 35, true), 64.38, 59.37, 73.59);
    check(run({35, 35, 35}, 100000, true, 35, true), 64.40, 59.41, 73.62);
    const Nodes cold{-10, -10, -10};
    check(run(cold, 60, true, -10, true), 8.90, -7.03, 7.50);
    check(run(cold, 300, true, -10, true), 21.25, 7.51, 31.60);
    check(run(cold, 600, true, -10, true), 26.23, 16.75, 38.44);
}

}  // namespace caseload::network_cases_tests
